#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// How often each part of the plant is computed. Temperatures move each tick; what they depend on moves more
// slowly, so it is refreshed only as often as it changes and follows its trend in between:
//
//   coefficients  0.1 s after something was switched, then longer and longer up to 10 s, as the last interval's
//                 straight line allows: what it missed, as the temperature that a node between the two ends of
//                 the link would be off by, is held near tolerance_K; at once when a node or the shaft has left
//                 the temperature or speed it was refreshed at
//   chiller       likewise, up to 2 s; at rest each second
//   kinetics      each second and before each refresh of the coefficients
//   shaft         each tick until it keeps its speed, then once after each refresh
//   wear          with the kinetics while the shaft is steady and the level stays, else each tick
namespace stirbench::plant {

inline constexpr double tolerance_K = 0.004;

// Contents or temperatures were changed from outside the step: nothing remembered counts.
void disturb(PlantState& state);

// Looks at fittings, relays and room; what was switched since the last tick ends trends and steady shaft.
void notice_switching(PlantState& state, const Actuators& relays);

// Refreshes what is due. `before_rad_per_s`: the shaft's speed at the beginning of the tick; its coefficients
// are those of the mean speed.
void refresh_when_due(const MachineSpec& spec, PlantState& state, const Actuators& relays,
                      double before_rad_per_s, double dt_s);

// The tick is over.
void grow_older(PlantState& state, double dt_s);

}  // namespace stirbench::plant
