#pragma once

#include "sim_core/plant/plant.h"

// The accounts. plant.h declares stored_J, residual_J and mass_residual_kg: stored from temperatures and
// masses alone, the residual is what the ledger's fluxes do not explain of its change.
namespace stirbench::plant {

// Sum of the fluxes of the ledger in absolute value [J]: what a residual is judged against.
double moved_J(const Ledger& ledger);

}  // namespace stirbench::plant
