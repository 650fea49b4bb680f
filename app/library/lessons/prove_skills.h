#pragma once

#include <string>
#include <vector>

#include "app/library/library.h"

// Whether each skill that content claims to judge can be told from all others.
namespace stirbench::library {

// What is missing for one skill, in a lesson ("lessons/first-shift") or a demand ("assessments/start-alone").
struct SkillGap {
  std::string where;
  std::string skill;
  std::string lacks;  // one clause
};

// One lesson and the score cards of its wrong runs. For each skill that the lesson names there should be a
// must-pass item that decides it, and a wrong run in which of all must-pass items only those of this skill
// were missed or not reached.
std::vector<SkillGap> skill_gaps(const training::Lesson& lesson,
                                 const std::vector<training::ScoreCard>& wrong_runs);

// Each demand's skills that fewer lessons judge than it asks for, and whose evidence is then narrower.
std::vector<SkillGap> demand_gaps(const Library& library);

}  // namespace stirbench::library
