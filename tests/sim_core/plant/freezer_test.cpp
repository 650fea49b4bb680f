#include <doctest/doctest.h>

#include <algorithm>

#include "sim_core/plant/freezer/freezer.h"
#include "sim_core/plant/freezer/freezer_laws.h"
#include "sim_core/plant/hose.h"
#include "sim_core/plant/pump_and_draw.h"
#include "tests/sim_core/plant/freezer_rig.h"

// The batch freezer as people who work with one expect it. Windows of time and temperature: common practice.
using namespace stirbench;
using namespace stirbench::tests;
using namespace stirbench::plant;

using namespace stirbench::tests::freezer;

TEST_CASE("a proper charge is ready in 8 to 12 minutes, a third to half of its water frozen") {
  for (const bool small : {false, true}) {
    CAPTURE(small);
    Rig rig = charged({.litres = small ? 2.8 : 5.5}, small ? hm20_spec() : hm45_spec());
    rig.state.freezer.inlet_open = false;
    start_freezer(rig.state.freezer);
    CHECK(freezer_mode(rig.state.freezer) == FreezerMode::freezing);
    rig.run_until(nothing, 3600.0, [&] { return rig.state.freezer.ready_s >= 0.0; });
    const FreezerState& f = rig.state.freezer;
    CHECK(freezer_mode(f) == FreezerMode::ready);
    CHECK(f.ready_s > 8.0 * 60.0);
    CHECK(f.ready_s < 12.0 * 60.0);
    CHECK(f.degC > -8.0);
    CHECK(f.degC < -5.0);
    CHECK(frozen_water_norm(f) > 0.30);
    CHECK(frozen_water_norm(f) < 0.52);
    CHECK(overrun_norm(f) > 0.30);
    CHECK(overrun_norm(f) < 0.60);
    CHECK(texture_um(f) > 20.0);
    CHECK(texture_um(f) < 45.0);
    CHECK_FALSE(f.tripped);
    // Weighing a litre says the same as the volumes.
    const double density = f.product.total_kg() / mix_L(f);
    CHECK(overrun_by_weight(density, kg_per_L(f)) == doctest::Approx(overrun_norm(f)).epsilon(1e-9));
    accounts_close(f);
    // Drawn within a few minutes, all of it, hardly warmer than it was.
    const double kg = f.product.total_kg();
    const double ready_degC = f.degC;
    rig.state.freezer.gate_norm = 1.0;
    CHECK(freezer_mode(f) == FreezerMode::emptying);
    const double drawn_s = rig.run_until(nothing, 900.0, [&] { return f.product.total_kg() <= 0.0; });
    CHECK(drawn_s > 60.0);
    CHECK(drawn_s < 240.0);
    CHECK(f.tub.total_kg() == doctest::Approx(kg).epsilon(1e-9));
    CHECK(f.tub_degC < ready_degC + 0.8);
    accounts_close(f);
  }
}

TEST_CASE("over-charged: longer, and no room for air") {
  const Frozen proper = frozen(Charge{});
  const Frozen over = frozen(Charge{.litres = 8.5});
  CHECK(over.minutes > 1.3 * proper.minutes);
  CHECK(overrun_norm(over.freezer) < 0.5 * overrun_norm(proper.freezer));
  accounts_close(over.freezer);
}

TEST_CASE("over-charged the dasher is buried and trips where a proper charge still turns") {
  Rig proper = charged({});
  Rig over = charged({.litres = 9.0});
  for (Rig* rig : {&proper, &over}) rig->state.freezer.inlet_open = false;
  const Frozen a = frozen(proper, -5.5);
  const Frozen b = frozen(over, -5.5);
  CHECK_FALSE(a.freezer.tripped);
  CHECK(b.freezer.torque_Nm > 1.1 * a.freezer.torque_Nm);
  over.run_until(nothing, 600.0, [&] { return over.state.freezer.tripped; });
  CHECK(over.state.freezer.tripped);
  // At rest nothing is chilled any more, and it does not start again by itself.
  over.run(nothing, 2.0);
  CHECK(over.state.freezer.refrigeration_W == 0.0);
  CHECK_FALSE(over.state.freezer.running);
  reset_freezer(over.state.freezer);
  CHECK(over.state.freezer.tripped);
  over.run(nothing, 120.0);
  reset_freezer(over.state.freezer);
  CHECK_FALSE(over.state.freezer.tripped);
}

