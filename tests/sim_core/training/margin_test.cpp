#include <doctest/doctest.h>

#include "sim_core/training/monitors.h"
#include "sim_core/training/robustness.h"
#include "tests/sim_core/training/trace.h"

// How clearly a criterion was met or missed, and what a near miss still earns.
using namespace stirbench;
using namespace stirbench::training;
using namespace stirbench::training::test;

namespace {

Monitor monitor(MonitorKind kind, Condition what, double tolerance = 0.0) {
  Monitor m;
  m.kind = kind;
  m.what = std::move(what);
  m.tolerance = tolerance;
  return m;
}

}  // namespace

// Source: A. Donze and O. Maler, FORMATS 2010: the margin of G not(x >= c) is c - max x, that of F(x >= c) is
// max x - c, which robustness.h computes over the whole trace.
TEST_CASE("the margin is the robustness of the formula over the trace") {
  const std::vector<double> readings = {20.0, 41.5, 60.0, 84.25, 70.0, 12.0};
  for (const double bound : {90.0, 84.0, 50.0}) {
    CAPTURE(bound);
    const Margins above = at_least(readings, bound);
    const Lesson never = lesson_of(monitor(MonitorKind::never, number(Op::at_least, bound)));
    const Lesson reach = lesson_of(monitor(MonitorKind::happens, number(Op::at_least, bound)));
    Trace a(never), b(reach);
    for (const double t : readings) {
      a.at(t);
      b.at(t);
    }
    // The first bad row decides, and its worst reading is kept: here the row ends after the peak.
    CHECK(a.result().has_margin);
    CHECK(a.result().margin == doctest::Approx(always(negate(above)).front()));
    if (!b.result().met)
      CHECK(b.result().margin == doctest::Approx(eventually(above).front()));
    else
      CHECK_FALSE(b.result().has_margin);
  }
}

TEST_CASE("a miss within the tolerance earns its share, linearly; a must-pass item never") {
  // 10 points, tolerance 2 K: 84.5 asked. Shares by hand: (reading - 82.5) / 2.
  for (const auto& [reading, points] :
       {std::pair{84.5, 10.0}, {84.0, 7.5}, {83.5, 5.0}, {82.5, 0.0}, {60.0, 0.0}}) {
    CAPTURE(reading);
    Lesson lesson = lesson_of(monitor(MonitorKind::final_state, number(Op::at_least, 84.5), 2.0));
    {
      Trace trace(lesson);
      trace.at(reading);
      CHECK(trace.result().points == doctest::Approx(points));
      CHECK(trace.result().credit_norm == doctest::Approx(points / 10.0));
      CHECK(trace.result().met == (reading >= 84.5));
      CHECK(trace.card().score_norm == doctest::Approx(points / 10.0));
    }
    lesson.criteria[0].must_pass = true;
    Trace strict(lesson);
    strict.at(reading);
    CHECK(strict.result().points == (reading >= 84.5 ? 10.0 : 0.0));
    CHECK(strict.card().passed == (reading >= 84.5));
  }
}

TEST_CASE("lengths, sums and steps have margins in their own units") {
  Monitor held = monitor(MonitorKind::held_for, number(Op::at_least, 80.0), 10.0);
  held.duration_s = 30.0;
  const Lesson hold = lesson_of(held);
  Trace h(hold);
  for (int i = 0; i < 240; ++i) h.at(81.0);
  h.at(20.0);
  CHECK(h.result().margin == doctest::Approx(-6.0));  // 24 s of 30
  CHECK(h.result().margin_signal == "held_s");
  CHECK(h.result().points == doctest::Approx(4.0));

  Monitor sum = monitor(MonitorKind::total, poured("sugar"), 0.5);
  sum.low = 3.0;
  sum.high = 3.2;
  const Lesson total = lesson_of(sum);
  Trace t(total);
  t.events({pour_event("sugar", 2.9)});
  CHECK(t.result().margin == doctest::Approx(-0.1));
  CHECK(t.result().points == doctest::Approx(8.0));
  t.events({pour_event("sugar", 0.2)});
  CHECK(t.result().met);
  CHECK(t.result().margin == doctest::Approx(0.1));

  Monitor steps = monitor(MonitorKind::ordered, {}, 4.0);
  steps.steps = {poured("a"), poured("b"), poured("c"), poured("d")};
  const Lesson order = lesson_of(steps);
  Trace o(order);
  o.events({pour_event("a", 1.0)}).events({pour_event("b", 1.0)}).events({pour_event("d", 1.0)});
  CHECK(o.result().margin == -2.0);
  CHECK(o.result().points == doctest::Approx(5.0));
  CHECK(o.result().margin_signal.empty());
}

TEST_CASE(
    "flags and events have no margin; a flicker within the grace is neither a miss nor a negative margin") {
  const Lesson flags = lesson_of(monitor(MonitorKind::never, lid(true)));
  Trace f(flags);
  f.set_lid(true).wait(1);
  CHECK_FALSE(f.result().has_margin);
  Monitor hot = monitor(MonitorKind::never, number(Op::at_least, 60.0));
  hot.grace_s = must_pass_grace_s;
  const Lesson lesson = lesson_of(hot);
  Trace g(lesson);
  g.at(50.0).at(61.0).at(61.0).at(61.0).at(61.0).at(61.0).at(50.0);  // 0.5 s: still forgiven
  CHECK(g.result().met);
  CHECK(g.result().margin == 0.0);
  g.at(61.0).at(61.0).at(61.0).at(61.0).at(61.0).at(61.0);
  CHECK_FALSE(g.result().met);
  CHECK(g.result().margin == doctest::Approx(-1.0));
}

TEST_CASE("a share compared with nothing asks yes or no: it has no margin") {
  Condition opened = number(Op::above, 0.0);
  opened.signal = signals::find_signal("draw_opening_norm");
  REQUIRE(opened.signal != nullptr);
  const Lesson lesson = lesson_of(monitor(MonitorKind::never, opened));
  Trace t(lesson);
  t.state.plant.fittings.draw_opening_norm = 1.0;
  t.wait(1);
  CHECK_FALSE(t.result().met);
  CHECK_FALSE(t.result().has_margin);
}

TEST_CASE("a run of wrong moments that an injury cut short counts as missed") {
  Monitor hot = monitor(MonitorKind::never, number(Op::at_least, 60.0));
  hot.grace_s = must_pass_grace_s;
  const Lesson lesson = lesson_of(hot);
  Trace cut(lesson);
  cut.at(50.0).at(61.0);
  CHECK(cut.result().met);
  cut.state.injured = true;
  cut.at(62.0);
  CHECK_FALSE(cut.result().met);
  CHECK(cut.result().margin == doctest::Approx(-2.0));
  CHECK(cut.result().at_s == doctest::Approx(0.2));
  // With a longer grace of the author's own it does not.
  hot.grace_s = 2.0;
  const Lesson patient = lesson_of(hot);
  Trace longer(patient);
  longer.at(61.0);
  longer.state.injured = true;
  longer.at(61.0);
  CHECK(longer.result().met);
}
