#include "sim_core/hands/contact.h"
#include "sim_core/hands/handles.h"
#include "sim_core/plant/upkeep/seal.h"
#include "sim_core/plant/upkeep/vanes.h"

// Work down in the well: the pump's vanes and the shaft's seal.
namespace stirbench::hands {

namespace {

// The pump sits in the well, below the product.
std::string why_not_vanes(const Machine&, const State& state, const Action&) {
  if (!state.plant.fittings.lid_open) return "The lid is closed.";
  if (state.plant.shaft_rad_per_s > 0.0) return "The shaft still turns. Press Stop and wait.";
  return state.plant.product.total_kg() > 0.5 ? "The pump stands under product. Drain the vat first." : "";
}

void vanes_reached(Scene& scene, const Action&) { hand_in_vat(scene, works_s); }

Outcome vanes_replaced(Scene& scene, const Action&) {
  plant::PlantState& plant = scene.state.plant;
  const double wear = plant.vanes.wear_norm;
  plant::replace_vanes(plant);
  if (wear > 0.9)
    return "The old vanes are torn off at the root. Count the pieces before you close the pump.";
  if (wear > 0.1) return "The old vanes are glazed and cracked at their tips.";
  return "The old vanes are soft and whole.";
}

// The seal is reached from the well, past the pump.
Outcome seal_replaced(Scene& scene, const Action&) {
  const double wear = scene.state.plant.seal.wear_norm;
  plant::replace_seal(scene.state.plant);
  if (wear > plant::seal_due_norm) return "The old seal's lip is worn flat and cut.";
  return "The old seal's lip is still sharp.";
}

}  // namespace

static constinit const HandOf<> replace_vanes{{
    .name = "replace_vanes",
    .meaning = "Put new vanes into the circulation pump.",
    .title = "New vanes",
    .group = Group::parts,
    .listed = true,
    .why_not = why_not_vanes,
    .harms = vanes_reached,
    .effect = vanes_replaced,
    .minutes = 25.0,
}};

static constinit const HandOf<> replace_seal{{
    .name = "replace_seal",
    .meaning = "Put a new seal on the shaft below the well.",
    .title = "New seal",
    .group = Group::parts,
    .listed = true,
    .why_not = why_not_vanes,
    .harms = vanes_reached,
    .effect = seal_replaced,
    .minutes = 40.0,
}};

HandList pump_hands() {
  static constexpr const Hand* list[] = {&replace_vanes, &replace_seal};
  return list;
}

}  // namespace stirbench::hands
