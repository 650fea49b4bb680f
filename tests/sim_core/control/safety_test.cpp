#include <doctest/doctest.h>

#include <functional>
#include <vector>

#include "tests/sim_core/control/movings.h"

// One case for each published rule of stopping, resetting and starting. The source stands beside each rule;
// editions were read in secondary texts, so "informed by" is what is claimed.

using namespace stirbench::control_test;
namespace plant = stirbench::plant;

namespace {

// A cause a sensor can show, and how it is put right.
struct Cause {
  const char* name;
  AlarmId alarm;
  std::function<void(Rig&, bool)> set;
};

const std::vector<Cause>& causes() {
  static const std::vector<Cause> all = {
      {"lid", AlarmId::lid_guard, [](Rig& r, bool on) { r.readings.lid_closed = !on; }},
      {"shaft cover", AlarmId::shaft_cover_guard,
       [](Rig& r, bool on) { r.readings.shaft_cover_closed = !on; }},
      {"overload", AlarmId::drive_overload, [](Rig& r, bool on) { r.readings.overload_tripped = on; }},
      {"cut-out", AlarmId::over_temperature, [](Rig& r, bool on) { r.readings.cutout_tripped = on; }},
      {"pressure", AlarmId::chiller_pressure, [](Rig& r, bool on) { r.readings.pressure_tripped = on; }},
  };
  return all;
}

// A latched lid alarm with the lid closed again, recipe paused.
Rig latched_rig() {
  Rig rig;
  rig.choose();
  rig.press(Key::run);
  rig.readings.lid_closed = false;
  rig.scan(5);
  rig.readings.lid_closed = true;
  rig.scan(5);
  return rig;
}

}  // namespace

TEST_CASE("stop by a safeguard: power is taken from every actuator at once") {
  // IEC 60204-1 cl. 9.2.2, stop category 0 (secondary text).
  for (const Moving& moving : movings()) {
    for (const Cause& cause : causes()) {
      CAPTURE(moving.name);
      CAPTURE(cause.name);
      Rig rig;
      moving.start(rig);
      REQUIRE(rig.state.mode == moving.mode);
      REQUIRE(rig.outputs.drive);
      cause.set(rig, true);
      rig.scan();
      CHECK(rig.still());
      CHECK(rig.relays_still());
      CHECK(rig.state.mode == moving.after_stop);
      CHECK(rig.alarm(cause.alarm).active);
      CHECK(rig.alarm(cause.alarm).latched);
      CHECK(rig.count(Notice::alarm_raised) == 1);
    }
  }
}

TEST_CASE("the guard chain is hard-wired: relays drop drive and heat whatever the scan says") {
  // 29 CFR 1910.212(a)(4): interlocked so that it cannot turn unless the enclosure is in place (code copy).
  const Outputs everything{.heat_norm = 1.0, .drive = true, .chill = true};
  const plant::Fittings fittings;
  const auto with = [&](auto change) {
    plant::SensorReadings readings;
    change(readings);
    return relays(everything, readings, fittings);
  };
  const plant::Actuators all = with([](plant::SensorReadings&) {});
  CHECK((all.drive_on && all.heat_norm == 1.0 && all.chiller_on));
  const plant::Actuators lid = with([](plant::SensorReadings& r) { r.lid_closed = false; });
  CHECK((!lid.drive_on && lid.heat_norm == 0.0));
  const plant::Actuators cover = with([](plant::SensorReadings& r) { r.shaft_cover_closed = false; });
  CHECK((!cover.drive_on && cover.heat_norm == 0.0));
  const plant::Actuators overload = with([](plant::SensorReadings& r) { r.overload_tripped = true; });
  CHECK((!overload.drive_on && overload.heat_norm == 0.0));  // heat hangs on the drive's contactor
  const plant::Actuators cutout = with([](plant::SensorReadings& r) { r.cutout_tripped = true; });
  CHECK((cutout.drive_on && cutout.heat_norm == 0.0));
  const plant::Actuators pressure = with([](plant::SensorReadings& r) { r.pressure_tripped = true; });
  CHECK((pressure.drive_on && !pressure.chiller_on));
  const plant::Actuators dead = with([](plant::SensorReadings& r) { r.supply_on = false; });
  CHECK((!dead.drive_on && dead.heat_norm == 0.0 && !dead.chiller_on));
  plant::Fittings isolated;
  isolated.isolator_on = false;
  const plant::Actuators off = relays(everything, plant::SensorReadings{}, isolated);
  CHECK((!off.drive_on && off.heat_norm == 0.0 && !off.chiller_on));
}

