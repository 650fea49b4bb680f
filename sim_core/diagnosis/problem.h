#pragma once

#include <cstddef>
#include <vector>

#include "sim_core/diagnosis/model.h"

// A troubleshooting problem as the planner sees it: hypotheses, tests that split them, remedies that end it.
// Made from a model and its findings (next_check.h) or written down by hand (published examples).
namespace stirbench::diagnosis {

inline constexpr std::size_t no_target = static_cast<std::size_t>(-1);

// One question to the machine. p[outcome][hypothesis]; the outcomes of each hypothesis sum to 1. Asked again
// it answers the same.
struct Test {
  double minutes = 1.0;
  AccessState needs = AccessState::running;
  std::vector<std::vector<double>> p;
};

// What puts one target right. It ends with the machine in `leaves`, tried.
struct Remedy {
  double observe_min = 0.0;  // spent whenever it is done
  double repair_min = 0.0;   // spent only if it was the one
  AccessState needs = AccessState::running;
  AccessState leaves = AccessState::running;
};

enum class Goal : std::uint8_t {
  isolate,  // until one target is left, or nothing can tell the rest apart
  repair  // until it works: tests, remedies in p/C order and the service call, whichever is cheapest at each
          // point
};

struct TroubleshootingProblem {
  Goal goal = Goal::isolate;
  std::vector<double> weight;  // of each hypothesis; normalised by the planner
  std::vector<std::size_t>
      target;  // which remedy (cause) a hypothesis belongs to; no_target: only service helps
  std::vector<Test> tests;
  std::vector<Remedy> remedies;  // by target; for isolate only their number matters
  double service_min = 0.0;
  AccessMinutes change{};  // minutes between conditions; all zero: conditions cost nothing
  AccessState start = AccessState::running;
};

// Weights of hypotheses that sum to 1.
using Belief = std::vector<double>;

double outcome_p(const Test& test, const Belief& belief, std::size_t outcome);
// Bayes' rule; `p` is outcome_p of it, above 0.
Belief after_outcome(const Test& test, const Belief& belief, std::size_t outcome, double p);

// Expectation of `worth(belief)` once the test has answered. Outcomes that cannot happen are left out and the
// rest renormalised.
template <typename Worth>
double expected_after(const Test& test, const Belief& belief, Worth worth) {
  double total = 0.0;
  double sum = 0.0;
  for (std::size_t k = 0; k < test.p.size(); ++k) {
    const double p = outcome_p(test, belief, k);
    if (p <= 1.0e-12) continue;
    total += p;
    sum += p * worth(after_outcome(test, belief, k, p));
  }
  return total > 0.0 ? sum / total : worth(belief);
}

// Throws std::invalid_argument naming what does not fit: sizes, a negative weight or cost, outcomes that do
// not sum to 1.
void check_troubleshooting_problem(const TroubleshootingProblem& problem);

}  // namespace stirbench::diagnosis
