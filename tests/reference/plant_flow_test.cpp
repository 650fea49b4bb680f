#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "sim_core/plant/plant.h"
#include "sim_core/plant/pump_and_draw.h"
#include "tests/reference/report.h"
#include "tests/support/hm45_spec.h"

// Pipes, valve and emptying against published numbers and closed forms.
using namespace stirbench;
using namespace stirbench::plant;
using product::PowerLaw;

namespace {

using tests::absolute;
using tests::at;
using tests::measured;
using tests::own_arithmetic;
using tests::reference_check;
using tests::relative;
using tests::Source;
using tests::worked_example;

constexpr const char* part = "Pump and draw line";

constexpr double per_L_per_min = 1.0 / 6.0e4;

// A plain cylinder of 0.38 m over a sharp hole, filled with water of 20 degC.
MachineSpec open_tank(double hole_m) {
  MachineSpec m = tests::hm45_spec();
  m.vat.diameter_m = 0.38;
  m.vat.brim_L = 80.0;
  m.well.volume_L = 0.3;
  m.well.diameter_m = 0.38;
  m.draw.valve_bore_m = hole_m;
  m.draw.valve_laminar_K1 = 0.0;  // a hole has no body
  m.draw.outlet_height_m = 0.3e-3 / (0.25 * std::numbers::pi * 0.38 * 0.38);
  return m;
}

PlantState filled(const MachineSpec& m, double height_m) {
  Environment room;
  room.ambient_degC = 20.0;
  PlantState s = initial_state(m, room);
  product::Ingredient water;
  water.fraction[product::Component::water] = 1.0;
  pour(m, s, water, 998.206 * height_m * 0.25 * std::numbers::pi * 0.38 * 0.38, 20.0);
  // The line fills first.
  for (int i = 0; i < 400; ++i) step(m, s, {}, 0.1);
  return s;
}

}  // namespace

TEST_CASE("friction factor: Churchill 1977 in all regimes") {
  const Source source = own_arithmetic("Churchill 1977, by hand", "half of the last digit: 0.05 %");
  reference_check(part, "churchill_friction(1.0e5, 1.0e-4)", churchill_friction(1.0e5, 1.0e-4), 0.0184626,
                  relative(1e-5),
                  worked_example("Churchill 1977, example of an open library", "half of the last digit"));
  const double smooth[][2] = {{1000.0, 0.0640},  {2000.0, 0.03204}, {3000.0, 0.04298},
                              {4000.0, 0.04059}, {1.0e4, 0.03100},  {1.0e5, 0.01788}};
  for (const auto& row : smooth) {
    CAPTURE(row[0]);
    reference_check(part, at("churchill_friction, smooth,", row[0]), churchill_friction(row[0], 0.0), row[1],
                    2 * relative(0.0005), source);
  }
  reference_check(part, "churchill_friction(1.0e6, 1.0e-4)", churchill_friction(1.0e6, 1.0e-4), 0.01351,
                  2 * relative(0.0005), source);
  CHECK(churchill_friction(999.9, 0.0) == doctest::Approx(churchill_friction(1000.1, 0.0)).epsilon(1e-3));
}

TEST_CASE("laminar pipe: Geankoplis 2.9-1") {
  const Source source = worked_example("Geankoplis, example 2.9-1 (from memory, recomputed)",
                                       "three digits of flow and viscosity: 0.25 %");
  // D 2.22 mm, L 0.317 m, rho 875, mu 1.13e-3: 639.8 Pa at 1.066e-6 m3/s (0.275 m/s), from memory,
  // recomputed.
  reference_check(part, "pipe_loss_Pa({1.13e-3, 1.0}, 875.0, 2.22e-3, 0.317, 0.0, 1.066e-6)",
                  pipe_loss_Pa({1.13e-3, 1.0}, 875.0, 2.22e-3, 0.317, 0.0, 1.066e-6), 639.8,
                  2 * relative(0.0025), source);
}

TEST_CASE("turbulent pipe: Geankoplis 2.10-3") {
  const Source source =
      worked_example("Geankoplis, example 2.10-3 (from memory)", "factor 0.0060 read from a chart: 1 %");
  // D 52.5 mm, v 4.57 m/s, rho 801, mu 4.46e-3, L 36.6 m, rough steel: 174.8 J/kg. Our pipes are smooth:
  // compare the factor.
  const double re = 801.0 * 4.57 * 0.0525 / 4.46e-3;
  const double f = churchill_friction(re, 4.6e-5 / 0.0525);
  reference_check(part, "Reynolds number", re, 43090.0, 0.1 * relative(0.01), source);
  reference_check(part, "friction loss, J/kg", f * 36.6 / 0.0525 * 4.57 * 4.57 / 2.0, 174.8,
                  2 * relative(0.01), source);
}

