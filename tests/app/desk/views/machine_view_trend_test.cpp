#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "app/desk/views/machine_view/sample_states.h"
#include "app/desk/views/trend/chart.h"
#include "app/desk/views/trend/trend_log.h"
#include "sim_core/hands/handles.h"

namespace {

using namespace stirbench;
using desk::views::TrendChannel;
using desk::views::TrendLog;
using desk::views::TrendSample;

TrendSample sample(float product) {
  TrendSample s;
  s.value[0] = product;
  s.value[5] = -product;
  return s;
}

}  // namespace

TEST_CASE("trend: ranges from the pyramid are those found by looking at every sample") {
  std::mt19937 random(11);  // fixed seed
  std::uniform_real_distribution<float> value(-20.0F, 120.0F);
  TrendLog log;
  std::vector<float> all;
  for (std::uint64_t second = 0; second < 5000; ++second) {
    all.push_back(value(random));
    log.add(second + 40, sample(all.back()));
  }
  std::uniform_int_distribution<int> place(0, 4999);
  for (int round = 0; round < 3000; ++round) {
    int a = place(random);
    int b = place(random);
    if (a > b) std::swap(a, b);
    const auto range = log.range(TrendChannel::product, 40.0 + a, 40.0 + b);
    const auto [low, high] = std::minmax_element(all.begin() + a, all.begin() + b + 1);
    REQUIRE(range.any);
    CHECK(range.low == *low);
    CHECK(range.high == *high);
    CHECK(log.range(TrendChannel::drive, 40.0 + a, 40.0 + b).low == -*high);
  }
  CHECK_FALSE(log.range(TrendChannel::product, 0.0, 39.9).any);
  CHECK_FALSE(log.range(TrendChannel::product, 100.2, 100.8).any);
  CHECK_FALSE(log.range(TrendChannel::product, 6000.0, 7000.0).any);
}

TEST_CASE("trend: a gap holds the last value, and the past is not rewritten") {
  TrendLog log;
  log.add(10, sample(1.0F));
  log.add(14, sample(2.0F));
  log.add(12, sample(9.0F));
  CHECK(log.size() == 5);
  CHECK(log.at(13.9)[TrendChannel::product] == 1.0F);
  CHECK(log.at(14.0)[TrendChannel::product] == 2.0F);
  CHECK(log.at(-5.0)[TrendChannel::product] == 1.0F);
  CHECK(log.at(1.0e9)[TrendChannel::product] == 2.0F);
}

TEST_CASE("trend: a day is kept, older hours go") {
  TrendLog log;
  for (std::uint64_t second = 0; second < TrendLog::capacity + 1; ++second)
    log.add(second, sample(static_cast<float>(second % 1000)));
  CHECK(log.start_s() == 3600.0);
  CHECK(log.end_s() == static_cast<double>(TrendLog::capacity));
  CHECK(log.size() <= TrendLog::capacity);
  CHECK(log.range(TrendChannel::product, 0.0, 1.0e9).high == 999.0F);
  log.add(TrendLog::capacity * 40, sample(5.0F));
  CHECK(log.size() == 1);
  CHECK(log.at(0.0)[TrendChannel::product] == 5.0F);
}

TEST_CASE("trend: takes one sample a simulated second, phases and marks from events") {
  const machine::Machine machine = desk::views::sample_machine();
  TrendLog log;
  machine::State state;
  state.control.recipe = 0;
  for (std::uint64_t tick = 0; tick <= 105; ++tick) {
    state.tick = tick;
    state.plant.probe_degC = 20.0 + 0.1 * static_cast<double>(tick);
    if (tick == 30) {
      state.control.mode = control::Mode::running;
      state.control.phase = 0;
    }
    std::vector<machine::Event> events;
    if (tick == 45) {
      events.push_back({.tick = tick,
                        .kind = machine::EventKind::alarm_raised,
                        .subject = static_cast<std::int32_t>(control::AlarmId::lid_guard)});
      events.push_back({.tick = tick,
                        .kind = machine::EventKind::alarm_raised,
                        .subject = static_cast<std::int32_t>(control::AlarmId::addition_waiting)});
      events.push_back({.tick = tick,
                        .kind = machine::EventKind::acted,
                        .subject = hands::number_of(hands::pour),
                        .name = "sugar"});
    }
    log.record(machine, state, events);
  }
  CHECK(log.size() == 11);
  CHECK(log.end_s() == 10.0);
  CHECK(log.at(4.0)[TrendChannel::product] == doctest::Approx(24.0));
  REQUIRE(log.bands().size() == 1);
  CHECK(log.bands()[0].from_s == 3.0);
  CHECK(log.bands()[0].label == "warm");
  // Attentions that do not latch are no alarms.
  REQUIRE(log.marks().size() == 2);
  CHECK(log.marks()[0].kind == desk::views::TrendMarkKind::alarm);
  CHECK(log.marks()[0].time_s == doctest::Approx(4.5));
  CHECK(log.marks()[1].kind == desk::views::TrendMarkKind::pour);
  CHECK(log.marks()[1].words == "sugar");
}

TEST_CASE("trend: steps of axes are round and never too fine") {
  for (double least = 0.013; least < 5000.0; least *= 1.17) {
    const double step = desk::views::trend::nice_step(least);
    CHECK(step >= least * (1.0 - 1e-9));
    CHECK(step <= least * 2.5);
  }
  CHECK(desk::views::trend::nice_step(20.0) == doctest::Approx(20.0));
  CHECK(desk::views::trend::time_step(61.0) == 120.0);
  CHECK(desk::views::trend::time_step(600.0) == 600.0);
}
