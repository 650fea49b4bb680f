#include "sim_core/hands/contact.h"
#include "sim_core/hands/handles.h"
#include "sim_core/plant/plant.h"

// Lid and shaft cover.
namespace stirbench::hands {

namespace {

constexpr double steam_rises_degC = 75.0;

std::string why_not_open_lid(const Machine&, const State& state, const Action&) {
  return state.plant.fittings.lid_open ? "The lid is already open." : "";
}

std::string why_not_close_lid(const Machine&, const State& state, const Action&) {
  if (!state.plant.fittings.lid_open) return "The lid is already closed.";
  return state.plant.fittings.rinse_on ? "Shut the rinse water and take the gun out first." : "";
}

Outcome lid_opened(Scene& scene, const Action&) {
  plant::PlantState& plant = scene.state.plant;
  plant.fittings.lid_open = true;
  if (plant.vat_degC <= steam_rises_degC || plant.product.total_kg() <= 0.0) return {};
  return "Steam rises under the lid. Stand aside and keep hands and face away from the opening.";
}

Outcome lid_closed(Scene& scene, const Action&) {
  scene.state.plant.fittings.lid_open = false;
  return {};
}

std::string why_not_open_cover(const Machine&, const State& state, const Action&) {
  return state.plant.fittings.shaft_cover_open ? "The shaft cover is already off." : "";
}

std::string why_not_close_cover(const Machine&, const State& state, const Action&) {
  return state.plant.fittings.shaft_cover_open ? "" : "The shaft cover is already on.";
}

template <bool open>
Outcome cover_turned(Scene& scene, const Action&) {
  scene.state.plant.fittings.shaft_cover_open = open;
  return {};
}

}  // namespace

constinit const HandOf<> open_lid{{
    .name = "open_lid",
    .meaning = "Open the lid. The guard stops drive, pump and heat if anything runs.",
    .why_not = why_not_open_lid,
    .harms = steam_under_lid,
    .effect = lid_opened,
    .turns = {Contact::lid, true},
}};

constinit const HandOf<> close_lid{{
    .name = "close_lid",
    .meaning = "Close the lid. Nothing restarts by itself.",
    .why_not = why_not_close_lid,
    .effect = lid_closed,
    .turns = {Contact::lid, false},
}};

constinit const HandOf<> open_shaft_cover{{
    .name = "open_shaft_cover",
    .meaning = "Take the shaft cover off. The guard stops drive, pump and heat.",
    .why_not = why_not_open_cover,
    .effect = cover_turned<true>,
    .turns = {Contact::shaft_cover, true},
}};

constinit const HandOf<> close_shaft_cover{{
    .name = "close_shaft_cover",
    .meaning = "Put the shaft cover back. Nothing restarts by itself.",
    .why_not = why_not_close_cover,
    .effect = cover_turned<false>,
    .turns = {Contact::shaft_cover, false},
}};

HandList guard_hands() {
  static constexpr const Hand* list[] = {&open_lid, &close_lid, &open_shaft_cover, &close_shaft_cover};
  return list;
}

}  // namespace stirbench::hands
