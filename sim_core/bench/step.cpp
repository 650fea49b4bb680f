#include "sim_core/bench/step.h"

#include <algorithm>
#include <stdexcept>

#include "sim_core/bench/harms.h"
#include "sim_core/bench/other_people.h"
#include "sim_core/bench/wired_keys.h"
#include "sim_core/faults/safety.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/hands/part_states.h"
#include "sim_core/machine/fault_readings.h"
#include "sim_core/plant/electrical_link.h"
#include "sim_core/plant/plant.h"

namespace stirbench::bench {

using machine::Event;
using machine::EventKind;
using machine::Random;

namespace {

// The scan's notices in words, with the names that people and monitors use.
void report_notice(const Machine& machine, const State& state, const control::ScanNotice& notice,
                   std::vector<Event>& events) {
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
    case control::Notice::alarm_raised:
      alarm(EventKind::alarm_raised);
      event.number = state.control.alarms[static_cast<std::size_t>(notice.subject)].order;
      break;
    case control::Notice::alarm_state: {
      alarm(EventKind::alarm_state);
      event.text = notice.reason;
      const auto index = static_cast<std::size_t>(notice.subject);
      event.number = static_cast<double>(
          control::alarm_state(machine.control.alarms[index], state.control.alarms[index]));
      break;
    }
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
      event.subject = hands::number_of(hands::press);
      break;
  }
  events.push_back(std::move(event));
}

// Keys that fingers hold down in this tick; each tick shortens the rest of the press.
void hold_keys(State& state, control::PanelInputs& panel) {
  for (std::size_t i = 0; i < control::key_count; ++i) {
    panel.key[i] = state.key_ticks_left[i] > 0;
    if (panel.key[i]) --state.key_ticks_left[i];
  }
}

std::string outside(const char* what, const char* expected, double found) {
  return std::string(what) + ": expected " + expected + ", found " + std::to_string(found);
}

// Empty, or what is wrong with the room. Written so that a value that is not a number is wrong too.
std::string wrong_environment(const plant::Environment& e) {
  if (!(e.ambient_degC >= -20.0 && e.ambient_degC <= 60.0))
    return outside("ambient_degC", "-20 .. 60", e.ambient_degC);
  if (!(e.humidity_norm >= 0.0 && e.humidity_norm <= 1.0))
    return outside("humidity_norm", "0 .. 1", e.humidity_norm);
  if (!(e.supply_norm >= 0.0 && e.supply_norm <= 1.3))
    return outside("supply_norm", "0 .. 1.3", e.supply_norm);
  if (!(e.frequency_Hz >= 45.0 && e.frequency_Hz <= 65.0))
    return outside("frequency_Hz", "45 .. 65", e.frequency_Hz);
  return {};
}

std::string wrong_situation(const machine::Scenario& s) {
  if (!(s.second_person_s <= 86400.0)) return outside("second_person_s", "at most 86400", s.second_person_s);
  const bool good = s.colleague_work_s >= 0.0 && s.colleague_work_s <= 86400.0;
  if (!good) return outside("colleague_work_s", "0 .. 86400", s.colleague_work_s);
  if (!(s.power_cut_at_s <= 172800.0)) return outside("power_cut_at_s", "at most 172800", s.power_cut_at_s);
  if (!(s.plan_min >= 0.0 && s.plan_min <= 100000.0)) return outside("plan_min", "0 .. 100000", s.plan_min);
  const bool cut_good = s.power_cut_for_s >= 0.0 && s.power_cut_for_s <= 86400.0;
  return cut_good ? "" : outside("power_cut_for_s", "0 .. 86400", s.power_cut_for_s);
}

// Puts one load into the vat; empty, or why it cannot be there.
std::string load(const Machine& machine, State& state, const StartSetup::Load& item) {
  const std::string what = "loaded: \"" + item.ingredient + "\"";
  const int index = machine.ingredient_index(item.ingredient);
  if (index < 0) return what + ": there is no such ingredient";
  if (!(item.kg > 0.0 && item.kg <= 1000.0))
    return outside((what + ": kg").c_str(), "more than 0, at most 1000", item.kg);
  if (!(item.degC >= -2.0 && item.degC <= 100.0))
    return outside((what + ": degC").c_str(), "-2 .. 100", item.degC);
  plant::pour(machine.plant, state.plant, machine.ingredients[static_cast<std::size_t>(index)], item.kg,
              item.degC);
  if (state.plant.masses.spilled_kg <= 0.0) return {};
  return what + ": " + std::to_string(item.kg) + " kg run over the brim of " +
         std::to_string(machine.plant.vat.brim_L) + " L";
}

}  // namespace