TEST_CASE("the stop stays: putting the cause right neither restarts nor clears") {
  // ISO 13849-1 cl. 5.2.2 and 5.2.3: the stop condition is maintained; closing the guard does not restart.
  for (const Moving& moving : movings()) {
    for (const Cause& cause : causes()) {
      CAPTURE(moving.name);
      CAPTURE(cause.name);
      Rig rig;
      moving.start(rig);
      cause.set(rig, true);
      rig.scan(10);
      cause.set(rig, false);
      rig.scan(100);
      CHECK(rig.still());
      CHECK_FALSE(rig.alarm(cause.alarm).active);
      CHECK(rig.alarm(cause.alarm).latched);
      CHECK(rig.state.mode == moving.after_stop);
      // And every start key is refused while it is latched.
      for (const Key key : start_keys) {
        rig.press(key);
        CHECK(rig.still());
        CHECK(rig.refusal() != "");
      }
    }
  }
}

TEST_CASE("reset works only when every safeguard is right") {
  // ISO 13849-1 cl. 5.2.2: only when all safety functions and safeguards are operative.
  for (const Cause& cause : causes()) {
    for (const Cause& other : causes()) {
      CAPTURE(cause.name);
      CAPTURE(other.name);
      Rig rig;
      rig.press(Key::heat);
      cause.set(rig, true);
      rig.scan();
      if (&cause != &other) cause.set(rig, false);
      other.set(rig, true);  // another one stands, or still the same
      rig.scan();
      rig.press(Key::stop);
      CHECK(rig.alarm(cause.alarm).latched);
      CHECK(rig.refusal() != "");
      other.set(rig, false);
      rig.scan();
      CHECK(rig.alarm(cause.alarm).latched);
      rig.press(Key::stop);
      CHECK_FALSE(any_latched(rig.state));
      CHECK(rig.still());
    }
  }
}

TEST_CASE("reset acts when the key is released, not while it is down") {
  // ISO 13849-1 cl. 5.2.2: accepted by disengaging the actuator from its on position.
  Rig rig = latched_rig();
  rig.down(Key::stop);
  rig.scan(50);
  CHECK(rig.alarm(AlarmId::lid_guard).latched);
  rig.up(Key::stop);
  rig.scan();
  CHECK_FALSE(rig.alarm(AlarmId::lid_guard).latched);
  CHECK(rig.count(Notice::alarm_cleared) == 1);
}

TEST_CASE("a key held or jammed down cannot defeat the reset") {
  // AS 4024.1501 commentary: a held-down or shorted button defeats a plain reset; the signal must change.
  SUBCASE("held since before the guard closed") {
    Rig rig;
    rig.press(Key::heat);
    rig.readings.lid_closed = false;
    rig.scan();
    rig.down(Key::stop);
    rig.scan(5);
    rig.readings.lid_closed = true;
    rig.scan(5);
    rig.up(Key::stop);
    rig.scan(5);
    CHECK(rig.alarm(AlarmId::lid_guard).latched);
    rig.press(Key::stop);
    CHECK_FALSE(rig.alarm(AlarmId::lid_guard).latched);
  }
  SUBCASE("held since before the guard opened") {
    Rig rig;
    rig.press(Key::heat);
    rig.down(Key::stop);
    rig.scan();
    rig.readings.lid_closed = false;
    rig.scan();
    rig.readings.lid_closed = true;
    rig.scan();
    rig.up(Key::stop);
    rig.scan();
    // Stop had stopped the machine before the lid opened, so nothing latched; and nothing runs.
    CHECK_FALSE(any_latched(rig.state));
    CHECK(rig.still());
  }
  SUBCASE("the guard opens again while the key is down") {
    Rig rig = latched_rig();
    rig.down(Key::stop);
    rig.scan();
    rig.readings.lid_closed = false;
    rig.scan();
    rig.readings.lid_closed = true;
    rig.scan();
    rig.up(Key::stop);
    rig.scan();
    CHECK(rig.alarm(AlarmId::lid_guard).latched);
  }
  SUBCASE("jammed from before power-up") {
    Rig rig = latched_rig();
    rig.readings.supply_on = false;
    rig.down(Key::stop);
    rig.scan(3);
    rig.readings.supply_on = true;
    rig.scan(3);
    rig.up(Key::stop);
    rig.scan();
    CHECK(rig.alarm(AlarmId::lid_guard).latched);
    CHECK(rig.alarm(AlarmId::power_returned).latched);
  }
}

