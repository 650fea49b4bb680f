#include "sim_core/product/properties.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace stirbench::product {
namespace {

constexpr double lowest_degC = 0.0;
constexpr double highest_degC = 110.0;

double legal(double t_degC) { return std::clamp(t_degC, lowest_degC, highest_degC); }

// Chemical families that Choi & Okos give coefficients for; what comes from milk apart, as it is dissolved or
// dispersed there and takes less room than the dry matter, and as its fat sets within the range of use.
enum class Family : unsigned char {
  water,
  milk_fat,
  fat,
  milk_protein,
  protein,
  lactose,
  carbohydrate,
  fibre,
  milk_ash,
  ash,
  count
};
constexpr std::size_t family_count = static_cast<std::size_t>(Family::count);

constexpr std::array<Family, component_count> family_of = {
    Family::water,         // water
    Family::milk_fat,      // milk_fat
    Family::fat,           // other_fat
    Family::milk_protein,  // milk_protein
    Family::protein,       // egg_protein
    Family::protein,       // other_protein
    Family::lactose,       // lactose
    Family::carbohydrate,  // sucrose
    Family::carbohydrate,  // monosaccharide
    Family::carbohydrate,  // syrup_solids
    Family::carbohydrate,  // other_carbohydrate
    Family::fibre,         // fibre
    Family::milk_ash,      // milk_ash
    Family::ash,           // other_ash
    Family::ash,           // salt
    Family::fibre,         // stabiliser: a polysaccharide that is not digested
    Family::fat,           // emulsifier: mono- and diglycerides
};

// y = a + b t + c t^2.
struct Quadratic {
  double a, b, c;
};

// Choi & Okos 1986, ASHRAE Refrigeration Handbook 2006, ch. 9, Tables 1 and 2; cp in J/(kg K), k in W/(m K),
// density in kg/m3 (linear). The water entries are not used: water has its own fits below.
constexpr Quadratic unused = {1.0, 0.0, 0.0};
constexpr Quadratic fat_cp = {1984.2, 1.4733, -4.8008e-3};
constexpr Quadratic protein_cp = {2008.2, 1.2089, -1.3129e-3};
constexpr Quadratic carbohydrate_cp = {1548.8, 1.9625, -5.9399e-3};
constexpr Quadratic fibre_cp = {1845.9, 1.8306, -4.6509e-3};
constexpr Quadratic ash_cp = {1092.6, 1.8896, -3.6817e-3};
constexpr std::array<Quadratic, family_count> heat_capacity_of = {
    {unused, fat_cp, fat_cp, protein_cp, protein_cp, carbohydrate_cp, carbohydrate_cp, fibre_cp, ash_cp,
     ash_cp}};
constexpr Quadratic fat_k = {0.18071, -2.7604e-4, -1.7749e-7};
constexpr Quadratic protein_k = {0.17881, 1.1958e-3, -2.7178e-6};
constexpr Quadratic carbohydrate_k = {0.20141, 1.3874e-3, -4.3312e-6};
constexpr Quadratic fibre_k = {0.18331, 1.2497e-3, -3.1683e-6};
constexpr Quadratic ash_k = {0.32962, 1.4011e-3, -2.9069e-6};
constexpr std::array<Quadratic, family_count> conductivity_of = {
    {unused, fat_k, fat_k, protein_k, protein_k, carbohydrate_k, carbohydrate_k, fibre_k, ash_k, ash_k}};
// Of milk: the apparent densities at 20 degC of what is dissolved in it (protein 1400, lactose 1780, the rest
// 1850 kg/m3; Walstra et al., Dairy Science and Technology, from memory), with Choi & Okos's slopes.
constexpr std::array<Quadratic, family_count> density_of = {{
    unused,
    {925.59, -0.41757, 0.0},  // milk fat, all of it liquid
    {925.59, -0.41757, 0.0},  // fat
    {1410.4, -0.5184, 0.0},   // milk protein
    {1329.9, -0.5184, 0.0},   // protein
    {1786.2, -0.31046, 0.0},  // lactose
    {1599.1, -0.31046, 0.0},  // carbohydrate
    {1311.5, -0.36589, 0.0},  // fibre
    {1855.6, -0.28063, 0.0},  // milk ash
    {2423.8, -0.28063, 0.0},  // ash
}};

// Milk fat sets and melts over a range: the share of its heat of fusion that is in at t is
// 1 / (1 + exp(-(t - middle) / width)). 40 kJ/kg about 15.5 degC with a width of 4.1 K bring the heat
// capacity of cream to the handbook's maximum at 15 degC (30 % fat: 4.11 kJ/(kg K), from memory).
constexpr double melts_degC = 15.5;
constexpr double melts_over_K = 4.1;
constexpr double solid_share_cold = 0.55;   // of the fat when all of that heat is out (from memory)
constexpr double solid_denser_norm = 0.05;  // solid against liquid milk fat (from memory)

double molten_norm(double t) { return 1.0 / (1.0 + std::exp((melts_degC - t) / melts_over_K)); }

double at(const Quadratic& q, double t) { return q.a + t * (q.b + t * q.c); }
double integral(const Quadratic& q, double t) { return t * (q.a + t * (q.b / 2.0 + t * q.c / 3.0)); }

template <std::size_t N>
double horner(const std::array<double, N>& c, double t) {
  double y = c[N - 1];
  for (std::size_t i = N - 1; i-- > 0;) y = y * t + c[i];
  return y;
}

// Fits (least maximum relative error) to IAPWS-IF97 liquid water, 0.01..110 degC at 0.101325 MPa, above 100
// degC at saturation. Largest errors: density 0.0007 %, cp 0.012 %, k 0.023 %, evaporation heat 0.0008 %,
// saturation pressure 0.002 %.
constexpr std::array<double, 6> water_density = {999.851637,     0.0616390114,    -8.30642542e-3,
                                                 6.35830168e-05, -3.82182451e-07, 1.00333203e-09};
constexpr std::array<double, 6> water_heat_capacity = {4218.94214,     -3.14965439,    0.0962460569,
                                                       -0.00149118976, 1.21741539e-05, -3.75547342e-08};
constexpr std::array<double, 5> water_conductivity = {0.555777468, 2.48344255e-3, -2.07156258e-05,
                                                      1.18774557e-07, -3.83784774e-10};
constexpr std::array<double, 4> water_evaporation_heat = {2500945.3, -2377.38375, 0.60068515, -0.012756881};
constexpr std::array<double, 6> water_ln_pressure = {6.41546345,     0.0726591874,    -2.9854425e-4,
                                                     1.10903413e-06, -3.36235896e-09, 5.82510208e-12};

double water_enthalpy(double t) {
  const auto& c = water_heat_capacity;
  return t *
         (c[0] + t * (c[1] / 2.0 + t * (c[2] / 3.0 + t * (c[3] / 4.0 + t * (c[4] / 5.0 + t * c[5] / 6.0)))));
}

// Written as a fold so that the table turns into six plain sums at compile time: a sixth of a loop's time.
template <std::size_t... I>
std::array<double, family_count> family_mass_kg(const PerComponent& mass_kg, std::index_sequence<I...>) {
  std::array<double, family_count> sum{};
  ((sum[static_cast<std::size_t>(family_of[I])] += mass_kg.value[I]), ...);
  return sum;
}

std::array<double, family_count> family_mass_kg(const PerComponent& mass_kg) {
  return family_mass_kg(mass_kg, std::make_index_sequence<component_count>{});
}

constexpr std::size_t milk_fat_at = static_cast<std::size_t>(Family::milk_fat);

// Density of a family at a legal temperature; what is solid of the milk fat is denser.
double family_density(std::size_t f, double t, double molten) {
  const double liquid = at(density_of[f], t);
  return f == milk_fat_at ? liquid * (1.0 + solid_denser_norm * solid_share_cold * (1.0 - molten)) : liquid;
}

Family family(Component component) { return family_of[static_cast<std::size_t>(component)]; }

// Heat capacity of the whole mass [J/K] at a legal temperature.
double capacity_J_per_K(const std::array<double, family_count>& mass, double t) {
  double sum = mass[0] * horner(water_heat_capacity, t);
  for (std::size_t f = 1; f < family_count; ++f) sum += mass[f] * at(heat_capacity_of[f], t);
  if (mass[milk_fat_at] > 0.0) {
    const double molten = molten_norm(t);
    sum += mass[milk_fat_at] * milk_fat_setting_J_per_kg * molten * (1.0 - molten) / melts_over_K;
  }
  return sum;
}

// Enthalpy; beyond the legal range the heat capacity stays at its end value, so the enthalpy goes on as a
// straight line.
double enthalpy_of(const std::array<double, family_count>& mass, double t_degC) {
  const double t = legal(t_degC);
  double sum = mass[0] * water_enthalpy(t);
  for (std::size_t f = 1; f < family_count; ++f) sum += mass[f] * integral(heat_capacity_of[f], t);
  if (mass[milk_fat_at] > 0.0)
    sum += mass[milk_fat_at] * milk_fat_setting_J_per_kg * (molten_norm(t) - molten_norm(0.0));
  if (t_degC != t) sum += capacity_J_per_K(mass, t) * (t_degC - t);
  return sum;
}

}  // namespace

