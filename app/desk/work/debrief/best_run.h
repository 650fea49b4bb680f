#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/desk/work/debrief/debrief_model.h"
#include "app/desk/work/desk.h"

namespace stirbench::desk::work {

// A run to learn from: the person's own best one of this lesson, else the lesson's right run.
struct BestRun {
  std::string title;
  bool own = false;
  double score_norm = 0.0;
  double end_s = 0.0;
  std::vector<machine::Event> history;
  std::vector<double> step_began_s;
};

// The best finished run of the same version of the lesson, by the person of the debrief, if it is better than
// `model`; else right.jsonl, played. Nobody else's runs are looked at. Empty when the run has no lesson or
// nothing can be read.
std::optional<BestRun> find_best_run(Desk& desk, const machine::Machine& machine,
                                     const training::Lesson& lesson, const DebriefModel& model);

// Which of a run's steps was the present one at a moment, and from when to when (its end for the last one).
struct StepSpan {
  std::size_t step = 0;
  double from_s = 0.0;
  double to_s = 0.0;
  bool reached = true;
};
StepSpan span_at(const std::vector<double>& step_began_s, double end_s, double at_s);
StepSpan span_of(const std::vector<double>& step_began_s, double end_s, std::size_t step);

}  // namespace stirbench::desk::work
