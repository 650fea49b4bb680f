#include "sim_core/hands/contact.h"

#include <algorithm>
#include <numbers>

#include "sim_core/machine/record_harm.h"
#include "sim_core/machine/spills.h"
#include "sim_core/plant/hose.h"
#include "sim_core/product/burns.h"

// Thresholds:
//  * Skin in hot product and bare hands on metal: the published time-temperature tables of product/burns.h. A
//    touch lasts 1 s. The outside of the walls is as warm as their insulation leaves it; lid, rim, draw
//    valve, drain and pump body have none (plant/outside.h).
//  * Steam over very hot product: 75 degC with a hand in, 80 degC when the agitator still throws product
//    (common practice).
// The real limits of a kitchen are those of its local codes and its own training.
namespace stirbench::hands {

namespace {

using machine::HarmId;
using machine::PpeItem;

constexpr double touch_s = 1.0;
constexpr double glove_degC = 150.0;   // dry heat-proof gloves (common practice)
constexpr double shoes_hold_kg = 1.0;  // choice
constexpr double steam_hand_degC = 75.0;
constexpr double steam_throw_degC = 80.0;
constexpr double hose_bar = 0.02;  // a hose that holds more than this sprays when it comes off

void harm(Scene& scene, HarmId id, double severity) {
  machine::record_harm(scene.state, id, severity, scene.events);
}

bool burns(double degC, double contact_s) {
  return product::burn_severity(degC, contact_s) != product::BurnSeverity::none;
}

// The inside: what a hand in the vat works against.
double hottest_wall_degC(const plant::PlantState& plant) {
  return std::max(plant.well_wall_degC, plant.vat_wall_degC);
}

void touch_metal(Scene& scene, double degC) {
  const bool gloved = scene.state.wearing.has(PpeItem::heat_gloves) && degC < glove_degC;
  if (!gloved && product::touch_burns(product::Surface::bare_metal, degC, touch_s))
    harm(scene, HarmId::hot_wall, degC);
}

// Gloves, and eyes covered.
bool dressed_for_chemicals(const State& state) {
  return state.wearing.has(PpeItem::chemical_gloves) && eyes_covered(state);
}

}  // namespace

bool eyes_covered(const State& state) {
  return state.wearing.has(PpeItem::eye_protection) || state.wearing.has(PpeItem::face_shield);
}

double shaft_rpm(const plant::PlantState& plant) { return plant.shaft_rad_per_s * 30.0 / std::numbers::pi; }

void hand_in_vat(Scene& scene, double contact_s) {
  const State& state = scene.state;
  const plant::PlantState& plant = state.plant;
  const double irritant = vat_irritant_index(scene.machine, plant.product);
  if (irritant >= 1.0 && !state.wearing.has(PpeItem::chemical_gloves))
    harm(scene, HarmId::chemical_burn, irritant);
  const double rpm = shaft_rpm(plant);
  const bool filled = plant.product.total_kg() > 0.1;
  if (rpm > turning_rpm) harm(scene, HarmId::moving_agitator, rpm);
  if (filled && burns(plant.vat_degC, contact_s)) harm(scene, HarmId::hot_product, plant.vat_degC);
  if (filled && plant.vat_degC > steam_hand_degC) harm(scene, HarmId::hot_steam, plant.vat_degC);
  const bool gloved = state.wearing.has(PpeItem::heat_gloves);
  const double wall_degC = hottest_wall_degC(plant);
  if (contact_s > clings_s && !gloved &&
      product::touch_burns(product::Surface::bare_metal, wall_degC, contact_s)) {
    harm(scene, HarmId::hot_wall, wall_degC);
  }
}

void hand_in_panel(const Machine& machine, State& state, std::vector<Event>& events) {
  const double live_V = terminals_V(machine, state);
  const double stored_V = state.lockout.capacitor_V;
  if (live_V > machine::touch_V || stored_V > machine::released_V) {
    machine::record_harm(state, HarmId::live_terminals, live_V > machine::touch_V ? live_V : stored_V,
                         events);
  }
}

void steam_under_lid(Scene& scene, const Action&) {
  const State& state = scene.state;
  const plant::PlantState& plant = state.plant;
  const bool thrown =
      plant.product.total_kg() > 0.1 && plant.vat_degC > steam_throw_degC && shaft_rpm(plant) > turning_rpm;
  const bool covered = state.wearing.has(PpeItem::face_shield) && state.wearing.has(PpeItem::heat_gloves);
  if (thrown && !covered) harm(scene, HarmId::hot_steam, plant.vat_degC);
}

void hand_on_wall(Scene& scene, const Action&) {
  const plant::MachineSpec& spec = scene.machine.plant;
  touch_metal(scene, std::max(plant::vat_outside_degC(spec, scene.state.plant),
                              plant::well_outside_degC(spec, scene.state.plant)));
}

void hand_on_part(Scene& scene, plant::BarePart part) {
  touch_metal(scene, plant::bare_part_degC(scene.state.plant, part));
}

void hand_under_hose(Scene& scene, const Action&) {
  const State& state = scene.state;
  const plant::PlantState& plant = state.plant;
  const double held_bar = plant.freezer.line_bar;
  if (held_bar > hose_bar && burns(plant.well_degC, clings_s))
    harm(scene, HarmId::hot_product, plant.well_degC);
  if (held_bar > machine::released_bar) harm(scene, HarmId::hose_pressure, held_bar);
  // What it still holds runs over the hand that takes it off.
  const double held_degC = plant::hose_degC(plant);
  const bool runs = plant.line.held.total_kg() > 0.05 && !state.wearing.has(PpeItem::heat_gloves);
  if (runs && burns(held_degC, clings_s)) harm(scene, HarmId::hot_product, held_degC);
}

// Shoes that grip hold on a film, not in a puddle.
void feet_on_floor(Scene& scene, const Action&) {
  const double holds_kg =
      scene.state.wearing.has(PpeItem::safety_shoes) ? shoes_hold_kg : machine::wet_floor_kg;
  const double lies_kg = machine::on_floor_kg(scene.state);
  if (lies_kg > holds_kg) harm(scene, HarmId::slipped, lies_kg);
}

void splash_of_concentrate(Scene& scene, const Action&) {
  // Water on a concentrate boils and spits.
  const double corrosive = corrosive_index(scene.state.bucket);
  if (corrosive >= 1.0 && !dressed_for_chemicals(scene.state)) harm(scene, HarmId::chemical_burn, corrosive);
}

void splash_of(Scene& scene, const machine::Chemical& chemical) {
  const double index = chemical.active_norm / chemical.corrosive_norm;
  if (index >= 1.0 && !dressed_for_chemicals(scene.state)) harm(scene, HarmId::chemical_burn, index);
}

void hands_in_bucket(Scene& scene, const Action&) {
  const State& state = scene.state;
  const double corrosive = corrosive_index(state.bucket);
  const double irritant = irritant_index(state.bucket);
  const bool gloved = state.wearing.has(PpeItem::chemical_gloves);
  if ((corrosive >= 1.0 && !dressed_for_chemicals(state)) || (irritant >= 1.0 && !gloved))
    harm(scene, HarmId::chemical_burn, irritant);
}

void tell_spill(Scene& scene, const Action& action, double floor_before_kg, const char* words) {
  const double spilled_kg = scene.state.plant.floor_kg - floor_before_kg;
  if (spilled_kg <= 0.0) return;
  scene.events.push_back({scene.state.tick, EventKind::spilled, number_of(*action.hand()), words, spilled_kg,
                          first_text(action)});
}

}  // namespace stirbench::hands
