#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/plant/evaporation.h"
#include "sim_core/plant/heat.h"
#include "sim_core/plant/transfer.h"
#include "tests/reference/report.h"
#include "tests/support/hm45_spec.h"

// Heat transfer and evaporation against published worked examples.
using namespace stirbench;
using namespace stirbench::plant;

namespace {

using tests::absolute;
using tests::at;
using tests::measured;
using tests::own_arithmetic;
using tests::reference_check;
using tests::relative;
using tests::Source;
using tests::worked_example;

constexpr const char* part = "Heat";

double stirred_h(double a, double diameter, double impeller, double per_s, double density, double cp,
                 double k, double mu) {
  return stirred_nusselt(a, per_s * impeller * impeller * density / mu, cp * mu / k) * k / diameter;
}

}  // namespace

TEST_CASE("stirred wall: Geankoplis example 4.13-1, disc turbine in a viscous liquid") {
  const Source source = worked_example("Geankoplis, example 4.13-1 (from memory, recomputed)",
                                       "three digits of the properties: 0.15 %");
  // T 1.83 m, D 0.61 m, 100 rpm, rho 961, cp 2500, k 0.173, mu 1.00, mu_wall 0.084 Pa s, a 0.74: h 170.6
  // W/(m2 K) (from memory, recomputed). Our form has no viscosity ratio: it is put on here.
  const double h = stirred_h(0.74, 1.83, 0.61, 100.0 / 60.0, 961.0, 2500.0, 0.173, 1.0);
  reference_check(part, "wall coefficient with viscosity ratio, W/(m2 K)", h * std::pow(1.0 / 0.084, 0.14),
                  170.6, 2 * relative(0.0015), source);
}

TEST_CASE("stirred wall: Kern example 20.1, paddle") {
  const Source source =
      worked_example("Kern, Process Heat Transfer, example 20.1 (its chart; 561 by the formula)",
                     "a chart read to two digits: 3 %");
  // Kern, Process Heat Transfer, ex. 20.1: paddle 0.6 ft, 125 rpm, vessel 1.01 ft, rho 62.5 lb/ft3, mu 1.06
  // lb/(ft h), k 0.38, c 1. Chart: h 588 Btu/(ft2 h degF); the 0.36 formula gives 561.
  const double re = 125.0 * 60.0 * 0.36 * 62.5 / 1.06;
  const double h = stirred_nusselt(0.36, re, 1.0 * 1.06 / 0.38) * 0.38 / 1.01;
  reference_check(part, "Reynolds number", re, 160000.0, 0.3 * relative(0.03), source);
  reference_check(part, "wall coefficient by the formula, Btu/(ft2 h degF)", h, 561.0, 0.3 * relative(0.03),
                  source);
  reference_check(part, "wall coefficient by the chart, Btu/(ft2 h degF)", h, 588.0, 2 * relative(0.03),
                  source);
}

TEST_CASE("stirred wall: anchor of Penney & Atiemo-Obeng in a small vat") {
  const Source source = own_arithmetic(
      "Handbook of Industrial Mixing 2004, ch. 14.4, samples computed with the "
      "formula",
      "rounded properties: 1 %");
  // Handbook of Industrial Mixing 2004, ch. 14.4, a 0.32 (D 0.34, T 0.38 m, 60 rpm), sample computed with the
  // formula: water 60 degC 3085, mix 20 mPa s 731, cold mix 80 mPa s 427 W/(m2 K). Water's properties: IAPWS.
  reference_check(part, "stirred_h(0.32, 0.38, 0.34, 1.0, 983.2, 4182.8, 0.651, 0.466e-3)",
                  stirred_h(0.32, 0.38, 0.34, 1.0, 983.2, 4182.8, 0.651, 0.466e-3), 3085.0, relative(0.01),
                  source);
  reference_check(part, "stirred_nusselt(0.32, 6260.0, 127.0) * 0.511 / 0.38",
                  stirred_nusselt(0.32, 6260.0, 127.0) * 0.511 / 0.38, 731.0, 2 * relative(0.01), source);
  reference_check(part, "stirred_nusselt(0.32, 1590.0, 567.0) * 0.455 / 0.38",
                  stirred_nusselt(0.32, 1590.0, 567.0) * 0.455 / 0.38, 427.0, 2 * relative(0.01), source);
  // Both branches of the anchor meet: 0.69 Re^(1/2) and 0.32 Re^(2/3) at Re 100.
  CHECK(stirred_nusselt(0.32, 99.999, 5.0) ==
        doctest::Approx(stirred_nusselt(0.32, 100.001, 5.0)).epsilon(1e-3));
  reference_check(part, "stirred_nusselt(0.32, 25.0, 8.0)", stirred_nusselt(0.32, 25.0, 8.0),
                  0.69 * 5.0 * 2.0, 0.2 * relative(0.01), source);
}

