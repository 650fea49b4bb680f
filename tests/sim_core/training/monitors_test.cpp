#include <doctest/doctest.h>

#include "tests/sim_core/training/trace.h"

using namespace stirbench;
using namespace stirbench::training;
using namespace stirbench::training::test;

TEST_CASE("happens: met at the first moment, missed after within_s or at the end") {
  const Lesson any_time = lesson_of({.kind = MonitorKind::happens, .what = number(Op::at_least, 85.0)},
                                    "{time} {value}", "{value} of {bound}");
  Trace met(any_time);
  met.at(84.0).at(85.0).at(86.0);
  CHECK(met.result().met);
  CHECK(met.result().at_s == doctest::Approx(0.2));
  CHECK(met.result().why == "0:00 85.0 °C");

  Trace missed(any_time);
  missed.at(84.0).at(84.9).at(80.0);
  CHECK_FALSE(missed.result().met);
  CHECK(missed.result().at_s < 0.0);
  CHECK(missed.result().why == "84.9 °C of 85.0 °C");  // the nearest it came, not the last
  CHECK(missed.scorer.missed_so_far().empty());        // it could still have happened

  // Among more conditions the nearest reading of the first comparison is quoted, not the last one.
  const Lesson both = lesson_of(
      {.kind = MonitorKind::happens, .what = all({number(Op::at_least, 85.0), lid(true)})}, "m", "{value}");
  Trace near(both);
  near.at(20.0).at(70.0).at(30.0);
  CHECK(near.result().why == "70.0 °C");

  const Lesson soon = lesson_of({.kind = MonitorKind::happens, .what = lid(true), .within_s = 0.3});
  Trace just_in_time(soon);
  just_in_time.wait(2).set_lid(true).wait(1);
  CHECK(just_in_time.result().met);
  Trace late(soon);
  late.wait(3).set_lid(true).wait(1);
  CHECK_FALSE(late.result().met);
  CHECK(late.result().at_s == doctest::Approx(0.3));
  CHECK(late.scorer.missed_so_far() == std::vector<int>{0});
}

TEST_CASE("never: a flicker of up to grace_s is forgiven, one tick more is not") {
  const Lesson lesson =
      lesson_of({.kind = MonitorKind::never, .what = number(Op::above, 88.0), .grace_s = 0.5},
                "highest {value}", "At {time} {value}, {by} above {bound}.");
  Trace flicker(lesson);
  flicker.at(87.0);
  for (int i = 0; i < 5; ++i) flicker.at(89.0);
  flicker.at(88.0);  // the bound itself is not above
  for (int i = 0; i < 5; ++i) flicker.at(89.5);
  flicker.at(80.0);
  CHECK(flicker.result().met);
  CHECK(flicker.result().why == "highest 89.5 °C");

  Trace too_long(lesson);
  too_long.at(87.0);
  for (int i = 0; i < 6; ++i) too_long.at(89.0);
  CHECK(too_long.scorer.missed_so_far() == std::vector<int>{0});
  too_long.at(91.0).at(87.0).at(95.0);  // the worst of that row counts, a later one does not
  const CriterionResult result = too_long.result();
  CHECK_FALSE(result.met);
  CHECK(result.at_s == doctest::Approx(0.2));  // when it began
  CHECK(result.why == "At 0:00 91.0 °C, 3.0 K above 88.0 °C.");
  CHECK(too_long.scorer.missed_so_far().size() == 1);

  const Lesson strict = lesson_of({.kind = MonitorKind::never, .what = event(machine::EventKind::harm)}, "m",
                                  "{name} at {time}");
  Trace harmed(strict);
  harmed.wait(600).events({harm_event(machine::HarmId::hot_product, 70.0)}).wait(10);
  CHECK_FALSE(harmed.result().met);
  CHECK(harmed.result().why == "hot product at 1:00");
  CHECK(harmed.result().at_s == doctest::Approx(60.1));
}

