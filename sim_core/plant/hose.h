#pragma once

#include "sim_core/plant/zones.h"
#include "sim_core/product/viscosity.h"

// The drawn stream beyond the valve: pressure in the hose to the freezer, drops that a jet throws out of the
// pail.
namespace stirbench::plant {

// Share of the plunger valve's bore that is free at a handle position. The plunger draws back across a round
// side port: after a lap of 3 % of its travel, in which the O-ring still seals, it uncovers a segment of
// height h of the circle:
//   A / A_bore = (phi - sin phi) / 2 pi,  phi = 2 acos(1 - 2 h)
double free_area_norm(double handle_norm);

// Gauge pressure in the hose to the freezer [bar]: head and pump against a closed inlet, else the pressure
// still to be lost along the hose. A closed valve traps it until the inlet is opened.
double line_pressure_bar(const MachineSpec& spec, const PlantState& state);
// Taking the hose off releases that pressure: returns the litres that spray out.
double spray_from_hose(const MachineSpec& spec, PlantState& state);

// Height above the draw valve to which product must rise [m]: the crest of a hose that is routed high (0.6 m
// above its end, choice; beyond the crest it runs down partly full and does not siphon), else the freezer's
// inlet.
double hose_rise_m(const MachineSpec& spec, const PlantState& state);
// Gauge pressure at the joint to the valve [Pa]: loss and rise of the hose, or the trapped pressure.
double joint_pressure_Pa(const MachineSpec& spec, const PlantState& state);
// Radial gap of the joint [m] by clamp and gasket; 0 with both (choices; what matters is their order). It
// leaks like a slot.
double joint_gap_m(const HoseLine& line);
inline constexpr double joint_length_m = 0.003;
// A hose without its clamp flies off above this (choice).
inline constexpr double unclamped_holds_Pa = 12.0e3;

// Volume of the hose to the freezer [L]. What enters at one end leaves mixed at the other once it is full.
double hose_L(const MachineSpec& spec);
void fill_hose(const MachineSpec& spec, PlantState& state, const TakenLiquid& mix);
double hose_degC(const PlantState& state);  // of what it holds
// The hose is lifted: everything in it runs into the freezer.
void drain_hose(const MachineSpec& spec, PlantState& state);
// The hose was taken off or flew off: what it holds runs onto the floor [kg].
double empty_hose(PlantState& state);
// Leak at the joint, and whether it still holds.
void advance_hose(const MachineSpec& spec, PlantState& state, double dt_s);

// Share of a stream that leaves the pail as drops: 0.004 (K / 57.7 - 1), 0 .. 0.03, with K = We^(1/2)
// Re^(1/4) of the jet where it meets the pail (Mundo, Sommerfeld & Tropea 1995, from memory: drops splash
// above 57.7). The 0.004 and applying the limit for drops to a jet are engineering choices. Surface tension
// 0.045 N/m (milk, from memory).
double splash_norm(double flow_m3_per_s, double bore_m, double fall_m, double density_kg_per_m3,
                   double viscosity_Pa_s);

// Free fall of the stream into the pail [m], and the bore that it leaves. The spout is 0.30 m above the
// bottom of the pail; a hose hangs down to 0.05 m, and once its end is covered nothing splashes (0 m).
struct Fall {
  double fall_m = 0.0;
  double bore_m = 0.0;
};
Fall fall_into_pail(const MachineSpec& spec, const PlantState& state);

}  // namespace stirbench::plant
