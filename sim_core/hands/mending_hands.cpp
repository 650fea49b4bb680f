#include <algorithm>
#include <set>

#include "sim_core/hands/contact.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/mending.h"
#include "sim_core/hands/procedure.h"
#include "sim_core/machine/fault_readings.h"
#include "sim_core/machine/record_harm.h"

// Breakers, causes named, repairs, the proof.
namespace stirbench::hands {

namespace {

using faults::AccessState;
using machine::FaultWork;
using machine::HarmId;
namespace w = electrics;

constexpr Text breaker{"breaker", Catalogue::breaker, "the breaker's letter and number"};
constexpr Text cause{"cause", Catalogue::fault, "id of a fault, as content names it"};

constexpr std::uint8_t heat_bit = 1, drive_bit = 2, chill_bit = 4;

const faults::Fault& fault_of(const Machine& machine, const Action& action) {
  return machine.faults[static_cast<std::size_t>(machine.fault_index(action.get(cause)))];
}

bool is_active(const plant::PlantState& plant, const std::string& id) {
  const std::uint64_t mark = faults::fault_id_hash(id);
  return std::any_of(plant.faults.begin(), plant.faults.end(),
                     [mark](const plant::ActiveFault& one) { return one.mark == mark; });
}

template <std::size_t n>
void put_mark(std::array<std::uint64_t, n>& list, std::uint64_t mark) {
  if (std::find(list.begin(), list.end(), mark) != list.end()) return;
  const auto free = std::find(list.begin(), list.end(), std::uint64_t{0});
  if (free != list.end()) *free = mark;
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
  return a.empty() || b.empty() ||
         std::any_of(a.begin(), a.end(), [&b](const std::string& one) { return b.contains(one); });
}

// What has to be seen running after a repair in this part of the machine.
std::uint8_t proof_of(const std::string& system) {
  if (system == "heating" || system == "sensing") return heat_bit | drive_bit;
  return system == "chiller" ? chill_bit : drive_bit;
}

std::string why_not_breaker(const Machine& machine, const State& state, const Action& action) {
  if (state.work.hand_over.stage == machine::HandOverStage::here) return std::string(colleague_works);
  const int part = machine.plant.circuit.part(action.get(breaker));
  if (!state.plant.circuit.gear.is_tripped(part)) return "That breaker has not tripped.";
  const bool of_site = machine.plant.circuit.parts[static_cast<std::size_t>(part)].residual_A > 0.0;
  return of_site || state.lockout.panel_off ? "" : "The panel is on: the breaker is behind it.";
}

Outcome breaker_reset(Scene& scene, const Action& action) {
  plant::CircuitState& circuit = scene.state.plant.circuit;
  const int part = scene.machine.plant.circuit.part(action.get(breaker));
  circuit.gear.tripped &= ~(std::uint64_t{1} << static_cast<unsigned>(part));
  circuit.seen_bits = plant::CircuitState::nothing_seen;
  return {};
}

std::string why_not_name(const Machine&, const State& state, const Action& action) {
  const auto& named = state.work.named;
  const bool again =
      std::find(named.begin(), named.end(), faults::fault_id_hash(action.get(cause))) != named.end();
  if (again) return "You named it already.";
  return named.back() == 0 ? "" : "Eight causes are named: that is no conclusion any more.";
}

// A misuse needs no spanner: naming it is what has to be seen working again.
Outcome cause_named(Scene& scene, const Action& action) {
  FaultWork& work = scene.state.work;
  const faults::Fault& fault = fault_of(scene.machine, action);
  put_mark(work.named, faults::fault_id_hash(fault.id));
  if (fault.kind == faults::FaultKind::misuse)
    work.to_prove = static_cast<std::uint8_t>(work.to_prove | proof_of(fault.system));
  return {};
}

std::string why_not_take_back(const Machine&, const State& state, const Action& action) {
  const auto& named = state.work.named;
  const bool known =
      std::find(named.begin(), named.end(), faults::fault_id_hash(action.get(cause))) != named.end();
  if (!known) return "You did not name it.";
  const std::uint64_t mark = faults::fault_id_hash(action.get(cause));
  const bool reported =
      state.work.hand_over.stage != machine::HandOverStage::none && state.work.hand_over.suspected == mark;
  return reported ? "A colleague was called with it: what is reported stays." : "";
}

// The list stays without gaps.
Outcome name_taken_back(Scene& scene, const Action& action) {
  auto& named = scene.state.work.named;
  const auto gone = std::remove(named.begin(), named.end(), faults::fault_id_hash(action.get(cause)));
  std::fill(gone, named.end(), std::uint64_t{0});
  ++scene.state.work.names_taken_back;
  return {};
}

std::string why_not_repair(const Machine& machine, const State& state, const Action& action) {
  const faults::Fault& fault = fault_of(machine, action);
  if (state.work.hand_over.stage == machine::HandOverStage::here) return std::string(colleague_works);
  if (!faults::may_do(state.lockout.situation.trade, fault.who)) {
    return "This is work for a " + std::string(faults::who_title(fault.who)) +
           ". Hand it off with what you found.";
  }
  if (fault.repair_needs == AccessState::open_isolated && !state.lockout.panel_off)
    return "The panel is on: what has to be repaired cannot be reached.";
  const bool turns =
      fault.repair_needs == AccessState::standing && state.plant.flows.agitator_rpm > turning_rpm;
  if (turns) return "It still turns. Stop the machine first.";
  const auto& off = state.work.wires_off;
  if (std::any_of(off.begin(), off.end(), [](std::int32_t one) { return one != 0; }))
    return "Wires are off: put them back first.";
  return {};
}

void harms_of_repair(Scene& scene, const Action& action) {
  const faults::Fault& fault = fault_of(scene.machine, action);
  const bool in_panel = fault.repair_needs == AccessState::open_isolated;
  const double touched_V =
      in_panel ? std::max(terminals_V(scene.machine, scene.state), scene.state.lockout.capacitor_V) : 0.0;
  const bool in_reach = in_panel || fault.repair_needs == AccessState::isolated;
  const double rpm = scene.state.plant.flows.agitator_rpm;
  if (in_reach && rpm > turning_rpm)
    machine::record_harm(scene.state, HarmId::moving_agitator, rpm, scene.events);
  if (touched_V > machine::touch_V)
    machine::record_harm(scene.state, HarmId::live_terminals, touched_V, scene.events);
}

void note_lapses_of_repair(State& state, const faults::Fault& fault) {
  if (fault.repair_needs == AccessState::open_isolated) note_lapses_in_panel(state, true);
  if (fault.repair_needs == AccessState::isolated && !isolator_held(state.lockout))
    count_lapse(state, machine::Lapse::no_lock);
}

// Positions of hands that belonged to the fault.
void set_positions(State& state, const faults::Fault& fault) {
  plant::Fittings& f = state.plant.fittings;
  for (const faults::Change& change : fault.changes) {
    if (change.target == faults::FaultTarget::isolator_off && !any_lock_on(state.lockout))
      f.isolator_on = true;
    if (change.target == faults::FaultTarget::lid_open) f.lid_open = false;
    if (change.target == faults::FaultTarget::cover_open) f.shaft_cover_open = false;
    if (change.target == faults::FaultTarget::draw_open_norm) f.draw_opening_norm = 0.0;
  }
}

Outcome repaired(Scene& scene, const Action& action) {
  const faults::Fault& fault = fault_of(scene.machine, action);
  note_lapses_of_repair(scene.state, fault);
  // A new part does not switch a breaker on again.
  const std::uint64_t tripped = scene.state.plant.circuit.gear.tripped;
  do_repair(scene.machine, scene.state, fault);
  scene.state.plant.circuit.gear.tripped = tripped;
  return fault.repair;
}

double repair_min(const Machine& machine, const Action& action) {
  return fault_of(machine, action).repair_min;
}

std::string why_not_prove(const Machine&, const State& state, const Action&) {
  const FaultWork& work = state.work;
  if (state.lockout.panel_off) return "The panel is still off.";
  if (work.to_prove == 0) return "Nothing was repaired or put right yet.";
  constexpr std::array<const char*, 3> words{"heating", "stirring", "chilling"};
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool asked = (work.to_prove >> i & 1U) != 0U;
    if (asked && work.ran_ticks[i] < machine::prove_s * machine::ticks_per_second) {
      return std::string("See it first: let it run a minute of ") + words[i] + " since the repair.";
    }
  }
  const auto& alarms = state.control.alarms;
  const bool alarm =
      std::any_of(alarms.begin(), alarms.end(), [](const control::Alarm& one) { return one.stands(); });
  return alarm ? "An alarm stands: it does not work yet." : "";
}

Outcome proved(Scene& scene, const Action&) {
  scene.state.work.proved = true;
  return {};
}

}  // namespace