std::string build_start(const Machine& machine, const StartSetup& setup, State& state) {
  state = {};
  std::string wrong = wrong_environment(setup.environment);
  if (!wrong.empty()) return wrong;
  state.plant = plant::initial_state(machine.plant, setup.environment);
  state.control = control::initial_state(machine.control);
  state.random.word = setup.seed;
  // The instruments' error comes from a separate random stream, so that it changes nothing else.
  Random instruments{setup.seed ^ 0x696e737472756d65ULL};
  state.work.instrument_error = 2.0 * instruments.uniform() - 1.0;
  state.lockout.situation = setup.situation;
  for (const StartSetup::Load& item : setup.loaded) {
    wrong = load(machine, state, item);
    if (!wrong.empty()) return wrong;
  }
  // What is loaded has stood there long enough for the probe to have its temperature.
  if (plant::fill_L(state.plant) >= machine.plant.probe.covered_L)
    state.plant.probe_degC = state.plant.probe_pocket_degC = plant::product_degC(state.plant);
  wrong = wrong_situation(setup.situation);
  if (!wrong.empty()) return wrong;
  for (const StartSetup::Fault& fault : setup.faults) {
    const bool of_safety = machine.fault_index(fault.id) < 0;
    wrong = of_safety ? faults::inject_safety_fault(state.plant, fault.id, fault.severity)
                      : faults::inject(machine.plant, machine.faults, state.plant, fault.id, fault.severity);
    if (!wrong.empty()) return "faults: " + wrong;
  }
  for (const StartSetup::Part& part : setup.parts) {
    wrong = hands::set_part(machine, state, part.part, part.state);
    if (!wrong.empty()) return "parts: " + wrong;
  }
  // A key that is stuck was so before anybody came: it has no edge.
  for (std::size_t i = 0; i < control::key_count; ++i) {
    state.control.key_down[i] = state.plant.safety.keys[i] == plant::KeyContact::stuck_down;
  }
  stored_energies(machine, state);
  // The initial contents of the vat are the start of the accounts, not something that was poured in.
  state.plant.ledger = {};
  state.plant.ledger.start_J = plant::stored_J(machine.plant, state.plant);
  state.plant.masses = {};
  state.plant.masses.start_kg = state.plant.product.total_kg();
  if (setup.recipe.empty()) return {};
  state.control.recipe = machine.recipe_index(setup.recipe);
  state.control.recipe_id_hash = control::recipe_id_hash(setup.recipe);
  return state.control.recipe >= 0 ? ""
                                   : "recipe: there is no recipe \"" + setup.recipe + "\" on this machine";
}

void pick_random_faults(const Machine& machine, StartSetup& setup) {
  Random random{setup.seed ^ 0x6661756c7473ULL};
  std::vector<std::string> left = setup.drawn.from;
  for (int i = 0; i < setup.drawn.count && !left.empty(); ++i) {
    const auto at = std::min(left.size() - 1,
                             static_cast<std::size_t>(random.uniform() * static_cast<double>(left.size())));
    StartSetup::Fault fault{left[at], 1.0};
    const int known = machine.fault_index(fault.id);
    if (known >= 0) {
      const faults::Fault& one = machine.faults[static_cast<std::size_t>(known)];
      fault.severity = one.severity_low + (one.severity_high - one.severity_low) * random.uniform();
    }
    setup.faults.push_back(std::move(fault));
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(at));
  }
  setup.drawn = {};
}

State initial_state(const Machine& machine, const StartSetup& setup) {
  State state;
  const std::string wrong = build_start(machine, setup, state);
  if (!wrong.empty()) throw std::invalid_argument(wrong);
  return state;
}

void step(const Machine& machine, State& state, const Inputs& inputs, std::vector<Event>& events) {
  control::PanelInputs panel;
  // Actions first: the sensors of this tick see a lid that it opens.
  for (const hands::Action& action : inputs.actions)
    hands::carry_out({machine, state, panel, events}, action);
  other_people(machine, state, events);
  hold_keys(state, panel);
  press_keys_as_wired(state.plant.safety, panel);
  shake_guard_wire(state.plant);

  faults::update_intermittent(machine.plant, machine.faults, state.plant, machine::time_s(state));
  // The circuit is settled twice: an action may have moved a guard that the controller reads, and the
  // controller's commands then move the contactors.
  plant::update_circuit(machine.plant, state.plant);

  // Sensors before the scan, so that it judges this tick and not the last.
  const plant::SensorReadings readings = plant::read_sensors(machine.plant, state.plant);
  control::ScanNotices notices;
  const control::ScanContext context{machine.control, machine.recipes, machine::tick_s, state.tick};
  const control::Outputs outputs = control::scan(context, state.control, readings, panel, notices);
  for (const control::ScanNotice& notice : notices) report_notice(machine, state, notice, events);

  // Relays after the scan and past it: the wiring has the last word.
  const plant::Actuators actuators = plant::switch_loads(
      machine.plant, state.plant, {outputs.heat_norm > 0.0, outputs.drive, outputs.chill});
  state.commands = outputs;
  state.contactors = actuators;

  // The plant moves on with what the relays let through; it advances wear with its own forces.
  const Before before = before_tick(state);
  plant::step(machine.plant, state.plant, actuators, machine::tick_s);
  stored_energies(machine, state);
  machine::advance_fault_work(machine, state);

  // Harms last: they judge what the tick has brought about.
  harms_of_tick(machine, state, before, events);
  ++state.tick;
}

}  // namespace stirbench::bench
