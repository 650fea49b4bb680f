#include "sim_core/product/heat_rule_watch.h"

#include <algorithm>
#include <numeric>

namespace stirbench::product {

namespace {

// Sums of ticks such as 300 x 0.1 s must reach 30 s.
constexpr double slack_s = 1.0e-9;

// The part of an interval [0, 1] in which quantities are not negative that are linear in it.
struct Part {
  double from = 0.0;
  double to = 1.0;

  bool empty() const { return from > to; }
  void keep(double at_start, double at_end) {
    if (at_start < 0.0 && at_end < 0.0) {
      from = 2.0;
    } else if (at_start < 0.0) {
      from = std::max(from, at_start / (at_start - at_end));
    } else if (at_end < 0.0) {
      to = std::min(to, at_start / (at_start - at_end));
    }
  }
};

double spread_K(const VatSample& s) { return s.warmest_degC() - s.coldest_degC(); }

}  // namespace

HeatRuleWatch::HeatRuleWatch(const std::vector<HeatRule>& rows)
    : rows_(&rows), by_heat_(rows.size()), memory_(rows.size()) {
  std::iota(by_heat_.begin(), by_heat_.end(), std::size_t{0});
  std::stable_sort(by_heat_.begin(), by_heat_.end(), [&rows](std::size_t a, std::size_t b) {
    return rows[a].temperature_degC < rows[b].temperature_degC;
  });
}

void HeatRuleWatch::start_again(double t_s) {
  hottest_degC_ = -300.0;
  met_ = 0;
  for (Memory& memory : memory_) {
    const bool was_met = memory.met_s >= 0.0;
    const double undone_s = was_met ? t_s : memory.undone_s;
    memory = {};
    memory.undone_s = undone_s;
  }
}

void HeatRuleWatch::see(const VatSample& now) {
  const bool jump = !seen_ || added_between(before_, now);
  if (seen_ && jump) start_again(now.t_s);
  // A new batch in an emptied vat: the verdicts of the last one end.
  if (jump && before_.mass_kg < least_batch_kg) {
    for (Memory& memory : memory_) memory = {};
  }
  seen_ = true;
  if (jump) before_ = now;  // the temperatures jumped: the line between the samples means nothing
  if (now.mass_kg < least_batch_kg) {
    for (Memory& memory : memory_) memory.held_s = 0.0;
    before_ = now;
    return;
  }
  hottest_degC_ = std::max(hottest_degC_, now.coldest_degC());
  const double top_degC = std::max(before_.coldest_degC(), now.coldest_degC());
  for (const std::size_t i : by_heat_) {
    const HeatRule& row = (*rows_)[i];
    // Hotter rows than both ends: their clocks stand at zero already.
    if (row.temperature_degC > top_degC) break;
    judge(row, memory_[i], now);
  }
  before_ = now;
}

void HeatRuleWatch::judge(const HeatRule& row, Memory& memory, const VatSample& now) {
  Part hot;
  hot.keep(before_.well_degC - row.temperature_degC, now.well_degC - row.temperature_degC);
  hot.keep(before_.vat_degC - row.temperature_degC, now.vat_degC - row.temperature_degC);
  Part good = hot;
  const double span_K = spread_K(now);
  if (!hot.empty()) memory.widest_K = std::max(memory.widest_K, span_K);
  if (row.air_space_K > 0.0) {
    const double least_degC = row.temperature_degC + row.air_space_K;
    good.keep(before_.head_space_degC - least_degC, now.head_space_degC - least_degC);
    if (good.empty() && !hot.empty()) memory.kept_by = HeatRuleShortfall::air_space;
  }
  if (row.spread_K > 0.0) {
    // Linear as long as the zones do not change places within the sample; then it is on the safe side of
    // neither by a few mK.
    good.keep(row.spread_K - spread_K(before_), row.spread_K - spread_K(now));
    if (good.empty() && !hot.empty() && memory.kept_by == HeatRuleShortfall::too_short)
      memory.kept_by = HeatRuleShortfall::spread;
  }
  if (row.stirred && !now.stirred) {
    if (!hot.empty() && memory.kept_by == HeatRuleShortfall::too_short)
      memory.kept_by = HeatRuleShortfall::not_stirred;
    good.from = 2.0;
  }
  if (good.empty()) {
    memory.held_s = 0.0;
    return;
  }
  const double dt_s = now.t_s - before_.t_s;
  if (good.from > 0.0) memory.held_s = 0.0;
  if (!(memory.held_s > 0.0)) memory.held_Ks = 0.0;
  const double part_s = (good.to - good.from) * dt_s;
  if (memory.met_s < 0.0 && memory.held_s + part_s >= row.hold_s - slack_s) {
    memory.met_s = before_.t_s + good.from * dt_s + std::max(0.0, row.hold_s - memory.held_s);
    ++met_;
  }
  memory.held_s += part_s;
  memory.held_Ks += part_s * 0.5 * (span_K + spread_K(before_));
  if (memory.held_s >= memory.best_s) {
    memory.best_s = memory.held_s;
    memory.best_Ks = memory.held_Ks;
  }
  if (good.to < 1.0) memory.held_s = 0.0;
}

HeatRuleVerdict HeatRuleWatch::verdict(std::size_t i) const {
  const HeatRule& row = (*rows_)[i];
  const Memory& memory = memory_[i];
  HeatRuleVerdict out;
  out.met = memory.met_s >= 0.0;
  out.at_s = memory.met_s;
  out.held_s = memory.best_s;
  out.undone_s = memory.undone_s;
  out.widest_K = memory.widest_K;
  out.mean_span_K = memory.best_s > 0.0 ? memory.best_Ks / memory.best_s : 0.0;
  if (out.met) {
    out.why = HeatRuleShortfall::none;
    return out;
  }
  out.short_s = std::max(0.0, row.hold_s - memory.best_s);
  out.short_K = std::max(0.0, row.temperature_degC - hottest_degC_);
  if (memory.undone_s >= 0.0)
    out.why = HeatRuleShortfall::added_after;
  else if (out.short_K > 0.0)
    out.why = HeatRuleShortfall::too_cool;
  else
    out.why = memory.kept_by;
  // Nothing seen yet: the whole temperature is missing, not a number made of the start value.
  if (hottest_degC_ < -200.0) out.short_K = 0.0;
  return out;
}

}  // namespace stirbench::product