TEST_CASE("a cylinder that is filled to the top runs over, and throws mix out of an open inlet") {
  Rig rig = charged({.litres = 10.9});
  const double before_kg = rig.state.floor_kg;
  rig.state.fittings.draw_opening_norm = 0.2;
  rig.run(stir_only, 10.0);
  const FreezerState& f = rig.state.freezer;
  CHECK(f.overflow_L_per_min > 1.0);
  CHECK(f.ledger.spilled_kg > 0.5);
  CHECK(rig.state.floor_kg - before_kg == doctest::Approx(f.ledger.spilled_kg).epsilon(1e-9));
  rig.state.fittings.draw_opening_norm = 0.0;
  rig.run(nothing, 5.0);
  CHECK(f.overflow_L_per_min < 1.0e-2);  // warming in the room it still swells a little
  // The dasher throws while the inlet is open.
  const double still_kg = f.ledger.spilled_kg;
  start_freezer(rig.state.freezer);
  rig.run(nothing, 60.0);
  CHECK(f.ledger.spilled_kg > still_kg + 0.1);
  rig.state.freezer.inlet_open = false;
  const double shut_kg = f.ledger.spilled_kg;
  rig.run(nothing, 10.0);
  CHECK(f.ledger.spilled_kg == doctest::Approx(shut_kg).epsilon(1e-12));
  accounts_close(f);
  CHECK(std::abs(mass_residual_kg(rig.state)) < 1.0e-9);
}

TEST_CASE("under-charged: quick, slapping instead of beating, flakes from the wall") {
  const Frozen proper = frozen(Charge{});
  const Frozen under = frozen(Charge{.litres = 1.2});
  CHECK(under.minutes < 0.5 * proper.minutes);
  CHECK(overrun_norm(under.freezer) < 0.4 * overrun_norm(proper.freezer));
  CHECK(texture_um(under.freezer) > 1.2 * texture_um(proper.freezer));
  CHECK(under.freezer.flake_kg > 0.2 * under.freezer.ice_kg);
  CHECK(proper.freezer.flake_kg < 0.05 * proper.freezer.ice_kg);
  // The little load pulls the unit's evaporating temperature down.
  CHECK(under.freezer.evaporating_degC < proper.freezer.evaporating_degC - 3.0);
}

TEST_CASE("un-aged mix: less overrun, more slowly taken in, and softer at the same temperature") {
  const Frozen aged = frozen(Charge{.age_norm = 1.0});
  const Frozen fresh = frozen(Charge{.age_norm = 0.0});
  CHECK(overrun_norm(fresh.freezer) < 0.7 * overrun_norm(aged.freezer));
  CHECK(fresh.freezer.viscosity_Pa_s < 0.9 * aged.freezer.viscosity_Pa_s);
  CHECK(fresh.freezer.torque_Nm < aged.freezer.torque_Nm);
  // As many minutes of beating bring the un-aged mix less far.
  Rig a = charged({.age_norm = 1.0});
  Rig b = charged({.age_norm = 0.0});
  for (Rig* rig : {&a, &b}) {
    start_freezer(rig->state.freezer);
    rig->run(nothing, 300.0);
  }
  CHECK(overrun_norm(b.state.freezer) < 0.6 * overrun_norm(a.state.freezer));
}

TEST_CASE("a stabiliser that is not hydrated: thin, and less air stays in") {
  const Frozen good = frozen(Charge{});
  const Frozen dry = frozen(Charge{.dry_gum_norm = 1.0});
  CHECK(overrun_norm(dry.freezer) < 0.9 * overrun_norm(good.freezer));
  CHECK(dry.freezer.viscosity_Pa_s < 0.5 * good.freezer.viscosity_Pa_s);
}

TEST_CASE("charged hot: the unit throttles, it takes far longer") {
  const Frozen proper = frozen(Charge{});
  Rig rig = charged({.degC = 70.0, .age_norm = 0.0});
  rig.state.freezer.inlet_open = false;
  start_freezer(rig.state.freezer);
  rig.run(nothing, 30.0);
  CHECK(rig.state.freezer.evaporating_degC == doctest::Approx(rig.spec.freezer.maximum_evaporating_degC));
  const Frozen hot = frozen(rig);
  CHECK(hot.minutes > 1.8 * proper.minutes);
  CHECK(overrun_norm(hot.freezer) < 0.8 * overrun_norm(proper.freezer));
  accounts_close(hot.freezer);
}

