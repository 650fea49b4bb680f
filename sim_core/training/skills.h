#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "sim_core/training/lesson.h"
#include "sim_core/training/mastery.h"
#include "sim_core/training/skill_evidence.h"
#include "sim_core/training/spacing.h"

// Skills as a course: what a person has shown, what comes next, what is due again.
namespace stirbench::training {

struct Skill {
  std::string id;
  std::string title;               // "Locking out"
  std::string summary;             // what a person with it does, one line
  std::string area;                // its group on the screens: operation, safety, cleaning, service, faults
  bool safety = false;             // nobody may work at the machine alone without it
  std::vector<std::string> needs;  // ids of skills that come first
  int repeat_days = 365;           // longest time until it is practised again
  bool not_yet_trained = false;    // no lesson for it yet, and known to be so
};

using Skills = std::map<std::string, Skill>;

// Ids of a cycle of prerequisites ("a needs b needs a"), or empty when there is none. Unknown ids are
// ignored.
std::vector<std::string> prerequisite_cycle(const Skills& skills);

// One run of a lesson, as far as skills are concerned. `at_s`: seconds since 1970, UTC.
struct LessonAttempt {
  std::string lesson;
  std::int64_t at_s = 0;
  bool passed = false;
  std::vector<SkillMark> marks{};  // empty: kept without marks, the lesson's verdict stands for its skills
};

struct SkillState {
  double known_norm = 0.0;  // by the mastery model (heuristic)
  int attempts = 0;
  int passes = 0;
  bool shown = false;  // passed at least once
  std::int64_t last_s = 0;
  std::int64_t due_s =
      0;  // practise again; 0: never practised. The earlier of the memory rule and repeat_days
};

struct Course {
  MasteryModel mastery;
  MemoryModel memory;
};

// State of each skill from a person's runs, oldest first. A run counts for each skill that it has a mark for;
// one without marks counts for each skill that its lesson judges.
std::map<std::string, SkillState> skill_states(const Skills& skills,
                                               const std::map<std::string, Lesson>& lessons,
                                               const std::vector<LessonAttempt>& runs,
                                               const Course& course = {});

enum class ProposalReason : unsigned char { due_again, failed_last, next_in_course, nothing };
struct Proposal {
  std::string lesson;  // empty: nothing to propose
  std::string skill;   // the skill that decided it
  ProposalReason reason = ProposalReason::nothing;
};
// The next lesson: first a safety skill that is due again, then what was failed last, then another skill that
// is due, then the next of the course: a lesson whose skills' prerequisites have all been shown, the least
// known first, safety before the rest. A proposal only: people may choose any lesson.
Proposal next_lesson(const Skills& skills, const std::map<std::string, Lesson>& lessons,
                     const std::map<std::string, SkillState>& states, const std::vector<LessonAttempt>& runs,
                     std::int64_t now_s);

}  // namespace stirbench::training
