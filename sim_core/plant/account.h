#pragma once

#include "sim_core/plant/plant.h"

// The accounts. plant.h declares stored_J, residual_J and mass_residual_kg: stored energy follows from
// temperatures and masses alone; the residual is the part of its change that the ledger's fluxes do not
// explain.
namespace stirbench::plant {

// Sum of the ledger's fluxes in absolute value [J], the yardstick for a residual.
double moved_J(const Ledger& ledger);

}  // namespace stirbench::plant
