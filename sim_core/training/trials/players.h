#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "sim_core/training/guidance/follower.h"
#include "sim_core/training/lesson_run.h"

// Made-up people who take a lesson, to find out what its score tells of them. None of them learns.
//
//   follows      does what the guide says (follower.h): one who knows
//   slips        does what the guide says, but in one hand of so many something else: forgets it for a while,
//                does something that does not belong here, or takes another amount. Errors of omission, of
//                commission and of quantity after A. D. Swain and H. E. Guttmann (NUREG/CR-1278, 1983, from
//                memory), a third each (a choice). Looks on after each and mends what can be mended
//   careless     knows by heart what is right on this start, slips in the same way and looks at nothing
//   recording    repeats what was right on another start, hand for hand at the same moment: one who knows a
//                script by heart
//   leaves out   does what is right on this start, but for one goal
//   does nothing
namespace stirbench::training {

// A lesson as a made-up person takes it: at the lesson's own seed, nothing kept.
LessonRun trial_run(const machine::Machine& machine, const Lesson& lesson);

// Hands by the tick at which they were done.
using Recording = std::vector<std::pair<std::uint64_t, hands::Action>>;

// What the guide's follower does in this run, by goal.
struct GuidedHand {
  std::uint64_t tick = 0;
  std::size_t goal = 0;
  hands::Action hand;
};
Followed record_follower(LessonRun& run, std::vector<GuidedHand>& hands);
// All of them, or all but those for one goal.
Recording recording_of(const std::vector<GuidedHand>& hands);
Recording recording_without(const std::vector<GuidedHand>& hands, std::size_t goal);

// Plays it to the lesson's end, or to an hour after the last hand: what is open then the machine alone will
// not decide any more.
ScoreCard play_recording(LessonRun& run, const Recording& recording);
ScoreCard do_nothing(LessonRun& run);

struct Slips {
  double rate_norm = 0.1;  // of the hands, 0 .. 1
  std::uint64_t seed = 1;
  std::vector<hands::Action> others;  // what may be done out of place, may be empty
};
ScoreCard play_with_slips(LessonRun& run, const Slips& slips);
// What the careless one does; an omission leaves the hand out.
Recording careless(const Recording& right, const Slips& slips);

}  // namespace stirbench::training
