#include <algorithm>
#include <numbers>

#include "sim_core/bench/lockout_parts.h"
#include "sim_core/bench/harms.h"
#include "sim_core/plant/hose.h"
#include "sim_core/product/burns.h"

// When the simulated machine would have hurt a person or been damaged. Thresholds:
//  * Skin in hot product and bare hands on metal: the published time-temperature tables of product/burns.h.
//    Product clings about 3 s until it is rinsed off; a touch lasts 1 s; a hand that works stays a minute
//    (choices).
//  * Steam over very hot product: 75 degC with a hand in, 80 degC when the agitator still throws product
//    (common practice).
//  * A turning agitator: more than 5 rpm, a creep that still draws a hand in (a choice of this project).
// The real limits of a kitchen are those of its local codes and its own training.
namespace stirbench::bench {

namespace {

constexpr double clings_s = 3.0;
constexpr double touch_s = 1.0;
constexpr double works_s = 60.0;
constexpr double glove_degC = 150.0;       // dry heat-proof gloves (common practice)
constexpr double shoes_hold_kg = 1.0;      // choice
constexpr double steam_hand_degC = 75.0;
constexpr double steam_throw_degC = 80.0;
constexpr double turning_rpm = 5.0;
constexpr double splash_L_per_min = 0.002;  // drops thrown out of the pail: about a drop a second (a choice of this project)
constexpr double hose_bar = 0.02;           // a hose that holds more than this sprays when it comes off
constexpr double scorched_kg = 0.010;    // burnt matter on the wall and in the product: tasted in a whole batch
constexpr double batch_kg = 45.0;        // of which that is; less product is spoilt by less
constexpr double curdled_norm = 0.2;
constexpr double boil_over_degC = 95.0;  // spilling product this hot foamed over; colder, it was poured over the brim

// Damage is told once; a lasting condition would otherwise be told every tick.
void suffer_once(State& state, HarmId id, bool present, double severity, std::vector<Event>& events) {
  Harm& harm = state.harms[static_cast<std::size_t>(id)];
  if (!present) return;
  if (harm.happened) {
    harm.severity = std::max(harm.severity, severity);
  } else {
    suffer(state, id, severity, events);
  }
}

double shaft_rpm(const plant::PlantState& plant) { return plant.shaft_rad_per_s * 30.0 / std::numbers::pi; }

bool eyes_covered(const State& state) {
  return state.wearing.has(Wear::eye_protection) || state.wearing.has(Wear::face_shield);
}

void hand_in_vat(const Machine& machine, State& state, double contact_s, std::vector<Event>& events) {
  const plant::PlantState& plant = state.plant;
  const double irritant = vat_irritant_index(machine, plant.product);
  if (irritant >= 1.0 && !state.wearing.has(Wear::chemical_gloves)) suffer(state, HarmId::chemical_burn, irritant, events);
  const double rpm = shaft_rpm(plant);
  const bool filled = plant.product.total_kg() > 0.1;
  if (rpm > turning_rpm) suffer(state, HarmId::moving_agitator, rpm, events);
  if (filled && product::burn_severity(plant.vat_degC, contact_s) != product::BurnSeverity::none) {
    suffer(state, HarmId::hot_product, plant.vat_degC, events);
  }
  if (filled && plant.vat_degC > steam_hand_degC) suffer(state, HarmId::hot_steam, plant.vat_degC, events);
  const bool gloved = state.wearing.has(Wear::heat_gloves);
  const double wall_degC = std::max(plant.well_wall_degC, plant.vat_wall_degC);
  if (contact_s > clings_s && !gloved && product::touch_burns(product::Surface::bare_metal, wall_degC, contact_s)) {
    suffer(state, HarmId::hot_wall, wall_degC, events);
  }
}

void hand_in_panel(const Machine& machine, State& state, std::vector<Event>& events) {
  const double live_V = terminals_V(machine, state);
  const double stored_V = state.lockout.capacitor_V;
  if (live_V > touch_V || stored_V > released_V) {
    suffer(state, HarmId::live_terminals, live_V > touch_V ? live_V : stored_V, events);
  }
}

void open_lid(State& state, std::vector<Event>& events) {
  const plant::PlantState& plant = state.plant;
  const bool thrown = plant.product.total_kg() > 0.1 && plant.vat_degC > steam_throw_degC && shaft_rpm(plant) > turning_rpm;
  const bool covered = state.wearing.has(Wear::face_shield) && state.wearing.has(Wear::heat_gloves);
  if (thrown && !covered) suffer(state, HarmId::hot_steam, plant.vat_degC, events);
}

void touch_wall(State& state, std::vector<Event>& events) {
  const double wall_degC = std::max(state.plant.well_wall_degC, state.plant.vat_wall_degC);
  const bool gloved = state.wearing.has(Wear::heat_gloves) && wall_degC < glove_degC;
  if (!gloved && product::touch_burns(product::Surface::bare_metal, wall_degC, touch_s)) {
    suffer(state, HarmId::hot_wall, wall_degC, events);
  }
}

void hose_off(State& state, std::vector<Event>& events) {
  const plant::PlantState& plant = state.plant;
  const double held_bar = plant.freezer.line_bar;
  const bool burns = product::burn_severity(plant.well_degC, clings_s) != product::BurnSeverity::none;
  if (held_bar > hose_bar && burns) suffer(state, HarmId::hot_product, plant.well_degC, events);
  if (held_bar > released_bar) suffer(state, HarmId::hose_pressure, held_bar, events);
  // What it still holds runs over the hand that takes it off.
  const double held_degC = plant::hose_degC(plant);
  const bool runs = plant.line.held.total_kg() > 0.05 && !state.wearing.has(Wear::heat_gloves);
  if (runs && product::burn_severity(held_degC, clings_s) != product::BurnSeverity::none) suffer(state, HarmId::hot_product, held_degC, events);
}

// Shoes that grip hold on a film, not in a puddle.
void walk(State& state, std::vector<Event>& events) {
  const double holds_kg = state.wearing.has(Wear::safety_shoes) ? shoes_hold_kg : wet_floor_kg;
  if (state.plant.floor_kg > holds_kg) suffer(state, HarmId::slipped, state.plant.floor_kg, events);
}

void chemicals(const Machine& machine, State& state, const Action& action, std::vector<Event>& events) {
  const bool gloved = state.wearing.has(Wear::chemical_gloves);
  const bool covered = gloved && eyes_covered(state);
  const double corrosive = corrosive_index(state.bucket);
  if (action.kind == ActionKind::add_water && corrosive >= 1.0 && !covered) {
    suffer(state, HarmId::chemical_burn, corrosive, events);  // water on a concentrate boils and spits
  }
  if (action.kind == ActionKind::add_chemical || action.kind == ActionKind::dose_vat) {
    const Chemical& chemical = machine.chemicals[static_cast<std::size_t>(machine.chemical_index(action.name))];
    const double index = chemical.active_norm / chemical.corrosive_norm;
    if (index >= 1.0 && !covered) suffer(state, HarmId::chemical_burn, index, events);
  }
  if (action.kind == ActionKind::scrub || action.kind == ActionKind::brush) {
    const double irritant = irritant_index(state.bucket);
    if ((corrosive >= 1.0 && !covered) || (irritant >= 1.0 && !gloved)) {
      suffer(state, HarmId::chemical_burn, irritant, events);
    }
  }
}

// Hands that stay in the machine meet what the tick brought.
void hands_that_work(const Machine& machine, State& state, std::vector<Event>& events) {
  if (state.injured) return;
  if (state.lockout.working_at == WorkPlace::vat && shaft_rpm(state.plant) > turning_rpm) {
    suffer(state, HarmId::moving_agitator, shaft_rpm(state.plant), events);
  }
  if (state.lockout.working_at == WorkPlace::panel) hand_in_panel(machine, state, events);
}

double hottest_degC(const plant::PlantState& plant) { return std::max(plant.well_degC, plant.vat_degC); }

bool spilling(const State& state) { return state.plant.flows.spill_L_per_min > 0.0; }
// What the batch freezer beside the machine shows.
void freezer_events(const State& state, const Before& before, std::vector<Event>& events) {
  const plant::FreezerState& freezer = state.plant.freezer;
  if (freezer.overflow_L_per_min > 0.0 && !before.freezer_running_over) {
    events.push_back({state.tick, EventKind::spilled, -1, "The freezer is over-full: mix runs out of its inlet.",
                      freezer.overflow_L_per_min, {}});
  }
  if (freezer.tripped && !before.freezer_tripped) {
    events.push_back({state.tick, EventKind::overload_tripped, -1, "The freezer's dasher stopped on overload.",
                      freezer.torque_Nm, {}});
  }
}

bool boiling_over(const State& state) { return spilling(state) && hottest_degC(state.plant) > boil_over_degC; }

}  // namespace

void suffer(State& state, HarmId id, double severity, std::vector<Event>& events) {
  Harm& harm = state.harms[static_cast<std::size_t>(id)];
  if (!harm.happened) harm.tick = state.tick;
  harm.severity = harm.happened ? std::max(harm.severity, severity) : severity;
  harm.happened = true;
  if (harm_is_injury(id) && !state.injured) {
    state.injured = true;
    state.injury = id;
  }
  events.push_back({state.tick, EventKind::harm, static_cast<std::int32_t>(id), std::string(harm_text(id)), severity,
                    std::string(harm_key(id))});
}

void harms_of_action(const Machine& machine, State& state, const Action& action, std::vector<Event>& events) {
  switch (action.kind) {
    case ActionKind::reach_in: hand_in_vat(machine, state, clings_s, events); break;
    case ActionKind::begin_work:
      if (action.name == "panel") hand_in_panel(machine, state, events);
      else hand_in_vat(machine, state, works_s, events);
      break;
    case ActionKind::open_lid: open_lid(state, events); break;
    case ActionKind::touch_wall: touch_wall(state, events); break;
    case ActionKind::remove_hose:
      hose_off(state, events);
      break;
    case ActionKind::take_valve_out:
      if (!state.lockout.spring_eased && !eyes_covered(state)) suffer(state, HarmId::valve_spring, 1.0, events);
      break;
    case ActionKind::open_refrigerant: suffer(state, HarmId::refrigerant, 1.0, events); break;
    case ActionKind::walk_round:
    case ActionKind::empty_pail: walk(state, events); break;
    case ActionKind::add_water:
    case ActionKind::add_chemical:
    case ActionKind::dose_vat:
    case ActionKind::brush:
    case ActionKind::scrub: chemicals(machine, state, action, events); break;
    default: break;
  }
}

Before look_before(const State& state) {
  const plant::PlantState& plant = state.plant;
  return {plant.flows.splash_L_per_min, plant.line.jumped, plant.freezer.overflow_L_per_min > 0.0, plant.freezer.tripped, spilling(state), plant.overload_tripped,
          plant.cutout_tripped};
}

void harms_of_tick(const Machine& machine, State& state, const Before& before, std::vector<Event>& events) {
  const plant::PlantState& plant = state.plant;
  if (plant.overload_tripped && !before.overload_tripped) {
    events.push_back({state.tick, EventKind::overload_tripped, -1, "The drive's overload relay tripped.",
                      plant.flows.motor_A, {}});
  }
  if (plant.cutout_tripped && !before.cutout_tripped) {
    events.push_back({state.tick, EventKind::cutout_tripped, -1, "The heater cut-out tripped.", plant.well_wall_degC, {}});
  }
  if (spilling(state) && !before.spilling) {
    const bool hot = boiling_over(state);
    events.push_back({state.tick, hot ? EventKind::boiled_over : EventKind::spilled, -1,
                      hot ? "Product boils over the brim." : "Product runs over the brim.",
                      plant.flows.spill_L_per_min, {}});
  }
  suffer_once(state, HarmId::boil_over, boiling_over(state), hottest_degC(plant), events);

  // What the jet throws out of the pail; a closed hose to the freezer cannot splash, and who is dressed for
  // it is not burnt.
  const bool burns = product::burn_severity(plant.well_degC, clings_s) != product::BurnSeverity::none;
  const bool dressed =
      state.wearing.has(Wear::heat_gloves) && state.wearing.has(Wear::apron) && eyes_covered(state);
  if (burns && !dressed && plant.flows.splash_L_per_min > splash_L_per_min &&
      !(before.splash_L_per_min > splash_L_per_min)) {
    suffer(state, HarmId::hot_product, plant.well_degC, events);
  }
  if (plant.line.jumped && !before.hose_jumped) {
    events.push_back({state.tick, EventKind::spilled, -1, "The hose flew off the valve: it had no clamp.", plant.flows.draw_L_per_min, {}});
    if (burns && !dressed) suffer(state, HarmId::hot_product, plant.well_degC, events);
  }
  freezer_events(state, before, events);
  const double gas_ppm = std::max(chlorine_gas_ppm(state.bucket), vat_gas_ppm(machine, plant.product));
  suffer_once(state, HarmId::chemical_gas, gas_ppm >= dangerous_chlorine_ppm, gas_ppm, events);
  hands_that_work(machine, state, events);
  const double agitator_over_mm = plant.agitator_bushing.play_mm - machine.plant.agitator_bushing.limit_mm;
  const double shaft_over_mm = plant.shaft_end_bushing.play_mm - machine.plant.shaft_end_bushing.limit_mm;
  suffer_once(state, HarmId::bushing_worn, agitator_over_mm > 0.0 || shaft_over_mm > 0.0,
              agitator_over_mm > shaft_over_mm ? plant.agitator_bushing.play_mm : plant.shaft_end_bushing.play_mm, events);
  const double burnt_kg =
      plant.product.scorched_kg + plant.deposit_kg_per_m2 * machine.plant.well.heated_area_m2;
  const double tasted_kg = scorched_kg * std::clamp(plant.product.total_kg() / batch_kg, 1.0 / batch_kg, 1.0);
  suffer_once(state, HarmId::product_scorched, burnt_kg > tasted_kg, burnt_kg, events);
  suffer_once(state, HarmId::product_curdled, plant.product.egg_curd_norm > curdled_norm, plant.product.egg_curd_norm,
              events);
}

}  // namespace stirbench::bench
