#include "sim_core/product/kinetics.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "sim_core/product/pools.h"
#include "sim_core/product/properties.h"
#include "sim_core/product/viscosity.h"

// Each history is advanced with its own closed form over the step (exponential, order-1.5, shrinking sphere),
// at constant conditions within the step: stable for every dt, exact as far as the conditions are constant.
namespace stirbench::product {
namespace {

constexpr double gas_J_per_molK = 8.314;
constexpr double kelvin = 273.15;
constexpr double crystal_m = 0.5e-3;          // granulated sugar: engineering choice
constexpr double crystal_kg_per_m3 = 1587.0;  // sucrose (physics reference, from memory)
constexpr double crumb_kg = 1.0e-5;           // pools below this are gone
constexpr double least_air_norm = 1.0e-4;     // a spoonful in a vat is none
constexpr double all_liquid_degC = 60.0;      // of milk fat: it is from 40 on, but for 0.3 %

// Kinds that need heat to hydrate, and those that do not.
constexpr std::initializer_list<GumKind> hot_kinds = {GumKind::locust_bean, GumKind::iota_carrageenan};
constexpr std::initializer_list<GumKind> cold_kinds = {GumKind::blend, GumKind::guar, GumKind::xanthan};

// 0 at rest .. 1 well stirred; half at 5 1/s. Engineering choice.
double stirring_norm(double shear_per_s) {
  return shear_per_s > 0.0 ? shear_per_s / (shear_per_s + 5.0) : 0.0;
}

// Part of a pool that leaves it during dt at the given rate [1/s].
double leaving_norm(double rate_per_s, double dt_s) {
  return rate_per_s > 0.0 ? -std::expm1(-rate_per_s * dt_s) : 0.0;
}

// The same to 1e-6 for rates that are slow against dt, without its exponential.
double leaving_slowly_norm(double rate_per_s, double dt_s) {
  const double x = rate_per_s * dt_s;
  return x < 0.1 ? x / (1.0 + x * (0.5 + x / 12.0)) : leaving_norm(rate_per_s, dt_s);
}

double q10(double factor_ln, double delta_K) { return std::exp(factor_ln * delta_K / 10.0); }

// Moves a part of one pool into another. The target gets what the source really lost, so nothing is made by
// rounding.
void transfer(double& from_kg, double& to_kg, double part_norm) {
  const double moved = part_norm * from_kg;
  from_kg -= moved;
  to_kg += moved;
}

// Reynolds-free settling and picking up of loose solids.
void settle(Product& p, double t_degC, double stirred, double dt_s) {
  if (stirred < 0.5) {
    if (p.undissolved_sugar_kg > 0.0) {
      // Stokes, capped at what half-millimetre crystals reach in water; fall height about 0.15 m.
      const PowerLaw law = power_law(p, t_degC);
      const double viscosity = apparent_viscosity_Pa_s(law, 1.0);
      const double fall_m_per_s = std::min(0.05, 9.81 * crystal_m * crystal_m * 500.0 / (18.0 * viscosity));
      transfer(p.undissolved_sugar_kg, p.sunk_sugar_kg,
               leaving_norm((1.0 - 2.0 * stirred) * fall_m_per_s / 0.15, dt_s));
    }
    if (p.dry_powder_kg > 0.0) {
      transfer(p.dry_powder_kg, p.sunk_powder_kg, leaving_norm((1.0 - 2.0 * stirred) / 300.0, dt_s));
    }
  }
  if (stirred > 0.0 && (p.sunk_sugar_kg > 0.0 || p.sunk_powder_kg > 0.0)) {
    const double lifted = leaving_norm(stirred / 90.0, dt_s);
    transfer(p.sunk_sugar_kg, p.undissolved_sugar_kg, lifted);
    transfer(p.sunk_powder_kg, p.dry_powder_kg, lifted);
  }
}

double total_sugars(const PerComponent& kg) {
  return kg[Component::sucrose] + kg[Component::monosaccharide] + kg[Component::syrup_solids] +
         kg[Component::lactose];
}

// Crystals of one size as shrinking spheres: (m / m0)^(1/3) falls by dt / dissolving_time_s. m0 is taken as
// all the sugar of the vat, the number of crystals thus as if all sugar had come dry: at most 26 % too fast
// for the second half of two equal pours. Crystals on the floor form a bed of which only the top is washed.
void dissolve_sugar(Product& p, const Treatment& conditions, double stirred, double dt_s) {
  const double loose_kg = p.undissolved_sugar_kg + p.sunk_sugar_kg;
  if (loose_kg <= 0.0) return;
  const double all_kg = total_sugars(p.mass_kg) + p.mass_kg[Component::milk_ash] +
                        p.mass_kg[Component::other_ash] + p.mass_kg[Component::salt];
  const double water_kg = p.mass_kg[Component::water];
  const double dissolved_kg = std::max(0.0, total_sugars(p.mass_kg) - loose_kg);
  const double w_pct = water_kg > 0.0 ? 100.0 * dissolved_kg / (dissolved_kg + water_kg) : 100.0;
  const double time_s = dissolving_time_s(w_pct, conditions.mean_degC, conditions.stir_W_per_kg);
  if (!(time_s < 1.0e9)) return;

  // No more than saturation leaves room for.
  const double saturated = 0.01 * sugar_solubility_pct(conditions.mean_degC);
  double room_kg = std::max(0.0, water_kg * saturated / (1.0 - saturated) - dissolved_kg);
  const double step = dt_s / time_s;
  const auto shrink = [&](double& pool_kg, double exposed) {
    if (pool_kg <= 0.0) return;
    const double size =
        std::max(0.0, std::cbrt(std::min(1.0, pool_kg / std::max(all_kg, pool_kg))) - exposed * step);
    const double left_kg = std::max(pool_kg - room_kg, std::max(all_kg, pool_kg) * size * size * size);
    const double lost_kg = std::max(0.0, pool_kg - left_kg);
    pool_kg -= lost_kg;
    room_kg -= lost_kg;
    if (pool_kg < crumb_kg && room_kg > crumb_kg) pool_kg = 0.0;
  };
  shrink(p.undissolved_sugar_kg, 1.0);
  // At rest its own heavy syrup covers the bed as well (choices: 3 % exposed when stirred, 0.3 % at rest).
  shrink(p.sunk_sugar_kg, 0.003 + 0.027 * stirred);
}

// Skim-milk powder: 4 min at 45 degC when stirred (physics reference section 10: 3-5 min), rate x 1.6 each 10
// K (choice).
void wet_powder(Product& p, double t_degC, double stirred, double dt_s) {
  if (p.dry_powder_kg <= 0.0 && p.sunk_powder_kg <= 0.0) return;
  const double rate = (0.1 + 0.9 * stirred) / 240.0 * q10(0.470003629, std::clamp(t_degC, 0.0, 70.0) - 45.0);
  p.dry_powder_kg -= leaving_norm(rate, dt_s) * p.dry_powder_kg;
  p.sunk_powder_kg -= leaving_norm(0.02 * rate, dt_s) * p.sunk_powder_kg;
  if (p.dry_powder_kg < crumb_kg) p.dry_powder_kg = 0.0;
  if (p.sunk_powder_kg < crumb_kg) p.sunk_powder_kg = 0.0;
}

// Gum: cold-soluble 15 min at 20 degC, Q10 2 (section 10: 10-20 min cold); gums that need heat nothing below
// 15 K under their temperature, 5 min at it, Q10 2. Lumps give dry gum back as shear rubs them off: 40 min at
// 50 1/s (choice).
void hydrate_gum(Product& p, double t_degC, double shear_per_s, double stirred, double dt_s) {
  if (p.gum_lumps_kg > 0.0) {
    const double rubbed = (0.05 + std::min(shear_per_s, 500.0) / 50.0) / 2400.0;
    transfer(p.gum_lumps_kg, p.dry_gum_kg, leaving_norm(rubbed, dt_s));
    if (p.gum_lumps_kg < 0.01 * crumb_kg) transfer(p.gum_lumps_kg, p.dry_gum_kg, 1.0);
  }
  if (p.dry_gum_kg <= 0.0) return;
  const double flow = 0.2 + 0.8 * stirred;
  double hot_kg = p.hot_gum_fraction * p.dry_gum_kg;
  double cold_kg = p.dry_gum_kg - hot_kg;
  if (cold_kg > 0.0) {
    const double rate =
        std::min(1.0 / 20.0, flow / 900.0 * q10(0.693147181, std::clamp(t_degC, 0.0, 90.0) - 20.0));
    cold_kg -= leaving_norm(rate, dt_s) * cold_kg;
  }
  if (hot_kg > 0.0 && t_degC > p.hot_gum_degC - 15.0) {
    const double ready = std::clamp((t_degC - p.hot_gum_degC + 15.0) / 15.0, 0.0, 1.0);
    const double rate =
        ready * flow / 300.0 * q10(0.693147181, std::clamp(t_degC - p.hot_gum_degC, 0.0, 30.0));
    hot_kg -= leaving_norm(rate, dt_s) * hot_kg;
  }
  const double lumped_hot_kg = p.hot_gum_fraction * p.gum_lumps_kg;
  p.dry_gum_kg = cold_kg + hot_kg;
  if (p.dry_gum_kg < 0.01 * crumb_kg) p.dry_gum_kg = hot_kg = 0.0;
  // The lumps keep their kind; their share and the dry gum's are carried as one number, by mass.
  const double waiting_kg = p.dry_gum_kg + p.gum_lumps_kg;
  p.hot_gum_fraction = waiting_kg > 0.0 ? std::clamp((hot_kg + lumped_hot_kg) / waiting_kg, 0.0, 1.0) : 0.0;
}

// Dannenberg & Kessler 1988, order 1.5, mean of beta-lactoglobulin A and B, break at 90 degC:
// d(c/c0)/dt = -k (c/c0)^1.5, so (c/c0)^-1/2 grows by k dt / 2.
void denature_whey(Product& p, double t_degC, double dt_s) {
  if (t_degC < 55.0 || p.native_whey_norm <= 0.0 || p.mass_kg[Component::milk_protein] <= 0.0) return;
  const double rt = gas_J_per_molK * (std::min(t_degC, 150.0) + kelvin);
  const double k = t_degC <= 90.0 ? std::exp(86.795 - 272585.0 / rt) : std::exp(13.535 - 50910.0 / rt);
  const double root = 1.0 / std::sqrt(p.native_whey_norm) + 0.5 * k * dt_s;
  p.native_whey_norm = std::max(1.0e-12, 1.0 / (root * root));
}

// Lethality on the coldest zone (Bigelow) and what it does to what had grown.
void kill(Product& p, double coldest_degC, double dt_s) {
  if (coldest_degC < 50.0) return;
  const double equivalent_s = lethal_rate(coldest_degC) * dt_s;
  p.lethality_s += equivalent_s;
  if (p.growth_log10 > 0.0) p.growth_log10 = std::max(0.0, p.growth_log10 - equivalent_s / reference_D_s);
}

void grow(Product& p, double t_degC, double dt_s) {
  if (p.total_kg() > 0.0)
    p.growth_log10 = std::min(8.0, p.growth_log10 + growth_log10_per_day(t_degC) * dt_s / 86400.0);
}

// Egg: two first-order rates with Arrhenius slopes (ENGINEERING CHOICE, tuned to published temperatures, not
// to data): setting 60 s at 80 degC with z about 8 K, so custard starts to thicken at 70..80 degC within
// minutes; curdling 240 s at 85 degC with z about 4 K, judged on the hottest zone, so that 82 degC is safe
// for minutes and 88 degC is not.
void set_egg(Product& p, double mean_degC, double hottest_degC, double dt_s) {
  if (p.mass_kg[Component::egg_protein] <= 0.0) return;
  const auto rate = [](double time_s, double at_degC, double z_K, double t) {
    return std::exp(2.302585092994046 * (std::min(t, 110.0) - at_degC) / z_K) / time_s;
  };
  if (mean_degC > 58.0)
    p.egg_set_norm += (1.0 - p.egg_set_norm) * leaving_norm(rate(60.0, 80.0, 8.0, mean_degC), dt_s);
  if (hottest_degC > 74.0) {
    p.egg_curd_norm += (1.0 - p.egg_curd_norm) * leaving_norm(rate(240.0, 85.0, 4.0, hottest_degC), dt_s);
  }
}

// Fat crystallises with 1.5 h below 7 degC, more slowly up to 12 degC; above 15 degC it melts again within
// minutes.
void age(Product& p, double t_degC, double dt_s) {
  if (t_degC < 12.0) {
    if (p.age_norm < 1.0) {
      const double rate = std::min(1.0, (12.0 - t_degC) / 5.0) / 5400.0;
      p.age_norm += (1.0 - p.age_norm) * leaving_norm(rate, dt_s);
    }
  } else if (t_degC > 15.0 && p.age_norm > 0.0) {
    p.age_norm *= 1.0 - leaving_norm(std::min(1.0, (t_degC - 15.0) / 10.0) / 600.0, dt_s);
    if (p.age_norm < 1.0e-9) p.age_norm = 0.0;
  }
}

// On warming fat melts as its equilibrium says; cooled it follows late.
void set_fat(Product& p, double t_degC, double factor, double dt_s) {
  const double fat_kg = p.mass_kg[Component::milk_fat];
  if (!(fat_kg > 0.0) || t_degC > all_liquid_degC) {
    p.set_fat_norm = p.unset_fat_kg = 0.0;
    return;
  }
  const double rests_at = milk_fat_set_norm(t_degC);
  const double behind = rests_at - p.set_fat_norm;
  p.set_fat_norm =
      behind > 0.0 ? p.set_fat_norm + behind * leaving_slowly_norm(factor * fat_setting_per_s(t_degC), dt_s)
                   : rests_at;
  p.unset_fat_kg = fat_kg * (rests_at - p.set_fat_norm);
}

}  // namespace

double fat_setting_per_s(double t_degC) { return std::clamp((21.0 - t_degC) / 16.0, 0.0, 1.0) / 3600.0; }

double sugar_solubility_pct(double t_degC) {
  const double t = std::clamp(t_degC, 0.0, 90.0);
  return 64.397 + t * (0.07251 + t * (0.0020569 - 9.035e-6 * t));
}

double dissolving_time_s(double sugars_pct, double t_degC, double stir_W_per_kg) {
  const double t = std::clamp(t_degC, -5.0, 110.0);
  const double saturated_pct = sugar_solubility_pct(t);
  if (!(sugars_pct < saturated_pct)) return 1.0e12;
  const auto kg_per_m3 = [t](double pct) {
    PerComponent solution;
    solution[Component::water] = 100.0 - pct;
    solution[Component::sucrose] = pct;
    return 0.01 * pct * density_kg_per_m3(solution, t);
  };
  const double viscosity = sugar_solution_viscosity_Pa_s(sugars_pct, t);
  // 5.23e-10 m2/s in water of 25 degC (0.8901 mPa s), scaled with T / viscosity.
  const double diffusion = 5.23e-10 * (t + kelvin) / 298.15 * 0.8901e-3 / viscosity;
  const double kinematic = viscosity / (1000.0 + 4.0 * sugars_pct);
  const double schmidt_root = std::cbrt(kinematic / diffusion);
  const double turbulent = stir_W_per_kg > 0.0 ? 0.13 * std::sqrt(std::sqrt(stir_W_per_kg * kinematic)) /
                                                     (schmidt_root * schmidt_root)
                                               : 0.0;
  const double still = 2.0 * diffusion / crystal_m;
  const double transfer_m_per_s = std::max(turbulent, still);
  return crystal_kg_per_m3 * crystal_m /
         (2.0 * transfer_m_per_s * (kg_per_m3(saturated_pct) - kg_per_m3(sugars_pct)));
}

double lethal_rate(double t_degC, double reference_degC, double z_K) {
  return std::exp(2.302585092994046 * (t_degC - reference_degC) / z_K);
}

double growth_log10_per_day(double t_degC) {
  if (t_degC < 1.0 || t_degC > 45.0) return 0.0;
  const double ratio = (t_degC + 1.18) / 6.18;
  return 0.257 * ratio * ratio;
}

void advance(Product& product, const Treatment& treatment, double dt_s) {
  if (!(dt_s > 0.0)) return;
  const double mean_degC = treatment.mean_degC;
  const double stirred = stirring_norm(treatment.shear_per_s);
  if (!all_dissolved(product)) {
    settle(product, mean_degC, stirred, dt_s);
    dissolve_sugar(product, treatment, stirred, dt_s);
    wet_powder(product, mean_degC, stirred, dt_s);
    hydrate_gum(product, mean_degC, treatment.shear_per_s, stirred, dt_s);
  }
  denature_whey(product, mean_degC, dt_s);
  grow(product, mean_degC, dt_s);
  kill(product, treatment.coldest_degC, dt_s);
  set_egg(product, mean_degC, treatment.hottest_degC, dt_s);
  age(product, mean_degC, dt_s);
  set_fat(product, mean_degC, treatment.fat_setting_factor, dt_s);
  // Foam drains within 15 min (choice); what whips air in adds it elsewhere.
  if (product.air_norm > 0.0) {
    product.air_norm *= 1.0 - leaving_slowly_norm((1.0 - 0.7 * stirred) / 900.0, dt_s);
    if (product.air_norm < least_air_norm) product.air_norm = 0.0;
  }
}

double solids_not_dissolved_kg(const Product& p) {
  return p.undissolved_sugar_kg + p.sunk_sugar_kg + p.dry_powder_kg + p.sunk_powder_kg + p.dry_gum_kg +
         p.gum_lumps_kg;
}

double hydration_norm(const Product& product) {
  const double gum_kg = product.mass_kg[Component::stabiliser];
  if (!(gum_kg > 0.0)) return 1.0;
  return std::clamp(1.0 - (product.dry_gum_kg + product.gum_lumps_kg) / gum_kg, 0.0, 1.0);
}

PerGum hydrated_gum_kg(const Product& product) {
  PerGum out = product.gum_kg;
  double named_kg = 0.0;
  for (const double kg : out.value) named_kg += kg;
  out[GumKind::blend] = std::max(0.0, product.mass_kg[Component::stabiliser] - named_kg);
  const double waiting_kg = product.dry_gum_kg + product.gum_lumps_kg;
  if (!(waiting_kg > 0.0)) return out;
  const auto wait = [&out](const std::initializer_list<GumKind>& kinds, double kg) {
    double there_kg = 0.0;
    for (const GumKind kind : kinds) there_kg += out[kind];
    const double left = there_kg > 0.0 ? std::max(0.0, 1.0 - kg / there_kg) : 1.0;
    for (const GumKind kind : kinds) out[kind] *= left;
    return std::max(0.0, kg - there_kg);
  };
  const double hot_kg = product.hot_gum_fraction * waiting_kg;
  const double rest_kg = wait(hot_kinds, hot_kg) + wait(cold_kinds, waiting_kg - hot_kg);
  // What is left over is of the other group: a kind that its maker says swells otherwise.
  wait(hot_kinds, wait(cold_kinds, rest_kg));
  return out;
}

PerComponent dissolved_kg(const Product& product) { return split(product).dissolved_kg; }

double log10_reduction(const Product& product) { return product.lethality_s / reference_D_s; }

}  // namespace stirbench::product
