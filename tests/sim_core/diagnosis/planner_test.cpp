#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <stdexcept>

#include "sim_core/diagnosis/planner.h"
#include "sim_core/diagnosis/repair_order.h"
#include "sim_core/diagnosis/testability.h"
#include "tests/sim_core/diagnosis/sample_model.h"

using namespace stirbench::diagnosis;
using stirbench::tests::Stream;

namespace {

// Certain two-valued tests over single states.
TroubleshootingProblem random_matrix(Stream& stream, std::size_t states, std::size_t tests) {
  TroubleshootingProblem problem;
  problem.remedies.resize(states);
  for (std::size_t s = 0; s < states; ++s) {
    problem.weight.push_back(0.05 + stream.uniform());
    problem.target.push_back(s);
  }
  for (std::size_t t = 0; t < tests; ++t) {
    Test test{0.5 + 4.0 * stream.uniform(), AccessState::running, {{}, {}}};
    for (std::size_t s = 0; s < states; ++s) {
      const double fail = stream.uniform() < 0.5 ? 1.0 : 0.0;
      test.p[0].push_back(1.0 - fail);
      test.p[1].push_back(fail);
    }
    problem.tests.push_back(test);
  }
  return problem;
}

// Dynamic programme over sets of states written down plainly: a second method for the planner's search.
double plain_optimum(const TroubleshootingProblem& problem, unsigned set, std::map<unsigned, double>& memo) {
  if ((set & (set - 1)) == 0) return 0.0;
  if (const auto found = memo.find(set); found != memo.end()) return found->second;
  double total = 0.0;
  for (std::size_t s = 0; s < problem.weight.size(); ++s)
    total += (set >> s & 1U) != 0 ? problem.weight[s] : 0.0;
  double best = -1.0;
  for (const Test& test : problem.tests) {
    unsigned failing = 0;
    double p = 0.0;
    for (std::size_t s = 0; s < problem.weight.size(); ++s) {
      if ((set >> s & 1U) == 0 || test.p[1][s] == 0.0) continue;
      failing |= 1U << s;
      p += problem.weight[s] / total;
    }
    if (failing == 0 || failing == set) continue;
    const double cost = test.minutes + p * plain_optimum(problem, failing, memo) +
                        (1 - p) * plain_optimum(problem, set & ~failing, memo);
    if (best < 0.0 || cost < best) best = cost;
  }
  return memo[set] = std::max(best, 0.0);
}

TroubleshootingProblem repair_problem(Stream& stream, std::size_t causes, std::size_t tests) {
  TroubleshootingProblem problem;
  problem.goal = Goal::repair;
  problem.service_min = 100.0;
  problem.change = access_change_minutes({});
  for (std::size_t c = 0; c < causes; ++c) {
    problem.weight.push_back(0.05 + stream.uniform());
    problem.target.push_back(c);
    problem.remedies.push_back({5.0 + 40.0 * stream.uniform(), 0.0,
                                static_cast<AccessState>(static_cast<int>(4.0 * stream.uniform())),
                                AccessState::running});
  }
  for (std::size_t t = 0; t < tests; ++t) {
    Test test{1.0 + 6.0 * stream.uniform(),
              static_cast<AccessState>(static_cast<int>(4.0 * stream.uniform())),
              {{}, {}}};
    for (std::size_t c = 0; c < causes; ++c) {
      const double p = stream.uniform() < 0.5 ? 0.03 : 0.95;
      test.p[0].push_back(1.0 - p);
      test.p[1].push_back(p);
    }
    problem.tests.push_back(test);
  }
  return problem;
}

// All ways to ask and stop, no bounds, no memory of states.
double brute_force(const Planner& planner, const SearchNode& standing) {
  double best = planner.stop_minutes(standing);
  for (std::size_t t = 0; t < planner.problem().tests.size(); ++t) {
    if (standing.asked[t]) continue;
    double minutes = planner.test_minutes(standing, t);
    for (std::size_t k = 0; k < planner.problem().tests[t].p.size(); ++k) {
      const double p = outcome_p(planner.problem().tests[t], standing.belief, k);
      if (p > 0.0) minutes += p * brute_force(planner, planner.after(standing, t, k, p));
    }
    best = std::min(best, minutes);
  }
  return best;
}

}  // namespace

