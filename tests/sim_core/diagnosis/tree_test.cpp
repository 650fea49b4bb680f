#include <doctest/doctest.h>

#include <cmath>
#include <set>

#include "sim_core/diagnosis/tree.h"
#include "tests/sim_core/diagnosis/sample_model.h"

using namespace stirbench::diagnosis;
using stirbench::tests::heater_model;
using stirbench::tests::random_model;
using stirbench::tests::Stream;

namespace {

// Children come after parents (no cycle), every answer that can come leads on, ends have repairs or a call,
// weights add up.
void check_tree(const Model& model, const Tree& tree) {
  double ends = 0.0;
  std::vector<int> parents(tree.nodes.size(), 0);
  for (std::size_t i = 0; i < tree.nodes.size(); ++i) {
    const TreeNode& node = tree.nodes[i];
    if (node.question == Model::npos) {
      ends += node.p;
      continue;
    }
    REQUIRE(node.child.size() == model.outcome_count(node.question));
    double below = 0.0;
    for (const std::size_t child : node.child) {
      if (child == Model::npos) continue;
      CHECK(child > i);
      REQUIRE(child < tree.nodes.size());
      ++parents[child];
      below += tree.nodes[child].p;
    }
    CHECK(below == doctest::Approx(node.p));
    double minutes = node.minutes;
    for (const std::size_t child : node.child) {
      if (child != Model::npos) minutes += tree.nodes[child].p / node.p * tree.nodes[child].expected_min;
    }
    CHECK(node.expected_min == doctest::Approx(minutes));
  }
  CHECK(ends == doctest::Approx(1.0));
  for (std::size_t i = 1; i < parents.size(); ++i) CHECK(parents[i] == 1);
}

}  // namespace

TEST_CASE("compiled trees are trees, their minutes add up and lie above the bound") {
  Stream stream;
  for (int round = 0; round < 6; ++round) {
    const Model model = random_model(stream, 6, 6);
    const Tree tree = compile_tree(model, {{0, 1}}, {Who::electrician, AccessState::standing, {}});
    check_tree(model, tree);
    CHECK(tree.expected_min >= tree.at_least_min - 1e-9);
    CHECK(tree.expected_min <= model.service_min + 1e-9);
  }
}

TEST_CASE("the lid is looked at before covers come off") {
  const Model model = heater_model();
  const NextSteps next = next_checks(model, {{0, 1}}, {Who::electrician, AccessState::running, {}});
  REQUIRE_FALSE(next.checks.empty());
  CHECK_FALSE(next.repair_now);
  CHECK(model.check(next.checks.front().question).id == "lid");
  CHECK(next.at_least_min <= next.expected_min + 1e-9);
  CHECK(next.expected_min <= next.call_now_min + 1e-9);
  for (const CheckAdvice& advice : next.checks) {
    double sum = 0.0;
    for (const double p : advice.outcome_p) sum += p;
    CHECK(sum == doctest::Approx(1.0));
    CHECK(advice.change_min >= 0.0);
  }
}

TEST_CASE("no tree sends a person to do what they may not") {
  Model model = heater_model();
  model.checks[0].who = Who::electrician;
  model.checks[1].who = Who::electrician;
  const NextSteps trained = next_checks(model, {{0, 1}}, {Who::anyone, AccessState::running, {}});
  for (const CheckAdvice& advice : trained.checks) CHECK(model.check(advice.question).id == "lid");
  const NextSteps electrician = next_checks(model, {{0, 1}}, {Who::electrician, AccessState::running, {}});
  CHECK(electrician.checks.size() == 3);
  // What one cannot do oneself costs a call, so the licensed person is never slower.
  CHECK(electrician.expected_min <= trained.expected_min + 1e-9);
  CHECK(may_do(Who::refrigeration, Who::technician));
  CHECK_FALSE(may_do(Who::refrigeration, Who::electrician));
  CHECK_FALSE(may_do(Who::anyone, Who::technician));
}

TEST_CASE("checks that were done or cannot be done are not advised again") {
  const Model model = heater_model();
  const NextSteps next = next_checks(model, {{0, 1}, {3, 0}},
                                     {Who::electrician, AccessState::running, {false, true, false, false}});
  REQUIRE(next.checks.size() == 1);
  CHECK(model.check(next.checks[0].question).id == "ohms");
  // A withdrawn finding is as good as not made.
  const NextSteps again =
      next_checks(model, {{0, 1}, {3, 0, 1.0, true}}, {Who::electrician, AccessState::running, {}});
  CHECK(again.checks.size() == 3);
}

TEST_CASE("walking a tree by findings") {
  const Model model = heater_model();
  const Tree tree = compile_tree(model, {{0, 1}}, {Who::electrician, AccessState::running, {}});
  REQUIRE(tree.nodes[0].question != Model::npos);
  const std::size_t first = tree.nodes[0].question;
  CHECK(locate_in_tree(tree, {}).node == 0);
  const TreePosition on = locate_in_tree(tree, {{first, 0}});
  CHECK(on.node == tree.nodes[0].child[0]);
  CHECK(on.used == 1);
  CHECK(locate_in_tree(tree, {{first, 0, 1.0, true}}).node == 0);
}

TEST_CASE("following the advice finds the cause: simulated machines of the model itself") {
  Stream stream;
  stream.word = 21;
  Model model = random_model(stream, 6, 8);
  model.pair_years = 0.0;
  for (Profile& profile : model.profiles) {
    for (std::size_t q = 1; q < profile.counts.size(); ++q) {
      // Sharper answers than the random ones, as checks are.
      const auto sure =
          static_cast<std::size_t>(stream.uniform() * static_cast<double>(profile.counts[q].size()));
      for (double& one : profile.counts[q]) one *= 0.1;
      profile.counts[q][sure] += 0.9;
    }
  }
  int first = 0;
  double brier = 0.0;
  constexpr int machines = 60;
  for (int m = 0; m < machines; ++m) {
    const auto truth = static_cast<std::size_t>(stream.uniform() * 6.0);
    std::vector<Finding> findings;
    for (std::size_t q = 1; q < model.question_count(); ++q) {
      double u = stream.uniform();
      std::size_t o = 0;
      while (o + 1 < model.outcome_count(q) && u >= model.profiles[truth].counts[q][o])
        u -= model.profiles[truth].counts[q][o++];
      findings.push_back({q, o});
    }
    const Posterior p = posterior(model, findings);
    first += p.ranked().front().cause == truth ? 1 : 0;
    for (std::size_t c = 0; c < 6; ++c)
      brier += std::pow(p.cause_p[c] - (c == truth ? 1.0 : 0.0), 2) / machines;
  }
  CHECK(first >= 54);
  CHECK(brier < 0.2);
}
