#include <doctest/doctest.h>

#include "sim_core/plant/evaporation.h"
#include "sim_core/product/freezing.h"
#include "sim_core/product/kinetics.h"
#include "sim_core/product/properties.h"
#include "sim_core/product/viscosity.h"
#include "tests/reference/report.h"

// Solutions of one sugar in water.
using namespace stirbench;
using namespace stirbench::product;

namespace {

using tests::absolute;
using tests::at;
using tests::measured;
using tests::reference_check;
using tests::relative;
using tests::Source;

constexpr const char* part = "Sugar solutions";

PerComponent solution(Component sugar, double pct) {
  PerComponent kg;
  kg[Component::water] = 100.0 - pct;
  kg[sugar] = pct;
  return kg;
}

}  // namespace

TEST_CASE("solubility of sucrose, and the density of the saturated solution") {
  const Source table = measured("sucrose solubility table, mass % (secondary)",
                                "half the distance of two such tables: 0.2 points");
  for (const auto& [t, pct] : {std::pair{20.0, 66.74}, {40.0, 70.22}, {60.0, 74.32}, {80.0, 78.74}})
    reference_check(part, at("solubility of sucrose, mass %,", t), sugar_solubility_pct(t), pct,
                    2 * absolute(0.2), table);
  const Source mohos = measured("Mohos, Confectionery and Chocolate Engineering, table A2.2 (an older table)",
                                "half the distance of two such tables: 0.2 points; 0.2 % of the density")
                           .held_out();
  struct Row {
    double t, per_100_water, density;
  };
  for (const Row& row : {Row{0, 179.2, 1314.0},
                         {20, 203.9, 1332.7},
                         {40, 238.1, 1353.5},
                         {60, 287.3, 1377.5},
                         {80, 362.1, 1404.9}}) {
    const double pct = 100.0 * row.per_100_water / (100.0 + row.per_100_water);
    reference_check(part, at("solubility of sucrose by the older table, mass %,", row.t),
                    sugar_solubility_pct(row.t), pct, 3 * absolute(0.2), mohos);
    reference_check(part, at("density of the saturated solution, kg/m3,", row.t),
                    density_kg_per_m3(solution(Component::sucrose, pct), row.t), row.density,
                    2 * relative(0.002), mohos);
  }
}

// The program's curve is Leighton's (Goff & Hartel, Table 6.1).
TEST_CASE("freezing points of sugars by another table") {
  const Source source =
      measured("CRC Handbook, concentrative properties of sucrose and glucose (from memory)",
               "last digit and memory: 0.02 K")
          .held_out();
  const double sucrose[][2] = {{4, 0.23},  {6, 0.35},  {8, 0.49},  {10, 0.63}, {12, 0.77},
                               {14, 0.93}, {16, 1.10}, {18, 1.27}, {20, 1.47}, {24, 1.89},
                               {28, 2.37}, {30, 2.64}, {32, 2.94}, {36, 3.60}, {40, 4.45}};
  for (const auto& row : sucrose)
    reference_check(part, at("freezing point of sucrose solution, degC, mass %,", row[0]),
                    freezing_point_degC(solution(Component::sucrose, row[0])), -row[1], 3 * absolute(0.02),
                    source);
  for (const auto& [pct, lowered_K] : {std::pair{5.0, 0.55}, {10.0, 1.16}})
    reference_check(part, at("freezing point of glucose solution, degC, mass %,", pct),
                    freezing_point_degC(solution(Component::monosaccharide, pct)), -lowered_K,
                    3 * absolute(0.02), source);
}

TEST_CASE("boiling points of sucrose solutions") {
  const Source source = measured("sugar-technology tables, boiling point at 1 atm (from memory)",
                                 "such tables differ by 0.2 K, in strong syrup by more")
                            .held_out();
  for (const auto& [pct, degC] : {std::pair{20.0, 100.3}, {30.0, 100.6}, {40.0, 101.0}, {50.0, 101.8}})
    reference_check(part, at("boiling point of sucrose solution, degC, mass %,", pct),
                    plant::boiling_point_degC(freezing_point_degC(solution(Component::sucrose, pct))), degC,
                    2 * absolute(0.2), source);
}

TEST_CASE("viscosity and heat capacity of sucrose solutions by other tables") {
  const Source viscosity = measured("CRC Handbook, viscosity of sucrose solutions at 20 degC (from memory)",
                                    "such tables differ by 2 %")
                               .held_out();
  for (const auto& [pct, mPa_s] :
       {std::pair{10.0, 1.336}, {20.0, 1.945}, {30.0, 3.187}, {50.0, 15.43}, {70.0, 481.6}})
    reference_check(part, at("viscosity of sucrose solution at 20 degC, mPa s, mass %,", pct),
                    1e3 * sugar_solution_viscosity_Pa_s(pct, 20.0), mPa_s, 2 * relative(0.02), viscosity);
  // c = 4.1868 (1 - (0.632 - 0.001 t) x), x the mass fraction.
  const Source heat =
      measured("Janovskii & Archangelskii's rule of the sugar trade for pure solutions (from memory)",
               "it and Hugot's 1 - 0.6 x differ by 1 %")
          .held_out();
  for (const double pct : {20.0, 40.0, 60.0})
    for (const double t : {20.0, 60.0})
      reference_check(part, at("heat capacity of sucrose solution, J/(kg K), mass %,", pct, t),
                      heat_capacity_J_per_kgK(solution(Component::sucrose, pct), t),
                      4186.8 * (1.0 - (0.632 - 0.001 * t) * 0.01 * pct), 2 * relative(0.01), heat);
}
