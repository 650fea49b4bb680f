#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "tests/sim_core/control/rig.h"

// The controller against a vat of its own: elements that store heat, a stirred mass, a lagging probe. A
// second method beside the plant model; what counts is that the look-ahead fits its time constants.

using namespace stirbench::control_test;

namespace {

struct PlainVat {
  double mass_kg = 40.0;
  double cp_J_per_kgK = 3600.0;
  double element_J_per_K = 1500.0;  // 3 kg of steel-sheathed elements
  double contact_W_per_K = 60.0;    // time constant 25 s
  double probe_tau_s = 8.0;
  double loss_W_per_K = 4.0;
  double element_degC = 10.0, product_degC = 10.0, probe_degC = 10.0;

  void step(double heat_W, double chill_W, double dt_s) {
    const double through_W = contact_W_per_K * (element_degC - product_degC);
    element_degC += dt_s * (heat_W - through_W) / element_J_per_K;
    product_degC +=
        dt_s * (through_W - chill_W - loss_W_per_K * (product_degC - 22.0)) / (mass_kg * cp_J_per_kgK);
    probe_degC += dt_s * (product_degC - probe_degC) / probe_tau_s;
  }
};

void follow(Rig& rig, PlainVat& vat, int scans) {
  for (int i = 0; i < scans; ++i) {
    rig.probe(vat.probe_degC);
    vat.step(6000.0 * rig.actuators.heat_norm, rig.actuators.chiller_on ? 2800.0 : 0.0, 0.1);
  }
}

}  // namespace

TEST_CASE("heat is taken back before the target: overshoot stays within 2 K at half and full load") {
  for (const double mass_kg : {18.0, 30.0, 45.0}) {
    CAPTURE(mass_kg);
    Rig rig;
    PlainVat vat;
    vat.mass_kg = mass_kg;
    rig.choose();
    rig.state.phase = 2;  // heat to 85, then hold 30 s
    follow(rig, vat, 1);
    rig.press(Key::run);
    double highest = 0.0;
    int holds_restarted = 0;
    int scans = 0;
    while (rig.state.phase < 4 && scans < 200000) {
      follow(rig, vat, 1);
      highest = std::max(highest, vat.probe_degC);
      holds_restarted += rig.count(Notice::hold_restarted);
      ++scans;
    }
    CHECK(rig.state.phase == 4);
    CHECK(holds_restarted == 0);
    CHECK(highest >= 85.0);
    CHECK(highest <= 87.0);
    // Nor does the caution cost time: no more than 1.1 of the time that the bare energy needs, the hold
    // apart.
    const double bare_s = mass_kg * vat.cp_J_per_kgK * 75.0 / 6000.0;
    CAPTURE(highest);
    CHECK(0.1 * scans - 30.0 < 1.15 * bare_s + 60.0);
  }
}

TEST_CASE("a long hold stays above its target and switches seldom") {
  Rig rig;
  rig.recipes[0].phases[3].duration_s = 1800.0;
  rig.recipes[0].phases[3].target_degC = 69.0;
  PlainVat vat;
  vat.loss_W_per_K = 15.0;
  vat.element_degC = vat.product_degC = vat.probe_degC = 68.0;
  rig.probe(68.0);
  rig.choose();
  rig.state.phase = 3;
  rig.press(Key::run);
  int switched = 0;
  int restarted = 0;
  double lowest = 1000.0;
  bool before = false;
  bool reached = false;
  for (int i = 0; i < 20000 && rig.state.phase == 3; ++i) {
    follow(rig, vat, 1);
    reached = reached || vat.probe_degC >= 69.0;
    if (reached) lowest = std::min(lowest, vat.probe_degC);
    switched += rig.state.heat_demand != before ? 1 : 0;
    before = rig.state.heat_demand;
    restarted += rig.count(Notice::hold_restarted);
  }
  CHECK(rig.state.phase == 4);
  CHECK(restarted == 0);
  CHECK(lowest >= 69.0);
  CHECK(switched < 60);  // under one switching in half a minute: kind to the contactor
}
