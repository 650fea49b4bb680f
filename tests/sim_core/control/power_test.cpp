#include <doctest/doctest.h>

#include "tests/sim_core/control/movings.h"

using namespace stirbench::control_test;

TEST_CASE("returning power starts nothing and is shown until cleared") {
  // ISO 14118: unexpected start-up by power return (secondary text).
  for (const Moving& moving : movings()) {
    for (const bool key_jammed : {false, true}) {
      CAPTURE(moving.name);
      CAPTURE(key_jammed);
      Rig rig;
      moving.start(rig);
      rig.readings.supply_on = false;
      rig.scan();
      CHECK(rig.still());
      CHECK(rig.state.mode == Mode::off);
      for (const Key key : start_keys) {
        if (key_jammed) rig.down(key);
      }
      rig.scan(20);
      rig.readings.supply_on = true;
      rig.scan(20);
      CHECK(rig.still());
      CHECK(rig.state.mode == moving.after_stop);
      CHECK(rig.alarm(AlarmId::power_returned).latched);
      for (const Key key : start_keys) rig.up(key);
      rig.scan();
      rig.press(Key::stir);
      CHECK(rig.still());
      rig.press(Key::stop);
      CHECK_FALSE(any_latched(rig.state));
      CHECK(rig.still());
      rig.press(Key::stir);
      CHECK(rig.outputs.drive);
    }
  }
}

TEST_CASE("a key that is down when power returns is ignored until released, then works") {
  Rig rig;
  rig.readings.supply_on = false;
  rig.down(Key::stir);
  rig.scan(3);
  rig.readings.supply_on = true;
  rig.scan(3);
  rig.press(Key::stop);
  CHECK(rig.still());
  rig.up(Key::stir);
  rig.scan();
  rig.press(Key::stir);
  CHECK(rig.state.mode == Mode::stirring);
}