TEST_CASE("vertical plate: Churchill & Chu worked values") {
  const Source source =
      worked_example("Incropera example 9.2, Churchill & Chu (in an open library)", "0.05 %");
  const Source cengel =
      own_arithmetic("Cengel 9-45 inputs, Churchill & Chu, by hand", "half of the last digit");
  // Incropera ex. 9.2 inputs: Pr 0.69, Gr 2.63e9: Nu 147.16. Cengel 9-45 inputs: Ra 2.824e9, Pr 0.7276: Nu
  // 170.2 (all-range form, recomputed in the physics reference).
  reference_check(part, "vertical_plate_nusselt(0.69 * 2.63e9, 0.69)",
                  vertical_plate_nusselt(0.69 * 2.63e9, 0.69), 147.16, 2 * relative(0.0005), source);
  reference_check(part, "vertical_plate_nusselt(2.824e9, 0.7276)", vertical_plate_nusselt(2.824e9, 0.7276),
                  170.2, 2 * relative(0.001), cengel);
}

TEST_CASE("radiation: Stefan-Boltzmann values") {
  const Source source = own_arithmetic("Stefan-Boltzmann law, by hand", "half of the last digit: 0.1, 0.5 %");
  // Computed from sigma = 5.670374e-8: 85 to 25 degC, emissivity 0.2: 97.0, 0.95: 460.7 W/m2; h_r(60/25,
  // 0.2) 1.43.
  reference_check(part, "60.0 * radiation_W_per_m2K(0.2, 85.0, 25.0)",
                  60.0 * radiation_W_per_m2K(0.2, 85.0, 25.0), 97.0, relative(0.001), source);
  reference_check(part, "60.0 * radiation_W_per_m2K(0.95, 85.0, 25.0)",
                  60.0 * radiation_W_per_m2K(0.95, 85.0, 25.0), 460.7, relative(0.001), source);
  reference_check(part, "radiation_W_per_m2K(0.2, 60.0, 25.0)", radiation_W_per_m2K(0.2, 60.0, 25.0), 1.43,
                  relative(0.005), source);
}

TEST_CASE("horizontal plate in air and in water: 0.15 Ra^(1/3)") {
  const Source source = own_arithmetic("0.15 Ra^(1/3) with dry-air and IAPWS tables, by hand",
                                       "air's properties at one temperature: 3 %");
  // Air at 40 degC film (dry air table: k 0.02727, nu 1.693e-5, Pr 0.707): 0.15 k (g dT / (T nu^2) Pr)^(1/3).
  const double air = 0.15 * 0.02727 * std::cbrt(9.81 * 40.0 / 313.15 / (1.693e-5 * 1.693e-5) * 0.707);
  reference_check(part, "room_air_W_per_m2K(40.0)", room_air_W_per_m2K(40.0), air, relative(0.03), source);
  // Water at 60 degC (IAPWS: k 0.651, beta 5.231e-4, nu 4.74e-7, alpha 1.583e-7), 20 K: Ra^(1/3) of one
  // metre.
  const double ra = 9.81 * 5.231e-4 * 20.0 / (4.74e-7 * 1.583e-7);
  reference_check(part, "horizontal_plate_W_per_m2K(0.651, 5.231e-4, 20.0, 4.74e-7, 1.583e-7)",
                  horizontal_plate_W_per_m2K(0.651, 5.231e-4, 20.0, 4.74e-7, 1.583e-7),
                  0.15 * std::cbrt(ra) * 0.651, 1e-7 * relative(0.03), source);
}

TEST_CASE("boiling of water: Rohsenow's flux in Incropera's copper pan") {
  // Incropera & DeWitt, example 10.1 (from memory): a polished copper bottom, C 0.0128, at 118 degC gives 836
  // kW/m2.
  reference_check(part, "developed boiling on polished copper at 18 K, kW/m2",
                  1.0e-3 * rohsenow_W_per_m2(18.0, 0.0128), 836.0, 2 * relative(0.006),
                  worked_example("Incropera & DeWitt, example 10.1 (from memory)", "half the last digit"));
  CHECK(rohsenow_W_per_m2(60.0) == 1.0e6);
  CHECK(rohsenow_W_per_m2(-1.0) == 0.0);
}

TEST_CASE("boiling of water: onset and what bubbles add, Bergles & Rohsenow") {
  const Source source =
      own_arithmetic("Bergles & Rohsenow 1964 (from memory), solved by hand", "three digits: 0.5 %");
  const double onsets[][2] = {{20.0e3, 2.13}, {38.0e3, 2.87}, {80.0e3, 4.05}, {133.0e3, 5.12}};
  for (const auto& row : onsets) {
    CAPTURE(row[0]);
    reference_check(part, at("superheat at the first bubbles, K, W/m2,", row[0]), boiling_onset_K(row[0]),
                    row[1], relative(0.005), source);
    // Nothing up to there, and from there on it joins developed boiling.
    CHECK(boiling_extra_W_per_m2(0.99 * row[1], row[0]) == 0.0);
    CHECK(boiling_extra_W_per_m2(1.05 * row[1], row[0]) > 0.0);
  }
  CHECK(boiling_extra_W_per_m2(8.0, 0.0) == rohsenow_W_per_m2(8.0));
  CHECK(boiling_extra_W_per_m2(15.0, 5.0e3) == doctest::Approx(rohsenow_W_per_m2(15.0)).epsilon(0.02));
  CHECK(boiling_onset_K(0.0) == 0.0);
}

