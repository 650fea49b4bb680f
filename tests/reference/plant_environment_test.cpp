#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/plant/chiller.h"
#include "sim_core/plant/drive.h"
#include "sim_core/plant/evaporation.h"
#include "sim_core/plant/heat.h"
#include "sim_core/plant/plant.h"
#include "sim_core/plant/transfer.h"
#include "sim_core/product/freezing.h"
#include "sim_core/product/kinetics.h"
#include "sim_core/product/properties.h"
#include "tests/reference/report.h"
#include "tests/support/hm45_spec.h"

// The room and the supply: moist air, evaporation, dew, radiation, voltage and frequency; table salt and the
// heat of dissolving sugar.
using namespace stirbench;
using namespace stirbench::plant;

namespace {

using product::Component;
using tests::absolute;
using tests::at;
using tests::measured;
using tests::own_arithmetic;
using tests::reference_check;
using tests::relative;
using tests::Source;
using tests::worked_example;

constexpr const char* part = "Environment";

double vapour_Pa(double t_degC, double humidity_norm) {
  return humidity_norm * product::saturation_pressure_Pa(t_degC);
}

product::Ingredient only(Component component, product::Form form) {
  product::Ingredient i;
  i.fraction[component] = 1.0;
  i.form = form;
  return i;
}

}  // namespace

TEST_CASE("humidity ratio and dew point of moist air") {
  const Source source = own_arithmetic(
      "ASHRAE's psychrometric formulae with saturation by IAPWS-IF97 (python-iapws), 101.325 kPa",
      "of saturation pressure 0.1 %, of dew point 0.02 K");
  struct Row {
    double t, humidity, ratio, dew;
  };
  const Row rows[] = {{25, 0.5, 0.009883, 13.864}, {20, 1.0, 0.014699, 20.0},   {30, 1.0, 0.027208, 30.0},
                      {25, 0.6, 0.011898, 16.701}, {30, 0.7, 0.018799, 23.928}, {22, 0.5, 0.008226, 11.110},
                      {35, 0.8, 0.028926, 31.024}, {40, 0.3, 0.013903, 19.125}};
  for (const Row& row : rows) {
    reference_check(part, at("humidity_ratio", row.t, row.humidity),
                    humidity_ratio(vapour_Pa(row.t, row.humidity)), row.ratio, relative(0.001), source);
    reference_check(part, at("dew_point_degC", row.t, row.humidity),
                    dew_point_degC(vapour_Pa(row.t, row.humidity)), row.dew, absolute(0.02), source);
  }
  // ASHRAE Fundamentals, table of moist air at saturation. It has the enhancement factor of 1.004 in it,
  // which ours leaves out.
  const Source table = measured("ASHRAE Fundamentals, moist air at saturation, 101.325 kPa (from memory)",
                                "0.2 %, as remembered");
  const double saturated[][2] = {{0, 0.003790},  {5, 0.005424},  {10, 0.007661}, {15, 0.010692},
                                 {20, 0.014758}, {25, 0.020170}, {30, 0.027329}, {35, 0.036756},
                                 {40, 0.049141}, {45, 0.065416}, {50, 0.086858}};
  for (const auto& row : saturated)
    reference_check(part, at("humidity_ratio at saturation", row[0]), humidity_ratio(vapour_Pa(row[0], 1.0)),
                    row[1], 3 * relative(0.002), table);
}

