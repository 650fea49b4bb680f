#include "sim_core/training/guidance/goals.h"

#include <doctest/doctest.h>

#include "sim_core/hands/handles.h"
#include "tests/sim_core/training/trace.h"

using namespace stirbench;
using namespace stirbench::training;
using namespace stirbench::training::test;

namespace {

LessonStep goal(Condition done, hands::Action hand = hands::open_lid()) {
  LessonStep s;
  s.done = std::move(done);
  s.means.hand = std::move(hand);
  return s;
}

// A state whose moments are seen one by one.
struct Seen {
  explicit Seen(const std::vector<LessonStep>& its_steps) : steps(its_steps), goals(its_steps) {}
  std::size_t after(std::vector<machine::Event> events = {}) {
    ++state.tick;
    goals.see(steps, Moment{machine, state, events});
    return goals.next();
  }
  std::vector<LessonStep> steps;
  Goals goals;
  machine::State state;
  machine::Machine machine;
};

}  // namespace

TEST_CASE("goals: a state that was reached stays reached until it is undone") {
  std::vector<LessonStep> steps = {goal(lid(true)), goal(number(Op::at_least, 40.0))};
  Seen plain(steps);
  CHECK(plain.after() == 0);
  plain.state.plant.fittings.lid_open = true;
  CHECK(plain.after() == 1);
  plain.state.plant.fittings.lid_open = false;
  CHECK(plain.after() == 1);

  steps[0].undone = lid(false);
  Seen undone(steps);
  undone.state.plant.fittings.lid_open = true;
  CHECK(undone.after() == 1);
  undone.state.plant.fittings.lid_open = false;
  CHECK(undone.after() == 0);
}

TEST_CASE("goals: one that has to hold for a time starts anew after a break") {
  std::vector<LessonStep> steps = {goal(lid(true))};
  steps[0].for_s = 0.5;
  Seen seen(steps);
  seen.state.plant.fittings.lid_open = true;
  for (int i = 0; i < 5; ++i) CHECK(seen.after() == 0);
  seen.state.plant.fittings.lid_open = false;
  CHECK(seen.after() == 0);
  seen.state.plant.fittings.lid_open = true;
  for (int i = 0; i < 5; ++i) CHECK(seen.after() == 0);
  CHECK(seen.after() == 1);  // 0.5 s after it became true again
}

TEST_CASE("goals: a skippable one is passed over when what it is for is reached, and only then") {
  std::vector<LessonStep> steps = {goal(lid(true)), goal(in_mode("running"))};
  steps[0].skippable = true;
  Seen seen(steps);
  CHECK(seen.after() == 0);
  seen.state.control.mode = control::Mode::running;
  CHECK(seen.after() == 2);

  // What is closed all along does not pass over what must be poured.
  std::vector<LessonStep> pours = {goal(poured("sugar")), goal(lid(false))};
  CHECK(Seen(pours).after() == 0);
}

TEST_CASE("goals: amounts count from the start, in parts, and for goals of one ingredient in their order") {
  std::vector<LessonStep> steps = {goal(poured("milk"), hands::pour("milk", 10.0)),
                                   goal(poured("sugar"), hands::pour("sugar", 2.0)),
                                   goal(poured("milk"), hands::pour("milk", 5.0))};
  for (LessonStep& one : steps) one.means.amount = Amount::rest_of_poured;
  Seen seen(steps);
  CHECK(seen.after({pour_event("sugar", 1.0)}) == 0);
  CHECK(seen.after({pour_event("milk", 6.0)}) == 0);
  CHECK(seen.after({pour_event("milk", 3.6)}) == 1);  // 9.6 of 10 are enough
  CHECK(seen.after({pour_event("milk", 4.9)}) == 1);  // 14.5 of 15
  CHECK(seen.goals.reached(2) == false);
  CHECK(seen.after({pour_event("sugar", 1.0), pour_event("milk", 0.4)}) == 3);
  CHECK(seen.goals.poured_kg("milk") == doctest::Approx(14.9));
}