bool would_help(const Machine& machine, const State& state, const faults::Fault& fault) {
  return std::any_of(machine.faults.begin(), machine.faults.end(), [&](const faults::Fault& one) {
    return is_active(state.plant, one.id) && repairs_also(machine, fault, one);
  });
}

void put_named(State& state, const std::string& cause_id) {
  put_mark(state.work.named, faults::fault_id_hash(cause_id));
}

void do_repair(const Machine& machine, State& state, const faults::Fault& fault) {
  FaultWork& work = state.work;
  bool helped = false;
  for (const faults::Fault& one : machine.faults) {
    if (!is_active(state.plant, one.id) || !repairs_also(machine, fault, one)) continue;
    faults::remove_fault(machine.plant, machine.faults, state.plant, one.id);
    put_mark(work.mended, faults::fault_id_hash(one.id));
    set_positions(state, one);
    helped = true;
  }
  ++work.repairs;
  work.parts_min += fault.parts_min;
  if (!helped) {
    ++work.needless_repairs;
    work.needless_parts_min += fault.parts_min;
  }
  work.to_prove = static_cast<std::uint8_t>(work.to_prove | proof_of(fault.system));
  work.ran_ticks = {};
  work.proved = false;
}

constinit const HandOf<Text> reset_breaker{
    {
        .name = "reset_breaker",
        .meaning = "Switch a breaker that has tripped on again.",
        .group = Group::faults,
        .why_not = why_not_breaker,
        .effect = breaker_reset,
        .minutes = 1.0,
    },
    breaker,
};

