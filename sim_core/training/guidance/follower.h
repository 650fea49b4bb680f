#pragma once

#include <functional>
#include <string>

#include "sim_core/training/lesson_run.h"

// Plays a lesson by its advice alone, as a person would who does what the card says: the advised hand, then a
// second and a half until it is done; a look every half second while it is told to wait (both are choices).
//
// - passed: the lesson ended in a pass.
// - said_lost: the card said that this run cannot pass any more, which its construction makes true
//   (prospect.h).
// - stranded: neither. No way is known, a hand is refused, the same hand is done `most_tries` times or any
//   `most_hands_a_goal` for one goal in vain, or the run ends without a pass that nobody foretold.
namespace stirbench::training {

struct Followed {
  enum class End : unsigned char { passed, said_lost, stranded };
  End end = End::stranded;
  std::string why;  // of said_lost and stranded
  int hands = 0;    // hands done by the advice
  ScoreCard card;
};

inline constexpr int most_tries = 25;
inline constexpr int most_hands_a_goal = 500;

// From the run's present moment to its end. `tell` is called with each hand before it is done, may be empty.
using TellHand = std::function<void(const machine::State&, const Advice&)>;
// `stop` is asked before each look and ends the run stranded when it says so; may be empty.
Followed follow(LessonRun& run, const TellHand& tell = {}, const std::function<bool()>& stop = {});

}  // namespace stirbench::training
