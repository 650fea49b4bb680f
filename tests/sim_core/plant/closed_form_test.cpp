#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/plant/heat.h"
#include "sim_core/product/properties.h"
#include "tests/sim_core/plant/machine.h"

// The heat network against solutions on paper.
using namespace stirbench;
using namespace stirbench::tests;
using namespace stirbench::plant;

namespace {

// A machine whose parts touch nothing but each other.
MachineSpec isolated() {
  MachineSpec m = hm45_spec();
  m.vat.loss_W_per_K = 0.0;
  m.well.loss_W_per_K = 0.0;
  m.chiller.wall_W_per_K = 0.0;
  return m;
}

}  // namespace

TEST_CASE("two bodies: the difference dies away as exp(-G t (1/C1 + 1/C2))") {
  const MachineSpec m = isolated();
  PlantState s;
  s.element_degC = 100.0;
  s.well_wall_degC = 20.0;
  const double rate = m.elements.contact_W_per_K * (1.0 / (m.elements.mass_kg * m.elements.cp_J_per_kgK) +
                                                    1.0 / (m.well.wall_mass_kg * m.well.wall_cp_J_per_kgK));
  for (int i = 0; i < 2000; ++i) move_heat(m, s, zones(s), {}, 0.01);
  CHECK(s.element_degC - s.well_wall_degC == doctest::Approx(80.0 * std::exp(-20.0 * rate)).epsilon(0.001));
  const double mean =
      (m.elements.mass_kg * m.elements.cp_J_per_kgK * 100.0 +
       m.well.wall_mass_kg * m.well.wall_cp_J_per_kgK * 20.0) /
      (m.elements.mass_kg * m.elements.cp_J_per_kgK + m.well.wall_mass_kg * m.well.wall_cp_J_per_kgK);
  for (int i = 0; i < 20000; ++i) move_heat(m, s, zones(s), {}, 0.01);
  CHECK(s.element_degC == doctest::Approx(mean).epsilon(1e-9));
}

TEST_CASE("lumped heat-up: Earle's pan of soup") {
  // Earle, Unit Operations in Food Processing, ch. 5 ex. 6: 50 kg, cp 3.95 kJ/(kg K), U 300 W/(m2 K), A 1 m2,
  // steam 120 degC, 18 to 90 degC: t = (m cp / UA) ln[(Ts - T0)/(Ts - T1)] = 806 s (from memory, recomputed).
  MachineSpec m = isolated();
  m.well.wall_mass_kg = 1.0e9;
  m.elements.contact_W_per_K = 0.0;
  m.vat.lid_area_m2 = 0.0;
  PlantState s;
  s.product.mass_kg[product::Component::water] = 50.0;
  s.well_kg = 50.0;
  s.well_degC = s.vat_degC = 18.0;
  s.well_wall_degC = 120.0;
  s.coefficients.well_cp_J_per_kgK = s.coefficients.vat_cp_J_per_kgK = 3950.0;
  s.coefficients.well_wall_W_per_K = 300.0;
  s.coefficients.boiling_point_degC = 500.0;
  double t_s = 0.0;
  while (s.well_degC < 90.0 && t_s < 2000.0) {
    move_heat(m, s, zones(s), {}, 0.1);
    t_s += 0.1;
  }
  CHECK(t_s == doctest::Approx(50.0 * 3950.0 / 300.0 * std::log(102.0 / 30.0)).epsilon(0.001));
  CHECK(t_s == doctest::Approx(806.0).epsilon(0.002));
}

TEST_CASE("without losses all the power is stored: dT/dt = P / sum of m cp") {
  MachineSpec m = isolated();
  m.vat.lid_area_m2 = 0.0;
  m.vat.lid_vapour_leak_norm = 0.0;
  m.vat.diameter_m = 0.05;  // next to no surface
  m.vat.wall_area_m2 = 0.4;
  Rig rig(m);
  rig.pour(plain_water(), 40.0, 22.0);
  rig.run(heat_and_stir, 600.0);
  const double early_degC = rig.mean_degC();
  const double early_J = rig.state.ledger.heaters_J + rig.state.ledger.drive_J;
  rig.run(heat_and_stir, 1200.0);
  const double product_J = product::enthalpy_J(rig.state.product.mass_kg, rig.mean_degC()) -
                           product::enthalpy_J(rig.state.product.mass_kg, early_degC);
  const double metal_J_per_K =
      m.elements.mass_kg * 500.0 + m.well.wall_mass_kg * 500.0 + m.vat.wall_mass_kg * 500.0;
  const double stored_J = product_J + metal_J_per_K * (rig.mean_degC() - early_degC);
  CHECK(stored_J ==
        doctest::Approx(rig.state.ledger.heaters_J + rig.state.ledger.drive_J - early_J).epsilon(0.003));
}

TEST_CASE("a stiff link never overshoots") {
  const MachineSpec m = isolated();
  PlantState s;
  s.product.mass_kg[product::Component::water] = 0.01;
  s.well_kg = 0.01;
  s.well_degC = s.vat_degC = 10.0;
  s.well_wall_degC = 90.0;
  s.coefficients.well_wall_W_per_K = 5000.0;
  for (int i = 0; i < 100; ++i) {
    move_heat(m, s, zones(s), {}, 1.0);
    CHECK(s.well_degC <= 90.0);
    CHECK(s.well_degC >= 10.0);
  }
  CHECK(std::abs(s.well_degC - s.well_wall_degC) < 2.0);
}

TEST_CASE("ice takes and gives back 333.6 kJ/kg") {
  Rig rig(hm45_spec());
  rig.pour(plain_water(), 30.0, 3.0);
  rig.run({0.0, false, true}, 3600.0);
  CHECK(rig.state.wall_ice_kg > 0.3);
  CHECK(rig.residual_norm() < 1.0e-4);
  // Molten again by stirring and the warmth of the room: the water has what it had but for the ledger's
  // fluxes.
  rig.run_until(heat_and_stir, 3600.0, [&] { return rig.state.wall_ice_kg <= 0.0; });
  CHECK(rig.state.wall_ice_kg == 0.0);
  rig.run(stir_only, 60.0);
  CHECK(rig.residual_norm() < 1.0e-4);
}

TEST_CASE("mixing two waters: the temperature of the mix") {
  Rig rig(hm45_spec());
  rig.pour(plain_water(), 20.0, 20.0);
  rig.pour(plain_water(), 10.0, 80.0);
  const double mixed_J = 20.0 * product::component_enthalpy_J_per_kg(product::Component::water, 20.0) +
                         10.0 * product::component_enthalpy_J_per_kg(product::Component::water, 80.0);
  const double stored_J = rig.state.well_J + rig.state.vat_J;
  CHECK(stored_J == doctest::Approx(mixed_J).epsilon(1e-9));
  CHECK(rig.mean_degC() == doctest::Approx(40.0).epsilon(0.01));
  CHECK(std::abs(residual_J(rig.spec, rig.state)) < 1.0);
}
