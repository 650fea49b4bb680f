#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim_core/training/lesson.h"

// What one run of a lesson says about each skill: one pass or fail, from the criteria that name the skill.
//
// A skill is passed when every must-pass item that names it was met and its criteria earned at least the
// lesson's pass mark of their own points. Whether the lesson as a whole was passed does not matter: a lesson
// that was failed by something else still tells of the skill. Two things fail every skill of the run: an
// injury, and a skill whose items were never at stake (else a test could be broken off for nothing).
//
// A lesson in which no criterion names a skill judges its skills as a whole: each one passes and fails with
// the lesson. That is also the rule for attempts that were kept without marks.
namespace stirbench::training {

struct SkillMark {
  std::string skill;
  bool passed = false;
  int musts_missed = 0;  // must-pass items of the skill that were at stake and missed
  bool operator==(const SkillMark&) const = default;
};

// One mark for each of the lesson's skills that it judges, in the lesson's order.
std::vector<SkillMark> skill_marks(const Lesson& lesson, const ScoreCard& card);

// The skills that a lesson judges: those that a criterion names, else (no criterion names any) all of them.
std::vector<std::string> judged_skills(const Lesson& lesson);

}  // namespace stirbench::training
