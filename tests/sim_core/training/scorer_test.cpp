#include "sim_core/training/scorer.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "sim_core/training/words.h"
#include "tests/sim_core/training/trace.h"

using namespace stirbench;
using namespace stirbench::training;
using namespace stirbench::training::test;

namespace {

Criterion worth(std::string id, double points, bool must_pass, Condition what) {
  Criterion c;
  c.id = std::move(id);
  c.points = points;
  c.must_pass = must_pass;
  c.monitor.kind = MonitorKind::final_state;
  c.monitor.what = std::move(what);
  c.chance = Condition{};  // at stake from the start
  return c;
}

LessonStep step(std::string id, Condition done, bool skippable = false) {
  LessonStep s;
  s.id = std::move(id);
  s.done = std::move(done);
  s.skippable = skippable;
  return s;
}

}  // namespace

TEST_CASE("score: share of points; the cut is compared before the division") {
  Lesson lesson;
  lesson.pass_norm = 0.7;
  lesson.criteria = {worth("a", 0.1, false, lid(false)), worth("b", 0.2, false, lid(false)),
                     worth("c", 0.4, false, lid(false)), worth("d", 0.3, false, lid(true))};
  Trace trace(lesson);
  trace.wait(1);
  CHECK(trace.card().score_norm == doctest::Approx(0.7));
  CHECK(trace.card().passed);  // 0.1 + 0.2 + 0.4 is a little off 0.7 in binary
  lesson.pass_norm = 0.701;
  CHECK_FALSE(trace.card().passed);
  CHECK(trace.card().criteria[3].points == 0.0);
  CHECK(trace.card().criteria[3].of == 0.3);
}

// Source: must-pass rule "all critical items met AND compensatory score at or above the cut", reported apart,
// with the whole run scored (training evaluation practice; common practice).
TEST_CASE("must-pass: a lost one fails the lesson at any score, the rest is scored all the same") {
  Lesson lesson;
  lesson.pass_norm = 0.8;
  lesson.criteria = {worth("critical", 5.0, true, lid(true)), worth("rest", 95.0, false, lid(false))};
  Trace trace(lesson);
  trace.wait(1);
  CHECK(trace.card().score_norm == doctest::Approx(0.95));
  CHECK_FALSE(trace.card().passed);
  CHECK(trace.card().criteria[1].met);

  lesson.criteria[0] = worth("critical", 5.0, true, lid(false));
  CHECK(Trace(lesson).wait(1).card().passed);
  // All critical ones met does not help a score below the cut.
  lesson.criteria[1] = worth("rest", 95.0, false, lid(true));
  CHECK_FALSE(Trace(lesson).wait(1).card().passed);
}

// Source: five critical items each done right with probability p: .98 -> .9039207968, .99 -> .9509900499, .95
// -> .7737809375 (binomial arithmetic). Here by counting: the scorer must combine critical items with "and".
TEST_CASE("must-pass items multiply") {
  for (const double p : {0.98, 0.99, 0.95}) {
    double passes = 0.0;
    for (unsigned outcome = 0; outcome < 32; ++outcome) {
      Lesson lesson;
      lesson.pass_norm = 0.0;
      double likelihood = 1.0;
      for (unsigned item = 0; item < 5; ++item) {
        const bool right = (outcome >> item & 1U) != 0;
        likelihood *= right ? p : 1.0 - p;
        lesson.criteria.push_back(worth("item", 1.0, true, lid(!right)));
      }
      if (Trace(lesson).wait(1).card().passed) passes += likelihood;
    }
    CHECK(passes == doctest::Approx(std::pow(p, 5)).epsilon(1e-12));
  }
}

TEST_CASE("a lesson ends by its condition or its limit, and is frozen then") {
  Lesson lesson = lesson_of({.kind = MonitorKind::never, .what = lid(true)});
  lesson.end = number(Op::at_least, 85.0);
  lesson.limit_s = 1.0;
  Trace by_condition(lesson);
  by_condition.at(84.0);
  CHECK_FALSE(by_condition.scorer.lesson_over());
  by_condition.at(85.0);
  CHECK(by_condition.scorer.lesson_over());
  by_condition.set_lid(true).wait(5);
  CHECK(by_condition.result().met);

  Trace by_limit(lesson);
  by_limit.wait(9);
  CHECK_FALSE(by_limit.scorer.lesson_over());
  by_limit.wait(1);
  CHECK(by_limit.scorer.lesson_over());

  lesson.end = Condition{};  // no end condition: only the limit
  CHECK_FALSE(Trace(lesson).wait(9).scorer.lesson_over());
}

