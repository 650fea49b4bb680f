#include <doctest/doctest.h>

#include "sim_core/product/kinetics.h"
#include "sim_core/product/properties.h"
#include "tests/sim_core/plant/machine.h"

// Whole batches: pace and accounts.
using namespace stirbench;
using namespace stirbench::tests;

namespace {

// Energy within 0.01 % of what moved, mass to rounding (the bar is 0.1 %).
void check_accounts(const Rig& rig) {
  CHECK(rig.residual_norm() < 1.0e-4);
  CHECK(std::abs(plant::mass_residual_kg(rig.state)) < 1.0e-9);
}

}  // namespace

TEST_CASE("40 kg of water from 10 to 80 degC on 6 kW takes m cp dT / P to 1.15 times that") {
  Rig rig(hm45_spec());
  rig.pour(plain_water(), 40.0, 10.0);
  const double start_J = product::enthalpy_J(rig.state.product.mass_kg, 10.0);
  const double needed_J = product::enthalpy_J(rig.state.product.mass_kg, 80.0) - start_J;
  const double least_s = needed_J / 6000.0;
  CHECK(least_s == doctest::Approx(40.0 * 4184.0 * 70.0 / 6000.0).epsilon(0.003));
  const double took_s = rig.run_until(heat_and_stir, 4000.0, [&] { return rig.mean_degC() >= 80.0; });
  CHECK(took_s > least_s);
  CHECK(took_s < 1.15 * least_s);
  check_accounts(rig);
}

TEST_CASE("a full batch of base: 8 to 85 degC, back to 3 degC") {
  Rig rig(hm45_spec());
  rig.pour(white_base(), 48.5, 8.0);
  CHECK(plant::fill_L(rig.state) == doctest::Approx(44.2).epsilon(0.01));
  const double up_s = rig.run_until(heat_and_stir, 6000.0, [&] { return rig.mean_degC() >= 85.0; });
  CHECK(up_s > 30.0 * 60.0);
  CHECK(up_s < 45.0 * 60.0);
  // What is heated keeps flowing: the well is 2 to 4 K above the vat. On full power to the end, without the
  // controller's taper, the wall is 15 to 30 K over the well.
  CHECK(rig.state.well_degC - rig.state.vat_degC > 1.7);
  CHECK(rig.state.well_degC - rig.state.vat_degC < 4.0);
  CHECK(rig.state.well_wall_degC - rig.state.well_degC > 12.0);
  CHECK(rig.state.well_wall_degC - rig.state.well_degC < 30.0);
  CHECK(rig.state.flows.circulation_L_per_min == doctest::Approx(40.0).epsilon(0.1));
  check_accounts(rig);

  const double down_s = rig.run_until(chill_and_stir, 5.0 * 3600.0, [&] { return rig.mean_degC() <= 3.0; });
  // 12.9 MJ and the metal at 2.2 to 2.8 kW.
  CHECK(down_s > 1.2 * 3600.0);
  CHECK(down_s < 2.5 * 3600.0);
  CHECK(rig.state.flows.suction_bar < rig.state.flows.discharge_bar);
  CHECK(rig.state.wall_ice_kg == 0.0);
  check_accounts(rig);
  MESSAGE("up " << up_s / 60.0 << " min, down " << down_s / 60.0 << " min, residual " << rig.residual_norm());
}

