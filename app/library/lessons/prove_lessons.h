#pragma once

#include <string>
#include <vector>

#include "app/library/lessons/prove_skills.h"
#include "app/library/library.h"

namespace stirbench::library {

// A lesson's wrong-*.jsonl, in the order of their names; none when the folder cannot be read.
std::vector<std::string> wrong_runs(const std::string& folder);

// Proves for each lesson that every criterion can be both met and missed, by playing its own files:
// right.jsonl must meet them all, do all steps and pass; each criterion must be missed in some wrong-*.jsonl.
// Returns what was not proved. Plays the runs at about ten thousand times real time. The library must have
// been loaded from `content_dir` without problems. `gaps`, when given: the skills that these runs do not tell
// apart (prove_skills.h), which are no problems.
std::vector<Problem> prove_lessons(const std::string& content_dir, const Library& library,
                                   std::vector<SkillGap>* gaps = nullptr);

// A criterion whose verdict in its lesson's right run the model cannot answer for: with the uncertain
// constants drawn (machine/uncertain.h) it comes out otherwise in some of the runs.
struct Unsure {
  std::string lesson;
  std::string criterion;
  int missed = 0;  // of the drawn runs
  int runs = 0;
};

// Plays each lesson's right run on `runs` drawn machines, seeds 1 .. runs. The same conditions on the library
// hold.
std::vector<Unsure> unsure_criteria(const std::string& content_dir, const Library& library, int runs);

}  // namespace stirbench::library
