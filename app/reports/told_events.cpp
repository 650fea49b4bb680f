#include "app/reports/told_events.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <string>

#include "sim_core/hands/handles.h"
#include "sim_core/machine/state.h"

namespace stirbench::reports {

namespace {

int rank(const machine::Event& event) {
  switch (event.kind) {
    case machine::EventKind::acted:
    case machine::EventKind::refused:
    case machine::EventKind::other_person:
    case machine::EventKind::instructor: return 0;
    case machine::EventKind::harm: return 2;
    default: return 1;
  }
}

}  // namespace

std::vector<const machine::Event*> told_events(const std::vector<machine::Event>& history) {
  std::vector<const machine::Event*> out;
  std::map<std::string, std::uint64_t> down_until;  // each key, as far as it was held
  for (const machine::Event& event : history) {
    if (event.kind == machine::EventKind::acted && is_of(event, hands::press)) {
      const auto ticks = static_cast<std::uint64_t>(
          std::max(1LL, std::llround(event.number * static_cast<double>(machine::ticks_per_second))));
      const auto before = down_until.find(event.name);
      const bool renewed = before != down_until.end() && event.tick <= before->second;
      std::uint64_t& until = down_until[event.name];
      until = std::max(until, event.tick + ticks);
      if (renewed) continue;
    }
    out.push_back(&event);
  }
  std::stable_sort(out.begin(), out.end(), [](const machine::Event* a, const machine::Event* b) {
    return a->tick != b->tick ? a->tick < b->tick : rank(*a) < rank(*b);
  });
  return out;
}

}  // namespace stirbench::reports
