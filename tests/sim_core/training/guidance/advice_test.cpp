#include "sim_core/training/guidance/advice.h"

#include <doctest/doctest.h>

#include "sim_core/bench/run.h"
#include "sim_core/hands/handles.h"
#include "tests/sim_core/bench/machine_fixture.h"
#include "tests/sim_core/training/trace.h"

using namespace stirbench;
using namespace stirbench::training;
using namespace stirbench::training::test;

namespace {

Condition is_flag(std::string_view signal, bool value) {
  Condition c;
  c.op = Op::is_flag;
  c.signal = signals::find_signal(signal);
  c.flag = value;
  return c;
}

Way way(std::string id, Condition reaches, std::optional<hands::Action> hand,
        std::vector<Condition> needs = {}) {
  Way w;
  w.id = std::move(id);
  w.reaches = std::move(reaches);
  w.now = w.id;
  w.means.hand = std::move(hand);
  w.means.needs = std::move(needs);
  return w;
}

// One goal, Stir pressed, and the ways that lead there.
Lesson stirring_lesson() {
  Lesson lesson;
  LessonStep step;
  step.now = "Press Stir.";
  step.done = in_mode("stirring");
  step.means.hand = hands::press("stir");
  step.means.needs = {is_flag("lid_open", false), is_flag("alarm_latched", false)};
  lesson.steps = {step};
  lesson.ways = {
      way("close", is_flag("lid_open", false), hands::close_lid()),
      way("clear", is_flag("alarm_latched", false), hands::press("stop"), {is_flag("lid_open", false)})};
  return lesson;
}

Advice advice_in(const Lesson& lesson, const machine::Machine& machine, const machine::State& state) {
  static const std::vector<machine::Event> quiet;
  return advise(lesson, Goals(lesson.steps), Moment{machine, state, quiet});
}

}  // namespace

TEST_CASE("advice: the goal's own hand when all it needs holds, else the way to the first need") {
  const machine::Machine machine = bench_test::small_kitchen_machine();
  bench::Run run(machine, bench::initial_state(machine, {}));
  const Lesson lesson = stirring_lesson();
  REQUIRE(can_follow(lesson));
  Advice advice = advice_in(lesson, machine, run.state());
  CHECK(advice.kind == Advice::Kind::act);
  CHECK(advice.way.empty());
  CHECK(advice.hand == hands::press("stir"));

  run.act(hands::open_lid());
  run.step();
  advice = advice_in(lesson, machine, run.state());
  CHECK(advice.way == "close");
  CHECK(advice.hand == hands::close_lid());
}

TEST_CASE("advice: followed from a lid that was opened while it turned, it leads back to turning") {
  const machine::Machine machine = bench_test::small_kitchen_machine();
  bench::Run run(machine, bench::initial_state(machine, {}));
  const Lesson lesson = stirring_lesson();
  const auto wait = [&run](int ticks) {
    for (int i = 0; i < ticks; ++i) run.step();
  };
  run.act(hands::press("stir"));
  wait(20);
  run.act(hands::open_lid());
  wait(20);
  std::vector<std::string> ways;
  for (int i = 0; i < 6 && run.state().control.mode != control::Mode::stirring; ++i) {
    const Advice advice = advice_in(lesson, machine, run.state());
    REQUIRE(advice.kind == Advice::Kind::act);
    CHECK(refusal_of(Moment{machine, run.state(), {}}, advice.hand).empty());
    ways.push_back(advice.way);
    run.act(advice.hand);
    wait(15);
  }
  CHECK(ways == std::vector<std::string>{"close", "clear", ""});
  CHECK(run.state().control.mode == control::Mode::stirring);
}

TEST_CASE("advice: a ring of ways ends, and says what it cannot reach") {
  const machine::Machine machine = bench_test::small_kitchen_machine();
  const machine::State state = bench::initial_state(machine, {});
  Lesson lesson;
  LessonStep step;
  step.means.hand = hands::take_sample();
  step.means.needs = {is_flag("isolated", true)};
  lesson.steps = {step};
  lesson.ways = {way("a", is_flag("isolated", true), hands::isolate(true), {is_flag("floor_wet", true)}),
                 way("b", is_flag("floor_wet", true), hands::wipe_floor(), {is_flag("isolated", true)})};
  const Advice advice = advice_in(lesson, machine, state);
  CHECK(advice.kind == Advice::Kind::stuck);
  CHECK(advice.trouble.find("isolated is yes") != std::string::npos);
}

TEST_CASE("advice: hands are taken out of the machine before anything else") {
  const machine::Machine machine = bench_test::small_kitchen_machine();
  machine::State state = bench::initial_state(machine, {});
  state.lockout.working_at = machine::WorkPlace::vat;
  Lesson lesson = stirring_lesson();
  CHECK(advice_in(lesson, machine, state).kind == Advice::Kind::stuck);
  lesson.ways.push_back(way("out", is_flag("working", false), hands::end_work()));
  const Advice advice = advice_in(lesson, machine, state);
  CHECK(advice.way == "out");
  CHECK(advice.hand == hands::end_work());
}

TEST_CASE("ways: a bound at least as strict serves a need, the other direction does not") {
  CHECK(serves(number(Op::at_least, 40.0), number(Op::at_least, 30.0)));
  CHECK(serves(number(Op::at_least, 40.0), number(Op::above, 40.0)));
  CHECK_FALSE(serves(number(Op::at_least, 20.0), number(Op::at_least, 30.0)));
  CHECK_FALSE(serves(number(Op::at_most, 20.0), number(Op::at_least, 10.0)));
  CHECK(serves(negate(in_mode("running")), negate(in_mode("running"))));
  CHECK_FALSE(serves(in_mode("running"), negate(in_mode("running"))));
  CHECK(is_one_of(hands::press("stir"), hands::press("stir")));
  hands::Action any_key(hands::press);
  CHECK(is_one_of(hands::press("stop"), any_key));
  CHECK_FALSE(is_one_of(hands::open_lid(), any_key));
}
