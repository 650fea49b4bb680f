#pragma once

#include <vector>

#include "sim_core/bench/event.h"
#include "sim_core/bench/state.h"

namespace stirbench::bench {

// Somebody or something came to harm: keeps it in the state (the first time and the greatest severity, as state.h says; an injury stops all
// hands) and tells it.
void record_harm(State& state, HarmId id, double severity, std::vector<Event>& events);

}  // namespace stirbench::bench