TEST_CASE("transfer hose 12 mm x 1 m at 6 L/min: water and mixes") {
  const Source source = own_arithmetic("Darcy with Churchill's factor, worked in the physics reference",
                                       "two or three digits: 0.5 %");
  // Worked in the physics reference (Darcy with Churchill's factor, K 1.5): water 20 degC 1.00 + 0.59 kPa;
  // 20, 80, 300 mPa s: friction 3.93, 15.7, 59 kPa.
  const double q = 6.0 * per_L_per_min;
  reference_check(part, "pipe_loss_Pa({1.0016e-3, 1.0}, 998.2, 0.012, 1.0, 1.5, q)",
                  pipe_loss_Pa({1.0016e-3, 1.0}, 998.2, 0.012, 1.0, 1.5, q), 1590.0, 2 * relative(0.005),
                  source);
  const double mixes[][2] = {{0.020, 3930.0}, {0.080, 15700.0}, {0.300, 59000.0}};
  for (const auto& row : mixes) {
    CAPTURE(row[0]);
    reference_check(part, at("pipe_loss_Pa, Pa s", row[0]),
                    pipe_loss_Pa({row[0], 1.0}, 1095.0, 0.012, 1.0, 0.0, q), row[1], relative(0.01), source);
  }
}

TEST_CASE("power-law hose: Metzner-Reed") {
  const Source source =
      own_arithmetic("Metzner & Reed, worked in the physics reference", "three digits: 0.25 %");
  // K 0.1372, n 0.8, rho 1095, same hose: 7.90 kPa/m (wall shear 626 1/s, stress 23.7 Pa).
  reference_check(part, "pipe_loss_Pa({0.1372, 0.8}, 1095.0, 0.012, 1.0, 0.0, 6.0 * per_L_per_min)",
                  pipe_loss_Pa({0.1372, 0.8}, 1095.0, 0.012, 1.0, 0.0, 6.0 * per_L_per_min), 7900.0,
                  2 * relative(0.0025), source);
}

TEST_CASE("plunger valve: orifice plus Sampson's viscous term") {
  const Source source =
      own_arithmetic("Orifice equation and Sampson's term, by hand", "whole pascals: 0.1 %");
  // Opening of radius 5 mm, 6 L/min, rho 1100, mu 0.08, Cd 0.61: 2396 + 192 Pa.
  reference_check(part, "valve_loss_Pa(0.08, 1100.0, 0.010, 1.0, 6.0 * per_L_per_min)",
                  valve_loss_Pa(0.08, 1100.0, 0.010, 1.0, 6.0 * per_L_per_min), 2396.0 + 192.0,
                  2 * relative(0.001), source);
}

TEST_CASE("valve's body: Hooper's two constants") {
  const Source source = worked_example(
      "Hooper 1981, globe valve of 2 in at Re 1e4 (example of an open library)", "half of the last digit");
  reference_check(part, "hooper_K(1500, 4, 1e4, 2 in)", hooper_K(1500.0, 4.0, 1.0e4, 0.0508), 6.15,
                  absolute(0.005), source);
  // Long-radius elbow (800, 0.2) of 12 mm, worked in the physics reference: Re 100 8.6, Re 1000 1.42, Re 1e5
  // 0.63.
  const Source elbow = own_arithmetic(
      "Hooper 1981, long-radius elbow of 12 mm, worked in the physics reference", "half of the last digit");
  reference_check(part, "hooper_K(800, 0.2, 100, 12 mm)", hooper_K(800.0, 0.2, 100.0, 0.012), 8.6,
                  absolute(0.05), elbow);
  reference_check(part, "hooper_K(800, 0.2, 1000, 12 mm)", hooper_K(800.0, 0.2, 1000.0, 0.012), 1.42,
                  absolute(0.005), elbow);
  reference_check(part, "hooper_K(800, 0.2, 1e5, 12 mm)", hooper_K(800.0, 0.2, 1.0e5, 0.012), 0.63,
                  absolute(0.005), elbow);
  // The body's loss is the K1 part of it: 20 mm, 6 L/min (0.3183 m/s), 0.08 Pa s, rho 1100: Re 87.54, K 1000
  // / Re = 11.42.
  const double v = 1.0e-4 / (0.25 * std::numbers::pi * 4.0e-4);
  const double re = 1100.0 * v * 0.02 / 0.08;
  reference_check(part, "body_loss_Pa({0.08, 1}, 1000, 20 mm, 6 L/min)",
                  body_loss_Pa({0.08, 1.0}, 1000.0, 0.020, 6.0 * per_L_per_min),
                  hooper_K(1000.0, 0.0, re, 0.02) * 0.5 * 1100.0 * v * v, relative(1e-9),
                  own_arithmetic("K rho v^2 / 2, by hand", "last bits"));
}

