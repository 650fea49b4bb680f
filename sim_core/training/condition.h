#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "sim_core/bench/step.h"
#include "sim_core/signals/signals.h"

// Conditions over one moment: what lesson steps, ends and monitors are made of.
//   {"signal":"probe_degC","at_least":84}            number against a bound (at_least, at_most, above, below)
//   {"signal":"lid_open","is":true}                  flag
//   {"signal":"phase","is":"hold"}                   text
//   {"event":"acted","name":"pour","of":"sugar"}     this tick's events: kind; name of action, alarm or
//                                                    phase; subject
//   {"row_met":"us_mix_80c_25s"}                     the batch meets this heat-treatment rule
//   {"cooling":"us_two_stage","is":"kept"}           a cooling rule: waiting, running, kept, missed,
//                                                    does_not_apply
//   {"grounds":"names_unproved","at_most":0}         a count of what the person knew when they named causes:
//                                                    grounds.h; false where a lesson has no grounds
//   {"all":[...]} {"any":[...]} {"not":{...}}
namespace stirbench::training {

enum class Op : unsigned char {
  at_least,
  at_most,
  above,
  below,
  is_flag,
  is_text,
  event,
  row_met,
  cooling_is,
  grounds,
  all,
  any,
  negate
};

class BatchJudge;
class Grounds;

// Bounds are in the unit that the signal's name ends with. `at_least` and `at_most` include the bound,
// `above` and `below` do not. Every comparison with a value that is not a number is false.
struct Condition {
  Op op = Op::all;  // empty `all` is true, empty `any` is false
  const signals::Signal* signal = nullptr;
  double number = 0.0;
  bool flag = false;
  Op compare = Op::at_most;  // grounds: how its count (text) is compared with number
  std::string text;  // is_text, or event's name: action name, alarm key, phase id, harm key, mode; empty =
                     // any; row_met, cooling_is: id
  machine::EventKind event = machine::EventKind::acted;
  std::string of;               // event: ingredient or key, empty = any; cooling_is: the state asked for
  double event_at_least = 0.0;  // event: number at least (e.g. kg), 0 = any
  std::vector<Condition> parts;
};

// What a condition is judged on.
struct Moment {
  const machine::Machine& machine;
  const machine::State& state;
  const std::vector<machine::Event>& events;  // of this tick
  const BatchJudge* judge = nullptr;          // row_met and cooling_is are false without
  const Grounds* grounds = nullptr;           // so is grounds
};

// Whether the condition is true at this moment. Pure; allocates nothing. A condition that contains an `event`
// sees the events of the moment's own tick only.
bool holds(const Condition& condition, const Moment& moment);

// Whether a reading satisfies a comparison (at_least, at_most, above, below); false for every other
// condition.
bool compares(const Condition& leaf, double value);

// The same as `holds` over some of the tick's events, for callers that must not count an event twice.
struct EventSpan {
  std::size_t first = 0;  // index of the first event to look at
  std::size_t end = 0;    // one past the last
  std::size_t used_end =
      0;  // out: one past the last event that made an `event` true (untouched when none did)
};
bool holds(const Condition& condition, const Moment& moment, EventSpan& span);

// Whether the condition cannot be true in a tick without events. Monitors skip it in such ticks.
bool needs_event(const Condition& condition);
// Whether the condition looks at nothing but events.
bool only_events(const Condition& condition);

// The comparison that best explains why `condition` came out as `outcome` at this moment: the first
// comparison with a number that came out the same way, else the first one of all, else nullptr. The reasons
// of a score quote its signal and its bound.
const Condition* decisive_comparison(const Condition& condition, const Moment& moment, bool outcome);
// The first of the moment's events that an `event` in the condition matches, or nullptr.
const machine::Event* matching_event(const Condition& condition, const Moment& moment);

// What an event is about, as conditions spell it: the action's name; the key of the alarm, phase or harm; the
// mode.
std::string_view event_topic(const machine::Event& event);
// Whether an `event` condition matches this event.
bool matches(const Condition& leaf, const machine::Event& event);

}  // namespace stirbench::training
