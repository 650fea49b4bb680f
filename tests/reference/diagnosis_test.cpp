#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/diagnosis/planner.h"
#include "sim_core/diagnosis/repair_order.h"
#include "sim_core/diagnosis/testability.h"
#include "tests/reference/report.h"

// Repair order, value of an answer, sequences of tests, testability: published examples and those worked in
// the reference notes (each confirmed there by trying every order, or by an independent dynamic programme).
using namespace stirbench::diagnosis;

namespace {

using stirbench::tests::absolute;
using stirbench::tests::at;
using stirbench::tests::own_arithmetic;
using stirbench::tests::reference_check;
using stirbench::tests::Source;
using stirbench::tests::worked_example;

constexpr const char* part = "Diagnosis";
const Source worked =
    own_arithmetic("worked in the reference notes, every order tried", "half of the last digit");
const Source example = worked_example(
    "Pattipati & Alexandridis 1990, five faults and five tests (data and optimum from memory)", "exact sums");

void check(const std::string& what, double ours, double reference, const Source& source,
           double tolerance = 1e-9) {
  reference_check(part, what, ours, reference, absolute(tolerance), source);
}

std::vector<RepairStep> steps(const std::vector<double>& p, const std::vector<double>& observe,
                              const std::vector<double>& repair = {}) {
  std::vector<RepairStep> out;
  for (std::size_t i = 0; i < p.size(); ++i)
    out.push_back({p[i], observe[i], repair.empty() ? 0.0 : repair[i]});
  return out;
}

// Five faults and "no fault", five tests.
TroubleshootingProblem five_faults(bool with_no_fault, const std::vector<double>& cost) {
  const std::vector<std::vector<double>> fails = {{0, 0, 0, 0, 0}, {0, 1, 0, 0, 1}, {0, 0, 1, 1, 0},
                                                  {1, 0, 0, 1, 1}, {1, 1, 0, 0, 0}, {1, 1, 1, 1, 0}};
  const std::vector<double> prior = {.70, .01, .02, .10, .05, .12};
  TroubleshootingProblem problem;
  for (std::size_t s = with_no_fault ? 0 : 1; s < prior.size(); ++s) {
    problem.target.push_back(problem.weight.size());
    problem.weight.push_back(prior[s]);
  }
  problem.remedies.resize(problem.weight.size());
  for (std::size_t t = 0; t < cost.size(); ++t) {
    Test test{cost[t], AccessState::running, {{}, {}}};
    for (std::size_t s = with_no_fault ? 0 : 1; s < prior.size(); ++s) {
      test.p[0].push_back(1.0 - fails[s][t]);
      test.p[1].push_back(fails[s][t]);
    }
    problem.tests.push_back(test);
  }
  return problem;
}

TroubleshootingProblem all_bipartitions(const std::vector<double>& prior) {
  TroubleshootingProblem problem;
  problem.weight = prior;
  problem.remedies.resize(prior.size());
  for (std::size_t i = 0; i < prior.size(); ++i) problem.target.push_back(i);
  // Without the last state on the failing side each bipartition comes once.
  for (std::size_t set = 1; set < (std::size_t{1} << (prior.size() - 1)); ++set) {
    Test test{1.0, AccessState::running, {{}, {}}};
    for (std::size_t i = 0; i < prior.size(); ++i) {
      const double fail = (set >> i & 1U) != 0 ? 1.0 : 0.0;
      test.p[0].push_back(1.0 - fail);
      test.p[1].push_back(fail);
    }
    problem.tests.push_back(test);
  }
  return problem;
}

SearchNode only(const Planner& planner, const std::vector<std::size_t>& states) {
  SearchNode standing = planner.start();
  Belief belief(standing.belief.size(), 0.0);
  double sum = 0.0;
  for (const std::size_t s : states) sum += standing.belief[s];
  for (const std::size_t s : states) belief[s] = standing.belief[s] / sum;
  standing.belief = belief;
  return standing;
}

// Best cost when the first test is this one and the best follows.
double starting_with(Planner& planner, std::size_t test) {
  const SearchNode root = planner.start();
  double minutes = planner.test_minutes(root, test);
  for (std::size_t k = 0; k < 2; ++k) {
    const double p = outcome_p(planner.problem().tests[test], root.belief, k);
    if (p > 0.0) minutes += p * planner.solve(planner.after(root, test, k, p)).upper;
  }
  return minutes;
}

}  // namespace

