#include "sim_core/training/robustness.h"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>

#include "tests/reference/report.h"

using namespace stirbench::training;

namespace {

constexpr double inf = std::numeric_limits<double>::infinity();
const Margins a = {100, -1, -2, 5, -1};
const Margins b = {20, -2, 10, 4, -1};

// A published vector, sample by sample; samples that the window leaves empty are infinite.
void vector_check(const std::string& what, const Margins& ours, const Margins& published) {
  using namespace stirbench::tests;
  const Source source = worked_example(
      "test vectors of RTAMT, a public monitoring library, for the rules of Donze & Maler 2010",
      "whole numbers");
  REQUIRE(ours.size() == published.size());
  for (std::size_t i = 0; i < ours.size(); ++i) {
    if (std::isinf(published[i]))
      CHECK(ours[i] == published[i]);
    else
      reference_check("Training", at("margin of " + what + ", sample", static_cast<double>(i)), ours[i],
                      published[i], absolute(1e-12), source);
  }
}

}  // namespace

// Source: the rules of Donze and Maler (FORMATS 2010) with the test vectors of RTAMT (a public monitoring
// library), discrete time.
TEST_CASE("robustness: windows looking ahead and back") {
  vector_check("always a", always(a), {-2, -2, -2, -1, -1});
  vector_check("always[0,1] a", always(a, {0, 1}), {-1, -2, -2, -1, -1});
  vector_check("eventually a", eventually(a), {100, 5, 5, 5, -1});
  vector_check("eventually[0,1] a", eventually(a, {0, 1}), {100, -1, 5, 5, -1});
  vector_check("once a", once(a), {100, 100, 100, 100, 100});
  vector_check("once[0,1] a", once(a, {0, 1}), {100, 100, -1, 5, 5});
  vector_check("once[1,2] a", once(a, {1, 2}), {-inf, 100, 100, -1, 5});
  vector_check("historically a", historically(a), {100, -1, -2, -2, -2});
  vector_check("historically[0,1] a", historically(a, {0, 1}), {100, -1, -2, -2, -1});
  vector_check("historically[1,2] a", historically(a, {1, 2}), {inf, 100, -1, -2, -2});
  CHECK(eventually(a, {9, 12}) == Margins{-inf, -inf, -inf, -inf, -inf});
  CHECK(always(a, {9, 12}) == Margins{inf, inf, inf, inf, inf});
}

TEST_CASE("robustness: until, since, comparisons") {
  vector_check("a since b", since(a, b), {20, -1, 10, 5, -1});
  vector_check("a until b", until(a, b), {20, -1, 10, 4, -1});
  vector_check("a until[0,1] b", until(a, b, {0, 1}), {20, -1, 10, 4, -1});
  Margins below;  // a <= b: b - a
  for (std::size_t i = 0; i < a.size(); ++i) below.push_back(b[i] - a[i]);
  vector_check("a <= b", below, {-80, -1, 12, -1, 0});
  vector_check("a == b", both(below, negate(below)), {-80, -1, -12, -1, 0});
  CHECK_THROWS_AS(both({1.0}, {1.0, 2.0}), std::invalid_argument);
}

// The vectors of the guard: it opens, and within two samples the agitator must be at or below 0.5 rpm.
TEST_CASE("robustness: a guard that stops too late, and one that stops in time") {
  const std::vector<double> late_rpm = {30, 30, 30, 20, 11, 4, 0, 0};
  const std::vector<bool> late_shut = {true, true, false, false, false, false, true, true};
  const auto rule = [](const Margins& shut, const std::vector<double>& rpm) {
    return implies(negate(shut), eventually(at_most(rpm, 0.5), {0, 2}));
  };
  // Coded +-1 a flag caps the result, coded as certain it does not: the whole miss of 10.5 rpm shows.
  const Margins capped = rule({1, 1, -1, -1, -1, -1, 1, 1}, late_rpm);
  CHECK(capped == Margins{1, 1, -1, -1, 0.5, 0.5, 1, 1});
  CHECK(always(capped)[0] == -1.0);
  CHECK(always(rule(flag(late_shut), late_rpm))[0] == -10.5);
  CHECK(always(rule({1, 1, -1, -1, -1, 1, 1, 1}, {30, 30, 12, 0, 0, 0, 20, 30}))[0] == 0.5);
  CHECK(rule({1, 1, -1, -1, -1, 1, 1, 1}, {30, 30, 12, 0, 0, 0, 20, 30}) ==
        Margins{1, 1, 0.5, 0.5, 0.5, 1, 1, 1});
}

TEST_CASE("robustness: temperatures, tolerances, time and credit") {
  const std::vector<double> degC = {22, 40, 61, 75, 78, 74, 66, 58};
  CHECK(always(at_most(degC, 80.0))[0] == 2.0);
  CHECK(eventually(at_least(degC, 75.0))[0] == 3.0);
  CHECK(in_tolerances(at_least(degC, 75.0), 2.0)[4] == 1.5);
  CHECK_THROWS_AS(in_tolerances(a, 0.0), std::invalid_argument);
  CHECK(time_margin(at_least(degC, 73.5), 3) == 2.0);   // holds two samples more
  CHECK(time_margin(at_least(degC, 73.5), 0) == -2.0);  // fails two samples more
  CHECK(credit_norm(0.4) == 1.0);
  CHECK(credit_norm(-0.25) == 0.75);
  CHECK(credit_norm(-3.0) == 0.0);
}
