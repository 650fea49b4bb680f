#pragma once

#include <vector>

#include "sim_core/bench/event.h"
#include "sim_core/bench/machine.h"
#include "sim_core/bench/state.h"

namespace stirbench::bench {

// What a second person, a colleague and the site's supply do; after hands, before the sensors.
void other_people(const Machine& machine, State& state, std::vector<Event>& events);
// Capacitor and hose, after the plant's step.
void stored_energies(const Machine& machine, State& state);

}  // namespace stirbench::bench
