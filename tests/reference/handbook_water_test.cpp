#include <doctest/doctest.h>

#include "sim_core/plant/evaporation.h"
#include "sim_core/product/properties.h"
#include "sim_core/product/viscosity.h"
#include "tests/reference/report.h"

// Water, steam and moist air at temperatures and in tables that none of the fits was made on.
using namespace stirbench;
using namespace stirbench::product;

namespace {

using tests::absolute;
using tests::at;
using tests::measured;
using tests::reference_check;
using tests::relative;
using tests::Source;
using tests::worked_example;

constexpr const char* part = "Water, steam and air";

double water_Pa_s(double t_degC) {
  Product water;
  water.mass_kg[Component::water] = 1.0;
  return apparent_viscosity_Pa_s(power_law(water, t_degC), 50.0);
}

}  // namespace

// An older formulation than the one that the fits were made on.
TEST_CASE("saturated water of a heat-transfer handbook") {
  const Source source =
      measured(
          "Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, table A.6, saturated "
          "water (from memory)",
          "last digit and older formulation: pressure 0.1 %, heat of evaporation 0.05 %, heat "
          "capacity 0.1 %, viscosity and conductivity 1 %")
          .held_out();
  struct Row {
    double kelvin, bar, hfg_kJ, cp, viscosity_uPa_s, conductivity_mW;
  };
  const Row rows[] = {{280, 0.00990, 2485, 4.198, 1422, 582}, {290, 0.01917, 2461, 4.184, 1080, 598},
                      {300, 0.03531, 2438, 4.179, 855, 613},  {310, 0.06221, 2414, 4.178, 695, 628},
                      {320, 0.1053, 2390, 4.180, 577, 640},   {330, 0.1719, 2366, 4.184, 489, 650},
                      {340, 0.2713, 2342, 4.188, 420, 660},   {350, 0.4163, 2317, 4.195, 365, 668},
                      {360, 0.6209, 2291, 4.203, 324, 674},   {370, 0.9040, 2265, 4.214, 289, 679}};
  for (const Row& row : rows) {
    const double t = row.kelvin - 273.15;
    reference_check(part, at("saturation pressure, bar,", t), 1e-5 * saturation_pressure_Pa(t), row.bar,
                    3 * relative(0.001), source);
    reference_check(part, at("heat of evaporation, kJ/kg,", t), 1e-3 * evaporation_heat_J_per_kg(t),
                    row.hfg_kJ, 2 * relative(0.0005), source);
    reference_check(part, at("heat capacity of water, kJ/(kg K),", t),
                    1e-3 * component_heat_capacity_J_per_kgK(Component::water, t), row.cp,
                    2 * relative(0.001), source);
    reference_check(part, at("viscosity of water, uPa s,", t), 1e6 * water_Pa_s(t), row.viscosity_uPa_s,
                    2 * relative(0.01), source);
    reference_check(part, at("conductivity of water, mW/(m K),", t),
                    1e3 * component_conductivity_W_per_mK(Component::water, t), row.conductivity_mW,
                    2 * relative(0.01), source);
  }
}

TEST_CASE("density of water between the temperatures of the fit") {
  const Source source = measured("Kell 1975, CRC Handbook (from memory)",
                                 "formulations differ by a unit of the last digit: 0.01 kg/m3")
                            .held_out();
  const double rows[][2] = {{5, 999.96},  {15, 999.10}, {25, 997.05}, {35, 994.03}, {45, 990.21},
                            {50, 988.04}, {55, 985.69}, {70, 977.76}, {75, 974.84}, {95, 961.89}};
  for (const auto& row : rows)
    reference_check(part, at("density of water, kg/m3,", row[0]),
                    component_density_kg_per_m3(Component::water, row[0]), row[1], 3 * absolute(0.01),
                    source);
}

// The fits were made on IF97 at ten other temperatures; python-iapws.
TEST_CASE("IAPWS-95, and IF97 at 65 degC") {
  const Source other = measured("IAPWS-95, heat capacity of water, computed with python-iapws",
                                "0.1 %, as the formulation states")
                           .held_out();
  const double rows[][2] = {{0.01, 4.2194}, {20, 4.1841}, {40, 4.1794}, {80, 4.1968}};
  for (const auto& row : rows)
    reference_check(part, at("heat capacity of water by IAPWS-95, kJ/(kg K),", row[0]),
                    1e-3 * component_heat_capacity_J_per_kgK(Component::water, row[0]), row[1],
                    relative(0.001), other);
  const Source between =
      measured("IAPWS-IF97, computed with python-iapws", "pressure 0.025 %, heat 0.1 %").held_out();
  reference_check(part, "saturation pressure at 65 degC, kPa", 1e-3 * saturation_pressure_Pa(65.0), 25.041,
                  relative(2.5e-4), between);
  reference_check(part, "heat of evaporation at 65 degC, kJ/kg", 1e-3 * evaporation_heat_J_per_kg(65.0),
                  2345.4, relative(0.001), between);
}

TEST_CASE("verification values of the releases") {
  const Source source = worked_example(
      "IAPWS releases: IF97 saturation 300 K; viscosity 2008 and conductivity 2011 at 298.15 K, 998 "
      "kg/m3 (from memory)",
      "998 for 997 kg/m3: conductivity 0.2, viscosity 0.1 %; pressure 0.025 %");
  reference_check(part, "saturation pressure at 300 K, Pa", saturation_pressure_Pa(26.85), 3536.58941,
                  relative(2.5e-4), source);
  reference_check(part, "viscosity at 298.15 K, uPa s", 1e6 * water_Pa_s(25.0), 889.735100, relative(0.001),
                  source);
  reference_check(part, "conductivity at 298.15 K, mW/(m K)",
                  1e3 * component_conductivity_W_per_mK(Component::water, 25.0), 607.712868, relative(0.002),
                  source);
}

TEST_CASE("dew points of a building standard") {
  const Source source = measured("DIN 4108-3, table of dew points (from memory)",
                                 "half of the last digit, and the older saturation line: 0.1 K")
                            .held_out();
  struct Row {
    double t;
    double dew[7];  // 30, 40 .. 90 %
  };
  const Row rows[] = {{20, {1.9, 6.0, 9.3, 12.0, 14.4, 16.4, 18.3}},
                      {25, {6.2, 10.5, 13.9, 16.7, 19.1, 21.3, 23.2}},
                      {30, {10.5, 14.9, 18.4, 21.4, 23.9, 26.2, 28.2}}};
  for (const Row& row : rows) {
    for (int i = 0; i < 7; ++i) {
      const double humidity = 0.1 * (3 + i);
      reference_check(part, at("dew point, degC,", row.t, humidity),
                      plant::dew_point_degC(humidity * saturation_pressure_Pa(row.t)), row.dew[i],
                      absolute(0.1), source);
    }
  }
}
