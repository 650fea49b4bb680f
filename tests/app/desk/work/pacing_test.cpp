#include <doctest/doctest.h>

#include "app/desk/work/run/pacing.h"

// Time is injected: these cases never look at a clock.
namespace {

using stirbench::desk::work::Pacing;

struct FakeTime {
  double now_s = 100.0;
};

}  // namespace

TEST_CASE("pacing: ticks follow wall time times speed, fractions are carried over") {
  FakeTime time;
  Pacing pacing([&] { return time.now_s; });
  std::uint64_t ticks = 0;
  const auto step = [&] {
    ++ticks;
    return true;
  };
  // 60 frames of 1/60 s at 1x: one simulated second, ten ticks (a rounding tick less at the most).
  for (int i = 0; i < 60; ++i) {
    time.now_s += 1.0 / 60.0;
    pacing.run_frame(step, 1.0);
  }
  CHECK(ticks >= 9);
  CHECK(ticks <= 10);
  ticks = 0;
  pacing.set_speed(60.0);
  for (int i = 0; i < 60; ++i) {
    time.now_s += 1.0 / 60.0;
    pacing.run_frame(step, 1.0);
  }
  CHECK(ticks >= 599);
  CHECK(ticks <= 600);
}

TEST_CASE("pacing: paused steps nothing and owes nothing afterwards") {
  FakeTime time;
  Pacing pacing([&] { return time.now_s; });
  std::uint64_t ticks = 0;
  pacing.pause(true);
  time.now_s += 5.0;
  pacing.run_frame(
      [&] {
        ++ticks;
        return true;
      },
      1.0);
  CHECK(ticks == 0);
  pacing.pause(false);
  pacing.run_frame(
      [&] {
        ++ticks;
        return true;
      },
      1.0);
  CHECK(ticks == 0);
}

TEST_CASE("pacing: a long frame counts as a quarter second, no more") {
  FakeTime time;
  Pacing pacing([&] { return time.now_s; });
  std::uint64_t ticks = 0;
  pacing.set_speed(10.0);
  time.now_s += 3600.0;
  pacing.run_frame(
      [&] {
        ++ticks;
        return true;
      },
      1.0);
  CHECK(ticks == 25);
}

TEST_CASE("pacing: when steps cost more than the budget, time is dropped, not hoarded") {
  FakeTime time;
  Pacing pacing([&] { return time.now_s; });
  std::uint64_t ticks = 0;
  const auto slow = [&] {
    ++ticks;
    time.now_s += 0.001;
    return true;
  };
  pacing.set_speed(300.0);
  time.now_s += 0.1;             // 300 ticks due
  pacing.run_frame(slow, 0.05);  // about 50 of them fit; the clock is read each 64
  CHECK(ticks < 140);
  const std::uint64_t first = ticks;
  pacing.set_speed(1.0);
  pacing.run_frame(slow, 0.05);
  CHECK(ticks - first <= 2);  // nothing of the old debt is left
}

TEST_CASE(
    "pacing: a rush ends when the step says so; at the end of the budget it continues in the next frame") {
  FakeTime time;
  Pacing pacing([&] { return time.now_s; });
  std::uint64_t ticks = 0;
  pacing.rush(true);
  const auto step = [&] {
    ++ticks;
    time.now_s += 0.001;
    return ticks < 1000;
  };
  pacing.run_frame(step, 0.05);
  CHECK(pacing.rushing());
  CHECK(ticks < 200);
  while (pacing.rushing()) pacing.run_frame(step, 0.05);
  CHECK(ticks == 1000);
}
