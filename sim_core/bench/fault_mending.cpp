#include <algorithm>
#include <set>

#include "sim_core/bench/fault_readings.h"
#include "sim_core/bench/fault_work_parts.h"
#include "sim_core/bench/lockout_parts.h"

// Breakers, causes named, repairs, the proof.
namespace stirbench::bench {

namespace {

using K = ActionKind;
namespace w = plant::wiring;
using faults::WorkCondition;

constexpr std::uint8_t heat_bit = 1, drive_bit = 2, chill_bit = 4;

const faults::Fault* fault_of(const Machine& machine, const Action& action) {
  const int index = machine.fault_index(action.name);
  return index < 0 ? nullptr : &machine.faults[static_cast<std::size_t>(index)];
}

const plant::ActiveFault* active_of(const plant::PlantState& plant, const std::string& id) {
  const std::uint64_t mark = faults::fault_mark(id);
  const auto found = std::find_if(plant.faults.begin(), plant.faults.end(), [mark](const plant::ActiveFault& one) { return one.mark == mark; });
  return found == plant.faults.end() ? nullptr : &*found;
}

template <std::size_t n>
bool put_mark(std::array<std::uint64_t, n>& list, std::uint64_t mark) {
  if (std::find(list.begin(), list.end(), mark) != list.end()) return true;
  const auto free = std::find(list.begin(), list.end(), std::uint64_t{0});
  if (free == list.end()) return false;
  *free = mark;
  return true;
}

// Parts of the circuit that a fault names: "E1" of "E1", "E3.1" and "E1.1 E1.2".
std::set<std::string> parts_of(const Machine& machine, const faults::Fault& fault) {
  std::set<std::string> out;
  for (const faults::Change& change : fault.changes) {
    const std::string id = change.at.substr(0, change.at.find_first_of(". "));
    if (machine.plant.circuit.part(id) >= 0) out.insert(id);
  }
  return out;
}

// The repair of `done` puts `other` right too: the same new part in the same place.
bool repairs_also(const Machine& machine, const faults::Fault& done, const faults::Fault& other) {
  if (done.id == other.id) return true;
  if (done.parts.empty() || done.parts != other.parts) return false;
  const std::set<std::string> a = parts_of(machine, done);
  const std::set<std::string> b = parts_of(machine, other);
  return a.empty() || b.empty() || std::any_of(a.begin(), a.end(), [&b](const std::string& one) { return b.contains(one); });
}

// What has to be seen running after a repair in this part of the machine.
std::uint8_t proof_of(const std::string& system) {
  if (system == "heating" || system == "sensing") return heat_bit | drive_bit;
  return system == "chiller" ? chill_bit : drive_bit;
}

std::string why_not_repair(const Machine& machine, const State& state, const Action& action) {
  const faults::Fault* fault = fault_of(machine, action);
  if (fault == nullptr) return "There is no fault \"" + action.name + "\".";
  const bool off_hand = action.kind == K::hand_off;
  if (off_hand) return faults::is_licensed(fault->who) ? "" : "This is no licensed work: do it, or leave it to a technician on the site.";
  if (!faults::may_do(state.lockout.situation.trade, fault->who))
    return "This is work for a " + std::string(faults::who_title(fault->who)) + ". Hand it off with what you found.";
  if (fault->repair_needs == WorkCondition::open_isolated && !state.lockout.panel_off) return "The panel is on: what has to be repaired cannot be reached.";
  const bool at_rest = fault->repair_needs == WorkCondition::standing && state.plant.flows.agitator_rpm > 5.0;
  if (at_rest) return "It still turns. Stop the machine first.";
  const auto& off = state.work.wires_off;
  if (std::any_of(off.begin(), off.end(), [](std::int32_t one) { return one != 0; })) return "Wires are off: put them back first.";
  return {};
}

std::string why_not_breaker(const Machine& machine, const State& state, const Action& action) {
  const int part = machine.plant.circuit.part(action.name);
  if (part < 0 || machine.plant.circuit.parts[static_cast<std::size_t>(part)].kind != w::PartKind::breaker) return "There is no breaker \"" + action.name + "\".";
  if (!state.plant.circuit.gear.is_tripped(part)) return "That breaker has not tripped.";
  const bool of_site = machine.plant.circuit.parts[static_cast<std::size_t>(part)].residual_A > 0.0;
  return of_site || state.lockout.panel_off ? "" : "The panel is on: the breaker is behind it.";
}

std::string why_not_prove(const State& state) {
  const FaultWork& work = state.work;
  if (state.lockout.panel_off) return "The panel is still off.";
  const std::uint8_t wanted = work.to_prove;
  if (wanted == 0) return "Nothing was repaired or put right yet.";
  constexpr std::array<const char*, 3> words{"heating", "stirring", "chilling"};
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool asked = (wanted >> i & 1U) != 0U;
    if (asked && work.ran_ticks[i] < prove_s * ticks_per_second) {
      return std::string("See it first: let it run a minute of ") + words[i] + " since the repair.";
    }
  }
  const auto& alarms = state.control.alarms;
  const bool alarm = std::any_of(alarms.begin(), alarms.end(), [](const control::Alarm& one) { return one.stands(); });
  return alarm ? "An alarm stands: it does not work yet." : "";
}

void set_positions(State& state, const faults::Fault& fault) {
  plant::Fittings& f = state.plant.fittings;
  for (const faults::Change& change : fault.changes) {
    if (change.target == faults::Target::isolator_off && !any_lock_on(state.lockout)) f.isolator_on = true;
    if (change.target == faults::Target::lid_open) f.lid_open = false;
    if (change.target == faults::Target::cover_open) f.shaft_cover_open = false;
    if (change.target == faults::Target::draw_open_norm) f.draw_opening_norm = 0.0;
  }
}

std::string repair(const Machine& machine, State& state, const faults::Fault& fault, bool other_hands) {
  FaultWork& work = state.work;
  if (!other_hands && (fault.repair_needs == WorkCondition::open_isolated || fault.repair_needs == WorkCondition::isolated)) {
    const bool panel = fault.repair_needs == WorkCondition::open_isolated;
    if (panel) note_lapses_in_panel(state, true);
    else if (!isolator_held(state.lockout)) count_lapse(state, Lapse::no_lock);
  }
  bool helped = false;
  const std::uint64_t tripped = state.plant.circuit.gear.tripped;
  for (const faults::Fault& one : machine.faults) {
    if (active_of(state.plant, one.id) == nullptr || !repairs_also(machine, fault, one)) continue;
    faults::mend(machine.plant, machine.faults, state.plant, one.id);
    put_mark(work.mended, faults::fault_mark(one.id));
    set_positions(state, one);
    helped = true;
  }
  // A new part does not switch a breaker on again; a colleague leaves the machine ready.
  if (!other_hands) state.plant.circuit.gear.tripped = tripped;
  ++work.repairs;
  work.parts_min += fault.parts_min;
  if (!helped) {
    ++work.needless_repairs;
    work.needless_parts_min += fault.parts_min;
  }
  work.to_prove = static_cast<std::uint8_t>(work.to_prove | proof_of(fault.system));
  work.ran_ticks = {};
  work.proved = false;
  return other_hands ? "A licensed colleague came and did it: " + fault.repair : fault.repair;
}

// A misuse needs no spanner: naming it is what has to be seen working again.
void name_cause(State& state, const faults::Fault& fault) {
  FaultWork& work = state.work;
  put_mark(work.named, faults::fault_mark(fault.id));
  if (fault.kind == faults::FaultKind::misuse) work.to_prove = static_cast<std::uint8_t>(work.to_prove | proof_of(fault.system));
}

}  // namespace

