#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/electrics/sensors.h"
#include "sim_core/plant/drive.h"
#include "sim_core/plant/pump_and_draw.h"
#include "sim_core/refrigeration/r290.h"
#include "tests/reference/report.h"
#include "tests/support/hm45_spec.h"

// Sensors, pipes, refrigerant and motor against tables that none of their laws was made on.
using namespace stirbench;
using tests::absolute;
using tests::at;
using tests::measured;
using tests::reference_check;
using tests::relative;
using tests::Source;
using tests::worked_example;

namespace {

// Colebrook 1939, 1/sqrt(f) = -2 log(e/3.7 + 2.51 / (Re sqrt(f))), by iteration.
double colebrook(double reynolds, double roughness) {
  double x = 6.0;  // 1 / sqrt(f)
  for (int i = 0; i < 60; ++i) x = -2.0 * std::log10(roughness / 3.7 + 2.51 * x / reynolds);
  return 1.0 / (x * x);
}

}  // namespace

TEST_CASE("Pt100: the standard's polynomial against its own table") {
  const Source source = worked_example("IEC 60751, table of the Pt100 (from memory)",
                                       "half of the last digit of a hundredth of an ohm");
  const double rows[][2] = {
      {-200, 18.52}, {-150, 39.72}, {-100, 60.26}, {-50, 80.31},  {-40, 84.27},  {-30, 88.22},  {-10, 96.09},
      {10, 103.90},  {20, 107.79},  {30, 111.67},  {50, 119.40},  {60, 123.24},  {70, 127.08},  {80, 130.90},
      {90, 134.71},  {110, 142.29}, {120, 146.07}, {150, 157.33}, {200, 175.86}, {250, 194.10}, {300, 212.05},
      {400, 247.09}, {500, 280.98}, {600, 313.71}, {700, 345.28}, {800, 375.70}, {850, 390.48}};
  for (const auto& row : rows) {
    reference_check("Wiring", at("Pt100, Ohm,", row[0]), electrics::pt_Ohm(100.0, row[0]), row[1],
                    absolute(0.005), source);
    CHECK(electrics::pt_degC(100.0, row[1]) == doctest::Approx(row[0]).epsilon(0.001).scale(20.0));
  }
}

TEST_CASE("friction factor: Churchill's one equation against Colebrook's") {
  const Source source =
      measured("Colebrook 1939, Moody 1944 (equation from memory), solved by iteration in the test",
               "Moody gives 5 % for smooth and 10 % for rough pipes")
          .held_out();
  for (const double re : {1.0e4, 3.0e4, 1.0e5, 1.0e6})
    for (const double roughness : {0.0, 1.0e-4, 1.0e-3, 1.0e-2})
      reference_check("Pump and draw line", at("friction factor, roughness, Re,", roughness, re),
                      plant::churchill_friction(re, roughness), colebrook(re, roughness),
                      relative(roughness > 0.0 ? 0.10 : 0.05), source);
}

TEST_CASE("R-290 between the temperatures of its fit") {
  const Source source = measured("Lemmon et al. 2009 as tabulated by calculators (from memory)",
                                 "four digits, and the equation of state's own 0.1 %")
                            .held_out();
  for (const auto& [t, bar] :
       {std::pair{-25.0, 2.034}, {-15.0, 2.916}, {15.0, 7.315}, {25.0, 9.521}, {35.0, 12.18}, {45.0, 15.34}})
    reference_check("Chiller", at("saturation pressure of R-290, bar,", t),
                    refrigeration::r290_pressure_bar(t), bar, 3 * relative(0.001), source);
  reference_check("Chiller", "normal boiling point of R-290, degC",
                  refrigeration::r290_saturation_degC(1.01325), -42.11, 2 * absolute(0.1),
                  measured("Lemmon et al. 2009", "0.3 % of the pressure, which is 0.1 K").held_out());
}

TEST_CASE("small four-pole motors at standstill") {
  const plant::DriveSpec d = tests::hm45_spec().drive;
  reference_check(
      "Drive and wear", "locked-rotor current over rated current",
      plant::motor_current_A(d, 0.0, 1.0) / d.rated_A, 4.75, absolute(1.25),
      measured("common practice: 3.5 to 6 times rated (from memory)", "half the range").held_out());
  reference_check(
      "Drive and wear", "starting torque over rated torque",
      plant::kloss_torque_Nm(d, 0.0, 1.0) / plant::rated_torque_Nm(d), 2.0, 2 * absolute(0.5),
      measured("common practice: 1.5 to 2.5 times rated (from memory)", "half the range").held_out());
}
