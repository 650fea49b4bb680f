#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// The seal where the shaft passes the well's floor to the gear. What passes its lip runs into a drip tray and
// from there, once it is full, on the floor. The gap grows in a straight line with wear; the flow through it
// is that of a slot, pi d c^3 dp / (12 mu L) (assembly_effects.h), so that a seal half worn leaks an eighth
// of one that is worn out. Life and gap are choices.
namespace stirbench::plant {

// Wear at which it drips an eighth as fast as one that is worn out: replace it.
inline constexpr double seal_due_norm = 0.5;

double seal_gap_m(const SealSpec& spec, const PlantState& state);
// Present leak [kg/s]; 0 below a drop a minute, which dries on the shaft.
double seal_leak_kg_per_s(const MachineSpec& spec, const PlantState& state);
// A dry lip runs hot: it wears by dry_life_h as far as it is dry.
void advance_seal(const MachineSpec& spec, PlantState& state, double wet_norm, double dt_s);
void replace_seal(PlantState& state);

}  // namespace stirbench::plant
