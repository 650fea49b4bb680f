#include "sim_core/hands/contact.h"
#include "sim_core/hands/handles.h"
#include "sim_core/plant/upkeep/assembly_effects.h"

// Draw valve and pail.
namespace stirbench::hands {

namespace {

constexpr Number opening_norm{"opening_norm", 0.0, 1.0, "-", "0 shut, 1 pulled fully"};

std::string why_not_turn(const Machine&, const State& state, const Action&) {
  return plant::valve_can_be_turned(state.plant.assembly)
             ? ""
             : "The draw valve is not put together: handle, nut or plunger is off.";
}

Outcome valve_turned(Scene& scene, const Action& action) {
  scene.state.plant.fittings.draw_opening_norm = action.get(opening_norm);
  return {};
}

std::string why_not_empty_pail(const Machine&, const State& state, const Action&) {
  return state.plant.pail.total_kg() > 0.0 ? "" : "The pail is empty.";
}

Outcome pail_emptied(Scene& scene, const Action&) {
  scene.state.plant.pail = {};
  return {};
}

}  // namespace

constinit const HandOf<Number> turn_draw_valve{
    {
        .name = "turn_draw_valve",
        .meaning = "Pull the draw handle to an opening and leave it there.",
        .why_not = why_not_turn,
        .effect = valve_turned,
        .needs_valve = true,
    },
    opening_norm};

constinit const HandOf<> empty_pail{{
    .name = "empty_pail",
    .meaning = "Carry the pail away and put an empty one.",
    .why_not = why_not_empty_pail,
    .harms = feet_on_floor,
    .effect = pail_emptied,
}};

HandList draw_hands() {
  static constexpr const Hand* list[] = {&turn_draw_valve, &empty_pail};
  return list;
}

}  // namespace stirbench::hands