TEST_CASE("left running it gets stiff until the dasher stops on overload") {
  Rig rig = charged({});
  rig.state.freezer.inlet_open = false;
  start_freezer(rig.state.freezer);
  double before_Nm = 0.0;
  rig.run(nothing, 240.0);
  for (int i = 0; i < 4; ++i) {
    rig.run(nothing, 60.0);
    CHECK(rig.state.freezer.torque_Nm > before_Nm);
    before_Nm = rig.state.freezer.torque_Nm;
  }
  const double s = rig.run_until(nothing, 1800.0, [&] { return rig.state.freezer.tripped; });
  CHECK(rig.state.freezer.tripped);
  CHECK(s < 900.0);
}

// By its weight alone: a pump that turns builds up more pressure against thick mix and hides the difference.
TEST_CASE("half-closed draw with cold mix fills the freezer more slowly than with warm") {
  const auto minutes_for = [](double t_degC) {
    Rig rig(hm45_spec());
    rig.pour(white_base(), 40.0, t_degC);
    rig.run(stir_only, 40.0);
    rig.state.fittings.hose = HoseEnd::freezer;
    rig.state.fittings.draw_opening_norm = 0.1;
    rig.run_until(nothing, 60.0, [&] { return rig.state.shaft_rad_per_s <= 0.0; });
    return rig.run_until(nothing, 1800.0, [&] { return mix_L(rig.state.freezer) >= 5.0; });
  };
  CHECK(minutes_for(4.0) > 1.15 * minutes_for(60.0));
}

TEST_CASE("the pump lifts the mix to the inlet; without it a low vat does not reach it") {
  Rig rig(hm45_spec());
  rig.pour(white_base(), 10.0, 5.0);
  rig.run(nothing, 40.0);
  rig.state.fittings.hose = HoseEnd::freezer;
  rig.state.fittings.draw_opening_norm = 0.5;
  rig.run(nothing, 5.0);
  CHECK(rig.state.flows.draw_L_per_min == 0.0);
  rig.run(stir_only, 4.0);
  CHECK(rig.state.flows.draw_L_per_min > 1.0);
  CHECK(rig.state.freezer.inflow_L_per_min == rig.state.flows.draw_L_per_min);
}

TEST_CASE("a closed inlet stops the flow and keeps the hose under pressure until it is released") {
  Rig rig(hm45_spec());
  rig.pour(white_base(), 40.0, 5.0);
  rig.run(stir_only, 40.0);
  rig.state.fittings.hose = HoseEnd::freezer;
  rig.state.fittings.draw_opening_norm = 0.2;
  rig.run(stir_only, 3.0);
  const double flowing_bar = rig.state.freezer.line_bar;
  rig.state.freezer.inlet_open = false;
  rig.run(stir_only, 3.0);
  CHECK(rig.state.flows.draw_L_per_min == 0.0);
  CHECK(rig.state.freezer.line_bar > flowing_bar + 0.02);
  CHECK(rig.state.freezer.line_bar <= rig.spec.pump.shut_off_bar + 0.1);
  // The valve locks it in, also when the pump stops.
  const double held_bar = rig.state.freezer.line_bar;
  rig.state.fittings.draw_opening_norm = 0.0;
  rig.run(nothing, 20.0);
  CHECK(rig.state.freezer.line_bar == held_bar);
  Rig opened = rig;
  opened.state.freezer.inlet_open = true;
  opened.run(nothing, 2.0);
  CHECK(opened.state.freezer.line_bar == 0.0);
  const double before_kg = rig.state.floor_kg;
  CHECK(spray_from_hose(rig.spec, rig.state) > 0.0);
  CHECK(rig.state.floor_kg > before_kg);
  CHECK(rig.state.freezer.line_bar == 0.0);
  CHECK(std::abs(mass_residual_kg(rig.state)) < 1.0e-9);
}

TEST_CASE("the draw valve: a lap first, then slowly, then the whole bore") {
  CHECK(free_area_norm(0.0) == 0.0);
  CHECK(free_area_norm(0.02) == 0.0);  // the O-ring still seals
  CHECK(free_area_norm(1.0) == doctest::Approx(1.0).epsilon(1e-12));
  double before = 0.0;
  for (int i = 4; i <= 100; i += 4) {
    CHECK(free_area_norm(0.01 * i) > before);
    before = free_area_norm(0.01 * i);
  }
  // 5 % of the handle: a dribble, well under 2 L/min.
  Rig rig(hm45_spec());
  rig.pour(white_base(), 40.0, 4.0);
  rig.run(stir_only, 40.0);
  rig.state.fittings.draw_opening_norm = 0.05;
  rig.run(stir_only, 2.0);
  CHECK(rig.state.flows.draw_L_per_min > 0.2);
  CHECK(rig.state.flows.draw_L_per_min < 1.6);
}