TEST_CASE(
    "search over certain tests equals the plain dynamic programme; Huffman's bound stays below, greedy "
    "above") {
  Stream stream;
  for (int round = 0; round < 120; ++round) {
    const TroubleshootingProblem problem =
        random_matrix(stream, 3 + static_cast<std::size_t>(4.0 * stream.uniform()), 6);
    Planner planner(problem);
    const SearchNode root = planner.start();
    std::map<unsigned, double> memo;
    const double optimum = plain_optimum(problem, (1U << problem.weight.size()) - 1U, memo);
    const CostBounds bounds = planner.solve(root);
    CHECK(bounds.exact());
    CHECK(bounds.upper == doctest::Approx(optimum).epsilon(1e-9));
    CHECK(planner.lower_bound_minutes(root) <= optimum + 1e-9);
    CHECK(planner.greedy_minutes(root) >= optimum - 1e-9);
    const CostBounds ahead = planner.look_ahead(root, 99);
    CHECK(ahead.upper >= optimum - 1e-9);
    CHECK(ahead.lower <= optimum + 1e-9);
  }
}

TEST_CASE("repair with uncertain tests and conditions: exact equals brute force, every interval holds it") {
  Stream stream;
  stream.word = 7;
  for (int round = 0; round < 12; ++round) {
    const TroubleshootingProblem problem = repair_problem(stream, 4, 4);
    Planner planner(problem);
    const SearchNode root = planner.start();
    const double optimum = brute_force(planner, root);
    const CostBounds bounds = planner.solve(root);
    CHECK(bounds.exact());
    CHECK(bounds.upper == doctest::Approx(optimum).epsilon(1e-9));
    for (unsigned depth = 0; depth < 4; ++depth) {
      Planner fresh(problem);
      const CostBounds some = fresh.search(root, depth);
      CHECK(some.lower <= optimum + 1e-6);
      CHECK(some.upper >= optimum - 1e-6);
    }
    const CostBounds ahead = Planner(problem).look_ahead(root, 2);
    CHECK(ahead.lower <= optimum + 1e-6);
    CHECK(ahead.upper >= optimum - 1e-6);
    CHECK(ahead.upper <= planner.stop_minutes(root) + 1e-9);
  }
}

TEST_CASE("a search cut short still holds the optimum") {
  Stream stream;
  stream.word = 11;
  const TroubleshootingProblem problem = random_matrix(stream, 8, 12);
  Planner whole(problem);
  const double optimum = whole.solve(whole.start()).upper;
  Planner cut(problem, 5);
  const CostBounds bounds = cut.solve(cut.start());
  CHECK(bounds.lower <= optimum + 1e-9);
  CHECK(bounds.upper >= optimum - 1e-9);
  CHECK(bounds.upper < 1e9);
}

TEST_CASE("taking the covers off is paid once") {
  TroubleshootingProblem problem;
  problem.goal = Goal::isolate;
  problem.weight = {.25, .25, .25, .25};
  problem.target = {0, 1, 2, 3};
  problem.remedies.resize(4);
  problem.change = access_change_minutes({});
  problem.start = AccessState::standing;
  const auto test = [](std::vector<double> fail, double minutes, AccessState needs) {
    Test one{minutes, needs, {{}, fail}};
    for (const double f : fail) one.p[0].push_back(1.0 - f);
    return one;
  };
  problem.tests = {test({1, 1, 0, 0}, 3.0, AccessState::open_isolated),
                   test({1, 0, 1, 0}, 3.0, AccessState::open_isolated)};
  Planner planner(problem);
  // Isolate 4, covers 5, two measurements of 3.
  CHECK(planner.solve(planner.start()).upper == doctest::Approx(15.0));
}

