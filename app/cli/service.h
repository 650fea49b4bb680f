#pragma once

#include <nlohmann/json.hpp>

#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// The service forecast: how long each wear part still lasts.
namespace stirbench::cli {

// [{part, now, limit, per_h, hours_left, due}]: play in mm radial for bushings, share of wear for O-rings.
nlohmann::json service_json(const machine::Machine& machine, const machine::State& state);
void print_service(const machine::Machine& machine, const machine::State& state);

}  // namespace stirbench::cli