double milk_fat_set_norm(double t_degC) { return 1.0 - molten_norm(legal(t_degC)); }

double component_heat_capacity_J_per_kgK(Component component, double t_degC) {
  std::array<double, family_count> one{};
  one[static_cast<std::size_t>(family(component))] = 1.0;
  return capacity_J_per_K(one, legal(t_degC));
}

double component_enthalpy_J_per_kg(Component component, double t_degC) {
  if (component == Component::water && t_degC == legal(t_degC)) return water_enthalpy(t_degC);
  std::array<double, family_count> one{};
  one[static_cast<std::size_t>(family(component))] = 1.0;
  return enthalpy_of(one, t_degC);
}

double component_density_kg_per_m3(Component component, double t_degC) {
  const double t = legal(t_degC);
  const Family f = family(component);
  return f == Family::water ? horner(water_density, t)
                            : family_density(static_cast<std::size_t>(f), t, molten_norm(t));
}

double component_conductivity_W_per_mK(Component component, double t_degC) {
  const double t = legal(t_degC);
  const Family f = family(component);
  return f == Family::water ? horner(water_conductivity, t)
                            : at(conductivity_of[static_cast<std::size_t>(f)], t);
}

double heat_capacity_J_per_kgK(const PerComponent& mass_kg, double t_degC) {
  const auto mass = family_mass_kg(mass_kg);
  double total = 0.0;
  for (const double m : mass) total += m;
  const double t = legal(t_degC);
  return total > 0.0 ? capacity_J_per_K(mass, t) / total : horner(water_heat_capacity, t);
}

