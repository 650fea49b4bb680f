#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/product/freezing.h"
#include "tests/reference/report.h"

using namespace stirbench;
using namespace stirbench::product;

namespace {

using tests::absolute;
using tests::at;
using tests::look_up;
using tests::measured;
using tests::own_arithmetic;
using tests::reference_check;
using tests::relative;
using tests::Source;
using tests::worked_example;

constexpr const char* part = "Freezing";

// Goff & Hartel 2013, Table 6.2: 10 % milk solids not fat, 2 % whey solids, 12 % sucrose, 4 % 42 DE syrup
// solids, 60 % water. Lactose 0.545 of the former and 0.765 of the latter, as the method says; the rest of
// both split into protein and ash.
PerComponent table_6_2() {
  PerComponent kg;
  kg[Component::water] = 60.0;
  kg[Component::lactose] = 0.545 * 10.0 + 0.765 * 2.0;
  kg[Component::milk_ash] = 0.08 * 12.0;
  kg[Component::milk_protein] = 12.0 - kg[Component::lactose] - kg[Component::milk_ash];
  kg[Component::sucrose] = 12.0;
  kg[Component::syrup_solids] = 4.0;
  kg[Component::milk_fat] = 12.0;
  return kg;
}

}  // namespace

// Goff & Hartel, Ice Cream, 7th ed. 2013, Table 6.1 (spot rows).
TEST_CASE("sucrose solutions freeze as in Table 6.1") {
  const char* const source = "Goff & Hartel 2013, Table 6.1";
  const double rows[][2] = {{3, 0.18},    {15, 0.90},   {30, 1.86},  {45, 2.78},  {60, 3.85},
                            {75, 5.00},   {90, 6.23},   {105, 7.56}, {120, 8.92}, {135, 10.22},
                            {150, 11.41}, {165, 12.67}, {180, 13.68}};
  for (const auto& row : rows) {
    PerComponent kg;
    kg[Component::water] = 100.0;
    kg[Component::sucrose] = row[0];
    CAPTURE(row[0]);
    look_up(part, at("freezing_point_degC", row[0]), freezing_point_degC(kg), -row[1], source);
    // Just beside a row the curve goes on with the slope of its neighbours, 0.055 to 0.1 K per g.
    for (const double beside : {-0.01, 0.01}) {
      PerComponent near = kg;
      near[Component::sucrose] += beside;
      const double slope = (freezing_point_degC(near) - freezing_point_degC(kg)) / beside;
      CHECK(slope < -0.055);
      CHECK(slope > -0.1);
    }
    // Table 6.3c's polynomial stands within 0.35 K of the table.
    CHECK(std::abs(0.0612 * row[0] + 9.0e-5 * row[0] * row[0] - row[1]) < 0.36);
  }
}

// Molar masses (IUPAC atomic weights): sucrose and lactose 342.30, dextrose and fructose 180.16 g/mol. Equal
// numbers of molecules lower the freezing point equally; the method's factor 1.9 is their ratio.
TEST_CASE("sugars count by their number of molecules") {
  const Source source =
      own_arithmetic("Molar masses (IUPAC atomic weights)", "the rounding of the factor 1.9");
  const auto frozen_degC = [](Component sugar, double kg_per_100_water) {
    PerComponent kg;
    kg[Component::water] = 100.0;
    kg[sugar] = kg_per_100_water;
    return freezing_point_degC(kg);
  };
  const double sucrose_degC = frozen_degC(Component::sucrose, 34.23);
  reference_check(part, "frozen_degC(Component::monosaccharide, 18.016)",
                  frozen_degC(Component::monosaccharide, 18.016), sucrose_degC, relative(0.003), source);
}

TEST_CASE("worked example of Table 6.2") {
  const Source source =
      worked_example("Goff & Hartel 2013, Table 6.2",
                     "half of the last digit of the two columns it adds: 0.01 K, worth up to "
                     "0.3 % of the water");
  const PerComponent mix = table_6_2();
  reference_check(part, "freezing_point_degC(mix)", freezing_point_degC(mix), -2.74, absolute(0.01), source);
  // Share of the water frozen at each temperature. 0.02 K of rounding in the table is worth up to 0.4 % of
  // frozen water near the start; the 80 % row lies beyond Table 6.1 (the book extrapolates to 14.27, we
  // to 14.13: 0.2 % of the water).
  const double rows[][2] = {{3.06, 0.10}, {3.45, 0.20},  {4.01, 0.30},  {4.76, 0.40}, {5.87, 0.50},
                            {7.63, 0.60}, {10.79, 0.70}, {13.16, 0.75}, {16.61, 0.80}};
  for (const auto& row : rows) {
    CAPTURE(row[0]);
    const double frozen = ice_fraction_norm(mix, -row[0]) * mix.sum() / 60.0;
    reference_check(part, at("share of the water frozen", row[0]), frozen, row[1], absolute(0.003), source);
  }
  CHECK(ice_fraction_norm(mix, -2.5) == 0.0);
}