TEST_CASE("minutes between conditions: the shortest way, both covers and lock on the way back") {
  AccessCosts costs;
  const AccessMinutes m = access_change_minutes(costs);
  const auto way = [&m](AccessState a, AccessState b) {
    return m[static_cast<std::size_t>(a)][static_cast<std::size_t>(b)];
  };
  CHECK(way(AccessState::running, AccessState::open_isolated) == doctest::Approx(0.2 + 4.0 + 5.0));
  CHECK(way(AccessState::open_isolated, AccessState::running) == doctest::Approx(5.0 + 2.0 + 0.5));
  CHECK(way(AccessState::open_live, AccessState::standing) == doctest::Approx(4.0 + 5.0 + 2.0));
  CHECK(way(AccessState::isolated, AccessState::isolated) == 0.0);
  for (std::size_t a = 0; a < access_state_count; ++a) {
    for (std::size_t b = 0; b < access_state_count; ++b) {
      for (std::size_t c = 0; c < access_state_count; ++c) CHECK(m[a][c] <= m[a][b] + m[b][c] + 1e-12);
    }
  }
}

TEST_CASE("p/C order is the best of all orders; the call is put where it is least") {
  Stream stream;
  stream.word = 3;
  for (int round = 0; round < 60; ++round) {
    std::vector<RepairStep> steps;
    double sum = 0.0;
    for (int i = 0; i < 5; ++i) {
      steps.push_back({stream.uniform(), 0.2 + 5.0 * stream.uniform(), 9.0 * stream.uniform()});
      sum += steps.back().p;
    }
    for (RepairStep& step : steps) step.p *= 0.95 / sum;
    const RepairPlan plan = plan_repairs(steps, 1.5, 30.0);
    std::vector<std::size_t> order = {0, 1, 2, 3, 4};
    double best = 30.0;
    do {
      for (std::size_t k = 0; k <= order.size(); ++k) {
        const std::vector<std::size_t> some(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(k));
        best = std::min(best, expected_minutes(steps, some, 1.5, 30.0));
      }
    } while (std::next_permutation(order.begin(), order.end()));
    CHECK(plan.minutes == doctest::Approx(best).epsilon(1e-9));
  }
}

TEST_CASE("shared actions: exact equals the best of all orders") {
  Stream stream;
  stream.word = 5;
  for (int round = 0; round < 40; ++round) {
    std::vector<double> p;
    std::vector<SharedAction> actions;
    for (int i = 0; i < 5; ++i) p.push_back(0.1 + stream.uniform());
    for (int a = 0; a < 5; ++a)
      actions.push_back(
          {1.0 + 4.0 * stream.uniform(),
           static_cast<std::uint32_t>(1U << a) | static_cast<std::uint32_t>(32.0 * stream.uniform())});
    std::vector<std::size_t> order = {0, 1, 2, 3, 4};
    double best = 1e9;
    do {
      double minutes = 0.0;
      std::uint32_t cured = 0;
      for (const std::size_t a : order) {
        for (std::size_t i = 0; i < p.size(); ++i)
          minutes += (cured >> i & 1U) != 0 ? 0.0 : p[i] * actions[a].minutes;
        cured |= actions[a].cures;
      }
      best = std::min(best, minutes);
    } while (std::next_permutation(order.begin(), order.end()));
    CHECK(plan_shared(p, actions).minutes == doctest::Approx(best).epsilon(1e-9));
    CHECK(plan_shared_greedily(p, actions).minutes >= best - 1e-9);
  }
  CHECK_THROWS_AS(plan_shared({1.0}, std::vector<SharedAction>(17)), std::invalid_argument);
}

TEST_CASE("problems that do not fit are refused") {
  Stream stream;
  const TroubleshootingProblem good = random_matrix(stream, 3, 2);
  CHECK_NOTHROW(Planner{good});
  TroubleshootingProblem bad = good;
  bad.tests[1].p[0][2] += 0.5;
  CHECK_THROWS_WITH_AS(Planner{bad}, doctest::Contains("test 1"), std::invalid_argument);
  bad = good;
  bad.weight[0] = -1.0;
  CHECK_THROWS_AS(Planner{bad}, std::invalid_argument);
  bad = good;
  bad.target[1] = 9;
  CHECK_THROWS_AS(Planner{bad}, std::invalid_argument);
}
