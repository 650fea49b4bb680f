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
