#include <doctest/doctest.h>

#include "sim_core/signals/alarm_log.h"
#include "tests/sim_core/hands/table.h"

using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench;
using namespace stirbench::signals;
using namespace stirbench::bench_test;

namespace {

Event raised(double at_s, control::AlarmId id = control::AlarmId::drive_overload) {
  return {.tick = static_cast<std::uint64_t>(at_s * 10.0),
          .kind = EventKind::alarm_raised,
          .subject = static_cast<std::int32_t>(id),
          .text = {},
          .number = 1.0,
          .name = {}};
}

AlarmLoad load_of(const std::vector<double>& times_s, double shift_s) {
  AlarmLog log;
  for (const double at_s : times_s) log.see({raised(at_s)});
  return log.load(static_cast<std::uint64_t>(shift_s * 10.0));
}

}  // namespace

TEST_CASE(
    "alarm load by counting: rates, the worst ten minutes, floods as the standard counts them (from "
    "memory)") {
  // One each ten minutes in an eight-hour shift.
  std::vector<double> calm;
  for (int i = 0; i < 48; ++i) calm.push_back(600.0 * i + 1.0);
  const AlarmLoad even = load_of(calm, 28800.0);
  CHECK(even.alarms == 48);
  CHECK(even.per_hour == doctest::Approx(6.0));
  CHECK(even.per_10min == doctest::Approx(1.0));
  CHECK(even.peak_10min == 1);
  CHECK(even.floods == 0);
  CHECK(load_words(even) == "within what one person can handle");
  // Ten in ten minutes are none yet, eleven are. 20 s apart from 1000 s on the eleventh comes at 1200 s; the
  // flood ends when less than five are left in the window: when the seventh leaves, at 1000 + 6 * 20 + 600 =
  // 1720 s.
  std::vector<double> ten, eleven;
  for (int i = 0; i < 10; ++i) ten.push_back(1000.0 + 20.0 * i);
  eleven = ten;
  eleven.push_back(1200.0);
  CHECK(load_of(ten, 3600.0).floods == 0);
  const AlarmLoad flood = load_of(eleven, 3600.0);
  CHECK(flood.floods == 1);
  CHECK(flood.peak_10min == 11);
  CHECK(flood.flood_norm == doctest::Approx((1720.0 - 1200.0) / 3600.0));
  CHECK(load_words(flood) == "more than can be managed");
  CHECK(load_of({}, 3600.0).alarms == 0);
  CHECK(load_of({}, 0.0).per_hour == 0.0);
}

TEST_CASE("the journal of alarms follows one alarm through its life on the machine") {
  Table t;
  t.fill();
  AlarmLog log;
  const auto run = [&](std::vector<hands::Action> actions, int ticks) {
    t.step(std::move(actions), ticks);
    log.see(t.events);
  };
  run({press("stir")}, 20);
  run({hands::open_lid()}, 10);
  run({hands::acknowledge("lid_guard")}, 5);
  run({hands::close_lid()}, 5);
  run({press("stop")}, 10);
  REQUIRE(log.occurrences().size() == 1);
  const AlarmOccurrence& one = log.occurrences()[0];
  CHECK(one.id == control::AlarmId::lid_guard);
  CHECK(one.order == 1);
  CHECK(one.raised_tick < one.acknowledged_tick);
  CHECK(one.acknowledged_tick < one.returned_tick);
  CHECK(one.returned_tick < one.cleared_tick);
  std::vector<std::string> states;
  for (const AlarmTransition& step : log.transitions())
    states.emplace_back(control::alarm_state_name(step.to));
  CHECK(states ==
        std::vector<std::string>{"unacknowledged", "acknowledged", "latched_acknowledged", "normal"});
  const AlarmLoad load = log.load(t.state.tick);
  CHECK(load.alarms == 1);
  CHECK(load.unacknowledged == 0);
  CHECK(load.longest_to_acknowledge_s == doctest::Approx(1.0));
  CHECK(load.most_often == static_cast<int>(control::AlarmId::lid_guard));
}

TEST_CASE("hands at the display: acknowledge and shelve are refused with a reason") {
  Table t;
  t.step();
  CHECK(t.why(hands::acknowledge("all")) == "No alarm waits to be acknowledged.");
  CHECK(t.why(hands::acknowledge("gremlin")) ==
        "alarm is one of: all, emergency_stop, lid_guard, shaft_cover_guard, drive_overload, "
        "over_temperature, chiller_pressure, "
        "power_returned, addition_waiting, hold_broken.");
  hands::Action shelve = hands::shelve("lid_guard", 60.0);
  CHECK(t.why(shelve) == "That alarm protects people or the machine. It cannot be shelved.");
  shelve = hands::shelve("hold_broken", 60.0);
  CHECK(t.why(shelve) == "That alarm cannot be shelved on this machine.");
  t.machine.control.alarms[static_cast<std::size_t>(control::AlarmId::hold_broken)].shelve_longest_s = 600.0;
  CHECK(t.why(shelve) == "");
  t.step({shelve}, 2);
  CHECK(t.why(shelve) == "That alarm is already shelved.");
  CHECK(t.why(hands::unshelve("hold_broken")) == "");
  t.step({hands::press_emergency_stop()}, 2);
  CHECK(t.why(hands::press_emergency_stop()) == "The emergency stop is already pressed.");
  t.step({hands::isolate(true)}, 2);
  CHECK(t.why(hands::acknowledge("all")) == "The display is dark: there is no supply.");
}