TEST_CASE("always: judged only while `when` is true, with grace") {
  const Lesson lesson = lesson_of(
      {.kind = MonitorKind::always, .what = number(Op::at_least, 85.0), .when = lid(false), .grace_s = 0.2},
      "lowest {value}", "At {time} the probe read {value}, {by} below {bound}.");
  Trace met(lesson);
  met.at(85.0).set_lid(true).at(20.0).at(20.0).at(20.0).set_lid(false).at(86.0);
  CHECK(met.result().met);
  CHECK(met.result().why == "lowest 85.0 °C");

  Trace flicker(lesson);
  flicker.at(86.0).at(84.0).at(84.0).at(86.0);
  CHECK(flicker.result().met);

  Trace missed(lesson);
  missed.at(86.0).at(84.9).at(84.2).at(84.5).at(86.0);
  CHECK_FALSE(missed.result().met);
  CHECK(missed.result().why == "At 0:00 the probe read 84.2 °C, 0.8 K below 85.0 °C.");
  CHECK(missed.result().at_s == doctest::Approx(0.2));

  Trace never_came(lesson);
  never_came.set_lid(true).at(20.0).at(20.0);
  CHECK_FALSE(never_came.result().met);
  CHECK_FALSE(never_came.result().occasion);
  CHECK(never_came.result().why == "The moment for this never came in this run, so it earns nothing.");
}

TEST_CASE("always on an event looks at the moment of the event only") {
  const Lesson lesson =
      lesson_of({.kind = MonitorKind::always, .what = number(Op::at_least, 38.0), .when = poured("sugar")},
                "m", "{name} at {value}");
  Trace cold(lesson);
  cold.at(20.0).at(30.0, {pour_event("sugar", 6.0)}).at(45.0);
  CHECK(cold.result().why == "sugar at 30.0 °C (At 0:00.)");
  Trace warm(lesson);
  warm.at(20.0).at(40.0, {pour_event("sugar", 6.0)}).at(20.0, {pour_event("salt", 1.0)});
  CHECK(warm.result().met);
}

TEST_CASE("held_for: at least duration_s without a break, breaks of up to grace_s forgiven but not counted") {
  const Lesson strict =
      lesson_of({.kind = MonitorKind::held_for, .what = number(Op::at_least, 85.0), .duration_s = 3.0},
                "{time}", "longest {held}");
  Trace exact(strict);
  exact.at(80.0);
  for (int i = 0; i < 30; ++i) exact.at(85.0);
  CHECK(exact.result().met);
  CHECK(exact.result().at_s == doctest::Approx(3.1));

  Trace short_by_one(strict);
  for (int i = 0; i < 29; ++i) short_by_one.at(85.0);
  short_by_one.at(84.9);
  for (int i = 0; i < 29; ++i) short_by_one.at(85.0);
  CHECK_FALSE(short_by_one.result().met);
  CHECK(short_by_one.result().why == "longest 2.9 s (At 0:02.)");
  CHECK(short_by_one.result().at_s == doctest::Approx(2.9));

  Trace not_once(strict);
  not_once.at(20.0);
  CHECK(not_once.result().why == "longest 0.0 s");
  CHECK(not_once.result().at_s < 0.0);

  const Lesson lenient = lesson_of(
      {.kind = MonitorKind::held_for, .what = number(Op::at_least, 85.0), .duration_s = 3.0, .grace_s = 0.2});
  Trace flicker(lenient);
  for (int i = 0; i < 15; ++i) flicker.at(85.0);
  flicker.at(84.0).at(84.0);
  for (int i = 0; i < 14; ++i) flicker.at(85.0);
  CHECK_FALSE(flicker.result().met);
  flicker.at(85.0);
  CHECK(flicker.result().met);
  Trace broken(lenient);
  for (int i = 0; i < 15; ++i) broken.at(85.0);
  broken.at(84.0).at(84.0).at(84.0);
  for (int i = 0; i < 15; ++i) broken.at(85.0);
  CHECK_FALSE(broken.result().met);
}

TEST_CASE("ordered: one after another; one event serves one step") {
  const Lesson lesson =
      lesson_of({.kind = MonitorKind::ordered,
                 .steps = {lid(true), event(machine::EventKind::alarm_raised, "lid_guard"), lid(false)}},
                "m", "{done}");
  const machine::Event raised = alarm_event(machine::EventKind::alarm_raised, control::AlarmId::lid_guard);
  Trace met(lesson);
  met.wait(1).set_lid(true).events({raised}).set_lid(false).wait(1);
  CHECK(met.result().met);
  CHECK(met.result().at_s == doctest::Approx(0.3));

  Trace wrong_order(lesson);
  wrong_order.events({raised}).set_lid(true).wait(1).set_lid(false).wait(1);
  CHECK_FALSE(wrong_order.result().met);
  CHECK(wrong_order.result().why == "1 of 3 (At 0:00.)");

  const Lesson twice = lesson_of({.kind = MonitorKind::ordered, .steps = {poured("sugar"), poured("sugar")}});
  Trace once(twice);
  once.events({pour_event("sugar", 1.0)}).wait(3);
  CHECK_FALSE(once.result().met);
  once.events({pour_event("sugar", 1.0)});
  CHECK(once.result().met);
  Trace both_at_once(twice);
  both_at_once.events({pour_event("sugar", 1.0), pour_event("sugar", 2.0)});
  CHECK(both_at_once.result().met);
}

