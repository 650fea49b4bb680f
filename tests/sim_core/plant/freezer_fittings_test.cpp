#include <doctest/doctest.h>

#include <algorithm>

#include "tests/sim_core/plant/freezer_rig.h"

// The freezer's drain, selector and rinse water.
using namespace stirbench;
using namespace stirbench::tests;
using namespace stirbench::plant;
using namespace stirbench::tests::freezer;

TEST_CASE(
    "the open drain: Torricelli for water, the pipe's friction for syrup; a charge over an open drain is "
    "lost, to the gram") {
  // Q = 0.6 A sqrt(2 g h): 15 mm bore under 0.2 m is 12.6 L/min; the pipe's own friction takes little of it
  // for water.
  CHECK(drain_L_per_min(0.2, 1.0e-3, 1000.0) == doctest::Approx(12.6).epsilon(0.03));
  // Hagen-Poiseuille alone for 10 Pa s: pi D^4 rho g (h + L) / (128 mu L) = 0.2193 L/min.
  CHECK(drain_L_per_min(0.2, 10.0, 1000.0) == doctest::Approx(0.2193).epsilon(0.02));
  CHECK(drain_L_per_min(0.0, 1.0e-3, 1000.0) == 0.0);
  Rig rig = charged({});
  FreezerState& f = rig.state.freezer;
  const double before_kg = f.product.total_kg();
  f.drain_open = true;
  rig.run(nothing, 300.0);
  CHECK(f.ledger.drained_kg > 0.95 * before_kg);
  CHECK(freezer_mass_residual_kg(f) == doctest::Approx(0.0).epsilon(1e-9));
  accounts_close(f);
}

TEST_CASE(
    "the dasher alone does not cool; keeping holds a ready charge within a kelvin and rests most of the "
    "time") {
  Rig alone = charged({});
  alone.state.freezer.inlet_open = false;
  alone.state.freezer.setting = FreezerSetting::dasher;
  const double before_degC = alone.state.freezer.degC;
  start_freezer(alone.state.freezer);
  alone.run(nothing, 600.0);
  CHECK(alone.state.freezer.degC > before_degC);
  CHECK(alone.state.freezer.ice_kg == 0.0);
  CHECK(alone.state.freezer.freezing_s == 0.0);
  accounts_close(alone.state.freezer);

  Rig rig = charged({});
  rig.state.freezer.inlet_open = false;
  frozen(rig);
  FreezerState& f = rig.state.freezer;
  REQUIRE(f.running);
  f.setting = FreezerSetting::keep;
  rig.run(nothing, 120.0);
  double coldest = 0.0, warmest = -60.0, rested_s = 0.0;
  const double air_L = f.air_L;
  for (int minute = 0; minute < 60; ++minute) {
    rig.run(nothing, 60.0);
    coldest = std::min(coldest, f.degC);
    warmest = std::max(warmest, f.degC);
    rested_s += f.resting ? 60.0 : 0.0;
  }
  CHECK(coldest > rig.spec.freezer.ready_degC - 1.0);
  CHECK(warmest < rig.spec.freezer.ready_degC + 1.5);
  CHECK(rested_s > 1800.0);
  CHECK(f.air_L > 0.9 * air_L);
  accounts_close(f);
}

TEST_CASE(
    "rinse water that stays: the next charge is thinner and freezes higher; water alone freezes the blades "
    "in") {
  const auto with_water = [](double kg) {
    Rig rig = charged({.litres = 4.5});
    if (kg > 0.0) pour_water(rig.spec.freezer, rig.state, kg, 15.0);
    rig.state.freezer.inlet_open = false;
    frozen(rig);
    return rig.state.freezer;
  };
  const FreezerState good = with_water(0.0);
  const FreezerState wet = with_water(1.0);
  // At the same temperature more of it is ice: what is dissolved is spread over more water.
  CHECK(frozen_water_norm(wet) > frozen_water_norm(good) + 0.02);
  accounts_close(wet);

  Rig rig(hm45_spec());
  pour_water(rig.spec.freezer, rig.state, 1.0, 15.0);
  rig.state.freezer.inlet_open = false;
  start_freezer(rig.state.freezer);
  rig.run_until(nothing, 3600.0, [&] { return rig.state.freezer.tripped; });
  CHECK(rig.state.freezer.tripped);
  accounts_close(rig.state.freezer);
}
