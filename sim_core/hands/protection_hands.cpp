#include "sim_core/hands/contact.h"
#include "sim_core/hands/handles.h"
#include "sim_core/machine/spills.h"

// What people wear, and the floor.
namespace stirbench::hands {

namespace {

using machine::PpeItem;

Words wear_words() {
  static const auto words = [] {
    std::array<std::string_view, machine::ppe_count> out;
    for (std::size_t i = 0; i < out.size(); ++i) out[i] = machine::ppe_key(static_cast<PpeItem>(i));
    return out;
  }();
  return words;
}

constexpr Text item{"item", wear_words,
                    "heat_gloves, chemical_gloves, eye_protection, face_shield, apron or safety_shoes"};

PpeItem wear_of(const Action& action) { return static_cast<PpeItem>(index_of(item, action.get(item))); }

std::string why_not_wear(const Machine&, const State& state, const Action& action) {
  const PpeItem wanted = wear_of(action);
  const machine::PpeWorn& wearing = state.wearing;
  if (wearing.has(wanted)) return "You are wearing it already.";
  const bool other_gloves = (wanted == PpeItem::heat_gloves && wearing.has(PpeItem::chemical_gloves)) ||
                            (wanted == PpeItem::chemical_gloves && wearing.has(PpeItem::heat_gloves));
  return other_gloves ? "Take the other gloves off first." : "";
}

std::string why_not_take_off_wear(const Machine&, const State& state, const Action& action) {
  return state.wearing.has(wear_of(action)) ? "" : "You are not wearing it.";
}

template <bool worn>
Outcome dressed(Scene& scene, const Action& action) {
  scene.state.wearing.worn[static_cast<std::size_t>(wear_of(action))] = worn;
  return {};
}

std::string why_not_wipe(const Machine&, const State& state, const Action&) {
  return machine::on_floor_kg(state) + state.plant.seal.tray_kg > 0.0 ? "" : "The floor is dry.";
}

Outcome floor_wiped(Scene& scene, const Action&) {
  plant::PlantState& plant = scene.state.plant;
  const bool tray = plant.seal.tray_kg > 0.0;
  plant.floor_kg = plant.floor_water_kg = plant.seal.tray_kg = 0.0;
  scene.state.floor_sign_up = false;
  if (tray)
    return "The floor is wiped, rinsed and dry, the drip tray emptied: product came past the shaft's seal.";
  return "The floor is wiped, rinsed and dry; the sign is put away.";
}

std::string why_not_sign(const Machine&, const State& state, const Action&) {
  return state.floor_sign_up ? "The sign already stands." : "";
}

Outcome sign_put_up(Scene& scene, const Action&) {
  scene.state.floor_sign_up = true;
  return {};
}

}  // namespace

constinit const HandOf<Text> put_on{
    {
        .name = "put_on",
        .meaning = "Put on something that protects.",
        .group = Group::cleaning,
        .why_not = why_not_wear,
        .effect = dressed<true>,
    },
    item,
};

constinit const HandOf<Text> take_off{
    {
        .name = "take_off",
        .meaning = "Take it off again.",
        .group = Group::cleaning,
        .why_not = why_not_take_off_wear,
        .effect = dressed<false>,
    },
    item,
};

constinit const HandOf<> walk_round{{
    .name = "walk_round",
    .meaning = "Walk round the machine.",
    .title = "Walk round",
    .group = Group::cleaning,
    .listed = true,
    .harms = feet_on_floor,
}};

constinit const HandOf<> wipe_floor{{
    .name = "wipe_floor",
    .meaning = "Wipe, rinse and dry the floor, and put the sign away.",
    .title = "Wipe floor",
    .group = Group::cleaning,
    .listed = true,
    .why_not = why_not_wipe,
    .effect = floor_wiped,
}};

constinit const HandOf<> put_up_sign{{
    .name = "put_up_sign",
    .meaning = "Put up the wet-floor sign.",
    .title = "Put up sign",
    .group = Group::cleaning,
    .listed = true,
    .why_not = why_not_sign,
    .effect = sign_put_up,
}};

HandList protection_hands() {
  static constexpr const Hand* list[] = {&put_on, &take_off, &walk_round, &put_up_sign, &wipe_floor};
  return list;
}

}  // namespace stirbench::hands
