#include "sim_core/product/freezing.h"

#include <algorithm>
#include <array>
#include <cstddef>

#include "sim_core/product/properties.h"

namespace stirbench::product {
namespace {

// Goff & Hartel, Ice Cream, 7th ed. 2013, Table 6.1: freezing-point depression [K] of 0, 3, 6 ... 180 g
// sucrose per 100 g water.
constexpr double table_step = 3.0;
constexpr std::array<double, 61> depression_K = {
    0.00,  0.18,  0.35,  0.53,  0.72,  0.90,  1.10,  1.29,  1.47,  1.67,  1.86,  2.03,  2.21,
    2.40,  2.60,  2.78,  2.99,  3.20,  3.42,  3.63,  3.85,  4.10,  4.33,  4.54,  4.77,  5.00,
    5.26,  5.53,  5.77,  5.99,  6.23,  6.50,  6.80,  7.04,  7.32,  7.56,  7.80,  8.04,  8.33,
    8.62,  8.92,  9.19,  9.45,  9.71,  9.96,  10.22, 10.47, 10.72, 10.97, 11.19, 11.41, 11.63,
    11.88, 12.14, 12.40, 12.67, 12.88, 13.08, 13.28, 13.48, 13.68};
// Slope beyond the table: that of the same book's polynomial 0.0612 x + 0.00009 x^2 at x = 180.
constexpr double slope_beyond_K = 0.0612 + 2.0 * 0.00009 * 180.0;

// No interval of the table lies below this slope from the origin; bounds the search for the ice fraction.
constexpr double least_slope_K = 0.0575;

double sugar_depression_K(double sucrose_per_100_water) {
  const double last = table_step * static_cast<double>(depression_K.size() - 1);
  if (sucrose_per_100_water >= last)
    return depression_K.back() + slope_beyond_K * (sucrose_per_100_water - last);
  const double place = sucrose_per_100_water / table_step;
  const auto index = std::min(static_cast<std::size_t>(place), depression_K.size() - 2);
  const double part = place - static_cast<double>(index);
  return depression_K[index] + part * (depression_K[index + 1] - depression_K[index]);
}

// Ice Ih at 0 degC, IAPWS.
constexpr double fusion_0_J_per_kg = 333.6e3;

struct Solutes {
  double sucrose_equivalent_kg;
  double salts_K_kg;  // depression [K] x water [kg]
};

Solutes solutes(const PerComponent& kg) {
  // Sucrose equivalents: lactose 1.0, monosaccharides 1.9, 42 DE syrup solids 0.80. Salts: 2.37 K per (100 x
  // milk solids not fat / water); milk ash is 8 % of those, which puts 0.296 K on each g of ash per 100 g
  // water, taken for other ash too. Table salt dissociates: 2 x 1.86 K kg/mol x 0.93 / 58.44 g/mol, which
  // is 0.593 K at 1 g per 100 g water (CRC Handbook, from memory).
  const double milk_solids = kg[Component::milk_protein] + kg[Component::lactose] + kg[Component::milk_ash];
  return {kg[Component::sucrose] + kg[Component::lactose] + 1.9 * kg[Component::monosaccharide] +
              0.80 * kg[Component::syrup_solids],
          2.37 * milk_solids + 2.37 / 0.08 * kg[Component::other_ash] + 59.3 * kg[Component::salt]};
}

double depression_at_K(const Solutes& s, double per_water) {
  return sugar_depression_K(100.0 * s.sucrose_equivalent_kg * per_water) + s.salts_K_kg * per_water;
}

}  // namespace

double freezing_point_degC(const PerComponent& dissolved_kg) {
  const double water_kg = dissolved_kg[Component::water];
  // With less than a millionth of water there is no solution (a heap of dry sugar).
  if (!(water_kg > 1.0e-6 * dissolved_kg.sum())) return 0.0;
  return -depression_at_K(solutes(dissolved_kg), 1.0 / water_kg);
}

double ice_fraction_norm(const PerComponent& dissolved_kg, double t_degC) {
  const double water_kg = dissolved_kg[Component::water];
  const double total_kg = dissolved_kg.sum();
  if (!(water_kg > 1.0e-6 * total_kg) || t_degC >= freezing_point_degC(dissolved_kg)) return 0.0;
  const Solutes s = solutes(dissolved_kg);
  const double per_kg_K = 100.0 * least_slope_K * s.sucrose_equivalent_kg + s.salts_K_kg;
  if (!(per_kg_K > 0.0)) return water_kg / total_kg;

  // The depression grows with 1 / (liquid water): bisect that until the liquid freezes at t.
  double low = 1.0 / water_kg;
  double high = std::max(low, -t_degC / per_kg_K);
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (depression_at_K(s, middle) < -t_degC ? low : high) = middle;
  }
  return std::clamp((water_kg - 1.0 / high) / total_kg, 0.0, water_kg / total_kg);
}

double fusion_at_J_per_kg(double t_degC) {
  const double t = std::clamp(t_degC, -60.0, 0.0);
  // Liquid water below 0 degC as properties.h has it: heat capacity of 0 degC.
  const double water = component_heat_capacity_J_per_kgK(Component::water, 0.0);
  return fusion_0_J_per_kg + (water - 2062.3) * t - 0.5 * 6.0769 * t * t;
}

double frozen_enthalpy_J(const PerComponent& mass_kg, const PerComponent& dissolved, double t_degC) {
  const double ice_kg = ice_fraction_norm(dissolved, t_degC) * dissolved.sum();
  return enthalpy_J(mass_kg, t_degC) - ice_kg * fusion_at_J_per_kg(t_degC);
}

double frozen_temperature_degC(const PerComponent& mass_kg, const PerComponent& dissolved, double held_J,
                               double guess_degC) {
  if (!(mass_kg.sum() > 0.0)) return guess_degC;
  const double start_degC = freezing_point_degC(dissolved);
  if (held_J >= enthalpy_J(mass_kg, start_degC)) return temperature_degC(mass_kg, held_J, guess_degC);
  // Rising everywhere, steep near the freezing point and flat below: bounds drawn in from the guess, then
  // halved.
  double low = -60.0;
  double high = start_degC;
  for (double width = 0.05; width < 4.0; width *= 4.0) {
    const double below = guess_degC - width;
    const double above = guess_degC + width;
    if (below > low && below < high && frozen_enthalpy_J(mass_kg, dissolved, below) <= held_J) low = below;
    if (above < high && above > low && frozen_enthalpy_J(mass_kg, dissolved, above) >= held_J) high = above;
    if (high - low <= 2.0 * width) break;
  }
  for (int i = 0; i < 50 && high - low > 1.0e-9; ++i) {
    const double middle = 0.5 * (low + high);
    (frozen_enthalpy_J(mass_kg, dissolved, middle) < held_J ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

double apparent_heat_capacity_J_per_kgK(const PerComponent& mass_kg, const PerComponent& dissolved,
                                        double t_degC) {
  const double rise_J = frozen_enthalpy_J(mass_kg, dissolved, t_degC + 0.01) -
                        frozen_enthalpy_J(mass_kg, dissolved, t_degC - 0.01);
  return rise_J / (0.02 * mass_kg.sum());
}

}  // namespace stirbench::product
