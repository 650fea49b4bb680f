#include "sim_core/bench/script.h"

#include <algorithm>
#include <cmath>

namespace stirbench::bench {

namespace {

// First tick at or after a time; a hair of slack so that 12.3 s means tick 123 whatever its last bit.
bool is_due(double due_s, std::uint64_t tick) {
  return due_s * machine::ticks_per_second <= static_cast<double>(tick) + 1.0e-6;
}

}  // namespace

const hands::Action* ActionScript::due(const State& state) {
  if (finished()) return nullptr;
  const hands::TimedAction& entry = actions_[next_];
  double due_s = entry.at_s;
  if (!entry.at_phase.empty()) {
    const auto seen = std::find_if(phases_seen_.begin(), phases_seen_.end(),
                                   [&](const auto& phase) { return phase.first == entry.at_phase; });
    if (seen == phases_seen_.end()) return nullptr;
    due_s = seen->second + entry.after_s;
  }
  if (!is_due(due_s, state.tick)) return nullptr;
  ++next_;
  return &entry.action;
}

void ActionScript::see(const State& state, const std::vector<Event>& events) {
  for (const Event& event : events) {
    if (event.kind != machine::EventKind::phase_began) continue;
    const auto seen = std::find_if(phases_seen_.begin(), phases_seen_.end(),
                                   [&](const auto& phase) { return phase.first == event.name; });
    if (seen == phases_seen_.end()) {
      phases_seen_.emplace_back(event.name, machine::time_s(state));
    } else {
      seen->second = machine::time_s(state);
    }
  }
}

}  // namespace stirbench::bench