constinit const HandOf<Text> name_cause{
    {
        .name = "name_cause",
        .meaning = "Say what you think is wrong.",
        .group = Group::faults,
        .why_not = why_not_name,
        .effect = cause_named,
    },
    cause,
};

constinit const HandOf<Text> take_back_name{
    {
        .name = "take_back_name",
        .meaning =
            "Say that you no longer think so of a cause that you named. That it was named stays known.",
        .group = Group::faults,
        .why_not = why_not_take_back,
        .effect = name_taken_back,
    },
    cause,
};

constinit const HandOf<Text> repair{
    {
        .name = "repair",
        .meaning =
            "Do the repair that belongs to a cause, with its parts. Licensed work is refused to others.",
        .group = Group::faults,
        .why_not = why_not_repair,
        .harms = harms_of_repair,
        .effect = repaired,
        .minutes_of = repair_min,
    },
    cause};

constinit const HandOf<> prove{{
    .name = "prove",
    .meaning = "State that it works again, after you saw it run since the repair.",
    .group = Group::faults,
    .why_not = why_not_prove,
    .effect = proved,
    .minutes = 1.0,
}};

HandList mending_hands() {
  static constexpr const Hand* list[] = {&reset_breaker, &name_cause, &take_back_name, &repair, &prove};
  return list;
}

}  // namespace stirbench::hands
