#include "app/desk/views/trend/trend_log.h"

#include <algorithm>
#include <cmath>

#include "sim_core/hands/action.h"
#include "sim_core/hands/handles.h"
#include "sim_core/plant/plant.h"

namespace stirbench::desk::views {

namespace {

constexpr std::size_t fan = 8;         // samples, or blocks, in a block
constexpr std::size_t dropped = 3600;  // samples that go together when the log is full

std::string mark_words(const machine::Event& event) {
  if (!event.text.empty()) return event.text;
  return event.name;
}

}  // namespace

void TrendLog::clear() { *this = TrendLog{}; }

void TrendLog::add(std::uint64_t second, const TrendSample& sample) {
  if (samples_.empty()) {
    first_second_ = second;
  } else {
    const std::uint64_t next = first_second_ + samples_.size();
    if (second < next) return;
    if (second - next >= capacity) {
      // Longer away than the log reaches back: start anew there.
      samples_.clear();
      levels_.clear();
      first_second_ = second;
    }
    for (std::uint64_t gap = next; gap < second && !samples_.empty(); ++gap) {
      push(TrendSample(samples_.back()));
    }
  }
  push(sample);
}

void TrendLog::push(const TrendSample& sample) {
  samples_.push_back(sample);
  grow_pyramid();
  if (samples_.size() > capacity) drop_oldest();
}

// After each sample: whole blocks of every level that became complete.
void TrendLog::grow_pyramid() {
  std::size_t count = samples_.size();
  for (std::size_t level = 0; count % fan == 0; ++level) {
    count /= fan;
    if (level == levels_.size()) levels_.emplace_back();
    Block block{};
    for (std::size_t channel = 0; channel < trend_channel_count; ++channel) {
      Pair pair{INFINITY, -INFINITY};
      for (std::size_t i = (count - 1) * fan; i < count * fan; ++i) {
        const float low = level == 0 ? samples_[i].value[channel] : levels_[level - 1][i][channel].low;
        const float high = level == 0 ? samples_[i].value[channel] : levels_[level - 1][i][channel].high;
        pair.low = std::min(pair.low, low);
        pair.high = std::max(pair.high, high);
      }
      block[channel] = pair;
    }
    levels_[level].push_back(block);
  }
}

void TrendLog::drop_oldest() {
  const std::vector<TrendSample> kept(samples_.begin() + static_cast<std::ptrdiff_t>(dropped),
                                      samples_.end());
  first_second_ += dropped;
  samples_.clear();
  levels_.clear();
  for (const TrendSample& sample : kept) {
    samples_.push_back(sample);
    grow_pyramid();
  }
}

void TrendLog::phase(double time_s, std::string label) {
  if (!bands_.empty() && bands_.back().label == label) return;
  bands_.push_back({time_s, std::move(label)});
}

const TrendSample& TrendLog::at(double time_s) const {
  const double index =
      std::clamp(std::floor(time_s - start_s()), 0.0, static_cast<double>(samples_.size() - 1));
  return samples_[static_cast<std::size_t>(index)];
}

TrendRange TrendLog::range(TrendChannel channel, double from_s, double to_s) const {
  TrendRange range;
  if (empty() || to_s < start_s() || from_s > end_s() || to_s < from_s) return range;
  const auto which = static_cast<std::size_t>(channel);
  auto begin = static_cast<std::size_t>(std::ceil(std::max(from_s - start_s(), 0.0)));
  const std::size_t end =
      std::min(static_cast<std::size_t>(std::floor(to_s - start_s())) + 1, samples_.size());
  range.low = INFINITY;
  range.high = -INFINITY;
  while (begin < end) {
    // The largest whole block that starts here and ends in time.
    std::size_t size = 1;
    std::size_t level = 0;
    while (level < levels_.size() && begin % (size * fan) == 0 && begin + size * fan <= end &&
           begin / (size * fan) < levels_[level].size()) {
      size *= fan;
      ++level;
    }
    const float low = level == 0 ? samples_[begin].value[which] : levels_[level - 1][begin / size][which].low;
    const float high =
        level == 0 ? samples_[begin].value[which] : levels_[level - 1][begin / size][which].high;
    range.low = std::min(range.low, low);
    range.high = std::max(range.high, high);
    range.any = true;
    begin += size;
  }
  return range;
}

void TrendLog::record(const machine::Machine& machine, const machine::State& state,
                      std::span<const machine::Event> events) {
  if (state.tick % machine::ticks_per_second == 0) {
    const std::uint64_t second = state.tick / machine::ticks_per_second;
    if (samples_.empty() || second > first_second_ + samples_.size() - 1) {
      add(second, trend_sample(state));
      const control::ControlState& c = state.control;
      const bool in_recipe = c.recipe >= 0 && static_cast<std::size_t>(c.recipe) < machine.recipes.size();
      const control::Phase* phase =
          in_recipe ? control::current_phase(&machine.recipes[static_cast<std::size_t>(c.recipe)], c)
                    : nullptr;
      if (phase != nullptr || !bands_.empty())
        this->phase(machine::time_s(state), phase == nullptr ? "" : phase->title);
    }
  }
  for (const machine::Event& event : events) {
    const double time_s = static_cast<double>(event.tick) / machine::ticks_per_second;
    using Kind = machine::EventKind;
    if (event.kind == Kind::alarm_raised) {
      const auto alarm = static_cast<control::AlarmId>(event.subject);
      if (control::alarm_latches(alarm))
        mark({time_s, TrendMarkKind::alarm, std::string(control::alarm_title(alarm))});
    } else if (event.kind == Kind::harm || event.kind == Kind::spilled || event.kind == Kind::boiled_over) {
      mark({time_s, TrendMarkKind::harm, mark_words(event)});
    } else if (was_done(event, hands::pour)) {
      const int index = machine.ingredient_index(event.name);
      mark({time_s, TrendMarkKind::pour,
            index < 0 ? event.name : machine.ingredients[static_cast<std::size_t>(index)].title});
    } else if (was_done(event, hands::open_lid) || was_done(event, hands::close_lid)) {
      mark({time_s, TrendMarkKind::lid, was_done(event, hands::open_lid) ? "Lid opened" : "Lid closed"});
    }
  }
}

TrendSample trend_sample(const machine::State& state) {
  const plant::PlantState& p = state.plant;
  TrendSample sample;
  sample.value = {static_cast<float>(plant::probe_reading_degC(p)),
                  static_cast<float>(p.well_degC),
                  static_cast<float>(p.well_wall_degC),
                  static_cast<float>(p.flows.heaters_W),
                  static_cast<float>(p.flows.chiller_W),
                  static_cast<float>(p.flows.drive_W)};
  return sample;
}

}  // namespace stirbench::desk::views
