#pragma once

#include <memory>
#include <string_view>
#include <vector>

#include "sim_core/training/batch_judge.h"
#include "sim_core/training/grounds.h"
#include "sim_core/training/guidance/advice.h"
#include "sim_core/training/guidance/prospect.h"
#include "sim_core/training/lesson.h"

namespace stirbench::training {

// Monitors of one lesson, run beside the step: the live warnings, the guided steps, the final score and a
// re-score of an old journal are this one piece of code. Fed with every tick in order. No allocation in a
// tick in which nothing happens.
//
// Score: score_norm = points earned / points of all criteria. A criterion that was met earns its points, one
// that was missed within its tolerance a share of them; a must-pass one earns all or nothing. One that was
// never at stake (occasion.h) earns nothing; a must-pass one is then not met, so nobody passes by not coming
// near it. A lesson
// without points scores 1 when nothing was missed. Passed: every must-pass criterion met AND points earned >=
// pass_norm * all points, compared before the division. The whole run is scored even after a must-pass
// criterion was missed, so that the learner sees what else to practise.
//
// An injury ends the lesson at once. When no must-pass criterion of the lesson was missed by it, the card
// gets one more, without points.
inline constexpr std::string_view injury_criterion = "nobody-injured";

class Scorer {
 public:
  // The lesson must outlive the scorer and its copies.
  explicit Scorer(const Lesson& lesson);
  Scorer(const Scorer&);
  Scorer& operator=(const Scorer&);
  ~Scorer();

  // Feeds the moment after one step, with that step's events. Ignored once the lesson is over.
  void see(const Moment& moment);

  bool lesson_over() const;  // end condition met or time limit reached
  int current_step() const;  // index in lesson.steps; steps.size() when all are done
  // Criteria already decided as missed, the latest last (live warnings).
  const std::vector<int>& missed_so_far() const;

  // The judge of the batch so far: heat treatment, cooling, growth; nullptr before the first moment. Fed
  // until the lesson is over.
  const BatchJudge* judge() const;

  // Index of the present goal (goals.h), of a lesson told in words alone the current step; steps.size() at
  // the end.
  std::size_t next_goal() const;
  // What to do next, and whether the run can still pass. `moment` is the one that was seen last.
  Advice advice(const Moment& moment) const;
  Prospect prospect(const Moment& moment) const;
  // What the person knows of the fault so far; nullptr in a lesson without a fault guide.
  const Grounds* grounds() const;

  // Verdict as if the lesson ended at this moment.
  ScoreCard card(const Moment& moment) const;

 private:
  struct Memory;
  const Lesson* lesson_;
  std::unique_ptr<Memory> memory_;
};

}  // namespace stirbench::training
