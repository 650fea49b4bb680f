#include "sim_core/bench/hands.h"
#include "sim_core/faults/fault.h"
#include "sim_core/plant/pace.h"

// What an instructor does to a run: room, supply, deliveries, faults, and notes of what was seen. All of it
// are actions like others, so that they stand in the journal with their tick and a replay does them again.
namespace stirbench::bench {

namespace {

bool is_in(const State& state, const std::string& fault) {
  const std::uint64_t mark = faults::fault_mark(fault);
  for (const plant::ActiveFault& one : state.plant.faults) {
    if (one.mark == mark) return true;
  }
  return false;
}

std::string why_not_fault(const Machine& machine, const State& state, const Action& action) {
  if (machine.fault_index(action.name) < 0) return "There is no fault \"" + action.name + "\" here.";
  if (action.number <= 0.0) return is_in(state, action.name) ? "" : "This fault is not set.";
  // On a copy: a fault may have no place on this machine, or be one too many.
  plant::PlantState tried = state.plant;
  faults::mend(machine.plant, machine.faults, tried, action.name);
  return faults::set_in(machine.plant, machine.faults, tried, action.name, action.number);
}

void set_fault(const Machine& machine, State& state, const Action& action) {
  faults::mend(machine.plant, machine.faults, state.plant, action.name);
  if (action.number > 0.0) faults::set_in(machine.plant, machine.faults, state.plant, action.name, action.number);
  plant::disturb(state.plant);
}

void set_supply(State& state, double share_norm) {
  // During a power cut of the lesson's own: what comes back afterwards.
  double& kept = state.lockout.supply_before_norm;
  if (kept > 0.0 && share_norm > 0.0) kept = share_norm;
  else state.plant.environment.supply_norm = share_norm;
  plant::disturb(state.plant);
}

std::string words_of(const Machine& machine, const Action& action) {
  switch (action.kind) {
    case ActionKind::set_fault: {
      const int index = machine.fault_index(action.name);
      return index < 0 ? "" : machine.faults[static_cast<std::size_t>(index)].title;
    }
    case ActionKind::set_delivery: {
      const int index = machine.ingredient_index(action.name);
      return index < 0 ? "" : machine.ingredients[static_cast<std::size_t>(index)].title;
    }
    case ActionKind::mark_observation: return action.name;
    default: return "";
  }
}

}  // namespace

bool is_instructor_work(ActionKind kind) { return kind >= ActionKind::set_room && kind <= ActionKind::mark_observation; }

std::string why_not_instructor_work(const Machine& machine, const State& state, const Action& action) {
  switch (action.kind) {
    case ActionKind::set_delivery:
      return machine.ingredient_index(action.name) < 0 ? "There is no ingredient \"" + action.name + "\" here." : "";
    case ActionKind::set_fault: return why_not_fault(machine, state, action);
    case ActionKind::mark_observation: return action.name.empty() ? "Write down what was seen." : "";
    default: return "";
  }
}

void do_instructor_work(const Machine& machine, State& state, const Action& action, std::vector<Event>& events) {
  switch (action.kind) {
    case ActionKind::set_room:
      state.plant.environment.ambient_degC = action.number;
      plant::disturb(state.plant);
      break;
    case ActionKind::set_supply_voltage: set_supply(state, action.number); break;
    case ActionKind::set_fault: set_fault(machine, state, action); break;
    // What is delivered reaches the machine with the next pour, which names its temperature; clock and notes
    // change nothing.
    default: break;
  }
  const double number = action.kind == ActionKind::mark_observation ? (action.on ? 1.0 : 0.0) : action.number;
  events.push_back({state.tick, EventKind::instructor, static_cast<std::int32_t>(action.kind), words_of(machine, action), number, action.name});
}

}  // namespace stirbench::bench
