#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "tests/sim_core/control/rig.h"

// The proportional hold: a share of each cycle with integral action, continuous at its ends, not wound up.
using namespace stirbench::control_test;

namespace {

// Heat by the key to 60 degC; the warm band is 60 .. 60.5, so the aim is 60.25.
Rig heating() {
  Rig rig;
  rig.spec.heat_lead_s = 0.0;
  rig.spec.heat_cycle_s = 10.0;
  rig.spec.hold_control = HoldControl::proportional;
  rig.spec.hold_band_K = 8.0;
  rig.spec.hold_reset_s = 1800.0;
  rig.spec.hold_bias_norm = 0.1;
  rig.state = initial_state(rig.spec);
  rig.probe(20.0);
  rig.set_target(60.0);
  rig.press(Key::heat);
  return rig;
}

// Share of so many cycles in which the elements were on.
double share_on(Rig& rig, double degC, int cycles = 10) {
  int on = 0;
  const int scans = 100 * cycles;
  for (int i = 0; i < scans; ++i) {
    rig.probe(degC);
    on += rig.outputs.heat_norm > 0.0 ? 1 : 0;
  }
  return static_cast<double>(on) / scans;
}

constexpr double aim_degC = 60.25;

}  // namespace

TEST_CASE(
    "the share falls in proportion from full, with the bias at the aim, and there is no step where it "
    "begins") {
  Rig cold = heating();
  CHECK(share_on(cold, 20.0) == 1.0);
  for (const double off_K : {7.0, 5.0, 2.0}) {
    Rig rig = heating();
    CHECK(share_on(rig, aim_degC - off_K, 1) == doctest::Approx(0.1 + off_K / 8.0).epsilon(0.03));
  }
  Rig at_aim = heating();
  CHECK(share_on(at_aim, aim_degC) == doctest::Approx(0.1).epsilon(0.01));
  // Where the band begins, 0.9 x 8 K below the aim, the share is 1 from both sides.
  Rig above = heating();
  CHECK(share_on(above, aim_degC - 7.2 + 0.08, 1) >= 0.98);
  CHECK(share_on(above, aim_degC - 7.2 - 0.08, 1) == 1.0);
  Rig hot = heating();
  CHECK(share_on(hot, aim_degC + 1.0) == 0.0);
  CHECK(hot.outputs.drive);
}

TEST_CASE("the integral moves by deviation over band in its time, and stands still at the ends") {
  Rig rig = heating();
  // An hour far below: it must not be wound up.
  share_on(rig, 20.0, 360);
  CHECK(rig.state.heat_integral_norm == doctest::Approx(0.1));
  // 0.4 K below for 180 s: 0.05 x 0.1.
  share_on(rig, aim_degC - 0.4, 18);
  CHECK(rig.state.heat_integral_norm == doctest::Approx(0.105).epsilon(1e-3));
  // Long too hot: it falls while there is a share to take back, then rests.
  share_on(rig, aim_degC + 4.0, 360);
  CHECK(rig.state.heat_integral_norm == doctest::Approx(0.105).epsilon(1e-3));
  share_on(rig, aim_degC + 0.2, 3600);
  CHECK(rig.state.heat_integral_norm < 0.026);
  CHECK(rig.state.heat_integral_norm > 0.0);
  // Chilled in between, the next batch begins from the bias.
  rig.press(Key::stop);
  rig.press(Key::chill);
  CHECK(rig.state.heat_integral_norm == 0.1);
}

TEST_CASE("on a vat that loses 600 W of 6 kW it settles at the aim, where the bias alone would stay below") {
  Rig rig = heating();
  rig.spec.hold_bias_norm = 0.0;
  rig.state.heat_integral_norm = 0.0;
  double degC = 59.0;
  double lowest = 100.0, highest = 0.0;
  for (int i = 0; i < 150000; ++i) {
    rig.probe(degC);
    degC += 0.1 * (6000.0 * rig.outputs.heat_norm - 600.0) / 170.0e3;
    if (i < 120000) continue;
    lowest = std::min(lowest, degC);
    highest = std::max(highest, degC);
  }
  CHECK(lowest > aim_degC - 0.1);  // the bias alone: 0.8 K below
  CHECK(highest < aim_degC + 0.1);
  CHECK(rig.state.heat_integral_norm == doctest::Approx(0.1).epsilon(0.05));
}

TEST_CASE("a pour's fall of the probe is not taken for a course that goes on") {
  Rig rig;
  rig.spec.chill_lead_s = 32.0;
  rig.probe(22.0);
  rig.set_target(3.0);
  rig.press(Key::chill);
  CHECK(rig.outputs.chill);
  // As a probe in its pocket falls when cold product is poured over it.
  bool on = true;
  for (int i = 0; i < 1000; ++i) {
    rig.probe(5.0 + 17.0 * std::exp(-0.1 * i / 20.0));
    on = on && rig.outputs.chill;
  }
  CHECK(on);
}