TEST_CASE("repair order by p/C and its expected cost") {
  const auto a = steps({.4, .3, .2, .1}, {10, 3, 4, 1});
  const RepairPlan plan = plan_repairs(a, 0.0, 0.0);
  // .3 / 3 is 0.09999999999999999 in doubles: a tie only with a tolerance.
  CHECK(plan.order == std::vector<std::size_t>{1, 3, 2, 0});
  check("p/C order, minutes", expected_minutes(a, plan.order, 0.0, 0.0), 10.1, worked);
  check("order as written, minutes", expected_minutes(a, {0, 1, 2, 3}, 0.0, 0.0), 13.1, worked);
  const auto b = steps({.4, .3, .2, .1}, {2, 1, 3, 1}, {20, 5, 8, 2});
  const RepairPlan with_repair = plan_repairs(b, 0.0, 0.0);
  CHECK(with_repair.order == std::vector<std::size_t>{1, 0, 3, 2});
  check("p/C order with repair costs, minutes", expected_minutes(b, with_repair.order, 0.0, 0.0), 14.6,
        worked);
}

TEST_CASE("repair order: when to call service") {
  const RepairPlan plan = plan_repairs(steps({.5, .25, .15}, {1, 2, 1}, {12, 6, 4}), .5, 40.0);
  CHECK(plan.order == std::vector<std::size_t>{0, 2, 1});
  const double expected[] = {40, 27.25, 22.425, 14.75};
  for (std::size_t k = 0; k < 4; ++k)
    check(at("cost with a call after steps", static_cast<double>(k)), plan.minutes_by_call[k], expected[k],
          worked);
  struct Row {
    double service, minutes;
    std::size_t steps_before;
  };
  for (const Row& row : {Row{6, 6, 0}, Row{8, 8, 0}, Row{10, 9.0, 1}, Row{12, 9.5, 2}, Row{30, 12.5, 3}}) {
    const RepairPlan one = plan_repairs(steps({.5, .25, .15}, {4, 5, 12}), 0.0, row.service);
    check(at("cost where service costs", row.service), one.minutes, row.minutes, worked);
    CHECK(one.before_call == row.steps_before);
  }
}

TEST_CASE("two causes: check the first one first when (1-p) C1 <= p C2; repair costs cancel") {
  // S. Ross, A First Course in Probability (exercise; derivation in the reference notes).
  const auto first_wins = [](double p, double c1, double c2) {
    const RepairPlan plan = plan_repairs(steps({p, 1.0 - p}, {c1, c2}, {30.0, 3.0}), 0.0, 0.0);
    return plan.order.front() == 0;
  };
  for (const double p : {.1, .3, .5, .7}) {
    for (const double c1 : {1.0, 2.0, 7.0}) {
      for (const double c2 : {1.5, 4.0}) CHECK(first_wins(p, c1, c2) == ((1.0 - p) * c1 <= p * c2));
    }
  }
}

TEST_CASE("actions that cure several causes: p/C is not optimal") {
  const std::vector<double> p = {.20, .25, .40, .15};
  const std::vector<SharedAction> actions = {{1.0, 0b0011}, {1.0, 0b0101}, {1.0, 0b1100}};
  const SharedPlan best = plan_shared(p, actions);
  check("shared actions, best order, minutes", best.minutes, 1.45, worked);
  CHECK(best.order == std::vector<std::size_t>{2, 0});
  const SharedPlan greedy = plan_shared_greedily(p, actions);
  check("shared actions, recomputed p/C, minutes", greedy.minutes, 1.55, worked);
  CHECK(greedy.order.front() == 1);
}

