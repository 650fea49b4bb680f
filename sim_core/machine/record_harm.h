#pragma once

#include <vector>

#include "sim_core/machine/event.h"
#include "sim_core/machine/state.h"

namespace stirbench::machine {

// Somebody or something came to harm: keeps it in the state (the first time and the greatest severity, as
// state.h says; an injury stops all hands) and tells it.
void record_harm(State& state, HarmId id, double severity, std::vector<Event>& events);

}  // namespace stirbench::machine
