#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "tests/sim_core/control/rig.h"

using namespace stirbench::control_test;

TEST_CASE("Run needs a recipe") {
  Rig rig;
  rig.press(Key::run);
  CHECK(rig.refusal() == "Choose a recipe first.");
  CHECK(rig.still());
  rig.choose(7);
  CHECK(rig.refusal() == "There is no such recipe.");
  rig.panel.choose_recipe = 0;  // choose and Run within one scan
  rig.press(Key::run);
  CHECK(rig.state.mode == Mode::running);
  CHECK(rig.count(Notice::phase_began) == 1);
}

TEST_CASE("a recipe runs through its phases in order") {
  Rig rig;
  rig.probe(5.0);
  rig.choose();
  rig.press(Key::run);
  CHECK(rig.state.phase == 0);
  CHECK(rig.outputs.heat_norm == 1.0);
  CHECK(rig.outputs.drive);
  rig.probe(40.0);
  CHECK(rig.state.phase == 1);
  CHECK(rig.alarm(AlarmId::addition_waiting).active);
  rig.scan(1000);
  CHECK(rig.state.phase == 1);  // waits as long as it takes
  CHECK(rig.outputs.drive);
  rig.confirm();
  CHECK_FALSE(rig.alarm(AlarmId::addition_waiting).active);
  rig.scan();
  CHECK(rig.state.phase == 2);
  rig.probe(85.0);
  CHECK(rig.state.phase == 3);
  rig.scan(300);
  CHECK(rig.state.phase == 3);
  rig.scan(1);
  CHECK(rig.state.phase == 4);
  CHECK(rig.outputs.chill);
  CHECK(rig.outputs.heat_norm == 0.0);
  rig.probe(4.0);
  CHECK(rig.state.phase == 5);
  rig.scan(601);
  CHECK(rig.state.phase == 6);
  CHECK(rig.state.recipe_done);
  CHECK(rig.count(Notice::recipe_finished) == 1);
  rig.scan(100000);
  CHECK(rig.state.phase == 6);
  CHECK(rig.state.mode == Mode::running);
}

TEST_CASE("a hold is a hold: at or above the target without a break, never a tick short") {
  // 21 CFR 1240.61(b) and 1 NYCRR 2.45(b): every particle at or above the temperature for the whole time.
  Rig rig;
  rig.run_to(3);
  rig.probe(85.0, 200);
  rig.probe(84.99);
  CHECK(rig.count(Notice::hold_restarted) == 1);
  CHECK(rig.alarm(AlarmId::hold_broken).active);
  CHECK(rig.state.hold_ticks == 0);
  rig.probe(84.9, 20);
  CHECK(rig.count(Notice::hold_restarted) == 0);  // told once
  rig.probe(85.0);
  CHECK_FALSE(rig.alarm(AlarmId::hold_broken).active);
  CHECK(hold_left_s(&rig.recipes[0], rig.state, 0.1) == doctest::Approx(30.0));
  rig.scan(299);
  CHECK(rig.state.phase == 3);
  CHECK(hold_left_s(&rig.recipes[0], rig.state, 0.1) == doctest::Approx(0.1));
  rig.scan();
  CHECK(rig.state.phase == 4);  // 301 scans bound 300 ticks = 30.0 s
}

TEST_CASE("stopping in a hold restarts it; stopping in ageing does not undo it") {
  Rig rig;
  rig.run_to(3);
  rig.probe(85.5, 100);
  rig.down(Key::stop);
  rig.scan();
  CHECK(rig.count(Notice::hold_restarted) == 1);
  CHECK(rig.state.hold_ticks == 0);
  rig.up(Key::stop);
  rig.scan(50);
  CHECK(rig.state.hold_ticks == 0);  // pausing counts nothing
  rig.press(Key::run);
  CHECK(rig.state.phase == 3);

  Rig age;
  age.run_to(5);
  age.probe(4.0, 300);
  const auto before = age.state.hold_ticks;
  CHECK(before > 290);
  age.press(Key::stop);
  age.scan(100);
  age.probe(9.0, 10);
  CHECK(age.state.hold_ticks == before);
  age.press(Key::run);
  age.scan(100);
  CHECK(age.state.hold_ticks == before);  // too warm to count
  age.probe(5.0, 20);                     // target + 1 still counts
  CHECK(age.state.hold_ticks == before + 20);
}