double enthalpy_J(const PerComponent& mass_kg, double t_degC) {
  return enthalpy_of(family_mass_kg(mass_kg), t_degC);
}

double density_kg_per_m3(const PerComponent& mass_kg, double t_degC) {
  const auto mass = family_mass_kg(mass_kg);
  const double t = legal(t_degC);
  const double water = horner(water_density, t);
  const double molten = mass[milk_fat_at] > 0.0 ? molten_norm(t) : 1.0;
  double total = mass[0];
  double volume_m3 = mass[0] / water;
  for (std::size_t f = 1; f < family_count; ++f) {
    total += mass[f];
    volume_m3 += mass[f] / family_density(f, t, molten);
  }
  return volume_m3 > 0.0 ? total / volume_m3 : water;
}

double conductivity_W_per_mK(const PerComponent& mass_kg, double t_degC) {
  const auto mass = family_mass_kg(mass_kg);
  const double t = legal(t_degC);
  const double water_k = horner(water_conductivity, t);
  const double molten = mass[milk_fat_at] > 0.0 ? molten_norm(t) : 1.0;
  double volume_m3 = mass[0] / horner(water_density, t);
  double sum = volume_m3 * water_k;
  for (std::size_t f = 1; f < family_count; ++f) {
    const double part_m3 = mass[f] / family_density(f, t, molten);
    volume_m3 += part_m3;
    sum += part_m3 * at(conductivity_of[f], t);
  }
  return volume_m3 > 0.0 ? sum / volume_m3 : water_k;
}

double temperature_degC(const PerComponent& mass_kg, double enthalpy_J, double guess_degC) {
  const auto mass = family_mass_kg(mass_kg);
  double t = guess_degC;
  double capacity = capacity_J_per_K(mass, legal(t));
  if (!(capacity > 0.0)) return guess_degC;
  // Newton: a step of 1e-5 K leaves an error of its square times c' / 2c, at most 0.1 / K.
  for (int i = 0; i < 20; ++i) {
    const double change = (enthalpy_J - enthalpy_of(mass, t)) / capacity;
    t += change;
    if (std::abs(change) < 1.0e-5) break;
    capacity = capacity_J_per_K(mass, legal(t));
  }
  return t;
}

double evaporation_heat_J_per_kg(double t_degC) { return horner(water_evaporation_heat, legal(t_degC)); }

double saturation_pressure_Pa(double t_degC) { return std::exp(horner(water_ln_pressure, legal(t_degC))); }

double vapour_enthalpy_J_per_kg(double t_degC) {
  return component_enthalpy_J_per_kg(Component::water, t_degC) + evaporation_heat_J_per_kg(t_degC);
}

}  // namespace stirbench::product
