#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/diagnosis/overview.h"
#include "tests/app/library/scratch.h"
#include "tests/support/fault_trial.h"

// A small trial of the guide on machines that its tables have not seen; bench_diagnosis does the same with
// ten thousand.
using namespace stirbench;
using namespace stirbench::diagnosis;
using library_test::shipped;

namespace {

const library::FaultGuides& shelf() {
  static const library::FaultGuides loaded = library::load_guides(library_test::content_dir(), shipped());
  return loaded;
}

// Three standard deviations of a share of n machines: one run in 740 of a guide that is just good enough
// would miss it.
double margin(double share, double n) { return 3.0 * std::sqrt(share * (1.0 - share) / n); }

}  // namespace

TEST_CASE(
    "unseen broken machines: the true cause is first, or among three, as often as it should be; the guide "
    "beats p/C and the fixed order") {
  const library::FaultGuide& guide = shelf().guides.at("hm-45");
  const Model model = library::guide_model(guide, &shelf().evidence.at("hm-45")).model;
#ifdef __SANITIZE_ADDRESS__
  constexpr std::size_t machines =
      40;  // checked builds take fifteen times as long; the margins below widen with it
#else
  constexpr std::size_t machines = 250;
#endif
  std::size_t silent = 0;
  const auto cases = fault_trial::draw_cases(shipped().machine("hm-45"), guide, model, machines,
                                             0x7e57ULL << 32U, 2, silent);
  fault_trial::ByTheBook book(model, Who::electrician);
  fault_trial::Follower follower(model, Who::electrician, ambiguity_groups(model));
  double apart = 0.0, first = 0.0, third = 0.0, said = 0.0, right = 0.0, guide_min = 0.0, repair_min = 0.0,
         book_min = 0.0, known_min = 0.0;
  for (const fault_trial::Case& one : cases) {
    const fault_trial::Result result = follower.follow(one);
    said += result.said_p;
    right += result.first ? 1.0 : 0.0;
    guide_min += result.guide_min;
    repair_min += result.repair_min;
    known_min += result.known_min;
    book_min += book.minutes(one, follower);
    if (result.grouped) continue;
    apart += 1.0;
    first += result.first ? 1.0 : 0.0;
    third += result.third ? 1.0 : 0.0;
  }
  REQUIRE(apart > 0.5 * machines);
  CHECK(first / apart > 0.80 - margin(0.80, apart));
  CHECK(third / apart > 0.95 - margin(0.95, apart));
  // Calibration in the large: what is said of the first cause, on average, against how often it is right.
  CHECK(std::fabs(said - right) / machines < 0.05 + margin(right / machines, machines));
  CHECK(guide_min < repair_min);
  // At least a quarter under the fixed order of checks, to a working machine and, which is easier, to the
  // cause.
  CHECK(guide_min < 0.75 * book_min);
  CHECK(guide_min - known_min < 0.75 * (book_min - known_min));
}

#ifndef __SANITIZE_ADDRESS__  // hundreds of trees: ten times as long in checked builds, and the same code as
                              // the tests around it
TEST_CASE(
    "trees: every check is asked by one, every tree can be followed, every fault shows as some symptom") {
  const auto wrong = library::judge_trees(shelf().guides.at("hm-45"), &shelf().evidence.at("hm-45"));
  std::string said;
  for (const auto& one : wrong) said += one.text() + "\n";
  CHECK(said == "");
}
#endif

TEST_CASE("a tree that leads back, or nowhere, is seen") {
  const Model model = library::guide_model(shelf().guides.at("hm-45"), &shelf().evidence.at("hm-45")).model;
  Tree tree = compile_tree(model, {{0, 1}}, {Who::technician, AccessState::standing, {}});
  REQUIRE(tree.nodes.front().question != Model::npos);
  CHECK(tree_problems(model, tree).empty());
  Tree back = tree;
  back.nodes.front().child.front() = 0;
  CHECK_FALSE(tree_problems(model, back).empty());
  Tree nowhere = tree;
  nowhere.nodes.front().child.assign(nowhere.nodes.front().child.size(), Model::npos);
  CHECK_FALSE(tree_problems(model, nowhere).empty());
  Tree idle = tree;
  idle.nodes.back().expected_min = 0.0;
  CHECK_FALSE(tree_problems(model, idle).empty());
}
