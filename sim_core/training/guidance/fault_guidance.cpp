#include "sim_core/training/guidance/fault_guidance.h"

#include <algorithm>

#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/machine/fault_readings.h"

namespace stirbench::training {

namespace {

using faults::AccessState;
using faults::Fault;
using faults::FaultTarget;

constexpr double tried_s = 10.0;  // so long something runs before it is said that it does not work (choice)

const Fault* fault_named(const Moment& moment, const std::string& id) {
  const int index = moment.machine.fault_index(id);
  return index < 0 ? nullptr : &moment.machine.faults[static_cast<std::size_t>(index)];
}

// A cause that was named on grounds and has not been seen to yet.
const Fault* to_mend(const Moment& moment, const Grounds& grounds) {
  for (const Naming& one : grounds.namings()) {
    const Fault* fault = one.standing == Standing::earned ? fault_named(moment, one.cause) : nullptr;
    if (fault == nullptr) continue;
    const auto& mended = moment.state.work.mended;
    if (std::find(mended.begin(), mended.end(), faults::fault_id_hash(fault->id)) != mended.end()) continue;
    const bool left = machine::is_left(moment.state, *fault);
    const bool colleagues = !faults::may_do(moment.state.lockout.situation.trade, fault->who);
    // What is named is repaired, be it there or not; a colleague who was called is waited for.
    const bool open = grounds.has_acted_on(one.cause) ? left && colleagues
                                                      : left || fault->kind == faults::FaultKind::fault;
    if (open) return fault;
  }
  return nullptr;
}

bool stands_open(const Fault& fault, FaultTarget target) {
  return std::any_of(fault.changes.begin(), fault.changes.end(),
                     [target](const faults::Change& one) { return one.target == target; });
}

// A position that somebody left wrong. `at`: at the machine.
NextHand put_right(const Moment& moment, const Fault& fault, const FaultAccess& at) {
  if (stands_open(fault, FaultTarget::isolator_off) && !moment.state.plant.fittings.isolator_on) {
    if (!machine::step_of(moment.state.lockout, machine::LockoutStep::people_told_back).done)
      return do_hand(hands::tell_people("restart"), "Tell the people that it comes back.",
                     "Nobody has hands in a machine that is switched on.", "hand.lockout.tell_restart");
    if (NextHand next = at.closed_up()) return next;
    return do_hand(hands::isolate(false), "Switch the isolator on.", "Nobody's lock holds it.",
                   "hand.isolate");
  }
  if (stands_open(fault, FaultTarget::lid_open))
    return do_hand(hands::close_lid(), "Close the lid.", "It stood open.", "hand.close_lid");
  if (stands_open(fault, FaultTarget::cover_open))
    return do_hand(hands::close_shaft_cover(), "Put the shaft cover back.", "It was off.",
                   "hand.close_shaft_cover");
  if (stands_open(fault, FaultTarget::draw_open_norm))
    return do_hand(hands::turn_draw_valve(0.0), "Shut the draw valve.", "It stood open.", "hand.draw_shut");
  if (control::mode_moves(moment.state.control.mode))
    return do_hand(hands::press("stop", 0.2), "Press Stop.", "It is put right at rest.", "panel.key.stop");
  if (moment.state.plant.flows.agitator_rpm > 1.0)
    return wait_until("Wait until the agitator rests.", "It runs on for a moment.");
  return do_hand(hands::repair(fault.id), "Put it right.", "Nothing is broken.", "hand.fault.repair");
}

bool ran(const machine::State& state, double seconds) {
  for (std::size_t i = 0; i < state.work.ran_ticks.size(); ++i) {
    const bool asked = (state.work.to_prove >> i & 1U) != 0U;
    if (asked && state.work.ran_ticks[i] < seconds * machine::ticks_per_second) return false;
  }
  return true;
}

Spell spell_of_key(std::string_view key) {
  return key == "heat" ? Spell::warming : key == "chill" ? Spell::chilling : Spell::stirring;
}

// Whether the machine was tried since it was mended: it is plain to see then that something is still wrong.
bool tried(const Grounds& grounds, const machine::State& state) {
  return grounds.count("findings") > 0.0 || ran(state, tried_s);
}

// An earned cause is named; one that was named too early is seen to.
NextHand name(const std::string& cause, const Moment& moment, const Grounds& grounds) {
  NextHand out = do_hand(hands::name_cause(cause), "Name what your findings show.",
                         "What you found leaves one cause that is nine tenths sure.", "hand.fault.cause");
  if (hands::why_not(moment.machine, moment.state, out->hand).empty()) return out;
  const Fault* fault = fault_named(moment, cause);
  return fault == nullptr || grounds.has_acted_on(cause) ? NextHand() : next_to_mend(moment, grounds, *fault);
}

// By the guide's counts no check tells more: then what was not looked at yet is, the quickest first.
NextHand what_is_left(const FaultChecks& checks, const Grounds& grounds, const Moment& moment,
                      const std::vector<std::size_t>& left_out) {
  const diagnosis::Model& model = grounds.guide().model();
  const faults::Who trade = moment.state.lockout.situation.trade;
  std::vector<std::size_t> order;
  for (std::size_t q = model.symptoms.size(); q < model.question_count(); ++q) {
    const bool out = std::find(left_out.begin(), left_out.end(), q) != left_out.end();
    if (!out && faults::may_do(trade, model.check(q).who)) order.push_back(q);
  }
  std::stable_sort(order.begin(), order.end(), [&model](std::size_t a, std::size_t b) {
    return model.check(a).minutes < model.check(b).minutes;
  });
  for (const std::size_t q : order) {
    NextHand next = checks.make(q);
    if (!next) continue;
    next->check = model.question_title(q);
    next->worth = "Nothing tells much more by the guide's counts. This was not looked at yet.";
    return next;
  }
  return {};
}

// The lesson's step of this phase: the one that is under way, else the last.
std::size_t step_of_phase(const Lesson& lesson, const Goals& goals, FaultPhase phase) {
  const std::size_t next = goals.next();
  if (next >= lesson.steps.size() || lesson.steps[next].fault_work == phase) return next;
  std::size_t out = next;
  for (std::size_t i = 0; i < lesson.steps.size(); ++i)
    if (lesson.steps[i].fault_work == phase) out = i;
  return out;
}

}  // namespace

std::string_view key_to_prove(const machine::State& state) {
  constexpr unsigned heat = 1, drive = 2, chill = 4;
  const unsigned asked = state.work.to_prove;
  const auto open = [&state](std::size_t i) {
    return state.work.ran_ticks[i] < machine::prove_s * machine::ticks_per_second;
  };
  if ((asked & heat) != 0U && open(0)) return "heat";
  if ((asked & chill) != 0U && open(2)) return "chill";
  if ((asked & drive) != 0U && open(1)) return "stir";
  return (asked & heat) != 0U ? "heat" : (asked & chill) != 0U ? "chill" : asked != 0U ? "stir" : "";
}

NextHand next_to_mend(const Moment& moment, const Grounds& grounds, const Fault& fault) {
  const FaultAccess at(moment, grounds);
  if (!faults::may_do(moment.state.lockout.situation.trade, fault.who)) {
    if (grounds.has_acted_on(fault.id))
      return wait_until("Wait until your colleague has done it.", "Licensed work is for licensed people.");
    if (NextHand next = at.wires_back()) return next;
    if (NextHand next = at.hands_empty()) return next;
    if (NextHand next = at.locked_out()) return next;
    return do_hand(hands::hand_off(fault.id), "Hand it to a licensed colleague, with what you found.",
                   "Licensed work is for licensed people.", "hand.fault.hand_off");
  }
  if (fault.kind == faults::FaultKind::misuse) return put_right(moment, fault, at);
  if (NextHand next = at.wires_back()) return next;
  if (NextHand next = at.at(fault.repair_needs)) return next;
  if (fault.repair_needs == AccessState::standing && moment.state.plant.flows.agitator_rpm > 1.0 &&
      !control::mode_moves(moment.state.control.mode))
    return wait_until("Wait until the agitator rests.", "It runs on for a moment.");
  if (fault.repair_needs == AccessState::standing && control::mode_moves(moment.state.control.mode))
    return do_hand(hands::press("stop", 0.2), "Press Stop.", "It is repaired at rest.", "panel.key.stop");
  if (NextHand next = at.hands_empty()) return next;
  return do_hand(hands::repair(fault.id), "Repair what you named.", "With the parts that belong to it.",
                 "hand.fault.repair");
}

NextHand next_to_prove(const Moment& moment, const Grounds& grounds) {
  const FaultAccess at(moment, grounds);
  if (NextHand next = at.breakers_on()) return next;
  if (NextHand next = at.closed_up()) return next;
  if (ran(moment.state, machine::prove_s + 1.0) &&
      hands::why_not(moment.machine, moment.state, hands::prove()).empty())
    return do_hand(hands::prove(), "Say that it works again.", "You saw it run since the repair.",
                   "hand.fault.prove");
  const std::string_view key = key_to_prove(moment.state);
  const Spell wanted = spell_of_key(key);
  const bool runs = moment.state.control.mode == (wanted == Spell::warming    ? control::Mode::heating
                                                  : wanted == Spell::chilling ? control::Mode::chilling
                                                                              : control::Mode::stirring);
  if (runs && grounds.spell() == wanted)
    return wait_until("Let it run a minute, and watch.", "A repair that nobody saw working is a guess.");
  if (wanted == Spell::chilling && grounds.spell() == Spell::warming) {
    if (NextHand next = at.told(wanted, 0.0)) return next;
  }
  if (grounds.spell() != Spell::rest && grounds.spell() != Spell::stopped)
    return do_hand(hands::press("stop", 0.2), "Press Stop.", "Then the key of what had failed.",
                   "panel.key.stop");
  return wanted == Spell::chilling ? at.told(wanted, 0.0) : at.press(key);
}

const ProposedCheck& FaultGuidance::proposal(const Grounds& grounds, const Moment& moment,
                                             const std::vector<std::size_t>& left_out) {
  if (version_ != grounds.version()) kept_.clear();
  version_ = grounds.version();
  const auto kept = std::find_if(kept_.begin(), kept_.end(),
                                 [&left_out](const Kept& one) { return one.left_out == left_out; });
  if (kept != kept_.end()) return kept->proposed;
  kept_.push_back({left_out, grounds.advice(moment.state, left_out)});
  return kept_.back().proposed;
}

NextHand FaultGuidance::find(const Grounds& grounds, const Moment& moment) {
  const FaultChecks checks(moment, grounds);
  const std::size_t questions = grounds.guide().questions().size();
  std::vector<std::size_t> left_out;
  for (std::size_t q = grounds.guide().model().symptoms.size(); q < questions; ++q) {
    const auto& asked = grounds.asked();
    if (!checks.possible(q) || std::find(asked.begin(), asked.end(), q) != asked.end()) left_out.push_back(q);
  }
  for (std::size_t tries = 0; tries < questions; ++tries) {
    const ProposedCheck& proposed = proposal(grounds, moment, left_out);
    if (!proposed.earned.empty()) return name(proposed.earned, moment, grounds);
    if (proposed.question == diagnosis::Model::npos) return what_is_left(checks, grounds, moment, left_out);
    if (NextHand next = checks.make(proposed.question)) {
      next->check = proposed.check;
      next->worth = proposed.why;
      return next;
    }
    left_out.push_back(proposed.question);
  }
  return {};
}

Advice FaultGuidance::advise(const Lesson& lesson, const Goals& goals, const Grounds& grounds,
                             const Moment& moment) {
  FaultPhase phase = FaultPhase::find;
  NextHand next;
  const machine::HandOverStage stage = moment.state.work.hand_over.stage;
  const bool waits = stage == machine::HandOverStage::called || stage == machine::HandOverStage::here;
  const bool mended = moment.state.work.to_prove != 0;
  const bool whole = machine::faults_left(moment.machine, moment.state) == 0;
  if (waits) {
    phase = FaultPhase::mend;
    next = wait_until("Wait until your colleague gives it back.", "Licensed work is for licensed people.");
  } else if (const Fault* fault = to_mend(moment, grounds)) {
    phase = FaultPhase::mend;
    next = next_to_mend(moment, grounds, *fault);
  } else if (mended && (whole || !tried(grounds, moment.state))) {
    phase = FaultPhase::prove;
    next = next_to_prove(moment, grounds);
  } else {
    next = find(grounds, moment);
  }
  Advice out = told(lesson, step_of_phase(lesson, goals, phase));
  if (!next) {
    out.kind = Advice::Kind::stuck;
    out.why = "No check that you may make tells more.";
    out.trouble = "The fault guide has no check left.";
    return out;
  }
  next->goal = out.goal;
  next->hint = out.hint;
  return next->kind == Advice::Kind::act ? led_to(lesson, goals, moment, *next) : *next;
}

}  // namespace stirbench::training