TEST_CASE("evaporation from open water into a room of 25 degC and 50 %") {
  const Source source = own_arithmetic("Shah 2012-2014 (form and C = 35 from memory), worked by hand",
                                       "three or four digits: 0.5 %");
  const Source analogy = own_arithmetic("Lewis analogy, worked for the physics reference",
                                        "Shah's own mean deviation from measurements: 18 %");
  const double room_Pa = vapour_Pa(25.0, 0.5);
  struct Row {
    double t, shah, lewis;
  };
  const Row rows[] = {
      {40, 0.705, 0.738}, {60, 2.888, 2.86}, {70, 5.109, 4.94}, {80, 8.587, 8.12}, {85, 10.96, 10.3}};
  for (const Row& row : rows) {
    const double ours = shah_kg_per_m2h(row.t, 25.0, room_Pa);
    CHECK(ours == doctest::Approx(row.shah).epsilon(0.005));
    reference_check(part, at("shah_kg_per_m2h against Lewis analogy", row.t), ours, row.lewis, relative(0.18),
                    analogy);
  }
  // Heat for an open disc of 0.38 m.
  const double disc_m2 = 0.25 * 3.14159265358979 * 0.38 * 0.38;
  for (const auto& [t, watts] : {std::pair{40.0, 53.5}, {60.0, 214.5}, {85.0, 793.0}}) {
    reference_check(
        part, at("heat of evaporation of an open vat, W", t),
        shah_kg_per_m2h(t, 25.0, room_Pa) * disc_m2 / 3600.0 * product::evaporation_heat_J_per_kg(t), watts,
        2 * relative(0.01), source);
  }
  // More room humidity, less evaporation; at the dew point none, colder than that the room's moisture
  // settles.
  CHECK(shah_kg_per_m2h(40.0, 25.0, vapour_Pa(25.0, 0.9)) < shah_kg_per_m2h(40.0, 25.0, room_Pa));
  CHECK(std::abs(shah_kg_per_m2h(13.864, 25.0, room_Pa)) < 0.002);
  CHECK(shah_kg_per_m2h(4.0, 25.0, room_Pa) < -0.03);
}

// Nine rates of a public evaporation code's table (water and air in degC, 50 % relative humidity, kg/(m2 h));
// that the table is Shah's own is an inference.
TEST_CASE("evaporation: a published table of water near the temperature of the air") {
  const Source table = worked_example("Table of a public evaporation code, attributed to Shah",
                                      "four digits, steam tables of its own: 0.25 %");
  const double rows[][3] = {{28, 28, 0.1360}, {28, 29, 0.1171}, {28, 30, 0.0968},
                            {29, 28, 0.1651}, {29, 29, 0.1463}, {29, 30, 0.1268},
                            {30, 28, 0.1959}, {30, 29, 0.1771}, {30, 30, 0.1575}};
  for (const auto& row : rows) {
    reference_check(part, at("shah_kg_per_m2h, water and air degC", row[0], row[1]),
                    shah_kg_per_m2h(row[0], row[1], vapour_Pa(row[1], 0.5)), row[2], 2 * relative(0.0025),
                    table);
  }
}

TEST_CASE("dew: mass and heat by the Lewis analogy, none above the dew point") {
  const Source source =
      own_arithmetic("Lewis analogy h/(cp Le^2/3) (W_room - W_wall) by hand, ASHRAE humidity ratios",
                     "difference of two ratios of five digits: 0.5 %");
  // 30 degC and 70 %: W 0.018799; wall at 15 degC: saturated W 0.01061 (IAPWS 1705.8 Pa).
  reference_check(part, "dew_kg_per_m2s at a wall of 15 in 30 degC, 70 %",
                  dew_kg_per_m2s(4.5, 15.0, vapour_Pa(30, 0.7)),
                  4.5 / (1006.0 * 0.9) * (0.018799 - 0.62198 * 1705.8 / (101325.0 - 1705.8)),
                  2 * relative(0.005), source);
  CHECK(std::abs(dew_kg_per_m2s(4.5, 23.928, vapour_Pa(30, 0.7))) < 1.0e-7);
  CHECK(dew_kg_per_m2s(4.5, 25.0, vapour_Pa(30, 0.7)) < 0.0);
}

TEST_CASE("elements on a low supply: power by the square of the voltage") {
  const MachineSpec m = tests::hm45_spec();
  reference_check(part, "share of power at 230/240 V",
                  heater_W(m, 1.0, 230.0 / 240.0) / heater_W(m, 1.0, 1.0), 0.918, absolute(0.0005),
                  own_arithmetic("P = V^2/R, worked for the physics reference", "half of the last digit"));
}

