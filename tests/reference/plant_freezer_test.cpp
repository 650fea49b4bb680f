#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/plant/freezer/freezer.h"
#include "sim_core/plant/freezer/freezer_laws.h"
#include "sim_core/plant/hose.h"
#include "sim_core/plant/plant.h"
#include "sim_core/product/freezing.h"
#include "sim_core/product/properties.h"
#include "tests/reference/report.h"
#include "tests/support/hm45_spec.h"

// The batch freezer's laws against published numbers.
using namespace stirbench;
using namespace stirbench::plant;
using product::Component;
using product::PerComponent;

namespace {

using tests::absolute;
using tests::at;
using tests::measured;
using tests::own_arithmetic;
using tests::reference_check;
using tests::relative;
using tests::Source;
using tests::worked_example;

constexpr const char* part = "Batch freezer";

// Goff & Hartel 2013, Table 6.2: 10 % milk solids not fat, 2 % whey solids, 12 % sucrose, 4 % 42 DE syrup
// solids, 60 % water, the rest fat.
product::Ingredient table_6_2() {
  product::Ingredient mix;
  PerComponent& f = mix.fraction;
  f[Component::water] = 0.60;
  f[Component::lactose] = 0.01 * (0.545 * 10.0 + 0.765 * 2.0);
  f[Component::milk_ash] = 0.0096;
  f[Component::milk_protein] = 0.12 - f[Component::lactose] - f[Component::milk_ash];
  f[Component::sucrose] = 0.12;
  f[Component::syrup_solids] = 0.04;
  f[Component::milk_fat] = 0.12;
  return mix;
}

PerComponent water_and(double water, double other) {
  PerComponent kg;
  kg[Component::water] = water;
  kg[Component::milk_protein] = 0.035 * other / 0.40;
  kg[Component::milk_fat] = 0.11 * other / 0.40;
  kg[Component::sucrose] = other - kg[Component::milk_protein] - kg[Component::milk_fat];
  return kg;
}

}  // namespace

TEST_CASE("the freezer's charge follows Table 6.2's curve as heat is taken out") {
  const Source source = worked_example(
                            "Goff & Hartel 2013, Table 6.2: temperature at which a share of the water is "
                            "frozen, in a running freezer",
                            "half of the last digit of two columns, and the second in which the state is "
                            "seen: 0.02 K")
                            .of_whole_machine();
  MachineSpec m = tests::hm45_spec();
  m.freezer.rated_Nm = 1.0e6;  // so that nothing stops it on the way
  PlantState s = initial_state(m, {});
  pour(m, s, table_6_2(), 30.0, 5.0);
  s.product.age_norm = 1.0;
  for (int i = 0; i < 400; ++i) step(m, s, {0.0, true, false}, 0.1);
  s.fittings.hose = HoseEnd::freezer;
  s.fittings.draw_opening_norm = 0.3;
  while (mix_L(s.freezer) < 5.0) step(m, s, {0.0, true, false}, 0.1);
  s.fittings.draw_opening_norm = 0.0;
  start_freezer(s.freezer);
  // Temperature at which a share of the water is frozen. The state is seen once a second, in which it moves
  // by less than 0.01 K and 0.2 % of the water.
  const double rows[][2] = {{0.10, -3.06}, {0.20, -3.45}, {0.30, -4.01},
                            {0.40, -4.76}, {0.50, -5.87}, {0.60, -7.63}};
  for (const auto& row : rows) {
    for (int i = 0; i < 40000 && frozen_water_norm(s.freezer) < row[0]; ++i) step(m, s, {}, 0.1);
    reference_check(part, at("product temperature, degC, share of the water frozen", row[0]), s.freezer.degC,
                    row[1], 2 * absolute(0.02), source);
  }
}

TEST_CASE("heat of fusion below 0 degC") {
  const Source source =
      measured("Smithsonian Meteorological Tables (List 1951), latent heat of fusion (from memory)",
               "of the heat capacities it rests on: 0.1 % at 0, 0.2 % below");
  reference_check(part, "fusion_at_J_per_kg(0)", product::fusion_at_J_per_kg(0.0), 333.7e3, relative(0.001),
                  source);
  reference_check(part, "fusion_at_J_per_kg(-10)", product::fusion_at_J_per_kg(-10.0), 311.9e3,
                  2 * relative(0.002), source);
  reference_check(part, "fusion_at_J_per_kg(-20)", product::fusion_at_J_per_kg(-20.0), 288.9e3,
                  2 * relative(0.002), source);
}

