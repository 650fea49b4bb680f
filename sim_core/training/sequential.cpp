#include "sim_core/training/sequential.h"

#include <cmath>
#include <stdexcept>

namespace stirbench::training {

namespace {

// Sums of logarithms that meet a bound exactly must count as meeting it.
constexpr double slack = 1.0e-12;

double mean_tests(double p, double end, const SequentialBounds& b) {
  return end / (p * b.per_pass + (1.0 - p) * b.per_fail);
}

}  // namespace

void check(const SequentialPlan& plan) {
  if (!(plan.p_not > 0.0 && plan.p_not < 1.0))
    throw std::invalid_argument("p_not: expected more than 0 and less than 1");
  if (!(plan.p_competent > plan.p_not && plan.p_competent < 1.0))
    throw std::invalid_argument("p_competent: expected more than p_not and less than 1");
  if (!(plan.alpha > 0.0 && plan.alpha < 0.5))
    throw std::invalid_argument("alpha: expected more than 0 and less than 0.5");
  if (!(plan.beta > 0.0 && plan.beta < 0.5))
    throw std::invalid_argument("beta: expected more than 0 and less than 0.5");
  if (plan.most < 0) throw std::invalid_argument("most: expected 0 or more");
}

SequentialBounds bounds(const SequentialPlan& plan) {
  check(plan);
  SequentialBounds b;
  b.per_pass = std::log(plan.p_competent / plan.p_not);
  b.per_fail = std::log((1.0 - plan.p_competent) / (1.0 - plan.p_not));
  b.competent = std::log((1.0 - plan.beta) / plan.alpha);
  b.not_yet = std::log(plan.beta / (1.0 - plan.alpha));
  const double k = b.per_pass - b.per_fail;
  b.slope = -b.per_fail / k;
  b.over = b.competent / k;
  b.under = b.not_yet / k;
  b.mean_tests_competent =
      mean_tests(plan.p_competent, (1.0 - plan.beta) * b.competent + plan.beta * b.not_yet, b);
  b.mean_tests_not = mean_tests(plan.p_not, (1.0 - plan.alpha) * b.not_yet + plan.alpha * b.competent, b);
  b.fewest_to_competent = static_cast<int>(std::ceil(b.competent / b.per_pass - slack));
  b.fewest_to_not_yet = static_cast<int>(std::ceil(b.not_yet / b.per_fail - slack));
  return b;
}

SequentialAnswer SequentialTest::take(bool passed) {
  ++taken_;
  if (answer_ != SequentialAnswer::go_on) return answer_;
  llr_ += passed ? bounds_.per_pass : bounds_.per_fail;
  if (llr_ >= bounds_.competent - slack)
    answer_ = SequentialAnswer::competent;
  else if (llr_ <= bounds_.not_yet + slack)
    answer_ = SequentialAnswer::not_yet;
  else if (plan_.most > 0 && taken_ >= plan_.most) {
    answer_ = SequentialAnswer::not_yet;
    truncated_ = true;
  }
  return answer_;
}

void SequentialTest::restart() {
  answer_ = SequentialAnswer::go_on;
  llr_ = 0.0;
  taken_ = 0;
  truncated_ = false;
}

SequentialResult judge(const SequentialPlan& plan, const std::vector<bool>& passed) {
  SequentialTest walk(plan);
  SequentialResult result;
  for (const bool one : passed) {
    result.answer = walk.take(one);
    result.path.push_back(walk.llr());
    if (result.answer == SequentialAnswer::go_on) continue;
    result.decided_after = result.path.size();
    break;
  }
  result.llr = walk.llr();
  result.truncated = walk.truncated();
  return result;
}

}  // namespace stirbench::training
