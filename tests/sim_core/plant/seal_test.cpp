#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/plant/upkeep/seal.h"
#include "sim_core/plant/upkeep/service.h"
#include "sim_core/plant/upkeep/vanes.h"
#include "tests/sim_core/plant/machine.h"

// The shaft's seal and its drip tray; the pump's vanes on the service sheet; dew that runs to the floor.
using namespace stirbench;
using namespace stirbench::plant;
using namespace stirbench::tests;

namespace {

constexpr plant::Actuators only_stirring{0.0, true, false};
constexpr plant::Actuators all_off{0.0, false, false};

Rig of_water(double kg) {
  Rig rig(hm45_spec());
  rig.pour(plain_water(), kg, 20.0);
  rig.run(all_off, 1.0);
  return rig;
}

ServiceLine sheet_line(const Rig& rig, std::string_view key) {
  for (const ServiceLine& line : service_forecast(rig.spec, rig.state))
    if (line.key == key) return line;
  return {};
}

}  // namespace

TEST_CASE("a new seal keeps tight; a worn one leaks as a slot does: with its cube and the head") {
  Rig rig = of_water(40.0);
  CHECK(seal_leak_kg_per_s(rig.spec, rig.state) == 0.0);
  rig.state.seal.wear_norm = 1.0;
  const double whole = seal_leak_kg_per_s(rig.spec, rig.state);
  // By hand: pi d c^3 dp / (12 mu L), 133 mm of well and (40 - 6) L in a vat of 380 mm above it.
  const double pi = 3.14159265358979;
  const double level_m =
      6.0e-3 / (0.25 * pi * 0.24 * 0.24) + (1.0e-3 * fill_L(rig.state) - 6.0e-3) / (0.25 * pi * 0.38 * 0.38);
  const double density = rig.state.coefficients.density_kg_per_m3;
  const double viscosity = rig.state.coefficients.viscosity_Pa_s;
  const double by_hand =
      density * pi * 0.025 * std::pow(3.0e-5, 3) * density * 9.81 * level_m / (12.0 * viscosity * 0.002);
  CHECK(whole == doctest::Approx(by_hand).epsilon(1e-9));
  rig.state.seal.wear_norm = seal_due_norm;
  CHECK(seal_leak_kg_per_s(rig.spec, rig.state) == doctest::Approx(0.125 * whole));
  // The fault opens it as wear does; a base leaks less.
  rig.state.seal.wear_norm = 0.0;
  rig.state.health.seal_gap_norm = 2.0;
  CHECK(seal_leak_kg_per_s(rig.spec, rig.state) == doctest::Approx(8.0 * whole));
  Rig base(hm45_spec());
  base.pour(white_base(), 40.0, 20.0);
  base.run(all_off, 1.0);
  base.state.seal.wear_norm = 1.0;
  CHECK(seal_leak_kg_per_s(base.spec, base.state) < 0.2 * whole);
  Rig empty(hm45_spec());
  empty.state.seal.wear_norm = 1.0;
  CHECK(seal_leak_kg_per_s(empty.spec, empty.state) == 0.0);
}

TEST_CASE("what leaks fills the tray, then the floor; mass and energy close") {
  Rig rig = of_water(40.0);
  rig.state.health.seal_gap_norm = 1.5;
  const double before = rig.state.product.total_kg();
  rig.run(only_stirring, 600.0);
  const double lost = before - rig.state.product.total_kg();
  CHECK(lost > rig.spec.seal.tray_kg);
  CHECK(rig.state.seal.tray_kg == doctest::Approx(rig.spec.seal.tray_kg));
  CHECK(rig.state.floor_kg + rig.state.seal.tray_kg ==
        doctest::Approx(rig.state.masses.spilled_kg).epsilon(1e-9));
  CHECK(std::abs(mass_residual_kg(rig.state)) < 1e-9);
  CHECK(std::abs(residual_J(rig.spec, rig.state)) < 1e-4 * moved_J(rig.state.ledger) + 1.0);
}

