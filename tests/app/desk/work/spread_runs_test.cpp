#include "app/desk/work/run/spread_runs.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <atomic>
#include <thread>

#include "app/desk/work/run/live_run.h"
#include "sim_core/hands/handles.h"
#include "sim_core/machine/uncertain.h"
#include "tests/support/free_run.h"

// The band that uncertain constants leave open, of a run under way.
namespace {

using namespace stirbench;
using desk::views::TrendLog;
using desk::views::TrendSpread;
using desk::work::LiveRun;
using desk::work::SpreadQuestion;
using desk::work::SpreadRuns;

// 30 kg of milk heated so long, with what the trend remembers.
struct Heated {
  LiveRun run{test_support::free_run()};
  TrendLog log;

  explicit Heated(std::uint64_t ticks) {
    log.record(run.machine(), run.state());
    CHECK(run.act(hands::open_lid()).empty());
    step();
    CHECK(run.act(hands::pour("whole_milk", 30.0)).empty());
    step();
    CHECK(run.act(hands::close_lid()).empty());
    step();
    CHECK(run.act(hands::press("heat")).empty());
    while (run.state().tick < ticks) step();
  }
  void step() {
    run.step();
    log.record(run.machine(), run.state());
  }
};

void wait_for(SpreadRuns& runs) {
  while (runs.busy() && !runs.poll()) std::this_thread::yield();
}

}  // namespace

TEST_CASE("spread: the band holds the run's own line and opens where heat comes in") {
  const Heated heated(6000);
  const std::uint64_t before = machine::state_hash(heated.run.state());
  std::atomic<int> wakes{0};
  SpreadRuns runs([&wakes] { ++wakes; });
  REQUIRE(runs.start(spread_question(heated.run)).empty());
  wait_for(runs);
  CHECK(runs.done() == SpreadRuns::drawn_runs);
  CHECK(wakes >= SpreadRuns::drawn_runs);
  const std::vector<TrendSpread>& band = runs.band();
  REQUIRE(band.size() == 601);  // a point a second, both ends
  CHECK(band.back().time_s == 600.0);
  // One of the runs is the machine as it stands with the same inputs: to the last bit the line that is drawn.
  for (const TrendSpread& point : band) {
    const double own = heated.log.at(point.time_s)[desk::views::TrendChannel::product];
    CHECK(point.low_degC <= own);
    CHECK(point.high_degC >= own);
  }
  CHECK(band.front().low_degC == band.front().high_degC);
  CHECK(band.back().high_degC > band.back().low_degC + 0.2);
  CHECK(machine::state_hash(heated.run.state()) == before);
}

TEST_CASE("spread: its ends are the least and the greatest of sessions with the same drawn machines") {
  const Heated heated(3000);
  const SpreadQuestion question = spread_question(heated.run);
  SpreadRuns runs;
  REQUIRE(runs.start(question).empty());
  wait_for(runs);
  REQUIRE_FALSE(runs.band().empty());
  double low = 1e9;
  double high = -1e9;
  for (int seed = 0; seed <= SpreadRuns::drawn_runs; ++seed) {
    const machine::Machine one =
        seed == 0 ? question.machine : machine::drawn(question.machine, static_cast<std::uint64_t>(seed));
    journal::Session session(one, question.header);
    bench::drive(session, journal::KeptInputs(question.acts), [&] { return session.state().tick >= 3000; });
    const double degC = desk::views::trend_sample(session.state())[desk::views::TrendChannel::product];
    low = std::min(low, degC);
    high = std::max(high, degC);
  }
  CHECK(runs.band().back().low_degC == low);
  CHECK(runs.band().back().high_degC == high);

  const std::vector<TrendSpread> first = runs.band();
  REQUIRE(runs.start(question).empty());
  CHECK(runs.band().empty());  // until the runs are done anew
  wait_for(runs);
  CHECK(std::equal(first.begin(), first.end(), runs.band().begin(), runs.band().end(),
                   [](const TrendSpread& a, const TrendSpread& b) {
                     return a.time_s == b.time_s && a.low_degC == b.low_degC && a.high_degC == b.high_degC;
                   }));
}

TEST_CASE("spread: cancelled, it leaves the run that it is at, and there is no band") {
  const Heated heated(100);
  SpreadQuestion question = spread_question(heated.run);
  question.until_tick = 365ULL * 24 * 3600 * machine::ticks_per_second;
  SpreadRuns runs;
  REQUIRE(runs.start(question).empty());
  CHECK(runs.busy());
  runs.cancel();
  CHECK(runs.done() < SpreadRuns::drawn_runs);  // thirteen years were not run
  CHECK_FALSE(runs.busy());
  CHECK_FALSE(runs.poll());
  CHECK(runs.band().empty());
}

TEST_CASE("spread: a long run has as many points as a chart has columns") {
  const Heated heated(100);
  SpreadQuestion question = spread_question(heated.run);
  question.acts.clear();
  question.until_tick = 1801ULL * machine::ticks_per_second;
  SpreadRuns runs;
  REQUIRE(runs.start(question).empty());
  wait_for(runs);
  REQUIRE(runs.band().size() == 451);  // every 4 s
  CHECK(runs.band()[1].time_s == 4.0);
  CHECK(runs.band().back().time_s == 1800.0);
}

TEST_CASE("spread: never for a run that counts for a certificate, nor for a start that cannot be") {
  const Heated heated(100);
  for (const char* mode : {"test", "sealed"}) {
    SpreadQuestion question = spread_question(heated.run);
    question.header.mode = mode;
    SpreadRuns runs;
    CHECK_FALSE(runs.start(question).empty());
    CHECK_FALSE(runs.busy());
  }
  SpreadQuestion question = spread_question(heated.run);
  question.header.start.recipe = "no-such";
  SpreadRuns runs;
  CHECK(runs.start(question).find("no-such") != std::string::npos);
  CHECK_FALSE(runs.busy());
}