TEST_CASE("reset starts nothing; it only permits a separate start command") {
  // ISO 13849-1 cl. 5.2.2: not initiate motion itself; enable the control to accept a separate start.
  Rig rig = latched_rig();
  rig.press(Key::stop);
  CHECK_FALSE(any_latched(rig.state));
  CHECK(rig.state.mode == Mode::paused);
  rig.scan(200);
  CHECK(rig.still());
  rig.press(Key::run);
  CHECK(rig.state.mode == Mode::running);
  CHECK(rig.outputs.drive);
}

TEST_CASE("a start key held through the reset starts nothing until it is pressed again") {
  // ISO 13849-1 cl. 5.2.2 (separate start command), ISO 14118 (unexpected start-up by fault clearing).
  for (const Key key : start_keys) {
    CAPTURE(key_name(key));
    Rig rig = latched_rig();
    rig.down(key);
    rig.scan(3);
    rig.press(Key::stop);
    rig.scan(50);
    CHECK_FALSE(any_latched(rig.state));
    CHECK(rig.still());
    rig.up(key);
    rig.scan();
    CHECK(rig.still());
  }
}

TEST_CASE("Stop acts at once and overrides every mode and key") {
  // IEC 60204-1 cl. 9.2.2 category 0; a stop has priority over starts (cl. 9.2.3, from memory).
  for (const Moving& moving : movings()) {
    CAPTURE(moving.name);
    Rig rig;
    moving.start(rig);
    rig.down(Key::stop);
    rig.scan();
    CHECK(rig.still());
    CHECK(rig.state.mode == moving.after_stop);
    for (const Key key : start_keys) {
      rig.down(key);
      rig.scan();
      CHECK(rig.still());
      rig.up(key);
      rig.scan();
    }
    rig.up(Key::stop);
    rig.scan(10);
    CHECK(rig.still());
    CHECK_FALSE(any_latched(rig.state));
  }
}

TEST_CASE("Stop and a start key in the same scan: Stop wins") {
  for (const Key key : start_keys) {
    Rig rig;
    rig.choose();
    rig.down(key);
    rig.down(Key::stop);
    rig.scan(3);
    rig.up(Key::stop);
    rig.scan(10);
    CHECK(rig.still());
  }
}

TEST_CASE("refusals say what to do, the cause before the key") {
  Rig rig = latched_rig();
  rig.press(Key::run);
  CHECK(rig.refusal() == "Press and let go Stop to clear the alarm, then start again.");
  rig.readings.lid_closed = false;
  rig.scan();
  rig.press(Key::run);
  CHECK(rig.refusal() == "Close the lid, then press Stop to clear the alarm.");
  Rig fresh;
  fresh.readings.lid_closed = false;
  fresh.scan();
  fresh.press(Key::stir);
  CHECK(fresh.refusal() == "Close the lid first.");
}

TEST_CASE("a guard opened at rest stops nothing: its alarm goes with it, and starting is refused meanwhile") {
  // ISO 13849-1 cl. 5.2.2 speaks of a stop that a safeguard initiated; at rest there is none to be kept.
  for (const bool paused : {false, true}) {
    CAPTURE(paused);
    Rig rig;
    if (paused) {
      rig.choose();
      rig.press(Key::run);
      rig.press(Key::stop);
    }
    rig.readings.lid_closed = false;
    rig.scan();
    CHECK(rig.alarm(AlarmId::lid_guard).active);
    CHECK_FALSE(rig.alarm(AlarmId::lid_guard).latched);
    CHECK(rig.count(Notice::alarm_raised) == 1);
    rig.press(Key::stir);
    CHECK(rig.still());
    CHECK(rig.refusal() != "");
    rig.readings.lid_closed = true;
    rig.scan();
    CHECK(rig.count(Notice::alarm_cleared) == 1);
    CHECK(rig.still());
    rig.press(Key::stir);
    CHECK(rig.outputs.drive);
  }
}

TEST_CASE("only latching alarms latch, and each has its plain name") {
  for (std::size_t i = 0; i < alarm_count; ++i) {
    const auto id = static_cast<AlarmId>(i);
    CHECK(alarm_key(id) != "");
    CHECK(alarm_title(id) != "");
    CHECK(alarm_latches(id) == (id != AlarmId::addition_waiting && id != AlarmId::hold_broken));
  }
}
