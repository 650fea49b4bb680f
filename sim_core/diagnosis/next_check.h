#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "sim_core/diagnosis/planner.h"
#include "sim_core/diagnosis/posterior.h"

// From what was found to what to do next: the checks by their worth in minutes, the repairs in order, and
// when to call service.
namespace stirbench::diagnosis {

// Who stands at the machine and how it stands.
struct Constraints {
  Who who = Who::technician;  // checks and repairs for others are left out; their repair is a call
  AccessState condition = AccessState::standing;
  std::vector<bool> impossible;  // by question: could not be done here; empty = none
};

struct CheckAdvice {
  std::size_t question = 0;  // a check
  double minutes = 0.0;      // from here, change of condition included
  double change_min = 0.0;   // of it, the change of condition
  double saves_min = 0.0;    // expected minutes that it saves, its own taken off; may be below 0
  double information_bits = 0.0;
  std::vector<double> outcome_p;  // expected answers
};

struct RepairAdvice {
  std::size_t cause = 0;
  double p = 0.0;
  double minutes = 0.0;      // repair, parts, conditions and proof
  bool before_call = false;  // worth doing before calling service
};

struct NextSteps {
  bool repair_now = false;            // no check pays for itself: begin with the repairs
  std::vector<CheckAdvice> checks;    // the best first, then by what they save
  std::vector<RepairAdvice> repairs;  // in order
  double expected_min = 0.0;          // to a working machine, from here, doing as advised
  double at_least_min = 0.0;          // no plan can do better than this
  double call_now_min = 0.0;          // calling service at once
};

struct PlanOptions {
  double kept_norm =
      0.97;  // hypotheses up to this much probability are weighed; the rest counts as "something else"
  std::size_t candidates = 6;    // checks that the look-ahead weighs fully
  double least_reach = 0.05;     // ways that are less likely end with repairs
  unsigned depth = 1;            // tests ahead
  double least_gain_min = 0.05;  // a check that saves less on average is not asked for any more
};

// The planner's problem of this state of knowledge. tests[i] is question `questions[i]`; a remedy for each
// kept cause `causes[i]`.
struct PosedProblem {
  TroubleshootingProblem problem;
  std::vector<std::size_t> questions;
  std::vector<std::size_t> causes;
};
PosedProblem pose_problem(const Model& model, const std::vector<Finding>& findings,
                          const Constraints& situation, double kept_norm);

NextSteps next_checks(const Model& model, const std::vector<Finding>& findings, const Constraints& situation,
                      const PlanOptions& options = {});

}  // namespace stirbench::diagnosis