TEST_CASE("a 10 mm hole under 0.30 m of water") {
  const Source source = own_arithmetic("Torricelli, discharge coefficient 0.61", "three digits: 0.25 %");
  // Torricelli with Cd 0.61: 6.97 L/min.
  const MachineSpec m = open_tank(0.010);
  PlantState s = filled(m, 0.30);
  s.fittings.draw_opening_norm = 1.0;
  step(m, s, {}, 0.1);
  reference_check(part, "draw, L/min", s.flows.draw_L_per_min, 6.97, 2 * relative(0.0025), source);
}

TEST_CASE("emptying a 0.38 m vat through 12 mm") {
  const Source source =
      own_arithmetic("Torricelli, closed form of the emptying time", "ticks and the well's own depth: 0.5 %")
          .of_whole_machine();
  // t = A/(Cd a) sqrt(2/g) (sqrt h1 - sqrt h2), Cd 0.61: 469 s from 0.40 m to nothing, half of it to 0.10 m.
  const MachineSpec m = open_tank(0.012);
  PlantState s = filled(m, 0.40);
  const double start_L = fill_L(s);
  s.fittings.draw_opening_norm = 1.0;
  double t_s = 0.0;
  while (fill_L(s) > 0.25 * start_L && t_s < 1000.0) {
    step(m, s, {}, 0.1);
    t_s += 0.1;
  }
  reference_check(part, "time to a quarter, s", t_s, 0.5 * 469.0, 2 * relative(0.005), source);
  CHECK(std::abs(mass_residual_kg(s)) < 1.0e-9);
}

TEST_CASE("circulation pump: rated flow, slip and shut-off") {
  const MachineSpec m = tests::hm45_spec();
  // Around 40 L/min with water at the rated 87.5 1/min (the machine's own sizing).
  const PumpPoint water = pump_point(m, 1.0e-3, 87.5, 0.0);
  CHECK(water.circulation_L_per_min == doctest::Approx(37.0).epsilon(0.1));
  // The balance itself: displacement = loop + slip.
  CHECK(water.circulation_L_per_min + 14.0 * water.pressure_bar ==
        doctest::Approx(0.44 * 87.5).epsilon(1e-6));
  // Slit flow (physics reference section 9: h 0.1 mm, 20 x 5 mm, 50 kPa): 1 L/min slips at 1 mPa s, 0.05 at
  // 20, 0.0125 at 80.
  MachineSpec slit = m;
  slit.pump.slip_L_per_min_per_bar = 2.0;
  for (const auto& [mPa_s, slip] : {std::pair{1.0, 1.0}, {20.0, 0.05}, {80.0, 0.0125}}) {
    const PumpPoint p = pump_point(slit, 1.0e-3 * mPa_s, 87.5, 0.0);
    const double slips_L_per_min = 0.44 * 87.5 - p.circulation_L_per_min;
    reference_check(part, at("slip at 50 kPa, L/min, mPa s", mPa_s), slips_L_per_min * 0.5 / p.pressure_bar,
                    slip, relative(1e-3),
                    own_arithmetic("Slit flow w h^3 dp / (12 mu l), worked in the physics reference",
                                   "the balance of loop and slip: 0.1 %"));
  }
  // Thicker: less slips, more pressure; very thick: the vanes fold and the flow falls.
  const PumpPoint mix = pump_point(m, 0.02, 87.5, 0.0);
  const PumpPoint paste = pump_point(m, 5.0, 87.5, 0.0);
  CHECK(mix.circulation_L_per_min > water.circulation_L_per_min);
  CHECK(mix.pressure_bar > water.pressure_bar);
  CHECK(paste.pressure_bar == doctest::Approx(m.pump.shut_off_bar).epsilon(1e-6));
  CHECK(paste.circulation_L_per_min < 0.2 * mix.circulation_L_per_min);
  CHECK(pump_point(m, 1.0e-3, 0.0, 0.0).circulation_L_per_min == 0.0);
}