TEST_CASE("latent heat of ice cream and milk") {
  // Water share times the heat of fusion, as the handbooks tabulate it.
  const double at_0 = 1.0e-3 * product::fusion_at_J_per_kg(0.0);
  reference_check(part, "latent heat, 66 % water, kJ/kg", 0.66 * at_0, 222.0, relative(0.01),
                  measured("Earle, Unit Operations in Food Processing, App. 7: ice cream 222",
                           "water rounded to 1 % of the food: 1 %")
                      .held_out());
  reference_check(
      part, "latent heat, 61 % water, kJ/kg", 0.61 * at_0, 204.0, relative(0.01),
      measured("ASHRAE 2006 ch. 9, ice cream 204 (from memory)", "water rounded to 1 % of the food: 1 %")
          .held_out());
  reference_check(
      part, "latent heat, 87.69 % water, kJ/kg", 0.8769 * at_0, 293.0, relative(0.01),
      measured("ASHRAE 2006 ch. 9, whole milk 293 (from memory)", "water rounded to 1 % of the food: 1 %")
          .held_out());
  // Unfrozen heat capacity of the same rows.
  reference_check(part, "heat capacity, fresh ice-cream mix 61 % water",
                  product::heat_capacity_J_per_kgK(water_and(0.61, 0.39), 5.0), 3270.0, relative(0.03),
                  measured("Geankoplis, App. A.4-1: ice cream fresh 3.27 kJ/(kg K), 58-66 % water",
                           "half the range of water, 4 %, is 3 % of the value")
                      .held_out());
}

// Chen 1985 (ASHRAE Refrigeration 2006, ch. 9, eq. 26 and 20 as recalled): below freezing
//   cp = 1.55 + 1.26 xs + (xw - xb) L0 (-tf) / t^2 [kJ/(kg K)], H(t) from -40 degC.
// Chen's law is Raoult's of one solute; Goff & Hartel's table is a real sugar solution, which holds more
// water at low temperature: 5 % between the two is what the models leave.
TEST_CASE("apparent heat capacity and enthalpy: Chen") {
  const Source source = own_arithmetic("Chen 1985 in ASHRAE 2006 ch. 9 (from memory), by hand",
                                       "one ideal solute instead of the table's real ones: 3 %");
  const PerComponent mix = table_6_2().fraction;
  const double tf = product::freezing_point_degC(mix);
  const double xs = 1.0 - mix[Component::water] / mix.sum();
  const double bound = 0.4 * mix[Component::milk_protein] / mix.sum();
  const double free_water = mix[Component::water] / mix.sum() - bound;
  const auto chen_cp = [&](double t) {
    return 1.0e3 * (1.55 + 1.26 * xs - free_water * 333.6 * tf / (t * t));
  };
  const auto chen_H = [&](double t) {
    const double tr = -40.0;
    return 1.0e3 * (t - tr) * (1.55 + 1.26 * xs - free_water * 333.6 * tf / (t * tr));
  };
  for (const double t : {-5.0, -7.0}) {
    // Over a kelvin: the table's steps of 0.01 K would show in a derivative.
    const double ours =
        (product::frozen_enthalpy_J(mix, mix, t + 0.5) - product::frozen_enthalpy_J(mix, mix, t - 0.5)) /
        mix.sum();
    reference_check(part, at("apparent heat capacity, J/(kg K),", t), ours, chen_cp(t), 2 * relative(0.03),
                    source);
  }
  const double from_3_to_8 =
      (product::frozen_enthalpy_J(mix, mix, -3.0) - product::frozen_enthalpy_J(mix, mix, -8.0)) / mix.sum();
  reference_check(part, "enthalpy -8 to -3 degC, J/kg", from_3_to_8, chen_H(-3.0) - chen_H(-8.0),
                  2 * relative(0.03), source);
}

TEST_CASE("temperature and enthalpy are each other's inverse") {
  const PerComponent mix = table_6_2().fraction;
  for (const double t : {-20.0, -10.0, -6.0, -3.0, -2.8, -2.0, 0.0, 4.0, 60.0}) {
    CAPTURE(t);
    for (const double guess : {-30.0, t, 40.0}) {
      const double held_J = product::frozen_enthalpy_J(mix, mix, t);
      CHECK(product::frozen_temperature_degC(mix, mix, held_J, guess) == doctest::Approx(t).epsilon(1e-6));
    }
  }
}