TEST_CASE("exchange through an opening: Epstein's 0.055 and the viscous limit") {
  const Source source = own_arithmetic("Epstein 1988 (from memory), by hand", "the other limit's share: 1 %");
  // Epstein 1988 (from memory): Q / sqrt(g' d^5) = 0.055 for a thin opening.
  reference_check(part, "passage_flow_m3_per_s(0.1, 0.05, 1.0e-7)", passage_flow_m3_per_s(0.1, 0.05, 1.0e-7),
                  0.055 * std::sqrt(0.1 * std::pow(0.05, 5.0)), relative(0.01), source);
  reference_check(part, "passage_flow_m3_per_s(0.1, 0.05, 1.0)", passage_flow_m3_per_s(0.1, 0.05, 1.0),
                  0.008 * 0.1 * std::pow(0.05, 4.0), relative(0.01), source);
  CHECK(passage_flow_m3_per_s(-0.1, 0.05, 1.0e-6) == 0.0);
}

TEST_CASE("evaporation: Shah's rates into a room of 25 degC, 50 %") {
  const Source source =
      own_arithmetic("Shah 2012-2014 (form and constants from memory); 85 degC also Carrier's form (ASHRAE)",
                     "two or three digits: 1 %; between the two equations 15 %");
  // By hand, kg/(m2 h).
  const double room_Pa = 0.5 * 3169.0;
  const double rates[][2] = {{50.0, 1.517}, {65.0, 3.869}, {75.0, 6.660}, {90.0, 13.88}, {95.0, 17.42}};
  for (const auto& row : rates) {
    CAPTURE(row[0]);
    reference_check(part, at("shah_kg_per_m2h", row[0]), shah_kg_per_m2h(row[0], 25.0, room_Pa), row[1],
                    relative(0.01), source);
  }
  // Carrier's form (ASHRAE), measured with air driven along the surface, carried to rest: 0.089 (pw - pr) /
  // hfg: 85 degC 7.86.
  reference_check(part, "shah_kg_per_m2h(85.0, 25.0, room_Pa)", shah_kg_per_m2h(85.0, 25.0, room_Pa), 7.86,
                  2 * relative(0.15), source);
  // Colder than the dew point the room's moisture settles: 5e-5 (813.5 - 1584.9 Pa), by hand (saturation by
  // IAPWS).
  reference_check(
      part, "shah_kg_per_m2h of product at 4 degC", shah_kg_per_m2h(4.0, 25.0, room_Pa),
      5.0e-5 * (813.5 - 1584.9), relative(0.005),
      own_arithmetic("5e-5 (ps - pr), vapour pressures of IAPWS, by hand", "0.5 % of a difference"));
}

TEST_CASE("boiling point: sucrose syrup") {
  const Source source = measured("Sugar-cooking tables (from memory)", "whole degrees: 0.5 K").held_out();
  // 60 % sucrose boils at about 103 degC (sugar-cooking tables, from memory); its freezing-point depression
  // is about 11.4 K.
  CHECK(boiling_point_degC(0.0) == 100.0);
  reference_check(part, "boiling_point_degC(-11.4)", boiling_point_degC(-11.4), 103.1, 2 * absolute(0.5),
                  source);
}

TEST_CASE("elements: power goes with the square of the voltage") {
  const Source source = own_arithmetic("Ohm's law", "last digits");
  const MachineSpec m = tests::hm45_spec();
  // 3 x 2 kW at 400 V; 380 V gives 0.9025, 360 V 0.81 (Ohm's law).
  reference_check(part, "heater_W(m, 1.0, 1.0)", heater_W(m, 1.0, 1.0), 6000.0, relative(1.0e-5), source);
  CHECK(heater_W(m, 1.0, 0.95) == doctest::Approx(0.9025 * 6000.0).epsilon(1.0e-5));
  reference_check(part, "heater_W(m, 1.0, 0.9)", heater_W(m, 1.0, 0.9), 0.81 * 6000.0, relative(1.0e-5),
                  source);
  reference_check(part, "heater_W(m, 1.0 / 3.0, 1.0)", heater_W(m, 1.0 / 3.0, 1.0), 2000.0, relative(1.0e-5),
                  source);
  CHECK(heater_W(m, 1.0, 0.0) == 0.0);
}
