#pragma once

#include "sim_core/plant/zones.h"

// Heat between the nodes: elements - well wall - well product = vat product - vat wall - evaporator, lid,
// room.
namespace stirbench::plant {

// Power of the elements [W]: heat_norm x count x rated x (supply voltage / nominal)^2. What the elements' own
// rated voltage makes of it is in heat_norm already (Actuators), so that it counts once.
double heater_W(const MachineSpec& spec, double heat_norm, double supply_norm);

// Heat that bubbles at the heated wall carry beyond what convection does [W]: boiling_extra_W_per_m2 on the
// wetted area. What soaks the pores of a layer there boils at the metal, and its heat passes the layer
// (kettling; choice). It holds a wetted wall some 3 to 10 K above the boiling point
// of the product. Milk and mix boil like water (choice, within a factor of 2).
double wall_boiling_W(const MachineSpec& spec, const PlantState& state);

// How loud the wall sings: bubbles that grow at it and collapse in product below its boiling point, 0 quiet
// .. 1; full from a tenth of the full power on, quiet within 10 K below the boiling point, where they rise
// and stay whole (choices). From a stirred wall under product below 90 degC it means deposit, low level or an
// agitator that stands.
double singing_norm(const MachineSpec& spec, const PlantState& state);
inline constexpr double sings_W_per_m2 = 3000.0;
inline constexpr double quiet_within_K = 10.0;
inline constexpr double heard_norm = 0.1;  // from here on people notice (choice)

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
