#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"
#include "sim_core/product/viscosity.h"

// What missing, worn, cracked, dry, swapped and foreign parts do: leaks, air in the pump, product in the shaft, friction, wear, noise.
namespace stirbench::plant {

// Radial gap [m] that is left beside an O-ring's groove: 0 with a good ring of its own, a fifth of the plunger's gap with a worn one, two fifths with a
// cracked one, 0.15 with the other groove's ring, the whole without any (engineering choices; their order is what counts).
double front_gap_m(const AssemblySpec& spec, const AssemblyState& state);
double rear_gap_m(const AssemblySpec& spec, const AssemblyState& state);

// Laminar flow [m3/s] through a narrow ring: pi d c^3 dp / (12 mu L). c small against d (textbook formula for a slot).
double ring_gap_flow_m3_per_s(double diameter_m, double gap_m, double length_m, double pressure_Pa, double viscosity_Pa_s);

// Where the plunger really stands: the handle's opening; wide open without the plunger; not nearer to shut than the drift without spring or nut.
double plunger_opening_norm(const AssemblySpec& spec, const PlantState& state);
bool valve_can_be_turned(const AssemblyState& state);  // handle, nut and plunger are there

// Past the plunger to the spout, and past the rear ring to the floor [m3/s], at the pressure before the valve.
double front_leak_m3_per_s(const MachineSpec& spec, const PlantState& state, double pressure_Pa, double viscosity_Pa_s);
double rear_leak_m3_per_s(const MachineSpec& spec, const PlantState& state, double pressure_Pa, double viscosity_Pa_s);
// Most prime the pump can have: air comes in past the rear ring while the plunger is drawn back (engineering choice: 40 % air without ring).
double prime_limit_norm(const MachineSpec& spec, const PlantState& state);

// Factors on a bushing's friction and wear, and play added, by what stands in its place: none (metal on metal: the friction of dry bronze on steel,
// 0.3 from memory), the other material, cracked; the shaft end suffers from product in the shaft, both from a missing guard cover (the agitator nods).
struct BushingFit {
  double friction_factor = 1.0;
  double wear_factor = 1.0;
  double extra_play_mm = 0.0;
};
BushingFit agitator_bushing_fit(const MachineSpec& spec, const AssemblyState& state);
BushingFit shaft_end_bushing_fit(const MachineSpec& spec, const AssemblyState& state);
bool agitator_turns(const AssemblyState& state);

// What a person a metre away hears [dB(A)]: 52 at rest of the drive's own, plus what plays and rattles: 6 dB each doubling of play over a tenth of
// its limit, 8 for air in the pump, 5 for a missing guard cover (engineering choices for teaching; no measured machine). 0 when nothing turns.
double noise_dB(const MachineSpec& spec, const PlantState& state);

// Off to the tray, or what is in the hand on to its place; a bushing takes its play along. why_not_off and why_not_on were asked before.
void take_part_off(const MachineSpec& spec, PlantState& state, PartId part);
void put_part_on(const MachineSpec& spec, PlantState& state, PartId part);

// A greased O-ring lasts about 20 000 full strokes, a dry one 1000 (engineering choice).
double ring_wear_per_stroke(bool greased);

// Once in a while: product runs into the sleeve, O-rings wear with the plunger's strokes (dry ones twenty times as fast).
void follow_assembly(const MachineSpec& spec, PlantState& state, double dt_s);

}  // namespace stirbench::plant