// Constant flux (V/f): the synchronous speed follows the frequency, the torque at a given slip speed stays,
// and the breakdown torque goes with (V/f)^2 (Chapman, Electric Machinery Fundamentals, from memory).
TEST_CASE("the drive on 60 Hz") {
  const Source source =
      own_arithmetic("n = 120 f / poles; constant V/f keeps torque at a slip speed (textbook, from memory)",
                     "the search over whole 1/min: 1 %");
  const DriveSpec d = tests::hm45_spec().drive;
  const DriveSpec fast = at_frequency(d, 1.2);
  reference_check(part, "synchronous speed of a four-pole motor at 60 Hz", fast.synchronous_rpm, 1800.0,
                  1e-6 * relative(0.01), source);
  // Same volts on 60 Hz: flux 1/1.2, breakdown torque 0.694.
  double most_50 = 0.0;
  double most_60 = 0.0;
  for (int rpm = 0; rpm < 1800; ++rpm) {
    most_50 = std::max(most_50, kloss_torque_Nm(d, rpm, 1.0));
    most_60 = std::max(most_60, kloss_torque_Nm(fast, rpm, 1.0 / 1.2));
  }
  reference_check(part, "breakdown torque at 400 V 60 Hz over 50 Hz", most_60 / most_50, 1.0 / 1.44,
                  2 * relative(0.01), source);
  reference_check(part, "torque at 100 rpm of slip, 480 V 60 Hz over 400 V 50 Hz",
                  kloss_torque_Nm(fast, 1700.0, 1.0) / kloss_torque_Nm(d, 1400.0, 1.0), 1.0,
                  2 * relative(0.01), source);
}

TEST_CASE("table salt lowers the freezing point as a dissociated salt does") {
  const Source source = measured("CRC Handbook, concentrative properties of NaCl solutions (from memory)",
                                 "half of the last digit and as much for the memory: 0.006 K");
  for (const auto& [pct, lowered_K] :
       {std::pair{0.5, 0.299}, {1.0, 0.593}, {2.0, 1.186}, {3.0, 1.79}, {3.5, 2.10}}) {
    product::PerComponent kg;
    kg[Component::water] = 100.0 - pct;
    kg[Component::salt] = pct;
    reference_check(part, at("freezing_point_degC of salt water, mass %", pct),
                    product::freezing_point_degC(kg), -lowered_K, 2 * absolute(0.006),
                    pct == 1.0 ? source.fitted_on() : source.held_out());
  }
}

// Sugar takes 16 kJ/kg up as it dissolves (physics reference section 10, from memory): 4 kg in 20 kg of water
// of 40 degC cools them by 16 x 4 / (m cp).
TEST_CASE("dissolving sugar cools, and the account stays closed") {
  const MachineSpec m = tests::hm45_spec();
  PlantState s = initial_state(m, {});
  pour(m, s, only(Component::water, product::Form::liquid), 20.0, 40.0);
  for (int i = 0; i < 300; ++i) step(m, s, {0.0, true, false}, 0.1);
  const auto run = [&](PlantState state, product::Form form) {
    pour(m, state, only(Component::sucrose, form), 4.0, 40.0);
    for (int i = 0; i < 3000; ++i) step(m, state, {0.0, true, false}, 0.1);
    CHECK(loose_sugar_kg(state.product) == 0.0);
    CHECK(std::abs(residual_J(m, state)) < 50.0);
    return product_degC(state);
  };
  const double dissolved = run(s, product::Form::liquid);
  const double crystals = run(s, product::Form::crystals);
  // Walls, evaporator and elements go along: 8 + 4 + 2.4 kg at 500, 6 kg at 420 J/(kg K).
  const double cp = 20.0 * 4180.0 + 4.0 * 1620.0 + 14.4 * 500.0 + 6.0 * 420.0;
  reference_check(part, "fall of temperature by dissolving 4 kg in 20 kg, K", dissolved - crystals,
                  4.0 * 16.0e3 / cp, 2 * relative(0.025),
                  own_arithmetic("16 kJ/kg (from memory) over m cp by hand",
                                 "heat capacities of walls and parts by hand: 2.5 %"));
}
