#include <doctest/doctest.h>

#include <atomic>
#include <chrono>
#include <thread>

#include "app/library/food/finish_estimate.h"
#include "tests/app/library/scratch.h"

// What runs beside the drawing thread. This group is built with the data-race checks too (preset tsan).
using namespace stirbench;
using library_test::shipped;

namespace {

// Asks until an answer has come; false after ten seconds without one.
bool poll_until_idle(library::FinishEstimate& estimate) {
  for (int i = 0; i < 1000; ++i) {
    estimate.poll();
    if (!estimate.busy()) return true;
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
  return false;
}

}  // namespace

TEST_CASE("an estimate made beside the asking thread is the one made in it, and wakes who asked") {
  std::atomic<int> wakes{0};
  library::FinishEstimate estimate([&wakes] { ++wakes; });
  const control::Recipe& recipe = shipped().recipes.at("white-base-high");
  estimate.ask(shipped(), "hm-45", recipe, true);
  CHECK(estimate.busy());
  REQUIRE(poll_until_idle(estimate));
  REQUIRE(estimate.seconds().has_value());
  CHECK(*estimate.seconds() == library::estimate_finish_s(shipped(), "hm-45", recipe));
  for (int i = 0; i < 200 && wakes == 0; ++i) std::this_thread::sleep_for(std::chrono::milliseconds(5));
  CHECK(wakes == 1);
}

TEST_CASE("the newest question wins: an answer that was overtaken is not shown") {
  library::FinishEstimate estimate;
  control::Recipe recipe = shipped().recipes.at("white-base-high");
  const double first_s = library::estimate_finish_s(shipped(), "hm-45", recipe);
  control::Recipe longer = recipe;
  for (auto& phase : longer.phases) {
    if (phase.kind == control::PhaseKind::hold) phase.duration_s += 900.0;
  }
  estimate.ask(shipped(), "hm-45", recipe, true);
  estimate.ask(shipped(), "hm-45", recipe, true);
  estimate.ask(shipped(), "hm-45", longer, true);
  CHECK_FALSE(estimate.seconds().has_value());
  REQUIRE(poll_until_idle(estimate));
  REQUIRE(estimate.seconds().has_value());
  CHECK(*estimate.seconds() > first_s + 600.0);
}

TEST_CASE("a recipe that cannot run has no time to finish, also when a sound one is under way") {
  library::FinishEstimate estimate;
  const control::Recipe& recipe = shipped().recipes.at("white-base-high");
  estimate.ask(shipped(), "hm-45", recipe, true);
  estimate.ask(shipped(), "hm-45", recipe, false);
  REQUIRE(poll_until_idle(estimate));
  CHECK_FALSE(estimate.seconds().has_value());
}
