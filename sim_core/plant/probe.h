#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// The controller's probe: a sheathed element in a pocket that stands in the product. Two lags in series, the
// pocket's wall and the element behind its paste, so that it trails a ramp by rate x (sum of both). In a
// thermowell with paste half of a step is seen after 15 .. 25 s and nine tenths after 40 .. 80 s, with an air
// gap instead after 30 .. 60 s and 100 .. 200 s (from memory).
namespace stirbench::plant {

// Steel of the pocket (austenitic, from memory), and the film round it (choice): stirred product, product at
// rest, air.
inline constexpr double pocket_W_per_mK = 16.0;
inline constexpr double stirred_film_W_per_m2K = 500.0;
inline constexpr double still_film_W_per_m2K = 150.0;
inline constexpr double air_film_W_per_m2K = 10.0;
// Both lags in air over those in product: a maker's table of sheathed elements of 3 and 6 mm has nine tenths
// after 5.2 times, half after 3.8 and 4.5 times the time in water.
inline constexpr double air_lag_factor = 5.0;

// Share of the room in what the pocket's tip has: 1 / cosh(m L) of a fin whose root is in the room, m^2 =
// 4 h D / (k (D^2 - d^2)) with D and d outside and inside.
double stem_share_norm(const ProbeSpec& spec, double film_W_per_m2K);
// Sets Coefficients::probe_stem_norm.
void refresh_probe(const MachineSpec& spec, PlantState& state);

// What stands round the pocket.
inline double round_pocket_degC(const MachineSpec& spec, const PlantState& state, bool covered) {
  return covered ? state.well_degC + spec.probe.vat_share_norm * (state.vat_degC - state.well_degC)
                 : state.head_space_degC;
}
// `round_degC` is the middle of the tick's. The stem, and a probe that slipped out of its pocket, add the
// room.
void follow_probe(const MachineSpec& spec, PlantState& state, bool covered, double round_degC, double dt_s);

}  // namespace stirbench::plant
