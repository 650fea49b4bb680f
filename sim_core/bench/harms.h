#pragma once

#include <vector>

#include "sim_core/bench/action.h"
#include "sim_core/bench/event.h"
#include "sim_core/bench/machine.h"
#include "sim_core/bench/state.h"

// Injuries and damage: what brings them about.
namespace stirbench::bench {

// Enters a harm, the first injury too, and its event. `severity` as state.h says.
void suffer(State& state, HarmId id, double severity, std::vector<Event>& events);

// Injuries that an action itself causes; called with the state before the action.
void harms_of_action(const Machine& machine, State& state, const Action& action, std::vector<Event>& events);

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
Before look_before(const State& state);
// Injuries and damage that the tick brought; called with the state after the plant's step, its tick not yet counted.
void harms_of_tick(const Machine& machine, State& state, const Before& before, std::vector<Event>& events);

}  // namespace stirbench::bench
