#pragma once

#include "sim_core/plant/zones.h"

// Heat between the nodes: elements - well wall - well product = vat product - vat wall - evaporator, lid,
// room.
namespace stirbench::plant {

// Power of the elements [W]: share switched on x count x rated x (V / rated V)^2.
double heater_W(const MachineSpec& spec, double heat_norm, double supply_norm);

// Moves heat for dt. Explicit: every flux is computed once from the temperatures at the beginning and put on
// both sides. A link whose nodes would follow it within the step is weakened to 1 / (x_i + x_j), x = dt (sum
// of the node's conductances) / C, so that no step can overshoot; links between slower nodes are untouched.
void move_heat(const MachineSpec& spec, PlantState& state, double heaters_W, double stir_vat_W,
               double stir_well_W, double dt_s);

// Product below its freezing point freezes on the wall (growth between the wall and an interface at the
// freezing point) while nothing stirs, and melts again; the agitator wipes it off into the product. The
// latent heat is booked with the ice. Ice stays pure, so the rest's freezing point should fall with it: left
// out, at most half the product may freeze.
void freeze_and_melt(const MachineSpec& spec, PlantState& state, double dt_s);

}  // namespace stirbench::plant
