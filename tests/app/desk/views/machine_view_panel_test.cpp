#include <doctest/doctest.h>

#include "app/desk/views/machine_view/sample_states.h"
#include "app/desk/views/panel/panel.h"

namespace {

using namespace stirbench;

control::Alarm& alarm(machine::State& state, control::AlarmId id) {
  return state.control.alarms[static_cast<std::size_t>(id)];
}

// A finger goes down in frame 3 and up after frame `frames`; each frame steps `ticks` ticks as the bench
// does: presses lengthen what is left, each tick with something left is a tick with the key down. Returns the
// ticks in which the key was down, as runs.
struct Held {
  int runs = 0;  // how often the key went down
  std::uint64_t down = 0;
  std::uint64_t after = 0;  // ticks it stayed down after the finger was gone
};

Held hold(int frames, std::uint64_t ticks) {
  Held held;
  std::uint32_t left = 0;
  bool was_down = false;
  for (int frame = 0; frame < frames + 400; ++frame) {
    const bool finger = frame >= 3 && frame < frames;
    const double press_s = desk::views::finger_press_s(frame == 3, finger, frame == 0 ? 0 : ticks, left);
    if (press_s > 0.0) left = std::max(left, static_cast<std::uint32_t>(press_s * 10.0 + 0.5));
    for (std::uint64_t tick = 0; tick < ticks; ++tick) {
      const bool down = left > 0;
      if (down) --left;
      if (down && !was_down) ++held.runs;
      if (down) ++held.down;
      if (down && !finger) ++held.after;
      was_down = down;
    }
  }
  return held;
}

}  // namespace

TEST_CASE(
    "panel: a finger that stays on a key keeps it down without a gap, and the key is released soon after") {
  for (const std::uint64_t ticks : {1ULL, 2ULL, 10ULL, 50ULL}) {
    const Held held = hold(60, ticks);
    if (ticks <= 2) CHECK(held.runs == 1);
    // At high speed the first tap may run out before the next frame can follow; from then on there is no gap.
    CHECK(held.runs <= 2);
    CHECK(held.down >= 55 * ticks);
    CHECK(held.after <= 3 * ticks + 4);
  }
}

TEST_CASE("panel: a tap is one short press, and a finger changes nothing while time stands still") {
  CHECK(desk::views::finger_press_s(true, true, 0, 0) == doctest::Approx(0.3));
  CHECK(desk::views::finger_press_s(false, true, 0, 0) == 0.0);
  CHECK(desk::views::finger_press_s(false, false, 5, 0) == 0.0);
  const Held tap = hold(4, 1);
  CHECK(tap.runs == 1);
  CHECK(tap.down == 3);
}

TEST_CASE("panel: the display says what goes on and what it waits for") {
  const machine::Machine machine = desk::views::sample_machine();
  machine::State state;
  CHECK(desk::views::display_message(machine, state).words ==
        "Choose a recipe, or press Heat, Chill or Stir.");
  state.control.recipe = 0;
  CHECK(desk::views::display_message(machine, state).words == "White base is chosen. Press Run to start.");
  state.control.mode = control::Mode::running;
  state.control.phase = 1;
  CHECK(desk::views::display_message(machine, state).words == "Add sugar, cream and flavour. Then Confirm.");
  CHECK(desk::views::display_message(machine, state).asks);
  state.control.phase = 3;
  state.control.hold_ticks = 121;  // 121 scans bound 120 ticks of 0.1 s: 12 of 30 s are over
  CHECK(desk::views::display_message(machine, state).words == "Holding. 0:18 to go. Keep the lid closed.");
  state.control.mode = control::Mode::paused;
  CHECK(desk::views::display_message(machine, state).words == "Stopped in “hold”. Press Run to go on.");
}

TEST_CASE("panel: an alarm is named with its way out, and goes only with the controller's") {
  machine::State state;
  CHECK(desk::views::shown_alarms(state).empty());
  alarm(state, control::AlarmId::addition_waiting).active = true;
  CHECK(desk::views::shown_alarms(state).empty());
  alarm(state, control::AlarmId::lid_guard) = {.active = true, .latched = true};
  auto alarms = desk::views::shown_alarms(state);
  REQUIRE(alarms.size() == 1);
  CHECK(alarms[0].title == "Lid guard open");
  CHECK(alarms[0].way_out == "Close the lid, then press Stop to clear the alarm.");
  CHECK(alarms[0].active);
  alarm(state, control::AlarmId::lid_guard).active = false;
  alarms = desk::views::shown_alarms(state);
  REQUIRE(alarms.size() == 1);
  CHECK(alarms[0].latched);
  CHECK_FALSE(alarms[0].active);
  CHECK(alarms[0].way_out.find("Stop") != std::string::npos);
}
