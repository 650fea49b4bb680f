#pragma once

#include <string>
#include <vector>

#include "sim_core/bench/machine.h"
#include "sim_core/bench/state.h"

// States set by hand for looking at the picture and measuring it. They are not simulated and belong to no
// lesson.
namespace stirbench::desk::views {

struct SampleState {
  std::string name;  // "hot"
  std::string title;
  bench::State state;
};

// A machine of about 45 L with round numbers.
bench::Machine sample_machine();
// empty, warm, hot, alarm, chill, draw, dry, spill
std::vector<SampleState> sample_states(const bench::Machine& machine);

}  // namespace stirbench::desk::views
