#include <algorithm>

#include "sim_core/hands/contact.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/procedure.h"
#include "sim_core/machine/record_harm.h"

// Checks of the fault guide by eye, ear, hand and simple tools. The hand takes its minutes and its
// precautions; what it tells is judged beside the run, from the state (training/grounds.h).
namespace stirbench::hands {

namespace {

using faults::AccessState;
using machine::Lapse;
using machine::SenseCheck;

constexpr Text check{"check", Catalogue::check, "id of a check, as the machine's fault guide names it"};

const SenseCheck& check_of(const Machine& machine, const Action& action) {
  return machine.checks[static_cast<std::size_t>(machine.check_index(action.get(check)))];
}

bool wants_panel_off(AccessState needs) {
  return needs == AccessState::open_isolated || needs == AccessState::open_live;
}

bool wants_isolated(AccessState needs) {
  return needs == AccessState::open_isolated || needs == AccessState::isolated;
}

std::string why_not_check(const Machine& machine, const State& state, const Action& action) {
  const SenseCheck& one = check_of(machine, action);
  if (!faults::may_do(state.lockout.situation.trade, one.who))
    return "This check is for a " + std::string(faults::who_title(one.who)) + ".";
  if (wants_isolated(one.needs) && state.plant.fittings.isolator_on)
    return "This is done on an isolated machine: turn the isolator off and lock it first.";
  if (wants_panel_off(one.needs) && !state.lockout.panel_off)
    return "The panel is on: what has to be looked at is behind it.";
  return {};
}

void harms_of_check(Scene& scene, const Action& action) {
  const double rpm = scene.state.plant.flows.agitator_rpm;
  if (check_of(scene.machine, action).needs == AccessState::isolated && rpm > turning_rpm)
    machine::record_harm(scene.state, machine::HarmId::moving_agitator, rpm, scene.events);
}

Outcome checked(Scene& scene, const Action& action) {
  const AccessState needs = check_of(scene.machine, action).needs;
  if (needs == AccessState::open_isolated) note_lapses_in_panel(scene.state, true);
  if (needs == AccessState::isolated && !isolator_held(scene.state.lockout))
    count_lapse(scene.state, Lapse::no_lock);
  ++scene.state.work.checks;
  return {};
}

double check_min(const Machine& machine, const Action& action) { return check_of(machine, action).minutes; }

}  // namespace

constinit const HandOf<Text> make_check{{
                                            .name = "make_check",
                                            .meaning = "Make a check of the fault guide by eye, ear or hand.",
                                            .group = Group::faults,
                                            .why_not = why_not_check,
                                            .harms = harms_of_check,
                                            .effect = checked,
                                            .minutes_of = check_min,
                                        },
                                        check};

HandList checking_hands() {
  static constexpr const Hand* list[] = {&make_check};
  return list;
}

}  // namespace stirbench::hands