TEST_CASE("a copied scorer is independent of its original") {
  const Lesson lesson = lesson_of({.kind = MonitorKind::never, .what = lid(true)});
  Trace trace(lesson);
  trace.wait(3);
  Trace branch = trace;
  branch.set_lid(true).wait(1);
  CHECK_FALSE(branch.result().met);
  CHECK(trace.result().met);
  CHECK(trace.scorer.missed_so_far().empty());
  trace.scorer = branch.scorer;
  CHECK_FALSE(trace.result().met);
}

TEST_CASE("steps: one after another, state conditions at once, one event for one step") {
  Lesson lesson;
  lesson.steps = {step("open", lid(true)), step("milk", poured("milk")), step("more", poured("milk")),
                  step("close", lid(false))};
  Trace trace(lesson);
  trace.wait(2);
  CHECK(trace.scorer.current_step() == 0);
  trace.set_lid(true).events({pour_event("milk", 1.0)});
  CHECK(trace.scorer.current_step() == 2);
  trace.wait(3);
  CHECK(trace.scorer.current_step() == 2);
  trace.events({pour_event("milk", 1.0)}).set_lid(false).wait(1);
  CHECK(trace.scorer.current_step() == 4);
}

TEST_CASE("steps: a row of pours may be done in any order") {
  Lesson lesson;
  lesson.steps = {step("sugar", poured("sugar")), step("dextrose", poured("dextrose")),
                  step("close", lid(false))};
  Trace trace(lesson);
  trace.set_lid(true).events({pour_event("dextrose", 1.0)}).wait(1);
  CHECK(trace.scorer.current_step() == 0);  // still asks for sugar
  trace.events({pour_event("sugar", 1.0)});
  CHECK(trace.scorer.current_step() == 2);  // and does not ask for dextrose again
  trace.set_lid(false).wait(1);
  CHECK(trace.scorer.current_step() == 3);
}

TEST_CASE("steps: a skippable one ends when a later one becomes true, not when it has been true all along") {
  Lesson lesson;
  lesson.steps = {step("sample", poured("spoon"), true), step("close", lid(false)),
                  step("warm", number(Op::at_least, 40.0))};
  Trace trace(lesson);
  trace.set_lid(false).wait(2);
  CHECK(trace.scorer.current_step() == 0);  // the lid has been closed all along
  trace.set_lid(true).wait(1).set_lid(false).wait(1);
  CHECK(trace.scorer.current_step() == 2);

  // Not past the first step that must be done.
  Trace held(lesson);
  held.set_lid(true).at(20.0).at(50.0);
  CHECK(held.scorer.current_step() == 0);

  // A step that is not skippable waits.
  lesson.steps[0].skippable = false;
  Trace strict(lesson);
  strict.set_lid(true).wait(1).set_lid(false).wait(1);
  CHECK(strict.scorer.current_step() == 0);
}

TEST_CASE("words: moments, units, differences, placeholders") {
  CHECK(clock_text(751.9) == "12:31");
  CHECK(clock_text(0.0) == "0:00");
  CHECK(clock_text(4510.0) == "1:15:10");
  CHECK(clock_text(-1.0) == "?");
  CHECK(value_text("probe_degC", 84.17) == "84.2 °C");
  CHECK(value_text("probe_degC", -0.01) == "0.0 °C");
  CHECK(value_text("draw_opening_norm", 0.25) == "25 %");
  CHECK(value_text("draw_L_per_min", 3.14159) == "3.1 L/min");
  CHECK(value_text("pail_kg", 2.0) == "2.00 kg");
  CHECK(value_text("play_mm", 0.456) == "0.46 mm");
  CHECK(value_text("count", 3.0) == "3");
  CHECK(difference_text("probe_degC", -0.83) == "0.8 K");
  CHECK(duration_text(0.44) == "0.4 s");
  CHECK(duration_text(28.0) == "28 s");
  CHECK(duration_text(200.0) == "3 min 20 s");
  Placeholders words;
  words.time = "1:00";
  CHECK(fill_placeholders("At {time}, {value}, {other}, {open", words) == "At 1:00, ?, {other}, {open");
  CHECK(known_placeholder("by"));
  CHECK_FALSE(known_placeholder("other"));
}
