#include "sim_core/training/guidance/prospect.h"

#include <doctest/doctest.h>

#include "tests/sim_core/training/trace.h"

using namespace stirbench;
using namespace stirbench::training;
using namespace stirbench::training::test;

namespace {

Criterion never(std::string id, double points, bool must_pass, Condition what) {
  Criterion c;
  c.id = std::move(id);
  c.points = points;
  c.must_pass = must_pass;
  c.monitor.kind = MonitorKind::never;
  c.monitor.what = std::move(what);
  c.missed_text = c.id + " was missed.";
  return c;
}

Prospect prospect_of(Trace& trace) {
  static const std::vector<machine::Event> quiet;
  return trace.scorer.prospect(Moment{trace.machine, trace.state, quiet});
}

}  // namespace

TEST_CASE("prospect: lost points add up until too few are left") {
  Lesson lesson;
  lesson.pass_norm = 0.8;
  lesson.criteria = {never("a", 15.0, false, lid(true)), never("b", 10.0, false, number(Op::above, 90.0)),
                     never("c", 75.0, false, number(Op::above, 200.0))};
  Trace trace(lesson);
  trace.at(20.0);
  CHECK(prospect_of(trace).can_pass);
  CHECK(prospect_of(trace).best_norm == 1.0);
  trace.set_lid(true).at(20.0);
  CHECK(prospect_of(trace).can_pass);
  CHECK(prospect_of(trace).best_norm == doctest::Approx(0.85));
  trace.at(95.0);
  const Prospect lost = prospect_of(trace);
  CHECK_FALSE(lost.can_pass);
  CHECK(lost.criterion == 0);  // the dearest
  CHECK(lost.why.find("75 %") != std::string::npos);
  CHECK(lost.why.find("a was missed.") != std::string::npos);
  CHECK_FALSE(trace.card().passed);
}

TEST_CASE("prospect: a must-pass item that was missed decides, dearer losses or not") {
  Lesson lesson;
  lesson.pass_norm = 0.5;
  lesson.criteria = {never("dear", 30.0, false, lid(true)), never("must", 1.0, true, lid(true)),
                     never("rest", 69.0, false, number(Op::above, 200.0))};
  Trace trace(lesson);
  trace.set_lid(true).at(20.0);
  const Prospect lost = prospect_of(trace);
  CHECK_FALSE(lost.can_pass);
  CHECK(lost.criterion == 1);
  CHECK(lost.why.find("must was missed.") == 0);
}

TEST_CASE("prospect: an almost keeps its share of the points") {
  Lesson lesson;
  lesson.pass_norm = 0.8;
  lesson.criteria = {never("warm", 60.0, false, number(Op::above, 5.0)),
                     never("rest", 40.0, false, number(Op::above, 200.0))};
  lesson.criteria[0].monitor.tolerance = 10.0;
  lesson.criteria[0].chance = number(Op::above, 1.0);
  Trace trace(lesson);
  trace.at(7.0);  // a fifth of the tolerance beyond the bound
  CHECK(prospect_of(trace).can_pass);
  CHECK(prospect_of(trace).best_norm < 1.0);
  trace.at(15.0);
  CHECK_FALSE(prospect_of(trace).can_pass);
}

TEST_CASE("prospect: what a lesson says is lost counts while the criterion is not met") {
  Lesson lesson;
  lesson.criteria = {never("rest", 10.0, false, number(Op::above, 200.0))};
  Criterion waited = never("waited", 10.0, true, {});
  waited.monitor = {.kind = MonitorKind::happens, .what = number(Op::at_least, 80.0)};
  lesson.criteria.push_back(waited);
  lesson.lost = {{lid(true), "waited", "The lid was opened before 80 °C."}};
  Trace trace(lesson);
  trace.set_lid(true).at(20.0);
  CHECK(prospect_of(trace).why == "The lid was opened before 80 °C.");
  Trace patient(lesson);
  patient.at(85.0).set_lid(true).at(20.0);
  CHECK(prospect_of(patient).can_pass);
}

TEST_CASE("prospect: without a text a lesson's word takes the criterion's points alone") {
  Lesson lesson;
  lesson.pass_norm = 0.8;
  Criterion warm = never("warm", 15.0, false, {});
  warm.monitor = {.kind = MonitorKind::happens, .what = number(Op::at_least, 80.0)};
  lesson.criteria = {warm, never("shut", 85.0, false, number(Op::above, 200.0))};
  lesson.lost = {{lid(true), "warm", ""}};
  Trace trace(lesson);
  trace.set_lid(true).at(20.0);
  CHECK(prospect_of(trace).can_pass);
  CHECK(prospect_of(trace).best_norm == doctest::Approx(0.85));
  lesson.pass_norm = 0.9;
  CHECK_FALSE(prospect_of(trace).can_pass);
}
