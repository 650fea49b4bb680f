#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "sim_core/training/lesson.h"
#include "sim_core/training/skill_evidence.h"

// Help in four rungs, each saying more than the one before: what is to be reached, what tells that it is due,
// where it is done, and the very hand. One asks for a rung at a time; a guide begins at the rung that what
// the person has shown before leaves to it.
namespace stirbench::training {

enum class Rung : unsigned char { goal, cue, place, step };
inline constexpr int rungs = 4;

// As the records keep it: "goal", "cue", "place", "step".
std::string_view rung_name(Rung rung);

// Whether a pass with this rung was led by the program: it proves nothing of the person. To hear the goal or
// the reason leads nobody's hand.
constexpr bool leads(Rung rung) { return rung >= Rung::place; }

// One finished run of the person, of any lesson. Helped: guided, continued from another run's moment, or a
// rung that leads was asked for.
struct ShownRun {
  std::vector<SkillMark> marks;
  bool helped = false;
};

// What the runs, the earliest first, have shown of the weakest of the skills: two for each pass without help
// since the skill was last missed, and one if there was a pass with help. 0 when there are no skills.
int grasp_of(const std::vector<std::string>& skills, const std::vector<ShownRun>& runs);

// The rung at which a guide begins a step (0 .. steps - 1) of a lesson.
//
// Backward fading: the whole lesson loses one rung for every two of the grasp, from step over place and
// cue to goal, and its last half (rounded down) loses each rung one earlier. So a first run is shown all; a
// run after one guided pass finds the last half of the lesson without hands; after a pass without help the
// whole lesson begins at the place. That the last steps go first, and two to a rung, are choices.
Rung first_rung(std::size_t step, std::size_t steps, int grasp);

// What the step is to bring about, without a hand, and without an amount where one is poured. In lessons with
// something to find it is the lesson's own purpose: a condition could name the cause. `machine` tells the
// names of ingredients.
std::string goal_words(const machine::Machine& machine, const Lesson& lesson, std::size_t step);

}  // namespace stirbench::training
