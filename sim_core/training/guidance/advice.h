#pragma once

#include <optional>
#include <string>

#include "sim_core/training/guidance/goals.h"

// What to do next, in any state: a plan made anew at every moment, from the goal backwards (teleo-reactive
// programs, N. Nilsson 1994, from memory). The first goal that is not reached; of its needs and those of its
// hand the first that does not hold; the way that brings that about, with its own needs, and so on, until a
// hand is found that can be done at this moment, or a wait. A way is never used to reach itself, and the
// depth is bounded, so the search ends.
//
// Promise: the hand of an `act` is not refused at this moment, neither by hands::why_not nor by the
// controller. Where the content knows no way on, it is `stuck`, and `trouble` says what could not be reached.
namespace stirbench::training {

struct Advice {
  enum class Kind : unsigned char {
    act,       // do `hand`
    wait,      // the machine does the rest
    finished,  // every goal is reached
    stuck,     // no way is known from here
    told       // the lesson says its steps in words alone (can_follow): the present one's
  };
  Kind kind = Kind::wait;
  std::size_t goal = 0;  // index in the lesson's steps; their number when all are reached
  std::string way;       // id of the way towards the goal; empty: the goal's own means
  std::string now, why, hint, point_at;
  hands::Action hand;  // of act
  // In the search for a fault: the check that the hand is for, and what it is worth. Never names a cause,
  // nor does any other text; `hand` may.
  std::string check, worth;
  std::string trouble;  // of stuck: what could not be reached, for authors
  std::string refusal;  // of stuck: why the hand would be refused now, for people; empty: no way is known
};

// Whether each step of the lesson says by which hand it is done, that one waits, or that the machine's fault
// guide leads there (fault_guidance.h).
bool can_follow(const Lesson& lesson);

// For a lesson that can be followed. `goals` must have seen every moment so far. `moment` is the latest; its
// events are not looked at.
Advice advise(const Lesson& lesson, const Goals& goals, const Moment& moment);

// A hand that is wanted for whatever reason: it, or what has to come first (hands out of the machine, the
// draw valve in); `stuck` when it would be refused. What keys need elsewhere does not count.
Advice led_to(const Lesson& lesson, const Goals& goals, const Moment& moment, Advice wanted);

// The words of one step, for a lesson that cannot be followed; `finished` behind the last.
Advice told(const Lesson& lesson, std::size_t step);

// Why the action would be refused at this moment, by the hands or by the controller; empty when it would not.
std::string refusal_of(const Moment& moment, const hands::Action& action);

}  // namespace stirbench::training
