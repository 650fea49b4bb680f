#include "sim_core/training/trials/operating.h"

#include <doctest/doctest.h>

#include <stdexcept>

using namespace stirbench;
using training::SequentialPlan;

namespace {

// Every row of `n` passes and fails with its probability, judged by the rule itself.
struct ByRows {
  double competent = 0.0;
  double tests = 0.0;
};

ByRows by_rows(const SequentialPlan& plan, double passed) {
  ByRows out;
  for (unsigned row = 0; row < (1U << static_cast<unsigned>(plan.most)); ++row) {
    training::SequentialTest test(plan);
    double p = 1.0;
    int taken = 0;
    for (int i = 0; i < plan.most; ++i) {
      const bool good = (row >> static_cast<unsigned>(i) & 1U) != 0;
      p *= good ? passed : 1.0 - passed;
      if (test.answer() == training::SequentialAnswer::go_on) {
        test.take(good);
        ++taken;
      }
    }
    if (test.answer() == training::SequentialAnswer::competent) out.competent += p;
    out.tests += p * taken;
  }
  return out;
}

}  // namespace

TEST_CASE("the operating curve is the sum over every row of passes and fails") {
  const SequentialPlan plan{0.4, 0.85, 0.025, 0.025, 12};
  for (const double passed : {0.1, 0.4, 0.6, 0.85, 0.97}) {
    CAPTURE(passed);
    const ByRows rows = by_rows(plan, passed);
    const training::Operating curve = training::operating(plan, {passed, 0.0}, true);
    CHECK(curve.competent == doctest::Approx(rows.competent).epsilon(1e-10));
    CHECK(curve.mean_tests == doctest::Approx(rows.tests).epsilon(1e-10));
  }
}

TEST_CASE("Wald's error rates hold at the plan's own chances") {
  const SequentialPlan plan{0.4, 0.85, 0.025, 0.025, 40};
  CHECK(training::operating(plan, {0.4, 0.0}, false).competent < 0.025);
  CHECK(training::operating(plan, {0.85, 0.0}, false).competent > 1.0 - 0.025 - 0.002);
}

TEST_CASE("one who always passes needs the fewest tests, one who misses a must-pass item has none") {
  const SequentialPlan plan{0.4, 0.85, 0.025, 0.025, 20};
  const training::Operating sure = training::operating(plan, {1.0, 0.0}, true);
  CHECK(sure.competent == doctest::Approx(1.0));
  CHECK(sure.mean_tests == doctest::Approx(training::bounds(plan).fewest_to_competent));
  CHECK(training::operating(plan, {1.0, 0.0}, true, 8).mean_tests == doctest::Approx(8.0));
  const training::Operating harmed = training::operating(plan, {0.0, 1.0}, true);
  CHECK(harmed.competent == 0.0);
  CHECK(harmed.mean_tests == doctest::Approx(1.0));
  // Each of the five tests has to be survived.
  CHECK(training::operating(plan, {0.9, 0.1}, true).competent == doctest::Approx(0.59049));
}

TEST_CASE("chances that are none, and a series without end, are refused") {
  CHECK_THROWS_AS(training::operating({}, {0.8, 0.4}, true), std::invalid_argument);
  CHECK_THROWS_AS(training::operating({0.4, 0.85, 0.05, 0.05, 0}, {0.8, 0.0}, true), std::invalid_argument);
}
