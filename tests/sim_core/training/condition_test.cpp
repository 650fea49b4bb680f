#include "sim_core/training/condition.h"

#include <doctest/doctest.h>

#include <limits>

#include "tests/sim_core/training/trace.h"

using namespace stirbench;
using namespace stirbench::training;
using namespace stirbench::training::test;

namespace {

bool now(const Condition& condition, double t_degC, const std::vector<machine::Event>& events = {},
         bool lid_is_open = false) {
  const machine::Machine machine;
  machine::State state;
  state.plant.probe_degC = t_degC;
  state.plant.fittings.lid_open = lid_is_open;
  return holds(condition, Moment{machine, state, events});
}

}  // namespace

TEST_CASE("at_least and at_most include the bound, above and below do not") {
  CHECK(now(number(Op::at_least, 85.0), 85.0));
  CHECK_FALSE(now(number(Op::at_least, 85.0), 84.999));
  CHECK(now(number(Op::at_most, 5.0), 5.0));
  CHECK_FALSE(now(number(Op::at_most, 5.0), 5.001));
  CHECK_FALSE(now(number(Op::above, 85.0), 85.0));
  CHECK(now(number(Op::above, 85.0), 85.001));
  CHECK_FALSE(now(number(Op::below, 5.0), 5.0));
  CHECK(now(number(Op::below, 5.0), 4.999));
}

TEST_CASE("a reading that is not a number makes every comparison false") {
  for (const Op op : {Op::at_least, Op::at_most, Op::above, Op::below}) {
    CHECK_FALSE(now(number(op, 5.0), std::numeric_limits<double>::quiet_NaN()));
  }
}

TEST_CASE("flags, texts, all, any, not") {
  CHECK(now(lid(true), 0.0, {}, true));
  CHECK(now(lid(false), 0.0, {}, false));
  CHECK_FALSE(now(lid(false), 0.0, {}, true));
  CHECK(now(in_mode("standby"), 0.0));
  CHECK_FALSE(now(in_mode("running"), 0.0));
  CHECK(now(all({}), 0.0));
  CHECK_FALSE(now(any({}), 0.0));
  CHECK(now(all({number(Op::above, 1.0), lid(false)}), 2.0));
  CHECK_FALSE(now(all({number(Op::above, 1.0), lid(true)}), 2.0));
  CHECK(now(any({number(Op::above, 1.0), lid(true)}), 2.0));
  CHECK(now(negate(lid(true)), 0.0));
}

TEST_CASE("events match by kind, topic, subject and number") {
  const std::vector<machine::Event> sugar{pour_event("sugar", 6.0)};
  CHECK(now(poured("sugar"), 0.0, sugar));
  CHECK(now(poured(""), 0.0, sugar));
  CHECK(now(poured("sugar", 6.0), 0.0, sugar));
  CHECK_FALSE(now(poured("sugar", 6.001), 0.0, sugar));
  CHECK_FALSE(now(poured("salt"), 0.0, sugar));
  CHECK_FALSE(now(event(machine::EventKind::acted, "press", "sugar"), 0.0, sugar));
  CHECK_FALSE(now(event(machine::EventKind::refused, "pour", "sugar"), 0.0, sugar));
  CHECK_FALSE(now(poured("sugar"), 0.0));

  const std::vector<machine::Event> alarm{
      alarm_event(machine::EventKind::alarm_cleared, control::AlarmId::lid_guard)};
  CHECK(now(event(machine::EventKind::alarm_cleared, "lid_guard"), 0.0, alarm));
  CHECK_FALSE(now(event(machine::EventKind::alarm_cleared, "shaft_cover_guard"), 0.0, alarm));
  CHECK_FALSE(now(event(machine::EventKind::alarm_raised, "lid_guard"), 0.0, alarm));

  const std::vector<machine::Event> harm{harm_event(machine::HarmId::hot_product, 70.0)};
  CHECK(now(event(machine::EventKind::harm, "hot_product"), 0.0, harm));
  CHECK(now(event(machine::EventKind::harm), 0.0, harm));
}

TEST_CASE("which conditions sleep through quiet ticks") {
  CHECK(needs_event(poured("sugar")));
  CHECK(needs_event(all({poured("sugar"), number(Op::above, 1.0)})));
  CHECK_FALSE(needs_event(any({poured("sugar"), number(Op::above, 1.0)})));
  CHECK_FALSE(needs_event(negate(poured("sugar"))));
  CHECK(only_events(any({poured("sugar"), poured("salt")})));
  CHECK_FALSE(only_events(all({poured("sugar"), number(Op::above, 1.0)})));
}
