#include <algorithm>

#include "sim_core/hands/contact.h"
#include "sim_core/hands/handles.h"
#include "sim_core/machine/number_words.h"
#include "sim_core/plant/pace.h"
#include "sim_core/plant/upkeep/cleaning.h"

// Bucket, chemicals, brush and swab.
namespace stirbench::hands {

namespace {

using machine::Bucket;
using machine::Chemical;
using machine::ChemicalKind;

constexpr double bucket_holds_kg = 12.0;  // a usual wash bucket (choice)
constexpr double empty_kg = 0.1;          // less in the vat counts as empty
constexpr std::array<std::string_view, 2> swab_spots{"vat", "valve"};

constexpr Number water_kg{"kg", 0.1, 12.0, "kg", "how much"};
constexpr Text chemical{"chemical", Catalogue::chemical, "chemical id, as the content names it"};
constexpr Number concentrate_kg{"kg", 0.001, 12.0, "kg", "how much of the concentrate"};
constexpr Text spot{"spot", listed<swab_spots>, "vat or valve"};

const Chemical& chemical_of(const Machine& machine, const Action& action) {
  return machine.chemicals[static_cast<std::size_t>(machine.chemical_index(action.get(chemical)))];
}

std::string why_not_add(const State& state, double kg) {
  return bucket_kg(state.bucket) + kg > bucket_holds_kg ? "The bucket holds 12 kg; that would run over." : "";
}

std::string why_not_add_water(const Machine&, const State& state, const Action& action) {
  return why_not_add(state, action.get(water_kg));
}

Outcome water_added(Scene& scene, const Action& action) {
  scene.state.bucket.water_kg += action.get(water_kg);
  return {};
}

std::string why_not_add_chemical(const Machine&, const State& state, const Action& action) {
  return why_not_add(state, action.get(concentrate_kg));
}

void harms_of_concentrate(Scene& scene, const Action& action) {
  splash_of(scene, chemical_of(scene.machine, action));
}

Outcome chemical_added(Scene& scene, const Action& action) {
  const Chemical& what = chemical_of(scene.machine, action);
  const double kg = action.get(concentrate_kg);
  const double active_kg = kg * what.active_norm;
  Bucket& bucket = scene.state.bucket;
  bucket.chemical_kg += kg;
  bucket.active_kg += active_kg;
  bucket.irritant_kg += active_kg / what.irritant_norm;
  bucket.corrosive_kg += active_kg / what.corrosive_norm;
  const double mol = active_kg * what.reactive_mol_per_kg;
  if (what.kind == ChemicalKind::acid) bucket.acid_mol += mol;
  if (what.kind == ChemicalKind::chlorine) bucket.chlorine_mol += mol;
  return {};
}

std::string why_not_from_bucket(const Machine&, const State& state, const Action&) {
  return bucket_kg(state.bucket) > 0.0 ? "" : "The bucket is empty.";
}

Outcome bucket_emptied(Scene& scene, const Action&) {
  scene.state.bucket = {};
  return {};
}

std::string why_not_dose(const Machine&, const State& state, const Action&) {
  return state.plant.fittings.lid_open ? "" : "The lid is closed.";
}

Outcome vat_dosed(Scene& scene, const Action& action) {
  const Chemical& what = chemical_of(scene.machine, action);
  const double kg = action.get(concentrate_kg);
  plant::dose(scene.machine.plant, scene.state.plant, active_of(what.kind), kg, kg * what.active_norm);
  return {};
}

std::string why_not_brush(const Machine&, const State& state, const Action&) {
  if (state.plant.assembly.hand < 0) return "Pick up the part that you want to brush.";
  return bucket_kg(state.bucket) > 0.0 ? "" : "The wash bucket is empty.";
}

// Whether the wash bucket holds cleaner as strong as a label asks for.
bool bucket_cleans(const Machine& machine, const Bucket& bucket) {
  if (bucket.acid_mol > 0.0 || bucket.chlorine_mol > 0.0) return false;
  return std::any_of(machine.chemicals.begin(), machine.chemicals.end(), [&](const Chemical& one) {
    return one.kind == ChemicalKind::alkaline && strength_norm(bucket) >= one.use_low_norm;
  });
}

Outcome part_brushed(Scene& scene, const Action&) {
  plant::AssemblyState& assembly = scene.state.plant.assembly;
  plant::PartItem& held = assembly.items[static_cast<std::size_t>(assembly.hand)];
  // Cleaner leaves a fiftieth, plain water three tenths (choice).
  held.soil_norm *= bucket_cleans(scene.machine, scene.state.bucket) ? 0.02 : 0.3;
  held.greased = false;
  return {};
}

std::string why_not_swab(const Machine&, const State& state, const Action& action) {
  const plant::PlantState& plant = state.plant;
  if (action.get(spot) == "valve")
    return plant::in_place(plant.assembly, plant::PartId::valve_plunger) ? "Take the plunger out first." : "";
  if (!plant.fittings.lid_open) return "The lid is closed.";
  if (plant.shaft_rad_per_s > 0.0) return "The shaft still turns. Press Stop and wait.";
  return plant.product.total_kg() > empty_kg ? "The vat is not empty." : "";
}

Outcome swabbed(Scene& scene, const Action& action) {
  plant::PlantState& plant = scene.state.plant;
  const bool vat = action.get(spot) == "vat";
  const double reading = plant::swab_reading_ug(vat ? plant::vat_soil_ug(scene.machine.plant, plant)
                                                    : plant::valve_soil_ug(plant));
  (vat ? plant.soil.swab_vat : plant.soil.swab_valve) = reading;
  return "The swab reads " + machine::with_unit(reading, 0, "µg of soil on 100 cm²") +
         (reading <= plant::clean_ug ? ": clean." : ". Above 100 it is not clean.");
}

double swabbed_ug(const State& state, const Action& action) {
  const plant::Soil& soil = state.plant.soil;
  return action.get(spot) == "vat" ? soil.swab_vat : soil.swab_valve;
}

}  // namespace

constinit const HandOf<Number> add_water{
    {
        .name = "add_water",
        .meaning = "Run warm water into the wash bucket.",
        .group = Group::cleaning,
        .why_not = why_not_add_water,
        .harms = splash_of_concentrate,
        .effect = water_added,
    },
    water_kg,
};

constinit const HandOf<Text, Number> add_chemical{
    {
        .name = "add_chemical",
        .meaning = "Measure a cleaning chemical into the wash bucket.",
        .group = Group::cleaning,
        .why_not = why_not_add_chemical,
        .harms = harms_of_concentrate,
        .effect = chemical_added,
    },
    chemical,
    concentrate_kg};

constinit const HandOf<> scrub{{
    .name = "scrub",
    .meaning = "Dip hands and brush into the wash bucket and scrub.",
    .group = Group::cleaning,
    .why_not = why_not_from_bucket,
    .harms = hands_in_bucket,
}};

constinit const HandOf<> empty_bucket{{
    .name = "empty_bucket",
    .meaning = "Pour the wash bucket away and rinse it.",
    .group = Group::cleaning,
    .why_not = why_not_from_bucket,
    .effect = bucket_emptied,
}};

constinit const HandOf<Text, Number> dose_vat{
    {
        .name = "dose_vat",
        .meaning = "Measure a cleaning chemical into what is in the vat.",
        .group = Group::cleaning,
        .why_not = why_not_dose,
        .harms = harms_of_concentrate,
        .effect = vat_dosed,
    },
    chemical,
    concentrate_kg};

constinit const HandOf<> brush{{
    .name = "brush",
    .meaning = "Brush the part that you hold in the wash bucket and rinse it under the tap.",
    .group = Group::cleaning,
    .why_not = why_not_brush,
    .harms = hands_in_bucket,
    .effect = part_brushed,
}};

constinit const HandOf<Text> swab{
    {
        .name = "swab",
        .meaning = "Wipe a swab over 100 cm2 and read how much soil it found.",
        .group = Group::cleaning,
        .why_not = why_not_swab,
        .effect = swabbed,
        .value = swabbed_ug,
    },
    spot,
};

HandList washing_hands() {
  static constexpr const Hand* list[] = {&add_water, &add_chemical, &scrub, &empty_bucket,
                                         &dose_vat,  &brush,        &swab};
  return list;
}

}  // namespace stirbench::hands
