#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "app/desk/views/machine_view/machine_view.h"
#include "app/desk/views/machine_view/sample_states.h"
#include "sim_core/hands/handles.h"

namespace {

using namespace stirbench;
using desk::views::MachineMotion;

machine::State turning() {
  machine::State state;
  state.plant.flows.agitator_rpm = 90.0;
  state.plant.flows.circulation_L_per_min = 38.0;
  state.plant.flows.draw_L_per_min = 4.0;
  return state;
}

}  // namespace

TEST_CASE("machine view: where things stand does not depend on the frame rate") {
  const machine::Machine machine = desk::views::sample_machine();
  const machine::State state = turning();
  MachineMotion once;
  MachineMotion often;
  once.advance(machine, state, 0.7, true, false);
  for (int i = 0; i < 700; ++i) often.advance(machine, state, 0.001, true, false);
  CHECK(often.agitator_rad == doctest::Approx(once.agitator_rad).epsilon(1e-9));
  CHECK(often.flow_m == doctest::Approx(once.flow_m).epsilon(1e-9));
  CHECK(often.draw_m == doctest::Approx(once.draw_m).epsilon(1e-9));
  CHECK(often.steam_s == doctest::Approx(once.steam_s).epsilon(1e-9));
}

TEST_CASE("machine view: blades turn at the speed the state shows") {
  // 90 1/min for 0.5 s is 0.75 of a turn.
  MachineMotion motion;
  motion.advance(desk::views::sample_machine(), turning(), 0.5, true, false);
  CHECK(motion.agitator_rad == doctest::Approx(0.75 * 2.0 * std::numbers::pi));
}

TEST_CASE("machine view: the lid is on its way for at most 0.2 s, and not at all on the first picture") {
  const machine::Machine machine = desk::views::sample_machine();
  machine::State state;
  state.plant.fittings.lid_open = true;
  MachineMotion motion;
  motion.advance(machine, state, 0.0, true, false);
  CHECK(motion.lid_norm == 1.0);
  state.plant.fittings.lid_open = false;
  motion.advance(machine, state, 0.1, false, false);
  CHECK(motion.lid_norm > 0.0);
  CHECK(motion.lid_norm < 1.0);
  CHECK(desk::views::machine_animating(state, motion, false, false));
  motion.advance(machine, state, 0.1001, false, false);
  CHECK(motion.lid_norm == 0.0);
  CHECK_FALSE(desk::views::machine_animating(state, motion, false, false));
}

TEST_CASE("machine view: with reduced motion nothing moves by itself") {
  const machine::Machine machine = desk::views::sample_machine();
  machine::State state = turning();
  MachineMotion motion;
  motion.advance(machine, state, 1.0, true, true);
  CHECK(motion.agitator_rad == 0.0);
  CHECK(motion.flow_m == 0.0);
  CHECK_FALSE(desk::views::machine_animating(state, motion, true, true));
  state.plant.fittings.lid_open = true;
  motion.advance(machine, state, 0.001, true, true);
  CHECK(motion.lid_norm == 1.0);
}

TEST_CASE("machine view: the picture asks for frames only while something moves") {
  const machine::Machine machine = desk::views::sample_machine();
  MachineMotion motion;
  for (const desk::views::SampleState& sample : desk::views::sample_states(machine)) {
    motion = MachineMotion{};
    motion.advance(machine, sample.state, 0.0, true, false);
    CHECK_MESSAGE(
        desk::views::machine_animating(sample.state, motion, true, false) == (sample.name != "empty"),
        sample.name);
    CHECK_FALSE(desk::views::machine_animating(sample.state, motion, false, false));
  }
}

TEST_CASE("machine view: what is asked of lid, cover and valve becomes what hands do") {
  machine::State state;
  desk::views::MachineRequests wants;
  CHECK(desk::views::hands_of(wants, state).empty());
  wants.toggle_lid = wants.toggle_shaft_cover = true;
  wants.draw_opening_norm = 0.25;
  auto actions = desk::views::hands_of(wants, state);
  REQUIRE(actions.size() == 3);
  CHECK(actions[0].is(hands::open_lid));
  CHECK(actions[1].is(hands::open_shaft_cover));
  CHECK(actions[2].is(hands::turn_draw_valve));
  CHECK(actions[2] == hands::turn_draw_valve(0.25));
  state.plant.fittings.lid_open = state.plant.fittings.shaft_cover_open = true;
  actions = desk::views::hands_of(wants, state);
  CHECK(actions[0].is(hands::close_lid));
  CHECK(actions[1].is(hands::close_shaft_cover));
}
