#include <doctest/doctest.h>

#include "sim_core/product/properties.h"
#include "tests/reference/report.h"

// Foods of a handbook, by their composition.
using namespace stirbench;
using namespace stirbench::product;
using tests::at;
using tests::reference_check;
using tests::relative;

// ASHRAE Refrigeration 2006, ch. 9, Table 3: water, protein, fat, carbohydrate, of which fibre, ash [% of
// mass], heat capacity above freezing [kJ/(kg K)].
TEST_CASE("heat capacity of more foods of the ASHRAE table") {
  const tests::Source source = tests::measured("ASHRAE Refrigeration 2006, ch. 9, Table 3 (from memory)",
                                               "foods of one name differ by 1 % of their water: 1 %")
                                   .held_out();
  struct Row {
    const char* name;
    double water, protein, fat, carbohydrate, fibre, ash, cp;
  };
  const Row rows[] = {{"apples", 83.93, 0.19, 0.36, 15.25, 2.70, 0.26, 3.81},
                      {"bananas", 74.26, 1.03, 0.48, 23.43, 2.40, 0.80, 3.56},
                      {"broccoli", 90.69, 2.98, 0.35, 5.24, 3.00, 0.92, 4.01},
                      {"cabbage", 92.15, 1.44, 0.27, 5.43, 2.30, 0.71, 4.02},
                      {"grapes", 81.30, 0.63, 0.35, 17.15, 1.00, 0.57, 3.71},
                      {"mushrooms", 91.81, 2.09, 0.42, 4.65, 1.20, 0.89, 3.99},
                      {"onions", 89.68, 1.16, 0.16, 8.63, 1.80, 0.37, 3.95},
                      {"oranges", 82.30, 1.30, 0.30, 15.50, 4.50, 0.60, 3.81},
                      {"peas", 78.86, 5.42, 0.40, 14.46, 5.10, 0.87, 3.75},
                      {"potatoes", 78.96, 2.07, 0.10, 17.98, 1.60, 0.89, 3.67},
                      {"spinach", 91.58, 2.86, 0.35, 3.50, 2.70, 1.72, 4.02},
                      {"strawberries", 91.57, 0.61, 0.37, 7.02, 2.30, 0.43, 4.00},
                      {"tomatoes", 93.76, 0.85, 0.33, 4.64, 1.10, 0.42, 4.02},
                      {"egg, white", 87.81, 10.52, 0.0, 1.03, 0.0, 0.64, 3.91},
                      {"egg, whole", 75.33, 12.49, 10.02, 1.22, 0.0, 0.94, 3.63},
                      {"egg, yolk", 48.81, 16.76, 30.87, 1.78, 0.0, 1.77, 3.05},
                      {"evaporated milk", 74.04, 6.81, 7.56, 10.04, 0.0, 1.55, 3.56},
                      {"sweetened condensed milk", 27.16, 7.91, 8.70, 54.40, 0.0, 1.83, 2.35},
                      {"skim milk", 90.80, 3.41, 0.18, 4.85, 0.0, 0.76, 3.95},
                      {"honey", 17.10, 0.30, 0.0, 82.40, 0.20, 0.20, 2.03}};
  for (const Row& row : rows) {
    PerComponent f;
    f[Component::water] = row.water;
    f[Component::other_protein] = row.protein;
    f[Component::other_fat] = row.fat;
    f[Component::other_carbohydrate] = row.carbohydrate - row.fibre;
    f[Component::fibre] = row.fibre;
    f[Component::other_ash] = row.ash;
    reference_check("Properties", at("heat capacity, kJ/(kg K),", row.name),
                    1e-3 * heat_capacity_J_per_kgK(f, 4.0), row.cp, 2 * relative(0.01), source);
  }
}

TEST_CASE("oil, and the density of a mix") {
  PerComponent oil;
  oil[Component::other_fat] = 1.0;
  reference_check("Properties", "heat capacity of olive oil, kJ/(kg K)",
                  1e-3 * heat_capacity_J_per_kgK(oil, 20.0), 2.01, 2 * relative(0.01),
                  tests::measured("Geankoplis, App. A.4-1, olive oil", "oils differ by 1 %").held_out());
  PerComponent mix;
  mix[Component::water] = 62.0;
  mix[Component::milk_fat] = 11.0;
  mix[Component::milk_protein] = 4.0;
  mix[Component::lactose] = 6.0;
  mix[Component::milk_ash] = 0.9;
  mix[Component::sucrose] = 16.0;
  mix[Component::stabiliser] = 0.1;
  reference_check(
      "Properties", "density of a usual mix at 20 degC, kg/L", 1e-3 * density_kg_per_m3(mix, 20.0), 1.095,
      tests::absolute(0.005),
      tests::measured("University of Guelph, Dairy Science: 1.09 to 1.10 kg/L", "half the range").held_out());
}
