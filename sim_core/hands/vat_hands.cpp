#include "sim_core/hands/contact.h"
#include "sim_core/hands/handles.h"
#include "sim_core/plant/plant.h"

// Into the open vat, and its outside.
namespace stirbench::hands {

namespace {

constexpr Text ingredient{"ingredient", Catalogue::ingredient, "ingredient id, as the content names it"};
constexpr Number kg{"kg", 0.001, 60.0, "kg", "how much"};
constexpr OptionalNumber degC{
    "degC", -2.0, 100.0, "degC", std::nullopt, "its temperature; the ingredient's usual one when left out"};
constexpr std::array<std::string_view, static_cast<std::size_t>(plant::BarePart::count)> bare_parts{
    "lid", "rim", "draw_valve", "drain", "pump"};
constexpr Text bare_part{"part", listed<bare_parts>, "lid, rim, draw_valve, drain or pump"};
constexpr Flag rinse_on{"on", "true: water runs, false: shut"};

std::string why_not_through_lid(const Machine&, const State& state, const Action&) {
  return state.plant.fittings.lid_open ? "" : "The lid is closed.";
}

Outcome poured(Scene& scene, const Action& action) {
  const Machine& machine = scene.machine;
  const int index = machine.ingredient_index(action.get(ingredient));
  const product::Ingredient& what = machine.ingredients[static_cast<std::size_t>(index)];
  const double floor_before_kg = scene.state.plant.floor_kg;
  plant::pour(machine.plant, scene.state.plant, what, action.get(kg),
              action.get(degC).value_or(what.supply_degC));
  tell_spill(scene, action, floor_before_kg, "The vat is full; the rest ran over the brim.");
  return {};
}

std::string why_not_rinse(const Machine&, const State& state, const Action& action) {
  const plant::Fittings& fittings = state.plant.fittings;
  const bool wanted = action.get(rinse_on);
  if (wanted && fittings.rinse_on) return "The rinse water already runs.";
  if (!wanted && !fittings.rinse_on) return "The rinse water is already shut.";
  return wanted && !fittings.lid_open ? "The lid is closed." : "";
}

Outcome rinse_turned(Scene& scene, const Action& action) {
  scene.state.plant.fittings.rinse_on = action.get(rinse_on);
  return {};
}

std::string why_not_sample(const Machine&, const State& state, const Action&) {
  if (!state.plant.fittings.lid_open) return "The lid is closed.";
  return state.plant.product.total_kg() > 0.0 ? "" : "The vat is empty.";
}

// What eye and tongue find in a spoonful, the worst first.
std::string_view taste(const product::Product& product) {
  if (product.egg_curd_norm > 0.1) return "It is curdled: soft lumps of set egg.";
  if (product.scorched_kg > 0.002) return "It tastes burnt.";
  if (product.gum_lumps_kg > 0.002) return "Lumps of stabiliser that have not dissolved.";
  if (product.dry_powder_kg > 0.01) return "Dry powder that has not mixed in.";
  if (product.undissolved_sugar_kg > 0.01) return "Grains of sugar that have not dissolved.";
  return "It is smooth.";
}

Outcome sampled(Scene& scene, const Action&) {
  State& state = scene.state;
  state.sample_degC = state.plant.vat_degC;
  state.sample_tick = state.tick;
  return std::string(taste(state.plant.product));
}

void harms_of_reaching_in(Scene& scene, const Action&) { hand_in_vat(scene, clings_s); }

void harms_of_touching_part(Scene& scene, const Action& action) {
  hand_on_part(scene, static_cast<plant::BarePart>(index_of(bare_part, action.get(bare_part))));
}

double sampled_degC(const State& state, const Action&) { return state.sample_degC; }

}  // namespace

constinit const HandOf<Text, Number, OptionalNumber> pour{
    {
        .name = "pour",
        .meaning = "Pour an ingredient into the open vat. What does not fit below the brim spills.",
        .why_not = why_not_through_lid,
        .effect = poured,
        .needs_valve = true,
    },
    ingredient,
    kg,
    degC};

constinit const HandOf<Flag> rinse{
    {
        .name = "rinse",
        .meaning = "Rinse gun into the open vat.",
        .why_not = why_not_rinse,
        .effect = rinse_turned,
        .needs_valve = true,
    },
    rinse_on,
};

constinit const HandOf<> reach_in{{
    .name = "reach_in",
    .meaning = "Reach into the open vat with a hand. Never do this on a machine that is not isolated.",
    .why_not = why_not_through_lid,
    .harms = harms_of_reaching_in,
}};

constinit const HandOf<> touch_wall{{
    .name = "touch_wall",
    .meaning = "Lay a bare hand on the insulated outside of vat and well.",
    .harms = hand_on_wall,
}};

constinit const HandOf<Text> touch_part{
    {
        .name = "touch_part",
        .meaning = "Lay a bare hand on metal that has no insulation.",
        .harms = harms_of_touching_part,
    },
    bare_part,
};

constinit const HandOf<> take_sample{{
    .name = "take_sample",
    .meaning = "Take a spoon of product: thermometer, look and taste.",
    .why_not = why_not_sample,
    .effect = sampled,
    .value = sampled_degC,
}};

HandList vat_hands() {
  static constexpr const Hand* list[] = {&pour, &rinse, &reach_in, &touch_wall, &touch_part, &take_sample};
  return list;
}

}  // namespace stirbench::hands
