#pragma once

#include <string>
#include <vector>

#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// States set by hand for looking at the picture and measuring it. They are not simulated and belong to no
// lesson.
namespace stirbench::desk::views {

struct SampleState {
  std::string name;  // "hot"
  std::string title;
  machine::State state;
};

// A machine of about 45 L with round numbers.
machine::Machine sample_machine();
// empty, warm, hot, alarm, chill, draw, dry, spill
std::vector<SampleState> sample_states(const machine::Machine& machine);

}  // namespace stirbench::desk::views