TEST_CASE("value of a question before repairs") {
  TroubleshootingProblem problem;
  problem.goal = Goal::repair;
  problem.weight = {.5, .3, .2};
  problem.target = {0, 1, 2};
  for (const double cost : {10.0, 8.0, 5.0})
    problem.remedies.push_back({cost, 0.0, AccessState::running, AccessState::running});
  problem.tests = {{1.0, AccessState::running, {{.9, .2, .1}, {.1, .8, .9}}}};
  problem.service_min = 1.0e6;
  Planner planner(problem);
  const SearchNode root = planner.start();
  check("cost of repair without the question", planner.stop_minutes(root), 14.9, worked);
  CHECK(planner.repairs(root).order == std::vector<std::size_t>{0, 2, 1});
  check("P(yes)", outcome_p(problem.tests[0], root.belief, 0), .53, worked);
  const SearchNode yes = planner.after(root, 0, 0, .53);
  const SearchNode no = planner.after(root, 0, 1, .47);
  check("cost of repair after yes", planner.stop_minutes(yes), 6.04 / .53, worked);
  check("cost of repair after no", planner.stop_minutes(no), 11.0, worked);
  CHECK(planner.repairs(no).order == std::vector<std::size_t>{2, 1, 0});
  const CostBounds bounds = planner.solve(root);
  check("cost with the question", bounds.upper, 12.21, worked);
  CHECK(bounds.exact());
  CHECK(bounds.best == 0);
  check("gross value of the question", planner.worth(root, 0).gross_min, 3.69, worked);
  check("net value of the question", planner.worth(root, 0).net_min, 2.69, worked);
}

TEST_CASE("value of information: the used car") {
  const Source source = own_arithmetic(
      "Pearl 1988; Russell & Norvig, exercise 16.22 (data from the book's code, answers worked)",
      "half of the last digit");
  const Test test{50.0, AccessState::running, {{.8, .35}, {.2, .65}}};
  const Belief prior = {.7, .3};
  const auto worth = [](const Belief& b) {
    return std::max(0.0, b[0] * 500.0 + b[1] * (2000.0 - 700.0 - 1500.0));
  };
  check("worth of buying, no test", worth(prior), 290.0, source);
  const double pass = outcome_p(test, prior, 0);
  check("P(pass)", pass, .665, source);
  const Belief passed = after_outcome(test, prior, 0, pass);
  const Belief failed = after_outcome(test, prior, 1, 1.0 - pass);
  check("P(good | pass)", passed[0], .8421052632, source, 5e-11);
  check("P(good | fail)", failed[0], .4179104478, source, 5e-11);
  check("worth of buying after pass", worth(passed), 389.4736842, source, 5e-8);
  check("worth of buying after fail", worth(failed), 92.5373134, source, 5e-8);
  check("gross value of the test", expected_after(test, prior, worth) - worth(prior), 0.0, source);
  check("worth with the test", expected_after(test, prior, worth) - test.minutes, 240.0, source);
  const Test certain{0.0, AccessState::running, {{1, 0}, {0, 1}}};
  check("value of perfect information", expected_after(certain, prior, worth) - worth(prior), 60.0, source);
}

TEST_CASE("test sequencing: five faults, five tests") {
  const TroubleshootingProblem problem = five_faults(true, {1, 1, 1, 1, 1});
  Planner planner(problem);
  const CostBounds best = planner.solve(planner.start());
  CHECK(best.exact());
  check("expected cost of the best tree", best.upper, 2.18, example);
  const double by_first[] = {2.86, 2.18, 2.82, 2.18, 2.89};
  for (std::size_t t = 0; t < 5; ++t)
    check(at("best cost beginning with test", static_cast<double>(t + 1)), starting_with(planner, t),
          by_first[t], worked);
  check("cost to go of {s0,s2,s3}", planner.solve(only(planner, {0, 2, 3})).upper, 1.146341463, worked,
        5e-10);
  check("cost to go of {s1,s4,s5}", planner.solve(only(planner, {1, 4, 5})).upper, 1.333333333, worked,
        5e-10);
  check("Huffman's bound", planner.lower_bound_minutes(planner.start()), 1.59, worked);
  check("entropy, bits", entropy_bits(problem.weight), 1.454873364, worked, 5e-10);
  CHECK(planner.greedy_test(planner.start()) == 0);
  check("cost of asking by information per cost", planner.greedy_minutes(planner.start()), 2.86, worked);
}

