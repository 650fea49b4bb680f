#pragma once

#include <memory>
#include <string_view>
#include <vector>

#include "sim_core/training/batch_judge.h"
#include "sim_core/training/lesson.h"

namespace stirbench::training {

// Monitors of one lesson, run beside the step: the live warnings, the guided steps, the final score and a
// re-score of an old journal are this one piece of code. Fed with every tick in order. No allocation in a
// tick in which nothing happens.
//
// Score: score_norm = points earned / points of all; a criterion that was met earns its points, one missed within its tolerance
// its share of them, a must-pass one all or nothing (1 when a lesson has no points and nothing was
// missed). Passed: every must-pass criterion met AND earned points >= pass_norm * all points, compared before
// the division. The whole run is scored even after a must-pass criterion was lost, so that one sees what else
// to practise.
//
// An injury ends the lesson at once. A lesson that has no missed must-pass criterion of its own for it gets one
// without points added to its card.
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
  // Criteria already decided as missed, latest last (live warnings).
  const std::vector<int>& missed_so_far() const;

  // What the batch is like by now: rows, cooling, growth; nullptr before the first moment. Fed until the lesson is over.
  const BatchJudge* judge() const;

  // Verdict as if the lesson ended at this moment.
  ScoreCard card(const Moment& moment) const;

 private:
  struct Memory;
  const Lesson* lesson_;
  std::unique_ptr<Memory> memory_;
};

}  // namespace stirbench::training
