#include <algorithm>

#include "sim_core/bench/harms.h"
#include "sim_core/hands/contact.h"
#include "sim_core/machine/record_harm.h"
#include "sim_core/plant/hose.h"
#include "sim_core/plant/upkeep/vanes.h"
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

using machine::Event;
using machine::EventKind;
using machine::HarmId;
using machine::Machine;
using machine::PpeItem;
using machine::WorkPlace;

namespace {

using hands::eyes_covered;
using hands::shaft_rpm;

constexpr double splash_L_per_min =
    0.002;  // drops thrown out of the pail: about a drop a second (a choice of this project)
constexpr double scorched_kg = 0.010;  // burnt matter on the wall and in the product: tasted in a whole batch
constexpr double batch_kg = 45.0;      // of which that is; less product is spoilt by less
constexpr double curdled_norm = 0.2;
constexpr double boil_over_degC =
    95.0;  // spilling product this hot foamed over; colder, it was poured over the brim

// Damage is told once; a lasting condition would otherwise be told every tick.
void record_once(State& state, HarmId id, bool present, double severity, std::vector<Event>& events) {
  machine::Harm& harm = state.harms[static_cast<std::size_t>(id)];
  if (!present) return;
  if (harm.happened) {
    harm.severity = std::max(harm.severity, severity);
  } else {
    machine::record_harm(state, id, severity, events);
  }
}

// Hands that stay in the machine meet what the tick brought.
void hands_that_work(const Machine& machine, State& state, std::vector<Event>& events) {
  if (state.injured) return;
  if (state.lockout.working_at == WorkPlace::vat && shaft_rpm(state.plant) > hands::turning_rpm) {
    machine::record_harm(state, HarmId::moving_agitator, hands::shaft_rpm(state.plant), events);
  }
  if (state.lockout.working_at == WorkPlace::panel) hands::hand_in_panel(machine, state, events);
}

double hottest_degC(const plant::PlantState& plant) { return std::max(plant.well_degC, plant.vat_degC); }

bool spilling(const State& state) { return state.plant.flows.spill_L_per_min > 0.0; }
// What the batch freezer beside the machine shows.
void freezer_events(const State& state, const Before& before, std::vector<Event>& events) {
  const plant::FreezerState& freezer = state.plant.freezer;
  if (freezer.overflow_L_per_min > 0.0 && !before.freezer_running_over) {
    events.push_back({state.tick,
                      EventKind::spilled,
                      -1,
                      "The freezer is over-full: mix runs out of its inlet.",
                      freezer.overflow_L_per_min,
                      {}});
  }
  if (freezer.tripped && !before.freezer_tripped) {
    events.push_back({state.tick,
                      EventKind::overload_tripped,
                      -1,
                      "The freezer's dasher stopped on overload.",
                      freezer.torque_Nm,
                      {}});
  }
}

bool boiling_over(const State& state) {
  return spilling(state) && hottest_degC(state.plant) > boil_over_degC;
}

// What tripped and what ran over the brim in this tick.
void report_trips_and_spills(const State& state, const Before& before, std::vector<Event>& events) {
  const plant::PlantState& plant = state.plant;
  if (plant.overload_tripped && !before.overload_tripped) {
    events.push_back({state.tick,
                      EventKind::overload_tripped,
                      -1,
                      "The drive's overload relay tripped.",
                      plant.flows.motor_A,
                      {}});
  }
  if (plant.cutout_tripped && !before.cutout_tripped) {
    events.push_back(
        {state.tick, EventKind::cutout_tripped, -1, "The heater cut-out tripped.", plant.well_wall_degC, {}});
  }
  if (spilling(state) && !before.spilling) {
    const bool hot = boiling_over(state);
    events.push_back({state.tick,
                      hot ? EventKind::boiled_over : EventKind::spilled,
                      -1,
                      hot ? "Product boils over the brim." : "Product runs over the brim.",
                      plant.flows.spill_L_per_min,
                      {}});
  }
}

}  // namespace

Before before_tick(const State& state) {
  const plant::PlantState& plant = state.plant;
  return {plant.flows.splash_L_per_min, plant.line.jumped, plant.freezer.overflow_L_per_min > 0.0,
          plant.freezer.tripped,        spilling(state),   plant.overload_tripped,
          plant.cutout_tripped};
}

void harms_of_tick(const Machine& machine, State& state, const Before& before, std::vector<Event>& events) {
  const plant::PlantState& plant = state.plant;
  report_trips_and_spills(state, before, events);
  record_once(state, HarmId::boil_over, boiling_over(state), hottest_degC(plant), events);

  // What the jet throws out of the pail; a closed hose to the freezer cannot splash, and who is dressed for
  // it is not burnt.
  const auto burns_bare = [&] {
    const bool dressed =
        state.wearing.has(PpeItem::heat_gloves) && state.wearing.has(PpeItem::apron) && eyes_covered(state);
    return !dressed &&
           product::burn_severity(plant.well_degC, hands::clings_s) != product::BurnSeverity::none;
  };
  if (plant.flows.splash_L_per_min > splash_L_per_min && !(before.splash_L_per_min > splash_L_per_min) &&
      burns_bare()) {
    machine::record_harm(state, HarmId::hot_product, plant.well_degC, events);
  }
  if (plant.line.jumped && !before.hose_jumped) {
    events.push_back({state.tick,
                      EventKind::spilled,
                      -1,
                      "The hose flew off the valve: it had no clamp.",
                      plant.flows.draw_L_per_min,
                      {}});
    if (burns_bare()) machine::record_harm(state, HarmId::hot_product, plant.well_degC, events);
  }
  freezer_events(state, before, events);
  const double gas_ppm =
      std::max(machine::chlorine_gas_ppm(state.bucket), machine::vat_gas_ppm(machine, plant.product));
  record_once(state, HarmId::chemical_gas, gas_ppm >= machine::dangerous_chlorine_ppm, gas_ppm, events);
  hands_that_work(machine, state, events);
  const double agitator_over_mm = plant.agitator_bushing.play_mm - machine.plant.agitator_bushing.limit_mm;
  const double shaft_over_mm = plant.shaft_end_bushing.play_mm - machine.plant.shaft_end_bushing.limit_mm;
  record_once(
      state, HarmId::bushing_worn, agitator_over_mm > 0.0 || shaft_over_mm > 0.0,
      agitator_over_mm > shaft_over_mm ? plant.agitator_bushing.play_mm : plant.shaft_end_bushing.play_mm,
      events);
  record_once(state, HarmId::vanes_torn, plant.vanes.wear_norm >= plant::vanes_torn_norm,
              plant.vanes.wear_norm, events);
  const double burnt_kg =
      plant.product.scorched_kg + plant.deposit_kg_per_m2 * machine.plant.well.heated_area_m2;
  const double tasted_kg = scorched_kg * std::clamp(plant.product.total_kg() / batch_kg, 1.0 / batch_kg, 1.0);
  record_once(state, HarmId::product_scorched, burnt_kg > tasted_kg, burnt_kg, events);
  record_once(state, HarmId::product_curdled, plant.product.egg_curd_norm > curdled_norm,
              plant.product.egg_curd_norm, events);
}

}  // namespace stirbench::bench
