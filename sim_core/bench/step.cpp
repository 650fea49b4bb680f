#include "sim_core/bench/step.h"

#include <stdexcept>

#include "sim_core/bench/parts.h"
#include "sim_core/plant/plant.h"

namespace stirbench::bench {

namespace {

// The scan's notices in words, with the names that people and monitors use.
void tell(const Machine& machine, const State& state, const control::ScanNotice& notice, std::vector<Event>& events) {
  Event event{.tick = state.tick, .subject = notice.subject, .text = std::string(notice.reason)};
  const auto alarm = [&](EventKind kind) {
    const auto id = static_cast<control::AlarmId>(notice.subject);
    event.kind = kind;
    event.name = control::alarm_key(id);
    event.text = control::alarm_title(id);
  };
  const auto phase = [&](EventKind kind) {
    event.kind = kind;
    const auto chosen = static_cast<std::size_t>(state.control.recipe);
    const auto index = static_cast<std::size_t>(notice.subject);
    // The phase may belong to a recipe that was given up within this very scan.
    if (chosen >= machine.recipes.size() || index >= machine.recipes[chosen].phases.size()) return;
    const control::Phase& at = machine.recipes[chosen].phases[index];
    event.name = at.id;
    event.text = kind == EventKind::phase_began && !at.instruction.empty() ? at.instruction : at.title;
  };
  switch (notice.kind) {
    case control::Notice::none: return;
    case control::Notice::alarm_raised: alarm(EventKind::alarm_raised); break;
    case control::Notice::alarm_cleared: alarm(EventKind::alarm_cleared); break;
    case control::Notice::phase_began: phase(EventKind::phase_began); break;
    case control::Notice::recipe_finished: phase(EventKind::recipe_finished); break;
    case control::Notice::hold_restarted: phase(EventKind::hold_restarted); break;
    case control::Notice::mode_changed:
      event.kind = EventKind::mode_changed;
      event.name = control::mode_name(static_cast<control::Mode>(notice.subject));
      break;
    case control::Notice::refused:
      event.kind = EventKind::refused;
      if (notice.subject >= 0) event.name = control::key_name(static_cast<control::Key>(notice.subject));
      event.subject = static_cast<std::int32_t>(ActionKind::press);
      break;
  }
  events.push_back(std::move(event));
}

// Fingers on keys: what is down in this tick; each tick that passes lets go a little.
void hold_keys(State& state, control::PanelInputs& panel) {
  for (std::size_t i = 0; i < control::key_count; ++i) {
    panel.key[i] = state.key_ticks_left[i] > 0;
    if (panel.key[i]) --state.key_ticks_left[i];
  }
}

void check(bool good, const std::string& what) {
  if (!good) throw std::invalid_argument(what);
}

void check_environment(const plant::Environment& environment) {
  check(environment.ambient_degC >= -20.0 && environment.ambient_degC <= 60.0,
        "ambient_degC: expected -20 .. 60, found " + std::to_string(environment.ambient_degC));
  check(environment.humidity_norm >= 0.0 && environment.humidity_norm <= 1.0,
        "humidity_norm: expected 0 .. 1, found " + std::to_string(environment.humidity_norm));
  check(environment.supply_norm >= 0.0 && environment.supply_norm <= 1.3,
        "supply_norm: expected 0 .. 1.3, found " + std::to_string(environment.supply_norm));
}

void load(const Machine& machine, State& state, const StartSetup::Load& item) {
  const int index = machine.ingredient_index(item.ingredient);
  check(index >= 0, "loaded: there is no ingredient \"" + item.ingredient + "\"");
  check(item.kg > 0.0 && item.kg <= 1000.0,
        "loaded: \"" + item.ingredient + "\": expected kg in 0 .. 1000, found " + std::to_string(item.kg));
  check(item.degC >= -2.0 && item.degC <= 100.0,
        "loaded: \"" + item.ingredient + "\": expected degC in -2 .. 100, found " + std::to_string(item.degC));
  plant::pour(machine.plant, state.plant, machine.ingredients[static_cast<std::size_t>(index)], item.kg, item.degC);
  check(state.plant.masses.spilled_kg <= 0.0,
        "loaded: \"" + item.ingredient + "\" runs over the brim of " + std::to_string(machine.plant.vat.brim_L) + " L");
}

}  // namespace

std::string_view event_name(EventKind kind) {
  switch (kind) {
    case EventKind::acted: return "acted";
    case EventKind::refused: return "refused";
    case EventKind::alarm_raised: return "alarm_raised";
    case EventKind::alarm_cleared: return "alarm_cleared";
    case EventKind::phase_began: return "phase_began";
    case EventKind::recipe_finished: return "recipe_finished";
    case EventKind::hold_restarted: return "hold_restarted";
    case EventKind::mode_changed: return "mode_changed";
    case EventKind::harm: return "harm";
    case EventKind::spilled: return "spilled";
    case EventKind::boiled_over: return "boiled_over";
    case EventKind::overload_tripped: return "overload_tripped";
    case EventKind::cutout_tripped: return "cutout_tripped";
  }
  return "";
}

State initial_state(const Machine& machine, const StartSetup& setup) {
  check_environment(setup.environment);
  State state;
  state.plant = plant::initial_state(machine.plant, setup.environment);
  state.control = control::initial_state(machine.control);
  state.random.word = setup.seed;
  for (const StartSetup::Load& item : setup.loaded) load(machine, state, item);
  // What stands in the vat at the beginning is where the accounts start, not something that was poured in.
  state.plant.ledger = {};
  state.plant.ledger.start_J = plant::stored_J(machine.plant, state.plant);
  state.plant.masses = {};
  state.plant.masses.start_kg = state.plant.product.total_kg();
  if (!setup.recipe.empty()) {
    state.control.recipe = machine.recipe_index(setup.recipe);
    check(state.control.recipe >= 0, "recipe: there is no recipe \"" + setup.recipe + "\" on this machine");
  }
  return state;
}

void step(const Machine& machine, State& state, const Inputs& inputs, std::vector<Event>& events) {
  control::PanelInputs panel;
  // Hands first: a lid that is opened now is what this tick's sensors see.
  for (const Action& action : inputs.actions) carry_out(machine, state, action, panel, events);
  hold_keys(state, panel);

  // Sensors before the scan, so that it judges this tick and not the last.
  const plant::Readings readings = plant::read_sensors(machine.plant, state.plant);
  control::ScanNotices notices;
  const control::ScanContext context{machine.control, machine.recipes, tick_s, state.tick};
  const control::Outputs outputs = control::scan(context, state.control, readings, panel, notices);
  for (std::size_t i = 0; i < notices.count; ++i) tell(machine, state, notices.item[i], events);

  // Relays after the scan and past it: the hard-wired chain has the last word.
  const plant::Actuators actuators = control::relays(outputs, readings, state.plant.fittings);

  // The plant moves on with what the relays let through; it advances wear with its own forces.
  const Before before = look_before(state);
  plant::step(machine.plant, state.plant, actuators, tick_s);

  // Harms last: they judge what the tick has brought about.
  harms_of_tick(machine, state, before, events);
  ++state.tick;
}

}  // namespace stirbench::bench