TEST_CASE("after: every moment of `when` needs its `what` within within_s, ends included") {
  const Lesson lesson =
      lesson_of({.kind = MonitorKind::after, .what = lid(false), .when = poured("sugar"), .within_s = 0.3},
                "m", "{name} at {time}");
  Trace in_time(lesson);
  in_time.set_lid(true).events({pour_event("sugar", 1.0)}).wait(2).set_lid(false).wait(1);
  CHECK(in_time.result().met);
  CHECK(in_time.result().at_s == doctest::Approx(0.4));

  Trace late(lesson);
  late.set_lid(true).events({pour_event("sugar", 1.0)}).wait(3).set_lid(false).wait(1);
  CHECK_FALSE(late.result().met);
  CHECK(late.result().at_s == doctest::Approx(0.1));
  CHECK(late.result().why == "sugar at 0:00");

  // The second pour of one open window does not move the window's end.
  Trace twice(lesson);
  twice.set_lid(true).events({pour_event("sugar", 1.0)}).wait(1).events({pour_event("sugar", 1.0)}).wait(1);
  CHECK(twice.scorer.missed_so_far().size() == 1);

  Trace same_moment(lesson);
  same_moment.set_lid(false).events({pour_event("sugar", 1.0)});
  CHECK(same_moment.result().met);

  Trace open_at_end(lesson);
  open_at_end.set_lid(true).events({pour_event("sugar", 1.0)}).wait(1);
  CHECK_FALSE(open_at_end.result().met);
  CHECK(open_at_end.scorer.missed_so_far().empty());

  Trace never_came(lesson);
  never_came.wait(5);
  CHECK(never_came.result().why == "The moment for this never came in this run, so it earns nothing.");
}

TEST_CASE("after with a lasting `when`: only its beginning counts") {
  const Lesson lesson =
      lesson_of({.kind = MonitorKind::after, .what = in_mode("running"), .when = lid(true), .within_s = 0.2});
  Trace trace(lesson);
  trace.state.control.mode = control::Mode::running;
  trace.set_lid(true).wait(1);  // answered in the same moment
  trace.state.control.mode = control::Mode::standby;
  trace.wait(20);  // still open: no new moment
  CHECK(trace.result().met);
  trace.set_lid(false).wait(1).set_lid(true).wait(3);
  CHECK_FALSE(trace.result().met);
  CHECK(trace.result().at_s == doctest::Approx(2.3));
}

TEST_CASE("total: bounds included, above is missed at once, conditions beside the event count") {
  const Lesson lesson =
      lesson_of({.kind = MonitorKind::total, .what = poured("sugar"), .low = 0.3, .high = 0.6}, "{value}",
                "{value}, {by} off {bound}; {low} to {high}");
  Trace parts(lesson);
  parts.events({pour_event("sugar", 0.1), pour_event("salt", 5.0)})
      .wait(1)
      .events({pour_event("sugar", 0.2)});
  CHECK(parts.result().met);  // 0.1 + 0.2 is not exactly 0.3
  CHECK(parts.result().why == "0.30 kg (At 0:00.)");
  parts.events({pour_event("sugar", 0.3)});
  CHECK(parts.result().met);
  parts.events({pour_event("sugar", 0.1)});
  CHECK_FALSE(parts.result().met);
  CHECK(parts.scorer.missed_so_far().size() == 1);
  CHECK(parts.result().why == "0.70 kg, 0.10 kg off 0.60 kg; 0.30 kg to 0.60 kg (At 0:00.)");

  Trace nothing(lesson);
  nothing.wait(4);
  CHECK_FALSE(nothing.result().met);
  CHECK(nothing.result().at_s < 0.0);

  const Lesson warm = lesson_of({.kind = MonitorKind::total,
                                 .what = all({poured("sugar"), number(Op::at_least, 38.0)}),
                                 .low = 1.0,
                                 .high = 2.0});
  Trace cold(warm);
  cold.at(20.0, {pour_event("sugar", 1.5)});
  CHECK_FALSE(cold.result().met);
  cold.at(40.0, {pour_event("sugar", 1.5)});
  CHECK(cold.result().met);
}

