#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"
#include "sim_core/plant/upkeep/bushing.h"
#include "sim_core/product/viscosity.h"

// The effects of missing, worn, cracked, dry, swapped and foreign parts: leaks, air in the pump, product in
// the shaft, friction, wear, noise.
namespace stirbench::plant {

// What lies or sits in a place; nullptr: nothing.
const PartItem* thing_at(const AssemblyState& state, PartId place);

// Radial gap [m] that remains at an O-ring's groove: 0 with its own good ring, a fifth of the plunger's gap
// with a worn one, two fifths with a cracked one, 0.15 of it with the other groove's ring, all of it without
// a ring (engineering choices; what matters is their order).
double front_gap_m(const AssemblySpec& spec, const AssemblyState& state);
double rear_gap_m(const AssemblySpec& spec, const AssemblyState& state);

// Laminar flow [m3/s] through a narrow annulus: pi d c^3 dp / (12 mu L), c much smaller than d (textbook
// formula for a slot).
double ring_gap_flow_m3_per_s(double diameter_m, double gap_m, double length_m, double pressure_Pa,
                              double viscosity_Pa_s);

// The real opening: the handle's; fully open without the plunger; never less than the drift without spring or
// nut.
double plunger_opening_norm(const AssemblySpec& spec, const PlantState& state);
bool valve_can_be_turned(const AssemblyState& state);  // handle, nut and plunger are there

// Leak past the plunger to the spout, and past the rear ring to the floor [m3/s], at the pressure before the
// valve.
double front_leak_m3_per_s(const MachineSpec& spec, const PlantState& state, double pressure_Pa,
                           double viscosity_Pa_s);
double rear_leak_m3_per_s(const MachineSpec& spec, const PlantState& state, double pressure_Pa,
                          double viscosity_Pa_s);
// Greatest prime that the pump can have: air enters past the rear ring while the plunger is drawn back
// (engineering choice: 40 % air without the ring).
double prime_limit_norm(const MachineSpec& spec, const PlantState& state);

// What is in a bushing's place: nothing (metal on metal, and the bushing's whole wall as play), the other
// material, a cracked one; and its factors on friction and wear. Product in the shaft affects the shaft end;
// a missing guard cover affects both (the agitator wobbles).
struct BushingFit {
  Bearing bearing = Bearing::bronze;
  double friction_factor = 1.0;
  double wear_factor = 1.0;
  double extra_play_mm = 0.0;
};
BushingFit agitator_bushing_fit(const MachineSpec& spec, const AssemblyState& state);
BushingFit shaft_end_bushing_fit(const MachineSpec& spec, const AssemblyState& state);
bool agitator_turns(const AssemblyState& state);

// Sound level at a distance of one metre [dB(A)]: 52 for the drive itself, plus 6 for each doubling of a
// bushing's play above a tenth of its limit, 8 for air in the pump, 5 for a missing guard cover, up to 14 for
// the squeal of dry rubbing (engineering choices for teaching; not measured). 0 when nothing turns.
double noise_dB(const MachineSpec& spec, const PlantState& state);

// Takes a part off to the tray, or puts what is in the hand in its place; a bushing keeps its play. The
// caller has checked why_not_off or why_not_on.
void take_part_off(const MachineSpec& spec, PlantState& state, PartId part);
void put_part_on(const MachineSpec& spec, PlantState& state, PartId part);

// A greased O-ring lasts about 20 000 full strokes, a dry one 1000 (engineering choice).
double ring_wear_per_stroke(bool greased);

// Advances slow changes: product runs into the sleeve, O-rings wear with the plunger's strokes (dry ones
// twenty times as fast).
void advance_assembly(const MachineSpec& spec, PlantState& state, double dt_s);

}  // namespace stirbench::plant
