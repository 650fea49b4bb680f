#pragma once

#include <vector>

#include "sim_core/machine/event.h"
#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

namespace stirbench::bench {

using machine::Machine;
using machine::State;

// What a second person, a colleague and the site's supply do; after hands, before the sensors.
void other_people(const Machine& machine, State& state, std::vector<machine::Event>& events);
// Capacitor and hose, after the plant's step.
void stored_energies(const Machine& machine, State& state);

}  // namespace stirbench::bench
