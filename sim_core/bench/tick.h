#pragma once

#include "sim_core/machine/event.h"

// What step.cpp is put together from, beside the hands.
namespace stirbench::bench {

// other_people.cpp: after hands, before the sensors.
void other_people(const Machine& machine, State& state, std::vector<Event>& events);
// Capacitor and hose, after the plant's step.
void stored_energies(const Machine& machine, State& state);

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
// harms.cpp: injuries and damage that the tick brought; called with the state after the plant's step, its tick not yet counted.
void harms_of_tick(const Machine& machine, State& state, const Before& before, std::vector<Event>& events);

}  // namespace stirbench::bench