TEST_CASE("final_state: the end alone counts") {
  const Lesson lesson = lesson_of({.kind = MonitorKind::final_state, .what = number(Op::at_most, 5.0)},
                                  "{value}", "{value}, {by} too warm");
  Trace met(lesson);
  met.at(80.0).at(5.0);
  CHECK(met.result().met);
  CHECK(met.result().why == "5.0 °C");
  met.at(6.5);
  CHECK_FALSE(met.result().met);
  CHECK(met.result().why == "6.5 °C, 1.5 K too warm");
  CHECK(met.result().at_s == doctest::Approx(0.3));
}

// Source: Donze & Maler, FORMATS 2010 (robustness, G = min, F = max), values computed by hand from
// T = 22 40 61 75 78 74 66 58: G(T <= 80) = 2, F(T >= 75) = 3. Positive means that it holds.
TEST_CASE("always and happens agree with G and F of signal temporal logic") {
  const std::vector<double> trace_degC{22, 40, 61, 75, 78, 74, 66, 58};
  const Lesson globally = lesson_of({.kind = MonitorKind::always, .what = number(Op::at_most, 80.0)},
                                    "{by} spare at {value}", "{by} over");
  Trace g(globally);
  for (const double t : trace_degC) g.at(t);
  CHECK(g.result().met);
  CHECK(g.result().why == "2.0 K spare at 78.0 °C");

  // G(T <= 77): robustness 77 - 78 = -1, negative means that it fails.
  const Lesson lower = lesson_of({.kind = MonitorKind::always, .what = number(Op::at_most, 77.0)}, "m",
                                 "{by} over at {value}");
  Trace f(lower);
  for (const double t : trace_degC) f.at(t);
  CHECK_FALSE(f.result().met);
  CHECK(f.result().why == "1.0 K over at 78.0 °C (At 0:00.)");

  // F(T >= 75) = 3 > 0 holds, F(T >= 81) = 78 - 81 = -3 fails.
  const Lesson reach = lesson_of({.kind = MonitorKind::happens, .what = number(Op::at_least, 75.0)});
  Trace r(reach);
  for (const double t : trace_degC) r.at(t);
  CHECK(r.result().met);
  CHECK(r.result().at_s == doctest::Approx(0.4));
  const Lesson high = lesson_of({.kind = MonitorKind::happens, .what = number(Op::at_least, 81.0)}, "m",
                                "{by} short at {value}");
  Trace h(high);
  for (const double t : trace_degC) h.at(t);
  CHECK_FALSE(h.result().met);
  CHECK(h.result().why == "3.0 K short at 78.0 °C");

  // never = G not: G not(T >= 81) = 3 > 0 holds; G not(T >= 75) = -3 fails.
  const Lesson never_high =
      lesson_of({.kind = MonitorKind::never, .what = number(Op::at_least, 81.0)}, "{by} spare", "m");
  Trace n(never_high);
  for (const double t : trace_degC) n.at(t);
  CHECK(n.result().why == "3.0 K spare");
  const Lesson never_warm =
      lesson_of({.kind = MonitorKind::never, .what = number(Op::at_least, 75.0)}, "m", "{by} over");
  Trace w(never_warm);
  for (const double t : trace_degC) w.at(t);
  CHECK_FALSE(w.result().met);
  CHECK(w.result().why == "3.0 K over (At 0:00.)");
}

// Source: passing and failing traces of G(open -> F[0,2] rpm <= 0.5) with guard and rpm sampled once a step
// (robustness rules of Donze & Maler 2010, windows clipped at the end): total +0.5 for the first, -1 for the
// second.
TEST_CASE("after agrees with G(when -> F[0,w] what)") {
  const Lesson lesson = lesson_of(
      {.kind = MonitorKind::after, .what = number(Op::at_most, 0.5), .when = lid(true), .within_s = 0.2});
  const auto run = [&lesson](const std::vector<double>& rpm, const std::vector<int>& shut) {
    Trace trace(lesson);
    for (std::size_t i = 0; i < rpm.size(); ++i) trace.set_lid(shut[i] == 0).at(rpm[i]);
    return trace.result().met;
  };
  CHECK(run({30, 30, 12, 0, 0, 0, 20, 30}, {1, 1, 0, 0, 0, 1, 1, 1}));
  CHECK_FALSE(run({30, 30, 30, 20, 11, 4, 0, 0}, {1, 1, 0, 0, 0, 0, 1, 1}));
}
