#pragma once

#include <string_view>

#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// What eyes, ears and hands find at a part that is opened, rocked, turned or pulled: "part:NAME". Everything
// is computed from the simulated machine's state; nothing here knows which fault is in.
namespace stirbench::diagnosis {

bool knows_part(std::string_view name);
// Throws std::invalid_argument when there is no such part.
double read_part(const machine::Machine& machine, const machine::State& state, std::string_view name);

}  // namespace stirbench::diagnosis
