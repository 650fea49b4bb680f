#pragma once

#include "sim_core/plant/zones.h"
#include "sim_core/product/viscosity.h"

// The drawn stream outside the valve: pressure in the hose to the freezer, drops that a jet throws out of the pail.
namespace stirbench::plant {

// Share of the plunger valve's bore that is free at a handle position. The plunger draws back across a round side port:
// after a lap of 3 % of its travel, in which the O-ring still seals, it uncovers a segment of height h of the circle:
//   A / A_bore = (phi - sin phi) / 2 pi,  phi = 2 acos(1 - 2 h)
double free_area_norm(double handle_norm);

// Pressure in the hose that leads to the freezer [bar above the room]: head and pump against a shut inlet, else what the
// hose still has to lose. A shut valve locks it in until the inlet is opened.
double line_pressure_bar(const MachineSpec& spec, const PlantState& state);
// Taking the hose off lets that pressure go: returns the litres that spray out of the machine's line.
double spray_from_hose(const MachineSpec& spec, PlantState& state);

// What a hose has to be filled up to: its crest when it is lifted high (0.6 m over its end, choice; behind the crest it runs down part full and does not
// pull), else the freezer's inlet. Above the draw valve [m].
double hose_rise_m(const MachineSpec& spec, const PlantState& state);
// At the joint to the valve, above the room's [Pa]: what the hose takes for the flow and its rise, or the locked-in pressure.
double joint_pressure_Pa(const MachineSpec& spec, const PlantState& state);
// Radial gap of the joint [m] by clamp and gasket; 0 when both are there (choices; their order is what counts). It leaks as a slot.
double joint_gap_m(const HoseLine& line);
inline constexpr double joint_length_m = 0.003;
// A hose without its clamp flies off above this (choice).
inline constexpr double unclamped_holds_Pa = 12.0e3;

// What the hose holds on the way to the freezer [L]; what arrives goes in at one end and, once it is full, out at the other, mixed.
double hose_L(const MachineSpec& spec);
void fill_hose(const MachineSpec& spec, PlantState& state, const Taken& mix);
double hose_degC(const PlantState& state);  // of what it holds
// Lifted up: all that it holds runs into the freezer.
void drain_hose(const MachineSpec& spec, PlantState& state);
// Taken off or flown off: what it holds runs to the floor [kg].
double empty_hose(PlantState& state);
// Leak at the joint, and whether it still holds.
void follow_hose(const MachineSpec& spec, PlantState& state, double dt_s);

// Share of a stream that leaves the pail as drops: 0.004 (K / 57.7 - 1), 0 .. 0.03, with K = We^(1/2) Re^(1/4) of the
// jet where it meets the pail (Mundo, Sommerfeld & Tropea 1995, from memory: drops splash above 57.7). That a
// jet splashes at the drops' limit, and the 0.004, are engineering choices. Surface tension 0.045 N/m (milk, from memory).
double splash_norm(double flow_m3_per_s, double bore_m, double fall_m, double density_kg_per_m3, double viscosity_Pa_s);

// How far the stream falls free into the pail [m], and from what bore it comes. A spout stands 0.30 m above the pail's
// floor; a hose hangs down to 0.05 m, and once its end is covered nothing splashes (0 m).
struct Fall {
  double fall_m = 0.0;
  double bore_m = 0.0;
};
Fall fall_into_pail(const MachineSpec& spec, const PlantState& state);

}  // namespace stirbench::plant
