#pragma once

#include "sim_core/plant/zones.h"

// Heat between the nodes: elements - well wall - well product = vat product - vat wall - evaporator, lid,
// room.
namespace stirbench::plant {

// Power of the elements [W]: heat_norm x count x rated x (supply voltage / nominal)^2. What the elements' own
// rated voltage makes of it is in heat_norm already (Actuators), so that it counts once.
double heater_W(const MachineSpec& spec, double heat_norm, double supply_norm);

struct HeatSources {
  double heaters_W = 0.0;
  double stir_vat_W = 0.0;
  double stir_well_W = 0.0;
};

// Moves heat for dt: every flux is computed once and booked on both sides. Fluxes use the temperatures at the
// middle of the tick, extrapolated through the last two ticks (Adams & Bashforth, second order), and the
// coefficients there along their trends. Where a node would respond by a quarter or more within the tick, all
// fluxes use its beginning, and a link is weakened to 1 / (x_i + x_j), x = dt (sum of the node's
// conductances) / C, when that is below 1, so that no step can overshoot. `z`: the present zones.
void move_heat(const MachineSpec& spec, PlantState& state, const Zones& z, const HeatSources& sources,
               double dt_s);

// Product below its freezing point freezes on the wall (growth between the wall and an interface at the
// freezing point) while nothing stirs, and melts again; the agitator wipes it off into the product. The
// latent heat is booked with the ice. That the freezing point of the rest falls, because ice is pure, is
// neglected; at most half the product may freeze.
void freeze_and_melt(const MachineSpec& spec, PlantState& state, const Zones& z, double dt_s);

}  // namespace stirbench::plant