TEST_CASE("test sequencing: given that there is a fault") {
  const TroubleshootingProblem problem = five_faults(false, {1, 1, 1, 1, 1});
  Planner planner(problem);
  const CostBounds best = planner.solve(planner.start());
  check("expected cost, a fault exists", best.upper, 2.20, worked);
  check("Huffman's bound, a fault exists", planner.lower_bound_minutes(planner.start()), 1.966666667, worked,
        5e-10);
  const TroubleshootingProblem dear = five_faults(true, {1, 2, 3, 4, 5});
  Planner other(dear);
  const CostBounds costly = other.solve(other.start());
  check("expected cost with costs 1 .. 5", costly.upper, 5.58, worked);
  CHECK(costly.best == 1);
}

TEST_CASE("every bipartition can be tested: the best tree is Huffman's code") {
  const Source source =
      worked_example("Huffman 1952, Table I; Zimmerman 1959 (data and length from memory)", "exact sums");
  const std::vector<double> table = {.20, .18, .10, .10, .10, .06, .06, .04, .04, .04, .04, .03, .01};
  check("mean length of the code", huffman_length(table), 3.42, source);
  check("entropy of the table, bits", entropy_bits(table), 3.354561267, worked, 5e-10);
  const TroubleshootingProblem small = all_bipartitions({.4, .3, .2, .1});
  Planner planner(small);
  const CostBounds best = planner.solve(planner.start());
  CHECK(best.exact());
  check("four states, every bipartition", best.upper, 1.9, worked);
}

TEST_CASE("testability figures") {
  const Source source = own_arithmetic(
      "formulas of IEEE 1522 from secondary pages; figures worked in the reference notes", "exact fractions");
  const std::vector<double> rate = {.01, .02, .10, .05, .12};
  const std::vector<std::vector<int>> all = {
      {0, 1, 0, 0, 1}, {0, 0, 1, 1, 0}, {1, 0, 0, 1, 1}, {1, 1, 0, 0, 0}, {1, 1, 1, 1, 0}};
  const auto with = [&](const std::vector<std::size_t>& tests) {
    std::vector<std::vector<int>> answers;
    for (const auto& row : all) {
      answers.emplace_back();
      for (const std::size_t t : tests) answers.back().push_back(row[t - 1]);
    }
    return testability(rate, answers);
  };
  const Testability five = with({1, 2, 3, 4, 5});
  check("detection, all tests", five.detected_norm, 1.0, source);
  check("isolation to one, all tests", five.isolated_norm[0], 1.0, source);
  check("mean group, all tests", five.mean_group, 1.0, source);
  const Testability one_two = with({1, 2});
  check("detection, tests 1 2", one_two.detected_norm, 14.0 / 15.0, source);
  check("detection by number, tests 1 2", one_two.detected_unweighted_norm, .8, source);
  CHECK(one_two.groups == std::vector<std::vector<std::size_t>>{{0}, {2}, {3, 4}});
  check("isolation to one, tests 1 2", one_two.isolated_norm[0], 11.0 / 28.0, source);
  check("isolation to two, tests 1 2", one_two.isolated_norm[1], 1.0, source);
  check("mean group, tests 1 2", one_two.mean_group, 45.0 / 28.0, source);
  const Testability two_four = with({2, 4});
  check("detection, tests 2 4", two_four.detected_norm, 1.0, source);
  CHECK(two_four.groups == std::vector<std::vector<std::size_t>>{{0, 3}, {1, 2}, {4}});
  check("isolation to one, tests 2 4", two_four.isolated_norm[0], .4, source);
  check("mean group, tests 2 4", two_four.mean_group, 1.6, source);
  const Testability three = with({3});
  check("detection, test 3", three.detected_norm, .4666666667, source, 5e-11);
  check("isolation to one, test 3", three.isolated_norm[0], 0.0, source);
  check("isolation to two, test 3", three.isolated_norm[1], 1.0, source);
  check("mean group, test 3", three.mean_group, 2.0, source);
}