bool is_mending(ActionKind kind) { return kind >= K::reset_breaker && kind <= K::prove; }

std::string why_not_mending(const Machine& machine, const State& state, const Action& action) {
  switch (action.kind) {
    case K::reset_breaker: return why_not_breaker(machine, state, action);
    case K::name_cause: {
      if (fault_of(machine, action) == nullptr) return "There is no fault \"" + action.name + "\".";
      const auto& named = state.work.named;
      const bool again = std::find(named.begin(), named.end(), faults::fault_mark(action.name)) != named.end();
      if (again) return "You named it already.";
      return named.back() == 0 ? "" : "Eight causes are named: that is no conclusion any more.";
    }
    case K::repair:
    case K::hand_off: return why_not_repair(machine, state, action);
    default: return why_not_prove(state);
  }
}

std::string do_mending(const Machine& machine, State& state, const Action& action) {
  switch (action.kind) {
    case K::reset_breaker: {
      const int part = machine.plant.circuit.part(action.name);
      state.plant.circuit.gear.tripped &= ~(std::uint64_t{1} << static_cast<unsigned>(part));
      state.plant.circuit.seen_bits = plant::CircuitState::nothing_seen;
      break;
    }
    case K::name_cause: name_cause(state, *fault_of(machine, action)); break;
    case K::repair: return repair(machine, state, *fault_of(machine, action), false);
    case K::hand_off:
      ++state.work.handed_off;
      put_mark(state.work.named, faults::fault_mark(action.name));
      return repair(machine, state, *fault_of(machine, action), true);
    case K::prove: state.work.proved = true; break;
    default: break;
  }
  return {};
}

}  // namespace stirbench::bench
