#include "sim_core/training/guidance/ladder.h"

#include <doctest/doctest.h>

#include "sim_core/hands/handles.h"
#include "sim_core/signals/signals.h"

using namespace stirbench;
using training::Rung;
using training::ShownRun;

namespace {

ShownRun run_of(bool passed, bool helped) { return {{{"guards", passed, passed ? 0 : 1}}, helped}; }

}  // namespace

TEST_CASE("ladder: a first guided run is shown every step, and help goes from the end of the lesson") {
  for (std::size_t i = 0; i < 6; ++i) CHECK(training::first_rung(i, 6, 0) == Rung::step);
  // One pass with help: the last half begins at the place.
  for (std::size_t i = 0; i < 6; ++i)
    CHECK(training::first_rung(i, 6, 1) == (i < 3 ? Rung::step : Rung::place));
  for (std::size_t i = 0; i < 6; ++i) CHECK(training::first_rung(i, 6, 2) == Rung::place);
  CHECK(training::first_rung(0, 6, 4) == Rung::cue);
  CHECK(training::first_rung(0, 6, 6) == Rung::goal);
  CHECK(training::first_rung(5, 6, 60) == Rung::goal);
  // An odd number: the half is rounded down; of one step there is no last half.
  CHECK(training::first_rung(2, 5, 1) == Rung::step);
  CHECK(training::first_rung(3, 5, 1) == Rung::place);
  CHECK(training::first_rung(0, 1, 1) == Rung::step);
}

TEST_CASE("ladder: more shown never gives more help, and a later step never more than an earlier one") {
  for (std::size_t steps = 1; steps < 12; ++steps) {
    for (int grasp = 0; grasp < 9; ++grasp) {
      for (std::size_t i = 0; i < steps; ++i) {
        CHECK(training::first_rung(i, steps, grasp + 1) <= training::first_rung(i, steps, grasp));
        if (i > 0) CHECK(training::first_rung(i, steps, grasp) <= training::first_rung(i - 1, steps, grasp));
      }
    }
  }
}

TEST_CASE("ladder: the grasp is that of the weakest skill, and a miss begins it anew") {
  CHECK(training::grasp_of({"guards"}, {}) == 0);
  CHECK(training::grasp_of({}, {run_of(true, false)}) == 0);
  CHECK(training::grasp_of({"guards"}, {run_of(true, true), run_of(true, true)}) == 1);
  CHECK(training::grasp_of({"guards"}, {run_of(true, false)}) == 2);
  CHECK(training::grasp_of({"guards"}, {run_of(true, true), run_of(true, false)}) == 3);
  CHECK(training::grasp_of({"guards"}, {run_of(true, false), run_of(false, false)}) == 0);
  CHECK(training::grasp_of({"guards"}, {run_of(false, false), run_of(true, false)}) == 2);
  CHECK(training::grasp_of({"guards", "hot-product"}, {run_of(true, false)}) == 0);
}

TEST_CASE("ladder: place and step lead the hand, goal and cue do not") {
  CHECK_FALSE(training::leads(Rung::goal));
  CHECK_FALSE(training::leads(Rung::cue));
  CHECK(training::leads(Rung::place));
  CHECK(training::leads(Rung::step));
  CHECK(training::rung_name(Rung::cue) == "cue");
}

TEST_CASE("ladder: goals are told without hands, amounts and causes") {
  machine::Machine machine;
  product::Ingredient milk;
  milk.id = "whole_milk";
  milk.title = "Whole milk";
  machine.ingredients.push_back(milk);
  training::Lesson lesson;
  training::LessonStep pour;
  pour.means.hand = hands::pour("whole_milk", 22.2);
  pour.done.op = training::Op::at_least;
  pour.done.signal = signals::find_signal("mass_kg");
  pour.done.number = 21.9;
  training::LessonStep shut;
  shut.done.op = training::Op::is_flag;
  shut.done.signal = signals::find_signal("lid_open");
  shut.done.flag = false;
  lesson.steps = {pour, shut};
  CHECK(training::goal_words(machine, lesson, 0) == "Whole milk is in the vat.");
  CHECK(training::goal_words(machine, lesson, 1) == "No longer so: the lid is open.");
  CHECK(training::goal_words(machine, lesson, 2).empty());

  training::LessonStep name;
  name.done.op = training::Op::event;
  name.done.event = machine::EventKind::acted;
  name.done.text = "name_cause";
  name.done.of = "element_1_open";
  lesson.steps = {name};
  CHECK(training::goal_words(machine, lesson, 0).find("element") == std::string::npos);
}
