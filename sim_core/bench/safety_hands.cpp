#include <string>

#include "sim_core/bench/hands.h"

// Emergency stop, the technician's test buttons, and the display's entries for alarms.
namespace stirbench::bench {

namespace {

using K = ActionKind;

static_assert(control::key_count == plant::panel_keys);

// Index of the alarm that the action names; -1 for "all" and for none of them.
std::int32_t alarm_of(const Action& action) { return static_cast<std::int32_t>(control::find_alarm(action.name)); }

std::string why_not_alarm(const Machine& machine, const State& state, const Action& action) {
  const std::int32_t alarm = alarm_of(action);
  if (action.kind == K::shelve) {
    return std::string(control::why_not_shelve(machine.control, state.control, alarm, action.number));
  }
  if (action.kind == K::unshelve) return std::string(control::why_not_unshelve(state.control, alarm));
  if (alarm < 0 && action.name != "all") return "There is no alarm \"" + action.name + "\".";
  return std::string(control::why_not_acknowledge(state.control, alarm));
}

}  // namespace

bool is_alarm_work(ActionKind kind) { return kind >= K::press_emergency_stop && kind <= K::unshelve; }

std::string why_not_alarm_work(const Machine& machine, const State& state, const Action& action) {
  const plant::PlantState& plant = state.plant;
  switch (action.kind) {
    case K::press_emergency_stop: return plant.safety.emergency_stop_in ? "The emergency stop is already pressed." : "";
    case K::release_emergency_stop: return plant.safety.emergency_stop_in ? "" : "The emergency stop is not pressed.";
    case K::test_overload: return plant.overload_tripped ? "The overload relay has already tripped." : "";
    case K::test_cutout: return plant.cutout_tripped ? "The heater cut-out has already tripped." : "";
    case K::test_pressure: return plant.pressure_tripped ? "The pressure switch has already tripped." : "";
    default: return why_not_alarm(machine, state, action);
  }
}

std::string do_alarm_work(State& state, const Action& action, control::PanelInputs& panel) {
  plant::PlantState& plant = state.plant;
  switch (action.kind) {
    case K::press_emergency_stop: plant.safety.emergency_stop_in = true; break;
    case K::release_emergency_stop: plant.safety.emergency_stop_in = false; break;
    case K::test_overload:
      plant.overload_tripped = !plant.safety.overload_stuck;
      return plant.overload_tripped ? "" : "The button goes in, and nothing opens.";
    case K::test_cutout:
      plant.cutout_tripped = !plant.safety.cutout_bridged;
      return plant.cutout_tripped ? "" : "The button goes in, and nothing opens: the cut-out is bridged.";
    case K::test_pressure:
      plant.pressure_tripped = !plant.safety.pressure_stuck;
      return plant.pressure_tripped ? "" : "The button goes in, and nothing opens.";
    case K::acknowledge: panel.acknowledge = alarm_of(action); break;
    case K::shelve:
      panel.shelve = alarm_of(action);
      panel.shelve_s = action.number;
      break;
    case K::unshelve: panel.unshelve = alarm_of(action); break;
    default: break;
  }
  return {};
}

void press_keys_as_wired(const plant::SafetyParts& parts, control::PanelInputs& panel) {
  for (std::size_t i = 0; i < control::key_count; ++i) {
    if (parts.keys[i] == plant::KeyContact::stuck_down) panel.key[i] = true;
    if (parts.keys[i] == plant::KeyContact::dead) panel.key[i] = false;
  }
}

void shake_guard_wire(plant::PlantState& plant) {
  plant::SafetyParts& parts = plant.safety;
  if (parts.guard_wire_loose_s <= 0.0) return;
  const bool open = parts.guard_wire_open();
  if (plant.shaft_rad_per_s > 0.0 || open) parts.guard_wire_shaken_s += tick_s;
  if (parts.guard_wire_shaken_s >= parts.guard_wire_loose_s + plant::SafetyParts::loose_open_s) parts.guard_wire_shaken_s = 0.0;
}

}  // namespace stirbench::bench