TEST_CASE("half load, water and the small machine close their accounts too") {
  Rig half(hm45_spec());
  half.pour(white_base(), 22.0, 6.0);
  half.run_until(heat_and_stir, 3600.0, [&] { return half.mean_degC() >= 85.0; });
  half.state.fittings.lid_open = true;
  half.run(stir_only, 300.0);
  half.state.fittings.lid_open = false;
  half.run_until(chill_and_stir, 7200.0, [&] { return half.mean_degC() <= 4.0; });
  check_accounts(half);

  Rig water(hm45_spec());
  water.pour(plain_water(), 44.0, 12.0);
  water.run(heat_and_stir, 2400.0);
  water.run(chill_and_stir, 2400.0);
  check_accounts(water);

  Rig small(hm20_spec());
  small.pour(white_base(), 21.5, 8.0);
  const double up_s = small.run_until(heat_and_stir, 6000.0, [&] { return small.mean_degC() >= 85.0; });
  CHECK(up_s > 25.0 * 60.0);
  CHECK(up_s < 45.0 * 60.0);
  const double down_s =
      small.run_until(chill_and_stir, 4.0 * 3600.0, [&] { return small.mean_degC() <= 3.0; });
  CHECK(down_s < 2.5 * 3600.0);
  check_accounts(small);
}

TEST_CASE("chilling takes longer when over-full and when the room is hot") {
  const auto chill_s = [](double kg, double ambient_degC) {
    Rig rig(hm45_spec(), ambient_degC);
    rig.pour(white_base(), kg, 85.0);
    return rig.run_until(chill_and_stir, 6.0 * 3600.0, [&] { return rig.mean_degC() <= 3.0; });
  };
  const double usual_s = chill_s(48.5, 22.0);
  CHECK(chill_s(53.0, 22.0) > 1.05 * usual_s);
  CHECK(chill_s(48.5, 36.0) > 1.10 * usual_s);
}

TEST_CASE("slack supply: heat goes with the square of the voltage") {
  const auto rise_K = [](double supply) {
    Rig rig(hm45_spec());
    rig.state.environment.supply_norm = supply;
    rig.pour(plain_water(), 40.0, 22.0);
    rig.run(heat_and_stir, 1200.0);
    return rig.mean_degC() - 22.0;
  };
  CHECK(rise_K(0.9) / rise_K(1.0) == doctest::Approx(0.81).epsilon(0.02));
}

TEST_CASE("smaller ticks give the same temperatures within 0.05 K") {
  // Self-convergence: a tenth of the tick is as good as exact for fluxes that are explicit.
  const auto at_end = [](double dt_s) {
    Rig rig(hm45_spec());
    rig.pour(white_base(), 40.0, 8.0);
    const auto run = [&](const plant::Actuators& relays, double seconds) {
      for (long n = std::lround(seconds / dt_s); n > 0; --n) plant::step(rig.spec, rig.state, relays, dt_s);
    };
    run(heat_and_stir, 1500.0);
    run(chill_and_stir, 900.0);
    return rig.state;
  };
  const plant::PlantState coarse = at_end(0.1);
  const plant::PlantState fine = at_end(0.01);
  CHECK(std::abs(coarse.well_degC - fine.well_degC) < 0.05);
  CHECK(std::abs(coarse.vat_degC - fine.vat_degC) < 0.05);
  CHECK(std::abs(coarse.well_wall_degC - fine.well_wall_degC) < 0.05);
  CHECK(std::abs(coarse.evaporator_degC - fine.evaporator_degC) < 0.05);
}

TEST_CASE("lethality taken once a second is that of every tick") {
  Rig rig(hm45_spec());
  rig.pour(white_base(), 45.0, 60.0);
  double every_tick_s = 0.0;
  const auto run = [&](const plant::Actuators& relays, double seconds) {
    for (long n = std::lround(10.0 * seconds); n > 0; --n) {
      const double before = std::min(rig.state.well_degC, rig.state.vat_degC);
      plant::step(rig.spec, rig.state, relays, 0.1);
      const double after = std::min(rig.state.well_degC, rig.state.vat_degC);
      every_tick_s += 0.1 * product::lethal_rate(0.5 * (before + after));
    }
  };
  run(heat_and_stir, 800.0);
  run(chill_and_stir, 600.0);
  CHECK(every_tick_s > 100.0);
  CHECK(rig.state.product.lethality_s == doctest::Approx(every_tick_s).epsilon(0.001));
}