TEST_CASE("splash: more from a strong jet and thin product, less through a hose, none under the surface") {
  const auto splash = [](double handle, double t_degC, HoseEnd hose, double pail_kg = 0.0) {
    Rig rig(hm45_spec());
    rig.pour(white_base(), 40.0, t_degC);
    rig.run(stir_only, 40.0);
    rig.state.pail.mass_kg[product::Component::water] = pail_kg;
    rig.state.fittings.hose = hose;
    rig.run_until(nothing, 60.0, [&] { return rig.state.shaft_rad_per_s <= 0.0; });
    rig.state.fittings.draw_opening_norm = handle;
    rig.run(nothing, 1.0);
    return rig.state.flows.splash_L_per_min;
  };
  CHECK(splash(0.3, 80.0, HoseEnd::none) > 3.0 * splash(0.1, 80.0, HoseEnd::none));
  CHECK(splash(0.1, 80.0, HoseEnd::none) > splash(0.1, 4.0, HoseEnd::none));
  CHECK(splash(0.1, 80.0, HoseEnd::pail) < 0.6 * splash(0.1, 80.0, HoseEnd::none));
  CHECK(splash(0.3, 80.0, HoseEnd::pail, 3.0) == 0.0);  // 3 kg cover the hose's end
  CHECK(splash(0.3, 80.0, HoseEnd::none, 3.0) > 0.0);
}

TEST_CASE("power gone: it stops, warms, and does not start by itself when the power is back") {
  Rig rig = charged({});
  start_freezer(rig.state.freezer);
  rig.run(nothing, 240.0);
  const double cold_degC = rig.state.freezer.degC;
  rig.state.environment.supply_norm = 0.0;
  rig.run(nothing, 1200.0);
  CHECK_FALSE(rig.state.freezer.running);
  CHECK(rig.state.freezer.degC >= cold_degC);
  rig.state.environment.supply_norm = 1.0;
  rig.run(nothing, 10.0);
  CHECK_FALSE(rig.state.freezer.running);
  accounts_close(rig.state.freezer);
}

TEST_CASE("melted product loses its air") {
  Rig rig = charged({.litres = 4.0});
  Frozen done = frozen(rig);
  CHECK(overrun_norm(done.freezer) > 0.2);
  stop_freezer(rig.state.freezer);
  rig.run_until(nothing, 40000.0, [&] { return rig.state.freezer.degC > 0.0; });
  rig.run(nothing, 900.0);
  CHECK(overrun_norm(rig.state.freezer) < 0.02);
  CHECK(rig.state.freezer.ice_kg == 0.0);
}

TEST_CASE("random handling: finite, bounded, accounts close") {
  std::uint64_t word = 88172645463325252ULL;
  const auto norm = [&word] {
    word ^= word << 13;
    word ^= word >> 7;
    word ^= word << 17;
    return static_cast<double>(word >> 11) * 0x1.0p-53;
  };
  for (int seed = 0; seed < 12; ++seed) {
    CAPTURE(seed);
    Rig rig(seed % 2 == 0 ? hm45_spec() : hm20_spec());
    rig.pour(white_base(), 0.8 * rig.spec.vat.working_L, 4.0 + 80.0 * norm());
    rig.state.fittings.hose = HoseEnd::freezer;
    bool good = true;
    for (int spell = 0; spell < 60 && good; ++spell) {
      FreezerState& f = rig.state.freezer;
      if (norm() < 0.4) rig.state.fittings.draw_opening_norm = norm() < 0.7 ? 0.0 : 0.4 * norm();
      if (norm() < 0.2) f.inlet_open = !f.inlet_open;
      if (norm() < 0.4 && !f.tripped) start_freezer(f);
      if (norm() < 0.1) stop_freezer(f);
      if (norm() < 0.3) f.gate_norm = norm() < 0.6 ? 0.0 : norm();
      if (norm() < 0.2) reset_freezer(f);
      if (norm() < 0.1) empty_tub(f);
      rig.run(norm() < 0.5 ? stir_only : nothing, 1.0 + 50.0 * norm());
      good = f.degC >= -40.0 && f.degC <= 100.0 && f.ice_kg >= 0.0 && f.air_L >= 0.0 && f.torque_Nm >= 0.0 &&
             f.product.total_kg() >= 0.0 && overrun_norm(f) <= 2.0 &&
             mix_L(f) + f.air_L <= rig.spec.freezer.free_L * 1.05 + 0.1;
    }
    REQUIRE(good);
    accounts_close(rig.state.freezer);
    CHECK(std::abs(mass_residual_kg(rig.state)) < 1.0e-8);
    CHECK(rig.residual_norm() < 1.0e-3);
  }
}
