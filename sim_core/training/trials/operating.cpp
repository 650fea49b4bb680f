#include "sim_core/training/trials/operating.h"

#include <stdexcept>
#include <vector>

namespace stirbench::training {

namespace {

constexpr double slack = 1.0e-12;  // as in the rule itself: a bound that is met exactly counts as met

void check_chances(const SequentialPlan& plan, const TestChances& chances) {
  check(plan);
  if (plan.most <= 0) throw std::invalid_argument("most: expected 1 or more, or the series may have no end");
  const bool good =
      chances.passed >= 0.0 && chances.failed_must >= 0.0 && chances.passed + chances.failed_must <= 1.0;
  if (!good) throw std::invalid_argument("chances of a test: expected 0 .. 1, together at most 1");
}

}  // namespace

Operating operating(const SequentialPlan& plan, const TestChances& chances, bool must_pass_all,
                    int least_passes) {
  check_chances(plan, chances);
  const SequentialBounds b = bounds(plan);
  const double ends = must_pass_all ? chances.failed_must : 0.0;
  const double fails = 1.0 - chances.passed - ends;
  // Probability of being in the middle of a series with so many passed, after `taken` tests.
  std::vector<double> open(static_cast<std::size_t>(plan.most) + 2, 0.0);
  open[0] = 1.0;
  Operating out;
  for (int taken = 1; taken <= plan.most; ++taken) {
    std::vector<double> next(open.size(), 0.0);
    for (int passed = 0; passed < taken; ++passed) {
      const double here = open[static_cast<std::size_t>(passed)];
      if (here == 0.0) continue;
      out.mean_tests += here;
      next[static_cast<std::size_t>(passed) + 1] += here * chances.passed;
      next[static_cast<std::size_t>(passed)] += here * fails;
    }
    for (int passed = 0; passed <= taken; ++passed) {
      const double llr = passed * b.per_pass + (taken - passed) * b.per_fail;
      double& here = next[static_cast<std::size_t>(passed)];
      const bool enough = llr >= b.competent - slack && passed >= least_passes;
      if (enough) out.competent += here;
      if (enough || llr <= b.not_yet + slack) here = 0.0;
    }
    open = std::move(next);
  }
  return out;
}

}  // namespace stirbench::training
