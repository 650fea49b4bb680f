#include <algorithm>
#include <charconv>

#include "sim_core/bench/fault_readings.h"
#include "sim_core/bench/fault_work_parts.h"
#include "sim_core/bench/harms.h"
#include "sim_core/bench/lockout_parts.h"

// Instruments in the hand: what they can be put on, and what that does to meter, machine and person.
namespace stirbench::bench {

namespace {

using K = ActionKind;
namespace w = plant::wiring;

int number_of(const std::string& word) {
  int value = -1;
  const auto end = std::from_chars(word.data(), word.data() + word.size(), value);
  return end.ec == std::errc() && end.ptr == word.data() + word.size() ? value : -1;
}

int wire_of(const Machine& machine, const Action& action) { return machine.plant.circuit.wire(number_of(action.name)); }

bool takes_probes(Tool tool) { return tool == Tool::multimeter || tool == Tool::insulation_tester; }

std::string why_not_terminal(const Machine& machine, const State& state, const Action& action) {
  const w::Network& network = machine.plant.circuit;
  const int terminal = network.terminal(action.name);
  if (terminal < 0) return "There is no terminal \"" + action.name + "\" on this machine.";
  if (!takes_probes(state.work.tool)) return "Take the multimeter or the insulation tester in hand first.";
  const int part = network.terminals[static_cast<std::size_t>(terminal)].part;
  return state.lockout.panel_off || is_site_side(network, part) ? "" : "The panel is on: its terminals cannot be reached.";
}

std::string why_not_wire(const Machine& machine, const State& state, const Action& action) {
  const int wire = wire_of(machine, action);
  if (wire < 0) return "There is no wire " + action.name + " on this machine.";
  if (!state.lockout.panel_off) return "The panel is on: its wires cannot be reached.";
  const auto& off = state.work.wires_off;
  const bool is_off = std::find(off.begin(), off.end(), wire + 1) != off.end();
  if (action.kind == K::clamp_round) return state.work.tool == Tool::clamp_meter ? "" : "Take the clamp meter in hand first.";
  if (action.kind == K::put_wire_on) return is_off ? "" : "That wire is on already.";
  if (is_off) return "That wire is off already.";
  return std::find(off.begin(), off.end(), 0) != off.end() ? "" : "Six wires are off: put one back before you lose track.";
}

std::string why_not_gauges(const State& state, const Action& action) {
  if (action.kind == K::take_gauges_off) return state.work.gauges_on ? "" : "The gauge set is not connected.";
  if (state.work.tool != Tool::gauge_set) return "Take the gauge set in hand first.";
  if (state.work.gauges_on) return "The gauge set is connected already.";
  return state.lockout.situation.trade == faults::Who::refrigeration ? "" : "Connecting gauges opens the refrigerant circuit: a licensed refrigeration technician does it.";
}

// The reading, and what the meter did to itself and the machine.
std::string take_reading(const Machine& machine, State& state) {
  FaultWork& work = state.work;
  if (!probes_placed(work)) return {};
  work.reading = reading_now(machine, state);
  ++work.checks;
  const bool panel = takes_probes(work.tool) || work.tool == Tool::clamp_meter;
  if (panel && state.lockout.panel_off) note_lapses_in_panel(state, false);
  std::string words = reading_words(work);
  switch (work.reading.mishap) {
    case w::Mishap::fuse_blown:
      work.fuse_blown = true;
      count_lapse(state, Lapse::ohms_live);
      break;
    case w::Mishap::live_reading: count_lapse(state, Lapse::ohms_live); break;
    case w::Mishap::unlicensed_live: count_lapse(state, Lapse::live_unlicensed); break;
    case w::Mishap::electronics_dead: {
      count_lapse(state, Lapse::electronics);
      // What it leaves behind is a dead controller, as content knows it.
      const auto dead = std::find_if(machine.faults.begin(), machine.faults.end(), [](const faults::Fault& one) {
        return one.changes.size() == 1 && one.changes.front().target == faults::Target::dead;
      });
      if (dead != machine.faults.end()) faults::set_in(machine.plant, state.plant, *dead, 1.0);
      break;
    }
    default: {
      const std::string proving = note_proving(machine, state);
      return proving.empty() ? words : words + ". " + proving;
    }
  }
  return words + ". " + std::string(w::mishap_words(work.reading.mishap));
}

void lay_down(FaultWork& work) {
  work.red = work.black = work.round = work.point = -1;
  work.reading = {};
}

// Live parts and no cover over eyes and face, for those who may measure there.
void note_protection(State& state) {
  const bool covered = state.wearing.has(Wear::face_shield) || state.wearing.has(Wear::eye_protection);
  if (!covered && state.lockout.situation.trade == faults::Who::electrician) count_lapse(state, Lapse::live_unprotected);
}

std::string place(const Machine& machine, State& state, const Action& action) {
  FaultWork& work = state.work;
  const int terminal = machine.plant.circuit.terminal(action.name);
  (action.kind == K::red_probe ? work.red : work.black) = terminal;
  if (work.red >= 0 && work.black >= 0 && state.plant.fittings.isolator_on) {
    // Extra-low voltage needs no face shield: what counts is what is there.
    const std::string words = take_reading(machine, state);
    if (work.tool == Tool::multimeter && work.function == w::MeterFunction::alternating_V && work.reading.value > w::live_touch_V) note_protection(state);
    return words;
  }
  return take_reading(machine, state);
}

void wires(const Machine& machine, FaultWork& work, const Action& action) {
  const int wire = wire_of(machine, action);
  if (action.kind == K::put_wire_on) {
    std::replace(work.wires_off.begin(), work.wires_off.end(), wire + 1, 0);
  } else {
    *std::find(work.wires_off.begin(), work.wires_off.end(), 0) = wire + 1;
  }
}

}  // namespace

bool is_site_side(const w::Network& network, int part) {
  const w::PartKind kind = network.parts[static_cast<std::size_t>(part)].kind;
  if (kind == w::PartKind::supply) return true;
  if (kind != w::PartKind::breaker) return false;
  const int supply = network.by_role(w::PartKind::supply, w::Role::none);
  for (const auto& join : network.joins) {
    const int from = network.terminals[join.from].part;
    const int to = network.terminals[join.to].part;
    if ((from == supply && to == part) || (to == supply && from == part)) return true;
  }
  return false;
}

bool is_fault_work(ActionKind kind) { return kind >= K::take_tool && kind <= K::prove; }

void count_lapse(State& state, Lapse lapse) { ++state.work.lapses[static_cast<std::size_t>(lapse)]; }

void note_lapses_in_panel(State& state, bool work) {
  const bool isolated = !state.plant.fittings.isolator_on;
  if (isolated && !isolator_held(state.lockout)) count_lapse(state, Lapse::no_lock);
  if (work && !verified_dead(state.lockout)) count_lapse(state, Lapse::not_proved);
}

std::string why_not_fault_work(const Machine& machine, const State& state, const Action& action) {
  if (is_mending(action.kind)) return why_not_mending(machine, state, action);
  switch (action.kind) {
    case K::take_tool: {
      const int tool = choice_index("tool", action.name);
      if (tool < 0) return "There is no instrument \"" + action.name + "\".";
      if (state.work.gauges_on) return "The gauge set is connected: take it off first.";
      return tool == static_cast<int>(state.work.tool) ? "You have it in hand already." : "";
    }
    case K::set_meter:
      if (choice_index("function", action.name) < 0) return "The multimeter has no function \"" + action.name + "\".";
      return state.work.tool == Tool::multimeter ? "" : "Take the multimeter in hand first.";
    case K::red_probe:
    case K::black_probe: return why_not_terminal(machine, state, action);
    case K::clamp_round:
    case K::take_wire_off:
    case K::put_wire_on: return why_not_wire(machine, state, action);
    case K::press_thermometer:
      if (plant::find_contact_point(action.name) < 0) return "There is no place \"" + action.name + "\" to press it on.";
      return state.work.tool == Tool::contact_thermometer ? "" : "Take the contact thermometer in hand first.";
    case K::connect_gauges:
    case K::take_gauges_off: return why_not_gauges(state, action);
    case K::look_at_reading: return probes_placed(state.work) ? "" : "Nothing is being measured.";
    case K::new_fuse: return state.work.fuse_blown ? "" : "The meter's fuse is good.";
    default: return "";  // probes_off
  }
}

void harms_of_fault_work(const Machine& machine, State& state, const Action& action, std::vector<Event>& events) {
  double touched_V = 0.0;
  if (action.kind == K::take_wire_off || action.kind == K::put_wire_on) touched_V = wire_V(machine, state, wire_of(machine, action));
  if (action.kind == K::repair) {
    const faults::Fault& fault = machine.faults[static_cast<std::size_t>(machine.fault_index(action.name))];
    if (fault.repair_needs == faults::WorkCondition::open_isolated) touched_V = std::max(terminals_V(machine, state), state.lockout.capacitor_V);
    const bool in_reach = fault.repair_needs == faults::WorkCondition::isolated || fault.repair_needs == faults::WorkCondition::open_isolated;
    const double rpm = state.plant.flows.agitator_rpm;
    if (in_reach && rpm > 5.0) suffer(state, HarmId::moving_agitator, rpm, events);
  }
  if (touched_V > touch_V) suffer(state, HarmId::live_terminals, touched_V, events);
}

std::string do_fault_work(const Machine& machine, State& state, const Action& action) {
  if (is_mending(action.kind)) return do_mending(machine, state, action);
  FaultWork& work = state.work;
  switch (action.kind) {
    case K::take_tool:
      lay_down(work);
      work.tool = static_cast<Tool>(choice_index("tool", action.name));
      break;
    case K::set_meter:
      work.function = static_cast<w::MeterFunction>(choice_index("function", action.name));
      return take_reading(machine, state);
    case K::red_probe:
    case K::black_probe: return place(machine, state, action);
    case K::probes_off: lay_down(work); break;
    case K::clamp_round:
      work.round = wire_of(machine, action);
      if (state.plant.fittings.isolator_on) note_protection(state);
      return take_reading(machine, state);
    case K::press_thermometer:
      work.point = plant::find_contact_point(action.name);
      return take_reading(machine, state);
    case K::connect_gauges: work.gauges_on = true; return take_reading(machine, state);
    case K::take_gauges_off:
      work.gauges_on = false;
      work.reading = {};
      break;
    case K::look_at_reading: {
      work.reading = reading_now(machine, state);
      return reading_words(work);
    }
    case K::new_fuse: work.fuse_blown = false; break;
    case K::take_wire_off:
    case K::put_wire_on:
      note_lapses_in_panel(state, true);
      wires(machine, work, action);
      break;
    default: break;
  }
  return {};
}

std::vector<std::string> fault_work_names(const Machine& machine, std::string_view parameter) {
  std::vector<std::string> out;
  const w::Network& network = machine.plant.circuit;
  if (parameter == "terminal") {
    for (const auto& one : network.terminals) out.push_back(one.name);
  } else if (parameter == "wire") {
    for (const auto& one : network.wires) out.push_back(std::to_string(one.number));
  } else if (parameter == "breaker") {
    for (const auto& one : network.parts) {
      if (one.kind == w::PartKind::breaker) out.push_back(one.id);
    }
  } else if (parameter == "point") {
    for (std::size_t i = 0; i < static_cast<std::size_t>(plant::ContactPoint::count); ++i)
      out.emplace_back(plant::contact_point_word(static_cast<plant::ContactPoint>(i)));
  } else if (parameter == "cause") {
    for (const auto& one : machine.faults) out.push_back(one.id);
  }
  return out;
}

}  // namespace stirbench::bench
