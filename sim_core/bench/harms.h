#pragma once

#include <vector>

#include "sim_core/machine/event.h"
#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// Injuries and damage that a tick brings about; what an action causes by itself is in hands/contact.h.
namespace stirbench::bench {

using machine::State;

// What of the last tick the harms and events of this one are told apart from.
struct Before {
  double splash_L_per_min = 0.0;
  bool hose_jumped = false;
  bool freezer_running_over = false;
  bool freezer_tripped = false;
  bool spilling = false;
  bool overload_tripped = false;
  bool cutout_tripped = false;
};
Before before_tick(const State& state);
// Injuries and damage that the tick brought; called with the state after the plant's step, its tick not yet
// counted.
void harms_of_tick(const machine::Machine& machine, State& state, const Before& before,
                   std::vector<machine::Event>& events);

}  // namespace stirbench::bench
