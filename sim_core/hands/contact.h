#pragma once

#include "sim_core/hands/hand.h"
#include "sim_core/plant/outside.h"

// What hands and feet meet when they do something: the injuries that an action causes by itself, judged with
// the state before it. Thresholds and their sources stand in contact.cpp; what a tick brings to hands that
// stay is in bench/harms.cpp.
namespace stirbench::hands {

inline constexpr double clings_s = 3.0;     // product clings to skin until it is rinsed off (choice)
inline constexpr double works_s = 60.0;     // a hand that works stays a minute (choice)
inline constexpr double turning_rpm = 5.0;  // a creep that still draws a hand in (choice)

void hand_in_vat(Scene& scene, double contact_s);
void hand_in_panel(const Machine& machine, State& state, std::vector<Event>& events);
void steam_under_lid(Scene& scene, const Action& action);
void hand_on_wall(Scene& scene, const Action& action);
void hand_on_part(Scene& scene, plant::BarePart part);
void hand_under_hose(Scene& scene, const Action& action);
// A wet floor under the feet.
void feet_on_floor(Scene& scene, const Action& action);
// Water on a concentrate; a concentrate of a strength; hands in the bucket.
void splash_of_concentrate(Scene& scene, const Action& action);
void splash_of(Scene& scene, const machine::Chemical& chemical);
void hands_in_bucket(Scene& scene, const Action& action);

bool eyes_covered(const State& state);
double shaft_rpm(const plant::PlantState& plant);

// Tells what ran on to the floor by the action, when anything did.
void tell_spill(Scene& scene, const Action& action, double floor_before_kg, const char* words);

}  // namespace stirbench::hands
