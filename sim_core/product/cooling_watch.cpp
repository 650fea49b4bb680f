#include "sim_core/product/cooling_watch.h"

#include <algorithm>

namespace stirbench::product {

namespace {

constexpr double hold_width_K = 2.0;
constexpr double heated_degC = 50.0;  // a heat treatment is under way: storage begins anew
constexpr double melts_degC = 15.0;
constexpr double least_stretch_s = 60.0;  // above a storage limit

// Moment at which the line from `before` to `now` passes `level`; the end when it does not.
double crossing_s(double t0, double before, double t1, double now, double level) {
  const double fall = before - now;
  if (fall == 0.0) return t1;
  return t0 + std::clamp((before - level) / fall, 0.0, 1.0) * (t1 - t0);
}

}  // namespace

CoolingWatch::CoolingWatch(const Rules& rules)
    : rules_(&rules),
      cooling_(rules.cooling.size()),
      storage_(rules.storage.size()),
      ageing_(rules.ageing.size()) {}

void CoolingWatch::forget() {
  std::fill(cooling_.begin(), cooling_.end(), CoolingVerdict{});
  std::fill(storage_.begin(), storage_.end(), Storage{});
  std::fill(ageing_.begin(), ageing_.end(), AgeingVerdict{});
}

void CoolingWatch::see(const VatSample& now) {
  const bool jump = !seen_ || added_between(before_, now);
  if (jump) {
    if (before_.mass_kg < least_batch_kg) forget();
    // Cold product poured in makes the batch fall below a temperature just as cooling does.
    for (std::size_t i = 0; before_.mass_kg >= least_batch_kg && i < cooling_.size(); ++i) {
      const CoolingRule& rule = rules_->cooling[i];
      const bool falls = before_.warmest_degC() >= rule.from_degC && now.warmest_degC() < rule.from_degC;
      if (rule.start != CoolingStart::falls_below || !falls || cooling_[i].state == CoolingState::missed)
        continue;
      cooling_[i] = {};
      cooling_[i].state = CoolingState::running;
      cooling_[i].start_s = now.t_s;
    }
    made_s_ = now.t_s;
    peak_degC_ = warmest_degC_ = -300.0;
    left_peak_s_ = -1.0;
    // Storage and ageing begin with the finished batch; a missed cooling is not made good by pouring
    // something in.
    std::fill(storage_.begin(), storage_.end(), Storage{});
    before_ = now;
  }
  seen_ = true;
  if (now.mass_kg < least_batch_kg) {
    before_ = now;
    return;
  }
  warmest_degC_ = std::max(warmest_degC_, now.warmest_degC());
  peak_degC_ = std::max(peak_degC_, now.coldest_degC());
  const double leave_degC = peak_degC_ - hold_width_K;
  if (now.coldest_degC() >= leave_degC) {
    left_peak_s_ = now.t_s;
  } else if (before_.coldest_degC() >= leave_degC) {
    left_peak_s_ = crossing_s(before_.t_s, before_.coldest_degC(), now.t_s, now.coldest_degC(), leave_degC);
  }
  for (std::size_t i = 0; i < cooling_.size(); ++i) {
    start_clock(rules_->cooling[i], cooling_[i], now);
    run_clock(rules_->cooling[i], cooling_[i], now);
  }
  for (std::size_t i = 0; i < storage_.size(); ++i) store(rules_->storage[i], storage_[i], now);
  for (std::size_t i = 0; i < ageing_.size(); ++i) age(rules_->ageing[i], ageing_[i], now);
  before_ = now;
}

// When the clock of a rule starts, stops, or does not apply.
void CoolingWatch::start_clock(const CoolingRule& rule, CoolingVerdict& clock, const VatSample& now) {
  if (clock.state == CoolingState::missed) return;
  const auto run_from = [&clock](double t_s) {
    if (clock.state == CoolingState::running && clock.start_s == t_s) return;
    clock = {};
    clock.state = CoolingState::running;
    clock.start_s = t_s;
  };
  switch (rule.start) {
    case CoolingStart::falls_below:
      if (now.warmest_degC() >= rule.from_degC) {
        clock = {};
      } else if (before_.warmest_degC() >= rule.from_degC) {
        run_from(
            crossing_s(before_.t_s, before_.warmest_degC(), now.t_s, now.warmest_degC(), rule.from_degC));
      }
      break;
    case CoolingStart::heat_ends:
      if (peak_degC_ < rule.from_degC) {
        // An addition took the heat treatment back; what runs on would judge another batch.
        if (clock.state == CoolingState::running) clock = {};
      } else if (left_peak_s_ >= now.t_s) {
        clock = {};
      } else if (clock.state == CoolingState::waiting) {
        run_from(left_peak_s_);
      }
      break;
    case CoolingStart::made_cold:
      if (warmest_degC_ >= rule.from_degC) {
        clock = {};
        clock.state = CoolingState::does_not_apply;
      } else if (clock.state != CoolingState::kept || made_s_ > clock.at_s) {
        run_from(made_s_);
      }
      break;
  }
}

void CoolingWatch::run_clock(const CoolingRule& rule, CoolingVerdict& clock, const VatSample& now) {
  while (clock.state == CoolingState::running) {
    const CoolingStage& stage = rule.stages[clock.stage];
    if (now.warmest_degC() <= stage.to_degC) {
      const double at_s = std::max(clock.start_s, before_.warmest_degC() > stage.to_degC
                                                      ? crossing_s(before_.t_s, before_.warmest_degC(),
                                                                   now.t_s, now.warmest_degC(), stage.to_degC)
                                                      : before_.t_s);
      clock.took_s[clock.stage] = at_s - clock.start_s;
      if (clock.took_s[clock.stage] > stage.within_s) {
        clock.state = CoolingState::missed;
        clock.at_s = clock.start_s + stage.within_s;
      } else if (clock.stage + 1 == rule.stages.size()) {
        clock.state = CoolingState::kept;
        clock.at_s = at_s;
      } else {
        ++clock.stage;
      }
    } else {
      if (now.t_s - clock.start_s > stage.within_s) {
        clock.state = CoolingState::missed;
        clock.at_s = clock.start_s + stage.within_s;
      }
      return;
    }
  }
}

void CoolingWatch::store(const StorageRule& rule, Storage& storage, const VatSample& now) {
  if (now.coldest_degC() >= heated_degC) {
    storage = {};
    return;
  }
  StorageVerdict& verdict = storage.verdict;
  const bool cold = now.warmest_degC() <= rule.at_most_degC;
  if (verdict.cold_s < 0.0) {
    if (!cold) return;
    verdict.cold_s = now.t_s;
    verdict.warmest_degC = now.warmest_degC();
    if (rule.days > 0.0) verdict.use_by_s = made_s_ + rule.days * 86400.0;
    return;
  }
  verdict.warmest_degC = std::max(verdict.warmest_degC, now.warmest_degC());
  const double crossing =
      crossing_s(before_.t_s, before_.warmest_degC(), now.t_s, now.warmest_degC(), rule.at_most_degC);
  const bool was_cold = before_.warmest_degC() <= rule.at_most_degC;
  const double part_s = cold ? (was_cold ? 0.0 : crossing - before_.t_s)
                             : (was_cold ? now.t_s - crossing : now.t_s - before_.t_s);
  if (was_cold) storage.run_s = 0.0;
  const bool counted = storage.run_s >= least_stretch_s;
  storage.run_s += part_s;
  if (storage.run_s >= least_stretch_s) {
    verdict.above_s += counted ? part_s : storage.run_s;
    verdict.longest_s = std::max(verdict.longest_s, storage.run_s);
  }
  if (cold) storage.run_s = 0.0;
}

void CoolingWatch::age(const AgeingRule& rule, AgeingVerdict& ageing, const VatSample& now) {
  if (now.warmest_degC() > melts_degC) {
    ageing = {};
    return;
  }
  if (now.warmest_degC() > rule.at_most_degC) return;
  ageing.aged_s += now.t_s - before_.t_s;
  if (ageing.done_s < 0.0 && ageing.aged_s >= rule.at_least_s)
    ageing.done_s = now.t_s - (ageing.aged_s - rule.at_least_s);
}

StorageVerdict CoolingWatch::storage(std::size_t rule) const { return storage_[rule].verdict; }

}  // namespace stirbench::product
