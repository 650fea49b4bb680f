#pragma once

#include "sim_core/plant/zones.h"

// Slow quantities, computed as often as they change (pace.h) and after every change of contents or fittings.
namespace stirbench::plant {

// Lid, hose, valve, drive and rinse as one number; when it changes, a refresh is due at once.
double fittings_number(const PlantState& state, bool drive_wanted);

// Mean shear rate of the agitator [1/s] (Metzner & Otto: ks N), 0 when it does not touch product.
double shear_per_s(const MachineSpec& spec, const PlantState& state);
double shear_per_s(const MachineSpec& spec, const PlantState& state,
                   double fill);  // when the fill is at hand

// Advances the product's kinetics by the time since they were last advanced.
void advance_kinetics(const MachineSpec& spec, PlantState& state);

// Advances the kinetics, sets the zones' temperatures to
// their booked enthalpies and recomputes all coefficients but the chiller's.
void refresh(const MachineSpec& spec, PlantState& state);

// The coefficients alone, from temperatures, masses and shaft as they stand.
void compute_coefficients(const MachineSpec& spec, PlantState& state);

}  // namespace stirbench::plant
