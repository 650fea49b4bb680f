#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// Bushings: friction, heat, wear.
namespace stirbench::plant {

// How well the fill wets a bushing, 0..1: the agitator's foot is at the bottom of the vat, the shaft end in
// the well.
double wetting_norm(double fill_L, double dry_below_L, double wet_above_L);

// Archard: V = k F s, depth V / (d L) [mm/s at sliding speed v]; k doubles each 10 K above softening_degC, up
// to 2^10.
double wear_mm_per_s(const BushingSpec& spec, double wet_norm, double temperature_degC,
                     double shaft_rad_per_s);
double friction_torque_Nm(const BushingSpec& spec, double wet_norm);

// Bushing heat: friction power into its heat capacity (4e4 J/(m2 K) x face), out to product (1500 W/(m2 K))
// or, dry, to air and shaft (50 W/(m2 K)). Engineering choice; the power itself is booked where turn_shaft
// says.
void wear_bushing(const BushingSpec& spec, BushingState& bushing, double wet_norm, double bath_degC,
                  double room_degC, double shaft_rad_per_s, double dt_s, double friction_factor = 1.0,
                  double wear_factor = 1.0);

struct Wetting {
  double agitator_norm = 0.0;
  double shaft_end_norm = 0.0;
};
Wetting wetting(const MachineSpec& spec, const PlantState& state);
double bushings_torque_Nm(const MachineSpec& spec, const PlantState& state);
void advance_wear(const MachineSpec& spec, PlantState& state, double dt_s);

}  // namespace stirbench::plant