TEST_CASE("a seal wears by its hours in product and two hundred times as fast dry") {
  Rig wet = of_water(30.0);
  wet.run(only_stirring, 1200.0);
  const double turned_h = wet.state.assembly.turned_s / 3600.0;
  CHECK(wet.state.seal.wear_norm == doctest::Approx(turned_h / wet.spec.seal.life_h).epsilon(0.01));
  Rig dry(hm45_spec());
  dry.run(only_stirring, 1200.0);
  CHECK(dry.state.seal.wear_norm > 100.0 * wet.state.seal.wear_norm);
  const ServiceLine line = sheet_line(wet, "shaft_seal");
  CHECK(line.hours_left ==
        doctest::Approx((seal_due_norm - wet.state.seal.wear_norm) * wet.spec.seal.life_h));
  replace_seal(wet.state);
  CHECK(sheet_line(wet, "shaft_seal").hours_left == doctest::Approx(seal_due_norm * wet.spec.seal.life_h));
}

TEST_CASE(
    "the pump's vanes stand on the service sheet, due when a fifth of the flow is gone; torn they pulse") {
  Rig rig = of_water(30.0);
  const ServiceLine fresh = sheet_line(rig, "pump_vanes");
  CHECK(fresh.hours_left == doctest::Approx(vanes_due_norm * rig.spec.pump.vane_life_h).epsilon(1e-3));
  CHECK(vane_pulse_norm(rig.state.vanes) < 1.0e-4);
  rig.state.vanes.wear_norm = vanes_due_norm;
  CHECK(sheet_line(rig, "pump_vanes").due());
  CHECK(vane_flow_norm(rig.state.vanes) == doctest::Approx(0.8));
  rig.state.vanes.wear_norm = 1.0;
  CHECK(vane_pulse_norm(rig.state.vanes) > 0.3);
  replace_vanes(rig.state);
  CHECK_FALSE(sheet_line(rig, "pump_vanes").due());
}

TEST_CASE("a cold vat in a damp room: dew beyond what clings runs to the floor and dries there again") {
  Rig rig(hm45_spec(), 32.0);
  rig.state.environment.humidity_norm = 0.95;
  rig.pour(plain_water(), 40.0, 2.0);
  rig.run(all_off, 60.0);
  const double most_kg = 0.1 * rig.spec.vat.wall_area_m2;
  rig.state.dew_kg = most_kg;
  const double rate = rig.state.coefficients.dew_kg_per_s;
  REQUIRE(rate > 0.0);
  // As much as settles meanwhile, less what has dried (600 s of four hours).
  double settled_kg = 0.0;
  for (int second = 0; second < 600; ++second) {
    rig.run(all_off, 1.0);
    settled_kg += rig.state.coefficients.dew_kg_per_s;
  }
  CHECK(rig.state.dew_kg == doctest::Approx(most_kg));
  CHECK(rig.state.floor_water_kg < settled_kg);
  CHECK(rig.state.floor_water_kg > 0.95 * settled_kg);
  const double wet_kg = rig.state.floor_water_kg;
  rig.state.environment.humidity_norm = 0.2;
  rig.run(all_off, 3600.0);
  CHECK(rig.state.floor_water_kg < 0.9 * wet_kg);
}

// A motor that magnetises itself with nine tenths of its idle current shows a load of a tenth to a fifth of
// its own in watts, not in amperes.
TEST_CASE("the drive tells water from cold base by its power and torque; by its current hardly") {
  Rig water = of_water(42.0);
  water.run(only_stirring, 60.0);
  Rig base(hm45_spec());
  base.pour(white_base(), 45.0, 4.0);
  base.run(only_stirring, 60.0);
  const Flows& thin = water.state.flows;
  const Flows& thick = base.state.flows;
  CHECK(thick.motor_A / thin.motor_A < 1.05);
  CHECK(thick.motor_A > thin.motor_A);
  CHECK(thick.drive_W / thin.drive_W > 1.2);
  CHECK(thick.torque_Nm / thin.torque_Nm > 1.8);
  // Handbook: 0.2 .. 0.5 kW/m3 for mild, 0.5 .. 1.5 for strong stirring (from memory); the motor is
  // large for its running load because of what it must start in: cold thick product, and dry vanes.
  const auto kW_per_m3 = [](const Rig& rig) {
    return rig.state.coefficients.agitator_torque_Nm * rig.state.shaft_rad_per_s / fill_L(rig.state);
  };
  CHECK(kW_per_m3(water) > 0.2);
  CHECK(kW_per_m3(base) < 1.5);
}