TEST_CASE("overrun: the worked examples") {
  const Source source = worked_example("University of Guelph, Dairy Science: overrun calculations",
                                       "half of the last digit, also of the intermediate figures");
  reference_check(part, "overrun by weight, 1.09 kg/L mix, 0.560 kg/L",
                  100.0 * overrun_by_weight(1.09, 0.560), 94.6, absolute(0.05), source);
  // 100 kg with 9 % candy of 0.748 kg/L, mix of 1.1 kg/L at 100 %.
  const double litres = frozen_volume_L(91.0, 1.1, 1.0) + 9.0 / 0.748;
  reference_check(part, "volume of 100 kg with pieces, L", litres, 177.4, 2 * absolute(0.05), source);
  reference_check(part, "weight of a litre of it, g", 1.0e5 / litres, 564.0, 2 * absolute(0.5), source);
}

TEST_CASE("suspension: Krieger-Dougherty") {
  const Source source = own_arithmetic("Krieger & Dougherty 1959, (1 - phi / 0.64)^-1.6 worked by hand",
                                       "half of the last digit");
  reference_check(part, "krieger_dougherty(0.20)", krieger_dougherty(0.20), 1.82123, relative(0.0001),
                  source);
  reference_check(part, "krieger_dougherty(0.32)", krieger_dougherty(0.32), 3.0314, relative(0.0001), source);
  reference_check(part, "krieger_dougherty(0.50)", krieger_dougherty(0.50), 11.3785, relative(0.0001),
                  source);
  reference_check(part, "krieger_dougherty(0.002)", krieger_dougherty(0.002), 1.0 + 2.5 * 0.002,
                  relative(1.0e-4),
                  own_arithmetic("Einstein 1906: 1 + 2.5 phi", "the next term, of phi squared"));
}

TEST_CASE("scraped surface: penetration theory") {
  const Source source = own_arithmetic(
      "h = 2 sqrt(k rho cp N B / pi) (Latinen 1958, Harriott 1959, from memory), worked by hand",
      "half of the last digit");
  reference_check(part, "scraped_W_per_m2K(0.5, 1000, 4000, 5, 2)",
                  scraped_W_per_m2K(0.5, 1000.0, 4000.0, 5.0, 2), 5046.3, relative(1.0e-5), source);
  // Mean flux of a half-space at rest over the time between two blades: 2 k dT / sqrt(pi alpha t) (Carslaw &
  // Jaeger).
  const double alpha = 0.45 / (1095.0 * 3250.0);
  const double between_s = 60.0 / (170.0 * 3.0);
  reference_check(
      part, "mean flux between two blades, W/(m2 K)",
      scraped_W_per_m2K(0.45, 1095.0, 3250.0, 170.0 / 60.0, 3),
      2.0 * 0.45 / std::sqrt(3.14159265358979 * alpha * between_s), relative(1.0e-9),
      own_arithmetic("Carslaw & Jaeger, half-space with a suddenly cooled surface, mean over the time",
                     "last bits"));
}

TEST_CASE("plunger's port: area of a circle's segment") {
  const Source source = own_arithmetic("Segment of a circle, closed form", "last bits");
  // Half the circle at half the travel behind the lap; the segment of height R/2 is (pi/3 - sqrt(3)/4) R^2.
  reference_check(part, "free_area_norm(0.515)", free_area_norm(0.515), 0.5, relative(1.0e-9), source);
  reference_check(part, "free_area_norm(0.2725)", free_area_norm(0.2725),
                  1.0 / 3.0 - std::sqrt(3.0) / (4.0 * 3.14159265358979), relative(1.0e-9), source);
}

TEST_CASE("splash limit: K = We^(1/2) Re^(1/4) = 57.7") {
  const Source source = own_arithmetic("K of Mundo, Sommerfeld & Tropea 1995 (from memory), by hand",
                                       "half of the last digit: 0.1 %");
  // Water-like jet of 2 mm at 3 m/s: We = 1000 x 9 x 0.002 / 0.045 = 400, Re = 6000: K = 20 x 8.801 = 176.0.
  const double q = 0.25 * 3.14159265358979 * 4.0e-6 * 3.0;
  const double fall = (9.0 - std::pow(q / (0.25 * 3.14159265358979 * 4.0e-4), 2.0)) / (2.0 * 9.81);
  reference_check(part, "splash_norm over 0.004, plus 1, times 57.7",
                  (splash_norm(q, 0.02, fall, 1000.0, 1.0e-3) / 0.004 + 1.0) * 57.7, 176.02, relative(0.001),
                  source);
  // Thick and slow: under the limit nothing splashes.
  CHECK(splash_norm(q, 0.02, 0.05, 1000.0, 0.5) == 0.0);
}
