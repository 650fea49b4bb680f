#include <algorithm>
#include <numbers>

#include "sim_core/bench/parts.h"

// When the simulated machine would have hurt somebody or come to harm. Thresholds:
//  * Skin in hot product: 60 degC burns deeply in about 3..5 s (Moritz & Henriques 1947 series, secondary table).
//  * Bare metal touched for about a second: 65 degC (ECMA-287 touch table, < 1 s).
//  * Steam over very hot product: 75 degC with a hand in, 80 degC when the agitator still throws product (common practice).
//  * A turning agitator: more than 5 rpm, a creep that still draws a hand in (a choice of this project).
// The real limits of a kitchen are those of its local codes and its own training.
namespace stirbench::bench {

namespace {

constexpr double hot_product_degC = 60.0;
constexpr double hot_metal_degC = 65.0;
constexpr double steam_hand_degC = 75.0;
constexpr double steam_throw_degC = 80.0;
constexpr double turning_rpm = 5.0;
constexpr double splash_L_per_min = 0.002;  // drops thrown out of the pail: about a drop a second (a choice of this project)
constexpr double hose_bar = 0.02;           // a hose that holds more than this sprays when it comes off
constexpr double scorched_kg = 0.010;    // burnt matter on the wall and in the product: tasted in a whole batch
constexpr double curdled_norm = 0.2;
constexpr double boil_over_degC = 95.0;  // spilling product this hot foamed over; colder, it was poured over the brim

struct HarmText {
  std::string_view key;
  bool injury;
  std::string_view text;
};

constexpr std::array<HarmText, harm_count> texts{{
    {"moving_agitator", true,
     "The agitator was still turning when a hand went in. It catches and crushes fingers. Press Stop, isolator off, lock "
     "on, try to start it, and see that the shaft stands still. Only then reach in."},
    {"hot_product", true,
     "Skin met product above 60 °C. It burns deeply within seconds. Let it cool, open the draw valve slowly, hang a hose into the pail, "
     "and wear gloves and an apron."},
    {"hot_wall", true,
     "A bare hand touched metal above 65 °C. It burns within about a second. Let it cool, or wear heat-proof gloves."},
    {"hot_steam", true,
     "Hot steam and splashes come out of the opening and scald hands and face. Press Stop, let the agitator come to rest, open the "
     "lid away from you, and keep back until the steam has gone."},
    {"bushing_worn", false,
     "A bushing is worn beyond its limit. The agitator wobbles and rubs, and plastic or metal can get into the product. Stop using "
     "the machine and have the bushing replaced; never let the agitator turn in an empty vat."},
    {"product_scorched", false,
     "Product burnt on to the heated wall. It tastes burnt and the layer slows the heating. Keep the agitator turning and the well "
     "covered whenever the heat is on."},
    {"product_curdled", false,
     "The egg set into lumps. The batch is grainy and blocks the draw valve. Keep custard below the temperature its recipe names "
     "and keep it stirred."},
    {"boil_over", false,
     "Product boiled and foamed over the brim. It scalds whoever stands near and makes the floor slippery. Turn the heat off in time, "
     "and fill no higher than the working mark."},
}};

const HarmText& text_of(HarmId harm) { return texts[static_cast<std::size_t>(harm)]; }

void suffer(State& state, HarmId id, double severity, std::vector<Event>& events) {
  Harm& harm = state.harms[static_cast<std::size_t>(id)];
  if (!harm.happened) harm.tick = state.tick;
  harm.severity = harm.happened ? std::max(harm.severity, severity) : severity;
  harm.happened = true;
  events.push_back({state.tick, EventKind::harm, static_cast<std::int32_t>(id), std::string(harm_text(id)), severity,
                    std::string(harm_key(id))});
}

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

std::string_view harm_key(HarmId harm) { return text_of(harm).key; }
std::string_view harm_text(HarmId harm) { return text_of(harm).text; }
bool harm_is_injury(HarmId harm) { return text_of(harm).injury; }

void harms_of_action(State& state, const Action& action, std::vector<Event>& events) {
  const plant::PlantState& plant = state.plant;
  const double rpm = shaft_rpm(plant);
  const bool filled = plant.product.total_kg() > 0.1;
  if (action.kind == ActionKind::reach_in) {
    if (rpm > turning_rpm) suffer(state, HarmId::moving_agitator, rpm, events);
    if (filled && plant.vat_degC > hot_product_degC) suffer(state, HarmId::hot_product, plant.vat_degC, events);
    if (filled && plant.vat_degC > steam_hand_degC) suffer(state, HarmId::hot_steam, plant.vat_degC, events);
  }
  if (action.kind == ActionKind::open_lid && filled && plant.vat_degC > steam_throw_degC && rpm > turning_rpm) {
    suffer(state, HarmId::hot_steam, plant.vat_degC, events);
  }
  if (action.kind == ActionKind::remove_hose && plant.freezer.line_bar > hose_bar && plant.well_degC > hot_product_degC) {
    suffer(state, HarmId::hot_product, plant.well_degC, events);
  }
  if (action.kind == ActionKind::touch_wall) {
    const double wall_degC = std::max(plant.well_wall_degC, plant.vat_wall_degC);
    if (wall_degC > hot_metal_degC) suffer(state, HarmId::hot_wall, wall_degC, events);
  }
}

Before look_before(const State& state) {
  const plant::PlantState& plant = state.plant;
  return {plant.flows.splash_L_per_min, plant.freezer.overflow_L_per_min > 0.0, plant.freezer.tripped, spilling(state), plant.overload_tripped,
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

  // What the jet throws out of the pail; a closed hose to the freezer cannot splash.
  if (plant.well_degC > hot_product_degC && plant.flows.splash_L_per_min > splash_L_per_min &&
      !(before.splash_L_per_min > splash_L_per_min)) {
    suffer(state, HarmId::hot_product, plant.well_degC, events);
  }
  freezer_events(state, before, events);
  const double agitator_over_mm = plant.agitator_bushing.play_mm - machine.plant.agitator_bushing.limit_mm;
  const double shaft_over_mm = plant.shaft_end_bushing.play_mm - machine.plant.shaft_end_bushing.limit_mm;
  suffer_once(state, HarmId::bushing_worn, agitator_over_mm > 0.0 || shaft_over_mm > 0.0,
              agitator_over_mm > shaft_over_mm ? plant.agitator_bushing.play_mm : plant.shaft_end_bushing.play_mm, events);
  const double burnt_kg =
      plant.product.scorched_kg + plant.deposit_kg_per_m2 * machine.plant.well.heated_area_m2;
  suffer_once(state, HarmId::product_scorched, burnt_kg > scorched_kg, burnt_kg, events);
  suffer_once(state, HarmId::product_curdled, plant.product.egg_curd_norm > curdled_norm, plant.product.egg_curd_norm,
              events);
}

}  // namespace stirbench::bench