TEST_CASE("confirm counts only when the display asks, running or paused, with no alarm latched") {
  Rig rig;
  rig.confirm();
  CHECK(rig.refusal() == "The display asks for nothing now.");
  rig.run_to(1);
  rig.readings.lid_closed = false;  // opening the lid for the addition trips the guard
  rig.scan();
  CHECK(rig.alarm(AlarmId::addition_waiting).active);
  rig.confirm();
  CHECK(rig.refusal() == "Close the lid, then press Stop to clear the alarm.");
  CHECK_FALSE(rig.state.confirmed);
  rig.readings.lid_closed = true;
  rig.scan();
  rig.press(Key::stop);
  rig.confirm();  // paused, alarm cleared
  CHECK(rig.refusal() == "");
  CHECK(rig.state.confirmed);
  rig.scan(10);
  CHECK(rig.state.phase == 1);  // confirmed, but not running
  rig.confirm();
  CHECK(rig.refusal() != "");  // asked and answered
  rig.press(Key::run);
  CHECK(rig.state.phase == 2);
}

TEST_CASE("the display asks ahead by about the time that the machine's file names") {
  for (const double ahead_s : {0.0, 60.0}) {
    CAPTURE(ahead_s);
    Rig rig;
    rig.spec.prompt_ahead_s = ahead_s;
    rig.probe(20.0);
    rig.choose();
    rig.press(Key::run);
    double degC = 20.0;
    double asked_degC = 0.0;
    while (rig.state.phase == 0) {
      degC += 0.003;  // 0.03 K/s: 40 kg with 6 kW
      rig.panel.confirm = rig.state.phase == 0;
      rig.probe(degC);
      CHECK(rig.refusal() != "");  // the confirmation does not count before the add phase
      if (asked_degC == 0.0 && rig.alarm(AlarmId::addition_waiting).active) asked_degC = degC;
    }
    CHECK(asked_degC == doctest::Approx(40.0 - 0.03 * ahead_s).epsilon(0.01));
    CHECK(rig.alarm(AlarmId::addition_waiting).active);
  }
}

TEST_CASE("choosing again gives up the batch; not while it runs") {
  Rig rig;
  rig.run_to(1);
  rig.choose();
  CHECK(rig.refusal() == "The machine is running. Press Stop first.");
  rig.press(Key::stop);
  CHECK(rig.state.mode == Mode::paused);
  rig.choose();
  CHECK(rig.state.mode == Mode::standby);
  CHECK(rig.state.phase == -1);
  CHECK_FALSE(rig.alarm(AlarmId::addition_waiting).stands());
  rig.press(Key::run);
  CHECK(rig.state.phase == 0);
}

TEST_CASE("a recipe without keep ends in standby, one without phases does not start") {
  Rig rig;
  rig.recipes[0].phases.resize(1);
  rig.probe(20.0);
  rig.choose();
  rig.press(Key::run);
  rig.probe(41.0);
  CHECK(rig.state.mode == Mode::standby);
  CHECK(rig.state.recipe_done);
  CHECK(rig.count(Notice::recipe_finished) == 1);
  CHECK(rig.still());
  rig.recipes[0].phases.clear();
  rig.press(Key::run);
  CHECK(rig.refusal() == "The recipe has no phases.");
  CHECK(rig.still());
}

TEST_CASE("the recipe's place survives a power cut") {
  Rig rig;
  rig.run_to(2);
  rig.readings.supply_on = false;
  rig.scan(100);
  rig.readings.supply_on = true;
  rig.scan();
  CHECK(rig.state.phase == 2);
  CHECK(rig.state.mode == Mode::paused);
  rig.press(Key::stop);
  rig.press(Key::run);
  CHECK(rig.state.phase == 2);
  CHECK(rig.outputs.drive);
}

TEST_CASE("Heat and Chill keep their own targets") {
  Rig rig;
  rig.probe(10.0);
  CHECK(rig.state.target_degC == 85.0);
  rig.set_target(60.0);  // above the probe: for Heat
  CHECK(rig.state.heat_target_degC == 60.0);
  rig.press(Key::heat);
  CHECK(rig.state.target_degC == 60.0);
  rig.press(Key::chill);  // not "chill to 60"
  CHECK(rig.state.target_degC == 3.0);
  rig.set_target(5.0);
  CHECK(rig.state.chill_target_degC == 5.0);
  rig.press(Key::stop);
  rig.probe(70.0);
  rig.set_target(40.0);  // below the probe: for Chill
  CHECK(rig.state.chill_target_degC == 40.0);
  CHECK(rig.state.heat_target_degC == 60.0);
  for (const double bad : {0.9, 95.1, -1e300, std::numeric_limits<double>::quiet_NaN(),
                           std::numeric_limits<double>::infinity()}) {
    rig.set_target(bad);
    CHECK(rig.refusal() == "That target is outside the machine's range.");
  }
  CHECK(rig.state.chill_target_degC == 40.0);
}

