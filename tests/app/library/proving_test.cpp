#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "tests/app/library/fault_work_run.h"

// Proving dead with the probes of a multimeter alone.
using namespace fault_work;

namespace {

// Lines to each other, each pole to earth: all poles, as EN 50110-1, 6.2.4 asks (from memory).
const std::vector<std::pair<const char*, const char*>> all_poles{
    {"X1.1", "X1.2"}, {"Q0.4", "X1.3"}, {"X1.3", "X1.1"}, {"X1.1", "X5.1"},
    {"X1.2", "X5.1"}, {"X1.3", "X5.1"}, {"X1.4", "X5.1"}};

std::string read(Run& run, const char* red, const char* black) {
  run.act(hands::probes_off());
  run.act(hands::red_probe(red));
  return run.act(hands::black_probe(black));
}

void isolate_and_open(Run& run) {
  run.act(hands::press("stop"));
  run.act(hands::isolate(true));
  run.act(hands::fit_lock("you"));
  run.act(hands::take_panel_off());
  run.act(hands::take_tool("multimeter"));
  run.act(hands::set_meter("V~"));
}

}  // namespace

TEST_CASE(
    "proved dead with probes alone: source, all seven pairs, source again; one pair less and nothing is "
    "proved") {
  Run run({});
  isolate_and_open(run);
  read(run, "X0.L1", "X0.L2");
  CHECK(step_of(run.state().lockout, machine::LockoutStep::meter_proved).done);
  for (std::size_t i = 0; i < all_poles.size(); ++i) {
    CHECK_FALSE(step_of(run.state().lockout, machine::LockoutStep::dead_measured).done);
    read(run, all_poles[i].first, all_poles[i].second);
    read(run, all_poles[i].second, all_poles[i].first);  // the other way round is no other pair
  }
  CHECK(step_of(run.state().lockout, machine::LockoutStep::dead_measured).done);
  CHECK_FALSE(verified_dead(run.state().lockout));
  read(run, "X0.L3", "X0.N");
  CHECK(verified_dead(run.state().lockout));
  // With the supply back, nothing of it holds.
  run.act(hands::put_panel_on());
  run.act(hands::remove_lock("you"));
  run.act(hands::isolate(false));
  CHECK_FALSE(verified_dead(run.state().lockout));
  CHECK(run.state().work.dead_pairs == 0);
}

TEST_CASE(
    "a pole of the isolator that stays closed shows against earth, not between the lines; a broken meter "
    "shows on the known source") {
  Run pole({}, faults::Who::electrician, {.isolator_pole_stuck = true});
  isolate_and_open(pole);
  read(pole, "X0.L1", "X0.L2");
  read(pole, "X1.1", "X1.2");
  CHECK(pole.state().work.reading.value < 50.0);
  CHECK(read(pole, "X1.1", "X5.1").find("stop here") != std::string::npos);
  // Line to earth is U / sqrt(3) of 400 V.
  CHECK(pole.state().work.reading.value == doctest::Approx(400.0 / std::sqrt(3.0)).epsilon(0.02));
  CHECK(pole.state().work.dead_pairs == 0);
  Run broken({}, faults::Who::electrician, {.meter_broken = true});
  isolate_and_open(broken);
  CHECK(read(broken, "X0.L1", "X0.L2").find("broken") != std::string::npos);
  CHECK_FALSE(step_of(broken.state().lockout, machine::LockoutStep::meter_proved).done);
}
