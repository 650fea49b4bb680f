#include "sim_core/training/mastery.h"

#include <stdexcept>
#include <string>

namespace stirbench::training {

namespace {

void in_range(const char* name, double value, double high, bool high_included) {
  const bool good = value >= 0.0 && (high_included ? value <= high : value < high);
  if (!good) throw std::invalid_argument(std::string(name) + ": out of its range");
}

}  // namespace

void check(const MasteryModel& model) {
  in_range("prior_norm", model.prior_norm, 1.0, true);
  in_range("learn_norm", model.learn_norm, 1.0, true);
  in_range("slip_norm", model.slip_norm, 0.5, false);
  in_range("guess_norm", model.guess_norm, 0.5, false);
  in_range("forget_norm", model.forget_norm, 1.0, true);
}

double chance_right(const MasteryModel& model, double known_norm) {
  return known_norm * (1.0 - model.slip_norm) + (1.0 - known_norm) * model.guess_norm;
}

double after_attempt(const MasteryModel& model, double known_norm, bool right) {
  const double p_right = chance_right(model, known_norm);
  const double p_seen = right ? p_right : 1.0 - p_right;
  const double p_known_and_seen = known_norm * (right ? 1.0 - model.slip_norm : model.slip_norm);
  // What could not happen was seen (no guessing, nothing known, and right): nothing is learned from it.
  const double seen = p_seen > 0.0 ? p_known_and_seen / p_seen : known_norm;
  return seen * (1.0 - model.forget_norm) + (1.0 - seen) * model.learn_norm;
}

double known_after(const MasteryModel& model, const std::vector<bool>& right) {
  double known = model.prior_norm;
  for (const bool one : right) known = after_attempt(model, known, one);
  return known;
}

}  // namespace stirbench::training
