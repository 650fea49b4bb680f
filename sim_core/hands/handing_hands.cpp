#include <algorithm>

#include "sim_core/hands/contact.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/mending.h"
#include "sim_core/hands/procedure.h"
#include "sim_core/machine/fault_readings.h"
#include "sim_core/machine/number_words.h"

// A fault handed to a colleague: the report, the call, and what the colleague does.
namespace stirbench::hands {

namespace {

using machine::HandOver;
using machine::HandOverStage;

constexpr Text finding{"finding", Catalogue::anything, "what was looked at or measured, by its title"};
constexpr Flag included{"in", "true: it goes into the report; false: it is left out"};
constexpr Text suspected{"cause", Catalogue::suspicion, "id of the fault that is suspected, or not_known"};

double included_number(const State&, const Action& action) { return action.get(included) ? 1.0 : 0.0; }

const faults::Fault* fault_with(const Machine& machine, std::uint64_t mark) {
  if (mark == 0) return nullptr;
  const auto found =
      std::find_if(machine.faults.begin(), machine.faults.end(),
                   [mark](const faults::Fault& one) { return faults::fault_id_hash(one.id) == mark; });
  return found == machine.faults.end() ? nullptr : &*found;
}

std::uint64_t mark_of(const Action& action) {
  const std::string& id = action.get(suspected);
  return id == not_known ? 0 : faults::fault_id_hash(id);
}

std::uint64_t after_min(const State& state, double minutes) {
  return state.tick + static_cast<std::uint64_t>(minutes * 60.0 * machine::ticks_per_second);
}

// Who is called: the trade that the suspected repair asks for.
std::string who_comes(const faults::Fault* fault) {
  return fault == nullptr || !faults::is_licensed(fault->who) ? std::string("colleague")
                                                              : std::string(faults::who_title(fault->who));
}

std::string why_not_hand_off(const Machine& machine, const State& state, const Action& action) {
  const HandOver& over = state.work.hand_over;
  if (over.stage == HandOverStage::called) return "A colleague was called and is on the way.";
  if (over.stage == HandOverStage::here) return std::string(colleague_works);
  const faults::Fault* fault = fault_with(machine, mark_of(action));
  const bool own = fault != nullptr && !faults::is_licensed(fault->who) &&
                   faults::may_do(state.lockout.situation.trade, fault->who);
  if (own) return "That is your own work: do it yourself.";
  return why_not_safe(state);
}

Outcome handed_off(Scene& scene, const Action& action) {
  machine::FaultWork& work = scene.state.work;
  ++work.handed_off;
  const faults::Fault* fault = fault_with(scene.machine, mark_of(action));
  if (fault != nullptr) put_named(scene.state, fault->id);
  work.hand_over = {.stage = HandOverStage::called,
                    .suspected = mark_of(action),
                    .next_tick = after_min(scene.state, machine::licensed_comes_min)};
  return "Reported: left " + left_words(scene.state) +
         ". Suspected: " + (fault != nullptr ? fault->title : "not known") + ". The " + who_comes(fault) +
         " comes in " + machine::with_unit(machine::licensed_comes_min, 0, "min") + ".";
}

// A fault that has to be mended, not only a position that hands have left.
const faults::Fault* first_fault(const Machine& machine, const State& state) {
  for (const plant::ActiveFault& active : state.plant.faults) {
    const faults::Fault* fault = fault_with(machine, active.mark);
    if (fault != nullptr && would_help(machine, state, *fault)) return fault;
  }
  return nullptr;
}

void comes(const Machine& machine, State& state, std::vector<Event>& events) {
  machine::Lockout& lockout = state.lockout;
  HandOver& over = state.work.hand_over;
  over.found_switched_on = state.plant.fittings.isolator_on;
  if (over.found_switched_on) {
    state.plant.fittings.isolator_on = false;
    isolator_turned_off(state);
  }
  lockout.colleagues = {.on = true, .tag = true};
  const faults::Fault* suspicion = fault_with(machine, over.suspected);
  over.as_suspected = suspicion != nullptr && would_help(machine, state, *suspicion);
  const faults::Fault* found = over.as_suspected ? suspicion : first_fault(machine, state);
  over.mends = found != nullptr ? faults::fault_id_hash(found->id) : 0;
  over.stage = HandOverStage::here;
  over.next_tick = after_min(state, (found != nullptr ? found->repair_min : 0.0) +
                                        (over.as_suspected ? 0.0 : machine::colleague_search_min));
  events.push_back({state.tick, EventKind::other_person, -1,
                    "The " + who_comes(suspicion) + " comes with your report, " +
                        (over.found_switched_on ? "finds it switched on, isolates it, " : "") +
                        "hangs their own padlock and tag on the isolator and begins.",
                    0.0, "colleague_comes"});
}

std::string words_given_back(const Machine& machine, const HandOver& over) {
  const faults::Fault* suspicion = fault_with(machine, over.suspected);
  const faults::Fault* mended = fault_with(machine, over.mends);
  std::string out = "The " + who_comes(suspicion) + " takes their padlock off and gives it back: ";
  if (mended == nullptr) return out + "nothing was found wrong, after a long search.";
  out += mended->title + ". " + mended->repair;
  if (over.as_suspected) return out + " It was what you suspected.";
  const std::string search = machine::with_unit(machine::colleague_search_min, 0, "min");
  return out + (suspicion == nullptr
                    ? " Nothing was suspected: the search took " + search + "."
                    : " It was not what you suspected: the search took " + search + " more.");
}

// The machine is left ready, its breakers on, its panel shut; the isolator stays off, with the person's lock.
void gives_back(const Machine& machine, State& state, std::vector<Event>& events) {
  HandOver& over = state.work.hand_over;
  if (const faults::Fault* mended = fault_with(machine, over.mends)) do_repair(machine, state, *mended);
  state.lockout.colleagues = {};
  state.lockout.panel_off = false;
  over.stage = HandOverStage::given_back;
  events.push_back(
      {state.tick, EventKind::other_person, -1, words_given_back(machine, over), 0.0, "given_back"});
}

}  // namespace

std::string why_not_safe(const State& state) {
  const machine::Lockout& lockout = state.lockout;
  const bool runs = control::mode_moves(state.control.mode) || state.plant.flows.agitator_rpm > turning_rpm;
  if (runs) return "It still runs. Stop it first: nobody is called to a running machine.";
  if (state.plant.fittings.isolator_on)
    return "Isolate it first: whoever comes finds a machine that cannot start.";
  const machine::Padlock& own = lockout.yours;
  const bool locks = faults::may_do(lockout.situation.trade, faults::Who::technician);
  const bool held = own.on && !own.on_neighbour && !own.key_in;
  if (locks && !held) return "Hang your own padlock on its isolator and pocket the key.";
  return own.tag ? "" : "Hang your tag on its isolator: the next person must know that it is out of order.";
}

std::string left_words(const State& state) {
  const machine::Padlock& own = state.lockout.yours;
  const bool runs = control::mode_moves(state.control.mode) || state.plant.flows.agitator_rpm > turning_rpm;
  std::string out = runs ? "running" : "stopped";
  out += state.plant.fittings.isolator_on ? ", switched on" : ", isolated";
  if (own.on && !own.on_neighbour) out += own.key_in ? ", padlock on with its key in it" : ", own padlock on";
  return out + (own.tag ? ", tagged" : "");
}

void advance_hand_over(const Machine& machine, State& state, std::vector<Event>& events) {
  HandOver& over = state.work.hand_over;
  if (over.stage == HandOverStage::called && state.tick >= over.next_tick) {
    // They wait until your hands are out of the machine, and for another colleague's padlock.
    if (state.lockout.working_at == machine::WorkPlace::none && !state.lockout.colleagues.on)
      comes(machine, state, events);
  } else if (over.stage == HandOverStage::here && state.tick >= over.next_tick) {
    gives_back(machine, state, events);
  }
}

constinit const HandOf<Text, Flag> report_finding{
    {
        .name = "report_finding",
        .meaning =
            "Leave a finding out of the report for a colleague, or put it in again. All are in at first.",
        .group = Group::faults,
        .value = included_number,
    },
    finding,
    included};

constinit const HandOf<Text> hand_off{
    {
        .name = "hand_off",
        .meaning =
            "Hand the fault to a colleague who may mend it, with the report of what was found, how the "
            "machine was left and what is suspected. They come, lock out, work and give it back.",
        .group = Group::faults,
        .why_not = why_not_hand_off,
        .effect = handed_off,
    },
    suspected};

HandList handing_hands() {
  static constexpr const Hand* list[] = {&report_finding, &hand_off};
  return list;
}

}  // namespace stirbench::hands
