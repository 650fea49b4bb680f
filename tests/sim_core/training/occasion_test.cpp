#include "sim_core/training/occasion.h"

#include <doctest/doctest.h>

#include "sim_core/training/score_words.h"
#include "sim_core/training/skill_evidence.h"
#include "tests/sim_core/training/trace.h"

using namespace stirbench;
using namespace stirbench::training;
using namespace stirbench::training::test;

namespace {

Lesson never_lesson(Condition what) {
  Lesson lesson = lesson_of({.kind = MonitorKind::never, .what = std::move(what)});
  lesson.criteria[0].chance.reset();
  return lesson;
}

// Two skills: "a" by a must-pass and a plain item, "b" by one plain item.
Lesson two_skills() {
  Lesson lesson;
  lesson.skills = {"a", "b", "c"};
  lesson.pass_norm = 0.8;
  const Condition whats[] = {lid(true), number(Op::at_least, 50.0), in_mode("running")};
  const char* skills[] = {"a", "a", "b"};
  for (int i = 0; i < 3; ++i) {
    Criterion c;
    c.id = std::to_string(i);
    c.title = "Item " + c.id;
    c.points = i == 0 ? 8.0 : 2.0;
    c.must_pass = i == 0;
    c.skill = skills[i];
    c.monitor.kind = MonitorKind::happens;
    c.monitor.what = whats[i];
    c.met_text = "Met.";
    c.missed_text = "Missed.";
    lesson.criteria.push_back(std::move(c));
  }
  return lesson;
}

}  // namespace

TEST_CASE("never: nothing is earned before the act that it is about, or any hand when it is about none") {
  const Lesson sugar_lid = never_lesson(all({poured("sugar", 0.0), lid(true)}));
  Trace idle(sugar_lid);
  idle.set_lid(true).wait(10).events({pour_event("milk", 1.0)});
  CHECK_FALSE(idle.result().occasion);
  CHECK_FALSE(idle.result().met);
  CHECK(idle.result().points == 0.0);
  idle.set_lid(false).events({pour_event("sugar", 1.0)});
  CHECK(idle.result().met);
  CHECK(idle.result().points == 10.0);

  const Lesson lid_shut = never_lesson(lid(true));
  Trace hands(lid_shut);
  hands.set_lid(false).wait(10);
  CHECK_FALSE(hands.result().occasion);
  hands.events({pour_event("milk", 1.0)});
  CHECK(hands.result().met);
}

TEST_CASE("a given chance decides; what was missed has had its occasion") {
  Lesson lesson = never_lesson(lid(true));
  lesson.criteria[0].chance = number(Op::above, 60.0);
  Trace cold(lesson);
  cold.at(20.0, {pour_event("milk", 1.0)});
  CHECK_FALSE(cold.result().occasion);
  CHECK(Trace(lesson).at(61.0).result().met);
  Trace missed(lesson);
  missed.set_lid(true).at(20.0);
  CHECK(is_missed(missed.result()));
}

TEST_CASE("a must-pass item that was never at stake keeps the run from passing and is no miss") {
  Lesson lesson = never_lesson(lid(true));
  lesson.criteria[0].must_pass = true;
  lesson.pass_norm = 0.0;
  Trace idle(lesson);
  idle.wait(5);
  CHECK_FALSE(idle.card().passed);
  CHECK_FALSE(is_missed(idle.result()));
  idle.events({pour_event("milk", 1.0)});
  CHECK(idle.card().passed);
}

TEST_CASE("skills are marked by their own criteria: points of their own, must-pass items of their own") {
  const Lesson lesson = two_skills();
  CHECK(judged_skills(lesson) == std::vector<std::string>{"a", "b"});  // no criterion names c
  Trace a_only(lesson);
  a_only.set_lid(true).at(20.0);  // 8 of 10 points of a: at the mark
  CHECK_FALSE(a_only.card().passed);
  CHECK(skill_marks(lesson, a_only.card()) == std::vector<SkillMark>{{"a", true, 0}, {"b", false, 0}});
  Trace must(lesson);
  must.set_lid(false).at(60.0);
  CHECK(skill_marks(lesson, must.card()) == std::vector<SkillMark>{{"a", false, 1}, {"b", false, 0}});
  ScoreCard hurt = a_only.card();
  hurt.injured = true;
  CHECK_FALSE(skill_marks(lesson, hurt)[0].passed);

  Lesson whole = two_skills();
  for (Criterion& c : whole.criteria) c.skill.clear();
  Trace all_of_it(whole);
  all_of_it.set_lid(true).at(20.0);
  CHECK(skill_marks(whole, all_of_it.card()) ==
        std::vector<SkillMark>{{"a", false, 0}, {"b", false, 0}, {"c", false, 0}});
}

TEST_CASE("words: too much is not short, and a score just below the mark does not read like it") {
  CriterionResult pail;
  pail.has_margin = true;
  pail.margin = -16.27;
  pail.margin_signal = "pail_kg";
  pail.over = true;
  CHECK(margin_sentence(pail) == "(Too much by 16.27 kg.)");
  pail.over = false;
  pail.credit_norm = 0.7;
  CHECK(margin_sentence(pail) == "(Short by 16.27 kg, so 70 % of the points.)");
  pail.margin_signal = "probe_degC";
  pail.margin = -0.3;
  pail.credit_norm = 0.0;
  CHECK(margin_sentence(pail) == "(Too low by 0.3 K.)");
  pail.margin_signal = "dry_run_s";
  pail.over = true;
  CHECK(margin_sentence(pail) == "(Too long by 0.3 s.)");

  ScoreCard card;
  card.score_norm = 0.846;
  card.pass_norm = 0.85;
  CriterionResult lost;
  lost.title = "Right amount of milk";
  lost.of = 20.0;
  lost.points = 4.6;
  CriterionResult kept;
  kept.met = true;
  kept.of = kept.points = 80.0;
  card.criteria = {kept, lost};
  CHECK(verdict_sentence(card) ==
        "Not passed: 84.6 %, the pass mark is 85 %. What cost most: Right amount of milk.");
  card.criteria[1].must_pass = true;
  CHECK(verdict_sentence(card) ==
        "Not passed: 84.6 %, the pass mark is 85 %. Decided by must-pass items: Right amount of milk.");
}