// The same table's column of sugars alone, at strengths between the rows of Table 6.1; its last entry lies
// beyond them.
TEST_CASE("sugars of the worked example of Table 6.2") {
  const Source source = worked_example("Goff & Hartel 2013, Table 6.2, freezing point by sugars alone",
                                       "half of the last digit, interpolated between two such: 0.01 K");
  const double rows[][2] = {{36.97, 2.27}, {41.07, 2.53}, {46.21, 2.86},  {52.81, 3.33},  {61.61, 3.97},
                            {73.93, 4.92}, {92.42, 6.45}, {123.22, 9.21}, {147.87, 11.26}};
  for (const auto& row : rows) {
    PerComponent kg;
    kg[Component::water] = 100.0;
    kg[Component::sucrose] = row[0];
    reference_check(part, at("freezing point of sugars, degC, g per 100 g water,", row[0]),
                    freezing_point_degC(kg), -row[1], 3 * absolute(0.01), source);
  }
}

// And its column of salts alone: 12 g of milk and whey solids in what is left of 60 g of water. Milk solids
// without lactose here, which the method counts with both columns.
TEST_CASE("salts of the worked example of Table 6.2") {
  const Source source = worked_example("Goff & Hartel 2013, Table 6.2, freezing point by salts alone",
                                       "half of the last digit");
  const double rows[][2] = {{0, 0.47},  {10, 0.53}, {20, 0.59}, {30, 0.68}, {40, 0.79},
                            {50, 0.95}, {60, 1.18}, {70, 1.58}, {75, 1.90}, {80, 2.37}};
  for (const auto& row : rows) {
    PerComponent kg;
    kg[Component::water] = 60.0 * (1.0 - 0.01 * row[0]);
    kg[Component::milk_protein] = 11.0;
    kg[Component::milk_ash] = 1.0;
    reference_check(part, at("freezing point of salts, degC, % of water frozen,", row[0]),
                    freezing_point_degC(kg), -row[1], 1.1 * absolute(0.005), source);
  }
}

// The book's statement: 12 % fat, 11 % milk solids not fat, 15 % sugar, 0.3 % stabiliser, 61.7 % water: about
// -2.5 degC.
TEST_CASE("a plain mix freezes near -2.5 degC") {
  const Source source =
      measured("Goff & Hartel 2013: fat 12, milk solids not fat 11, sugar 15 %: about -2.5 degC",
               "half of the last digit");
  const Source chen_1985 = own_arithmetic("Chen 1985 (from memory), by hand",
                                          "one ideal solute instead of the table's real ones: 5 %");
  PerComponent kg;
  kg[Component::water] = 61.7;
  kg[Component::milk_fat] = 12.0;
  kg[Component::milk_protein] = 4.15;
  kg[Component::lactose] = 5.995;
  kg[Component::milk_ash] = 0.855;
  kg[Component::sucrose] = 15.0;
  kg[Component::stabiliser] = 0.3;
  reference_check(part, "freezing_point_degC of a plain mix", freezing_point_degC(kg), -2.5,
                  2 * absolute(0.05), source);
  // Chen 1985 with bound water 0.4 x protein (from memory; named best by Fricke & Becker 2001) at -7.63 degC.
  const double tf = freezing_point_degC(kg);
  const double chen = (0.617 - 0.4 * 0.0415) * (1.0 - tf / -7.63);
  reference_check(part, "ice_fraction_norm(kg, -7.63)", ice_fraction_norm(kg, -7.63), chen,
                  2 * relative(0.05), chen_1985);
}

// Whole milk -0.54..-0.52 degC (cryoscope, common knowledge of the dairy trade, from memory).
TEST_CASE("milk freezes near -0.53 degC") {
  const Source source =
      measured("Dairy trade: -0.51 to -0.55 degC (from memory)", "half the range between herds").held_out();
  PerComponent kg;
  kg[Component::water] = 87.4;
  kg[Component::milk_fat] = 3.7;
  kg[Component::milk_protein] = 3.3;
  kg[Component::lactose] = 4.8;
  kg[Component::milk_ash] = 0.7;
  reference_check(part, "freezing_point_degC of whole milk", freezing_point_degC(kg), -0.53,
                  2 * absolute(0.02), source);
}

TEST_CASE("pure water freezes whole, dry things not at all") {
  PerComponent kg;
  CHECK(freezing_point_degC(kg) == 0.0);
  CHECK(ice_fraction_norm(kg, -10.0) == 0.0);
  kg[Component::sucrose] = 1.0;
  CHECK(freezing_point_degC(kg) == 0.0);
  CHECK(ice_fraction_norm(kg, -10.0) == 0.0);
  kg = {};
  kg[Component::water] = 2.0;
  CHECK(freezing_point_degC(kg) == 0.0);
  CHECK(ice_fraction_norm(kg, -0.01) == 1.0);
}
