#include <algorithm>
#include <cmath>

#include "sim_core/bench/assembly_hands.h"
#include "sim_core/bench/fault_readings.h"
#include "sim_core/bench/fault_work_parts.h"
#include "sim_core/bench/freezer_hands.h"
#include "sim_core/bench/harms.h"
#include "sim_core/bench/lockout_parts.h"
#include "sim_core/bench/hands.h"
#include "sim_core/bench/service_hands.h"
#include "sim_core/plant/assembly_effects.h"
#include "sim_core/plant/plant.h"

// What hands can do, what stops them, and what it does.
namespace stirbench::bench {

namespace {

// "kg must lie between 0.001 and 60 kg." for the first number outside its range, NaN included; empty when all are inside.
std::string outside_range(const Action& action) {
  for (const ActionParameter& parameter : action_entry(action.kind).parameters) {
    if (parameter.type != ParameterType::number || !has_number(action, parameter.name)) continue;
    const double value = get_number(action, parameter.name);
    if (value >= parameter.low && value <= parameter.high) continue;
    const auto plain = [](double number) {
      std::string text = std::to_string(number);
      text.erase(text.find_last_not_of('0') + 1);
      if (text.back() == '.') text.pop_back();
      return text;
    };
    return std::string(parameter.name) + " must lie between " + plain(parameter.low) + " and " + plain(parameter.high) +
           (parameter.unit == "-" ? "." : " " + std::string(parameter.unit) + ".");
  }
  return {};
}

const control::Recipe* chosen_recipe(const Machine& machine, const State& state) {
  const auto index = static_cast<std::size_t>(state.control.recipe);
  return state.control.recipe >= 0 && index < machine.recipes.size() ? &machine.recipes[index] : nullptr;
}

std::string why_not_hose(const plant::Fittings& fittings, const Action& action) {
  if (action.kind == ActionKind::remove_hose && fittings.hose == plant::HoseEnd::none) return "No hose is fitted.";
  if (action.kind == ActionKind::fit_hose) {
    if (action.name != "pail" && action.name != "freezer") return "A hose goes to \"pail\" or \"freezer\".";
    if (fittings.hose != plant::HoseEnd::none) return "A hose is already fitted.";
  }
  return fittings.draw_opening_norm > 0.0 ? "Close the draw valve first." : "";
}

std::string why_not_display(const Machine& machine, const State& state, const Action& action) {
  switch (action.kind) {
    case ActionKind::set_target:
      return std::string(control::why_not_target(machine.control, state.control, action.number));
    case ActionKind::choose_recipe:
      if (machine.recipe_index(action.name) < 0) return "There is no recipe \"" + action.name + "\" on this machine.";
      return std::string(control::why_not_choose(state.control));
    default: return std::string(control::why_not_confirm(chosen_recipe(machine, state), state.control));
  }
}

std::string why_not_rinse(const plant::Fittings& fittings, bool on) {
  if (on && fittings.rinse_on) return "The rinse water already runs.";
  if (!on && !fittings.rinse_on) return "The rinse water is already shut.";
  return on && !fittings.lid_open ? "The lid is closed." : "";
}

std::string why_not_point(const Machine& machine, const std::string& part) {
  const bool known = std::find(machine.body_parts.begin(), machine.body_parts.end(), part) != machine.body_parts.end();
  return known ? "" : "This machine has no part \"" + part + "\".";
}

std::string why_not_kind(const Machine& machine, const State& state, const Action& action) {
  const plant::PlantState& plant = state.plant;
  const plant::Fittings& fittings = plant.fittings;
  if (is_safe_work(action.kind)) return why_not_safe_work(machine, state, action);
  if (is_spill_work(action.kind)) return why_not_spill_work(machine, state, action);
  if (is_alarm_work(action.kind)) return why_not_alarm_work(machine, state, action);
  if (is_part_work(action.kind)) return why_not_part_work(machine, state, action);
  if (is_service_work(action.kind)) return why_not_service_work(machine, state, action);
  if (is_fault_work(action.kind)) return why_not_fault_work(machine, state, action);
  if (is_freezer_work(action.kind)) return why_not_freezer(plant, action);
  switch (action.kind) {
    case ActionKind::open_lid: return fittings.lid_open ? "The lid is already open." : "";
    case ActionKind::close_lid:
      if (!fittings.lid_open) return "The lid is already closed.";
      return fittings.rinse_on ? "Shut the rinse water and take the gun out first." : "";
    case ActionKind::open_shaft_cover: return fittings.shaft_cover_open ? "The shaft cover is already off." : "";
    case ActionKind::close_shaft_cover: return fittings.shaft_cover_open ? "" : "The shaft cover is already on.";
    case ActionKind::pour:
      if (machine.ingredient_index(action.name) < 0) return "There is no ingredient \"" + action.name + "\" here.";
      return fittings.lid_open ? "" : "The lid is closed.";
    case ActionKind::press:
      return control::find_key(action.name) >= 0 ? "" : "There is no key \"" + action.name + "\".";
    case ActionKind::set_target:
    case ActionKind::choose_recipe:
    case ActionKind::confirm: return why_not_display(machine, state, action);
    case ActionKind::turn_draw_valve:
      return plant::valve_can_be_turned(plant.assembly) ? "" : "The draw valve is not put together: handle, nut or plunger is off.";
    case ActionKind::fit_hose:
    case ActionKind::remove_hose: return why_not_hose(fittings, action);
    case ActionKind::rinse: return why_not_rinse(fittings, action.on);
    case ActionKind::isolate:
      if (action.on == fittings.isolator_on) return "";
      return action.on ? "The machine is already isolated." : "The isolator is already on.";
    case ActionKind::reach_in: return fittings.lid_open ? "" : "The lid is closed.";
    case ActionKind::touch_wall: return "";
    case ActionKind::point_out: return why_not_point(machine, action.name);
    case ActionKind::take_sample:
      if (!fittings.lid_open) return "The lid is closed.";
      return plant.product.total_kg() > 0.0 ? "" : "The vat is empty.";
    case ActionKind::reset_overload: return plant.overload_tripped ? "" : "The overload relay has not tripped.";
    case ActionKind::reset_cutout: return plant.cutout_tripped ? "" : "The heater cut-out has not tripped.";
    case ActionKind::empty_pail: return plant.pail.total_kg() > 0.0 ? "" : "The pail is empty.";
    default: break;
  }
  return "There is no such action.";
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

void pour(const Machine& machine, State& state, const Action& action) {
  const product::Ingredient& ingredient =
      machine.ingredients[static_cast<std::size_t>(machine.ingredient_index(action.name))];
  plant::pour(machine.plant, state.plant, ingredient, action.number,
              action.has_degC ? action.degC : ingredient.supply_degC);
}

void press(State& state, const Action& action) {
  const auto ticks = static_cast<std::uint32_t>(std::lround(action.held_s * ticks_per_second));
  std::uint32_t& left = state.key_ticks_left[static_cast<std::size_t>(control::find_key(action.name))];
  left = std::max(left, std::max(ticks, 1U));
}

// Returns a reason when the thing itself resists (a relay that is still hot).
std::string_view do_it(const Machine& machine, State& state, const Action& action, control::PanelInputs& panel) {
  plant::PlantState& plant = state.plant;
  plant::Fittings& fittings = plant.fittings;
  switch (action.kind) {
    case ActionKind::open_lid: fittings.lid_open = true; break;
    case ActionKind::close_lid: fittings.lid_open = false; break;
    case ActionKind::open_shaft_cover: fittings.shaft_cover_open = true; break;
    case ActionKind::close_shaft_cover: fittings.shaft_cover_open = false; break;
    case ActionKind::pour: pour(machine, state, action); break;
    case ActionKind::press: press(state, action); break;
    case ActionKind::set_target: panel.set_target = true; panel.target_degC = action.number; break;
    case ActionKind::choose_recipe: panel.choose_recipe = machine.recipe_index(action.name); break;
    case ActionKind::confirm: panel.confirm = true; break;
    case ActionKind::turn_draw_valve: fittings.draw_opening_norm = action.number; break;
    case ActionKind::fit_hose: put_hose_on(plant, action.name, true); break;
    case ActionKind::remove_hose: take_hose_off(machine, plant); break;
    case ActionKind::rinse: fittings.rinse_on = action.on; break;
    case ActionKind::isolate: fittings.isolator_on = !action.on; break;
    case ActionKind::take_sample: state.sample_degC = plant.vat_degC; state.sample_tick = state.tick; break;
    case ActionKind::reset_overload:
      plant::reset_overload(plant);
      return plant.overload_tripped ? "The overload relay is still hot. Wait, then reset it." : "";
    case ActionKind::reset_cutout:
      plant::reset_cutout(machine.plant, plant);
      return plant.cutout_tripped ? "The heater cut-out is still hot. Wait, then reset it." : "";
    case ActionKind::empty_pail: plant.pail = {}; break;
    default: break;
  }
  return {};
}

double event_number(const State& state, const Action& action) {
  switch (action.kind) {
    case ActionKind::measure: return state.lockout.meter_V;
    case ActionKind::swab: return action.name == "vat" ? state.plant.soil.swab_vat : state.plant.soil.swab_valve;
    case ActionKind::feel_gap: return state.plant.assembly.feeler_mm;
    case ActionKind::clamp_hose:
    case ActionKind::hose_gasket:
    case ActionKind::unscrew:
    case ActionKind::rinse:
    case ActionKind::freezer_inlet:
    case ActionKind::freezer_lid:
    case ActionKind::freezer_drain:
    case ActionKind::isolate_neighbour:
    case ActionKind::isolate: return action.on ? 1.0 : 0.0;
    case ActionKind::press: return action.held_s;
    case ActionKind::point_out: return 1.0;  // counted by `total`
    case ActionKind::take_sample: return state.sample_degC;
    case ActionKind::red_probe:
    case ActionKind::black_probe:
    case ActionKind::clamp_round:
    case ActionKind::press_thermometer:
    case ActionKind::connect_gauges:
    case ActionKind::look_at_reading: return state.work.reading.value;
    default: return action.number;
  }
}

}  // namespace

std::string why_not(const Machine& machine, const State& state, const Action& action) {
  if (action.kind >= ActionKind::count) return "There is no such action.";
  std::string reason = outside_range(action);
  if (is_instructor_work(action.kind)) return reason.empty() ? why_not_instructor_work(machine, state, action) : reason;
  if (reason.empty()) reason = why_not_beside(state, action);
  return reason.empty() ? why_not_kind(machine, state, action) : reason;
}

void carry_out(const Machine& machine, State& state, const Action& action, control::PanelInputs& panel,
               std::vector<Event>& events) {
  const auto subject = static_cast<std::int32_t>(action.kind);
  std::string reason = why_not(machine, state, action);
  std::string text;
  if (is_instructor_work(action.kind) && reason.empty()) return do_instructor_work(machine, state, action, events);
  if (reason.empty()) {
    harms_of_action(machine, state, action, events);
    if (is_safe_work(action.kind)) text = do_safe_work(machine, state, action);
    if (is_spill_work(action.kind)) text = do_spill_work(machine, state, action);
    if (is_alarm_work(action.kind)) text = do_alarm_work(state, action, panel);
    if (is_part_work(action.kind)) text = do_part_work(machine, state, action);
    if (is_service_work(action.kind)) text = do_service_work(machine, state, action);
    if (is_freezer_work(action.kind)) text = do_freezer(machine, state.plant, action);
    if (is_fault_work(action.kind)) {
      harms_of_fault_work(machine, state, action, events);
      text = do_fault_work(machine, state, action);
    }
    const double floor_before_kg = state.plant.floor_kg;
    const bool pressed = state.plant.freezer.line_bar > 1.0e-3;
    reason = do_it(machine, state, action, panel);
    const double spilled_kg = state.plant.floor_kg - floor_before_kg;
    if (spilled_kg > 0.0) {
      const bool hose = action.kind == ActionKind::remove_hose;
      events.push_back({state.tick, EventKind::spilled, subject,
                        !hose     ? "The vat is full; the rest ran over the brim."
                        : pressed ? "The hose was under pressure and sprayed."
                                  : "The hose was not drained: what it held ran on to the floor.",
                        spilled_kg, action.name});
    }
    if (reason.empty()) {
      note_action(state, action);
      state.work.hand_min += hand_minutes(machine, action);
    }
  }
  if (!reason.empty()) {
    events.push_back({state.tick, EventKind::refused, subject, std::move(reason), action.number, action.name});
    return;
  }
  if (action.kind == ActionKind::take_sample) text = taste(state.plant.product);
  if (action.kind == ActionKind::open_lid && state.plant.vat_degC > 75.0 && state.plant.product.total_kg() > 0.0) {
    text = "Steam rises under the lid. Stand aside and keep hands and face away from the opening.";
  }
  events.push_back({state.tick, EventKind::acted, subject, std::move(text), event_number(state, action), action.name});
}

}  // namespace stirbench::bench
