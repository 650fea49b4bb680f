#include "sim_core/diagnosis/problem.h"

#include <cmath>
#include <stdexcept>

namespace stirbench::diagnosis {

namespace {

[[noreturn]] void refuse_problem(const std::string& what) {
  throw std::invalid_argument("troubleshooting problem: " + what);
}

void check_test(const TroubleshootingProblem& problem, const Test& test, std::size_t index) {
  const std::string name = "test " + std::to_string(index);
  if (!(test.minutes >= 0.0)) refuse_problem(name + " has a negative cost");
  if (test.p.size() < 2) refuse_problem(name + " has fewer than two outcomes");
  for (const auto& outcome : test.p) {
    if (outcome.size() != problem.weight.size())
      refuse_problem(name + " does not answer for every hypothesis");
  }
  for (std::size_t h = 0; h < problem.weight.size(); ++h) {
    double sum = 0.0;
    for (const auto& outcome : test.p) {
      if (!(outcome[h] >= 0.0)) refuse_problem(name + " has a negative probability");
      sum += outcome[h];
    }
    if (!(std::fabs(sum - 1.0) <= 1.0e-6))
      refuse_problem(name + ": the outcomes of hypothesis " + std::to_string(h) + " do not sum to 1");
  }
}

}  // namespace

double outcome_p(const Test& test, const Belief& belief, std::size_t outcome) {
  double sum = 0.0;
  const std::vector<double>& p = test.p[outcome];
  for (std::size_t h = 0; h < belief.size(); ++h) sum += belief[h] * p[h];
  return sum;
}

Belief after_outcome(const Test& test, const Belief& belief, std::size_t outcome, double p) {
  Belief next(belief.size());
  for (std::size_t h = 0; h < belief.size(); ++h) next[h] = belief[h] * test.p[outcome][h] / p;
  return next;
}

void check_troubleshooting_problem(const TroubleshootingProblem& problem) {
  if (problem.weight.empty()) refuse_problem("there is no hypothesis");
  if (problem.target.size() != problem.weight.size())
    refuse_problem("expected a target for every hypothesis");
  double sum = 0.0;
  for (std::size_t h = 0; h < problem.weight.size(); ++h) {
    if (!(problem.weight[h] >= 0.0))
      refuse_problem("hypothesis " + std::to_string(h) + " has a negative weight");
    sum += problem.weight[h];
    const bool known = problem.target[h] < problem.remedies.size() || problem.target[h] == no_target;
    if (!known) refuse_problem("hypothesis " + std::to_string(h) + " has no remedy");
  }
  if (!(sum > 0.0)) refuse_problem("all weights are zero");
  for (const Remedy& remedy : problem.remedies) {
    if (!(remedy.observe_min >= 0.0 && remedy.repair_min >= 0.0))
      refuse_problem("a remedy has a negative cost");
  }
  if (!(problem.service_min >= 0.0)) refuse_problem("the service call has a negative cost");
  for (std::size_t t = 0; t < problem.tests.size(); ++t) check_test(problem, problem.tests[t], t);
}

}  // namespace stirbench::diagnosis
