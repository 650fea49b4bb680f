#pragma once

#include <functional>
#include <string>

#include "sim_core/training/lesson_run.h"

// Plays a lesson by its advice alone, as a person would who does what the card says: the advised hand, then a
// second and a half until it is done; a look every half second while it is told to wait (both are choices).
//
// passed       the lesson ended in a pass
// said_lost    the card said that this run cannot pass any more; by its construction that is true
// (prospect.h) stranded     neither: no way known, a hand refused, the same hand in vain `most_tries` times,
// or an end
//              without a pass that nobody foretold
namespace stirbench::training {

struct Followed {
  enum class End : unsigned char { passed, said_lost, stranded };
  End end = End::stranded;
  std::string why;  // of said_lost and stranded
  int hands = 0;    // hands done by the advice
  ScoreCard card;
};

inline constexpr int most_tries = 25;

// From the run's present moment to its end. `tell` is called with each hand before it is done, may be empty.
using TellHand = std::function<void(const machine::State&, const Advice&)>;
Followed follow(LessonRun& run, const TellHand& tell = {});

}  // namespace stirbench::training
