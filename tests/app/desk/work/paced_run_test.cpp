#include <doctest/doctest.h>

#include <utility>

#include "app/desk/work/run/paced_run.h"
#include "sim_core/hands/handles.h"
#include "tests/support/free_run.h"

// A live run against a clock that the cases set.
namespace {

using namespace stirbench;
using desk::work::Attention;
using desk::work::LiveRun;
using desk::work::PacedRun;

struct TimedRun {
  double now_s = 100.0;
  LiveRun run;
  PacedRun paced{[this] { return now_s; }};

  TimedRun() : run(test_support::free_run()) {}

  PacedRun::News frame(double seconds = 1.0 / 60.0) {
    now_s += seconds;
    return paced.run_frame(run);
  }
};

}  // namespace

TEST_CASE("paced run: a frame steps its share and the trend remembers it") {
  TimedRun timed;
  timed.paced.pacing().set_speed(60.0);
  for (int i = 0; i < 60; ++i) CHECK(timed.frame().attention.kind == Attention::Kind::none);
  CHECK(timed.run.state().tick >= 599);
  CHECK(timed.run.state().tick <= 600);
  CHECK(timed.paced.log().size() >= 59);
  timed.paced.begin_afresh();
  CHECK(timed.paced.log().empty());
}

TEST_CASE("paced run: a rush over a machine at rest stops and says so") {
  TimedRun timed;
  timed.paced.pacing().rush(true);
  const PacedRun::News news = timed.frame();
  CHECK(news.attention.kind == Attention::Kind::idle);
  CHECK(timed.run.state().tick == 1);
  CHECK_FALSE(timed.paced.pacing().rushing());
}

TEST_CASE("paced run: what hands do ends a pause, and what they cannot do is refused with the reason") {
  TimedRun timed;
  timed.paced.pacing().pause(true);
  CHECK_FALSE(timed.paced.goes(timed.run));
  timed.frame();
  CHECK(timed.run.state().tick == 0);
  CHECK(timed.paced.hand_over(timed.run, {hands::open_lid()}).empty());
  CHECK(timed.paced.goes(timed.run));
  timed.frame(0.25);
  CHECK(timed.run.state().tick >= 1);  // what the open lid brings may stop the frame
  CHECK(timed.run.state().plant.fittings.lid_open);
  const auto refusals = timed.paced.hand_over(timed.run, {hands::open_lid(), hands::close_lid()});
  REQUIRE(refusals.size() == 1);  // it is open already; closing it is fine
  CHECK(refusals[0] != "");
}

TEST_CASE("paced run: the last part pointed at in a frame is news") {
  TimedRun timed;
  CHECK(timed.paced.hand_over(timed.run, {hands::point_out("lid")}).empty());
  const PacedRun::News news = timed.frame(0.25);
  REQUIRE(news.pointed.has_value());
  CHECK(news.pointed->part == "lid");
  CHECK_FALSE(news.pointed->right);  // no lesson asks
  CHECK_FALSE(timed.frame(0.25).pointed.has_value());
}

TEST_CASE("paced run: a run that has ended does not go") {
  TimedRun timed;
  timed.run.finish();
  CHECK_FALSE(timed.paced.goes(timed.run));
  timed.frame(0.25);
  CHECK(timed.run.state().tick == 0);
}