TEST_CASE("keys change between hand modes, but do not break into a running recipe") {
  Rig rig;
  rig.press(Key::heat);
  rig.press(Key::stir);
  CHECK(rig.state.mode == Mode::stirring);
  CHECK(rig.outputs.heat_norm == 0.0);
  rig.press(Key::stop);
  rig.run_to(0);
  for (const Key key : {Key::heat, Key::chill, Key::stir, Key::rinse}) {
    rig.press(key);
    CHECK(rig.state.mode == Mode::running);
    CHECK(rig.refusal() == "The recipe is running. Press Stop first.");
  }
  rig.press(Key::stop);
  rig.press(Key::rinse);  // rinse water would spoil the batch
  CHECK(rig.still());
  rig.press(Key::heat);  // heating by hand on the way is a person's choice
  CHECK(rig.state.mode == Mode::heating);
  rig.press(Key::stop);
  CHECK(rig.state.mode == Mode::paused);
  rig.down(Key::heat);
  rig.down(Key::chill);
  rig.scan();
  CHECK(rig.refusal() == "Press one key at a time.");
  CHECK(rig.still());
}

TEST_CASE("heating switches in a band at and above the target") {
  Rig rig;
  rig.spec.heat_lead_s = 0.0;  // the band alone
  rig.probe(59.0);
  rig.set_target(60.0);
  rig.press(Key::heat);
  CHECK(rig.outputs.heat_norm == 1.0);
  rig.probe(60.49);
  CHECK(rig.outputs.heat_norm == 1.0);
  rig.probe(60.5);
  CHECK(rig.outputs.heat_norm == 0.0);
  CHECK(rig.outputs.drive);
  rig.probe(60.0);
  CHECK(rig.outputs.heat_norm == 0.0);
  rig.probe(59.99);
  CHECK(rig.outputs.heat_norm == 1.0);
}

TEST_CASE("heat tapers towards the target: a part of each cycle that falls in proportion") {
  Rig rig;
  rig.spec.heat_lead_s = 0.0;
  rig.spec.heat_taper_K = 12.0;
  rig.spec.heat_least_norm = 0.5;
  rig.spec.heat_cycle_s = 10.0;
  rig.probe(20.0);
  rig.set_target(60.0);
  rig.press(Key::heat);
  // Hundred scans are a cycle of ten seconds; the band ends 0.5 K over the target.
  const auto on_norm = [&](double degC) {
    rig.probe(degC);
    int on = 0;
    for (int i = 0; i < 1000; ++i) {
      rig.scan();
      if (rig.outputs.heat_norm > 0.0) ++on;
      CHECK(rig.outputs.drive);
    }
    return on / 1000.0;
  };
  CHECK(on_norm(48.5) == 1.0);
  CHECK(on_norm(54.5) == doctest::Approx(0.75).epsilon(0.02));
  CHECK(on_norm(60.4) == doctest::Approx(0.5).epsilon(0.02));
  CHECK(on_norm(60.6) == 0.0);
}

TEST_CASE("chilling switches in a band at and below the target") {
  Rig rig;
  rig.spec.chill_lead_s = 0.0;
  rig.probe(20.0);
  rig.set_target(4.0);
  rig.press(Key::chill);
  CHECK(rig.outputs.chill);
  CHECK(rig.outputs.drive);
  rig.probe(3.6);
  CHECK(rig.outputs.chill);
  rig.probe(3.5);
  CHECK_FALSE(rig.outputs.chill);
  rig.probe(4.0);
  CHECK_FALSE(rig.outputs.chill);
  rig.probe(4.01);
  CHECK(rig.outputs.chill);
}

TEST_CASE("storage stirs now and then, and whenever the chiller runs") {
  Rig rig;
  rig.spec.chill_lead_s = 0.0;
  rig.run_to(6);
  rig.probe(4.0);
  int on = 0;
  for (int i = 0; i < 3000; ++i) {  // one cycle of 300 s
    rig.scan();
    on += rig.outputs.drive ? 1 : 0;
    CHECK_FALSE(rig.outputs.chill);
  }
  CHECK(on == 600);
  for (int i = 0; i < 3000; ++i) {
    rig.probe(5.0);
    CHECK(rig.outputs.chill);
    CHECK(rig.outputs.drive);
  }
}

TEST_CASE("an addition is kept warm before cooling and cold after it") {
  Rig rig;
  rig.spec.heat_lead_s = rig.spec.chill_lead_s = 0.0;  // readings jump here as no vat's do
  rig.recipes[0].phases = {
      {.id = "a", .kind = PhaseKind::add, .target_degC = 40.0},
      {.id = "h", .kind = PhaseKind::heat, .target_degC = 85.0},
      {.id = "c", .kind = PhaseKind::chill, .target_degC = 4.0},
      {.id = "b", .kind = PhaseKind::add, .target_degC = 4.0},
  };
  rig.run_to(0);
  CHECK(rig.outputs.heat_norm == 1.0);
  rig.press(Key::stop);
  rig.run_to(3);
  rig.probe(10.0);
  CHECK(rig.outputs.chill);
  CHECK(rig.outputs.heat_norm == 0.0);
}
