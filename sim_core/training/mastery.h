#pragma once

#include <vector>

// How likely it is that a person has learned a skill, from what they did so far: Bayesian knowledge tracing.
//
// Source: A. T. Corbett and J. R. Anderson, "Knowledge tracing: modeling the acquisition of procedural
// knowledge", User Modeling and User-Adapted Interaction 4 (1995) 253-278. With L the chance that the skill
// is there before an attempt:
//   P(right) = L (1 - slip) + (1 - L) guess
//   L | right = L (1 - slip) / P(right)      L | wrong = L slip / (1 - P(right))
//   L' = (L | seen) (1 - forget) + (1 - L | seen) learn
//
// A HEURISTIC: it proposes what to practise next. Its parameters were never fitted to people at heated
// mixers, and it certifies or refuses nobody: the sequential rule (sequential.h) and the certificate's demand
// do.
namespace stirbench::training {

struct MasteryModel {
  double prior_norm = 0.3;  // L before the first attempt, 0 .. 1
  double learn_norm = 0.2;  // chance that one attempt teaches it, 0 .. 1
  double slip_norm = 0.1;   // known, and still wrong, 0 .. 0.5 (excluded)
  double guess_norm =
      0.15;  // not known, and still right, 0 .. 0.5 (excluded): else a right attempt would lower L
  double forget_norm = 0.0;  // known, and forgotten between attempts, 0 .. 1
};

// Usual threshold of "mastered" (Corbett and Anderson 1995).
inline constexpr double mastered_norm = 0.95;

// Throws std::invalid_argument naming the parameter that is out of its range.
void check(const MasteryModel& model);

// Chance that the next attempt is right.
double chance_right(const MasteryModel& model, double known_norm);

// L after one more attempt. `known_norm` in 0 .. 1.
double after_attempt(const MasteryModel& model, double known_norm, bool right);

// L after all attempts, oldest first.
double known_after(const MasteryModel& model, const std::vector<bool>& right);

}  // namespace stirbench::training
