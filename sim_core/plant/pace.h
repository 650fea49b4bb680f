#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// How often each part of the plant is computed. Temperatures change every tick; what they depend on changes
// more slowly, so it is refreshed only as often as needed and extrapolated along its trend in between:
//
//   coefficients  0.1 s after switching, then at longer and longer intervals up to 10 s, as long as linear
//                 extrapolation over the last interval was good enough: its error, expressed as the error of
//                 a node's temperature between the two ends of the link, is held near tolerance_K; at once
//                 when a node or the shaft has left the temperature or speed of the last refresh
//   chiller       likewise, up to 2 s; at rest every second
//   kinetics      every second and before each refresh of the coefficients
//   shaft         every tick until its speed is steady, then once after each refresh
//   wear          with the kinetics while shaft and level are steady, else every tick
namespace stirbench::plant {

inline constexpr double tolerance_K = 0.012;

// To be called when contents or temperatures were changed outside the step: nothing remembered is valid.
void invalidate_pace(PlantState& state);

// Compares fittings, relays and room with the last tick; a change ends the trends and the steady shaft.
void detect_switching(PlantState& state, const Actuators& relays);

// Refreshes what is due. `before_rad_per_s`: the shaft's speed at the beginning of the tick; its coefficients
// are those of the mean speed.
void refresh_when_due(const MachineSpec& spec, PlantState& state, const Actuators& relays,
                      double before_rad_per_s, double dt_s);

// Advances the ages of all that is remembered; called at the end of a tick.
void advance_ages(PlantState& state, double dt_s);

}  // namespace stirbench::plant
