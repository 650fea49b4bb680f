#include "sim_core/product/viscosity.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim_core/product/kinetics.h"
#include "sim_core/product/pools.h"

// One continuous model from water over syrups, milk and cream to a stabilised mix:
//
//   eta_50 = serum(sugars in the water, t) x Eilers(swollen protein) x fat x gum x egg x ageing x
//   Eilers(loose solids) tau    = K rate^n,  K = eta_50 x 50^(1-n)          (eta_50: apparent viscosity at 50
//   1/s)
//
// serum:   Genotelle's equation for sucrose; blended into IAPWS water below 20 % sugars. Published.
// Eilers:  [1 + 1.25 phi / (1 - phi / 0.80)]^2. Published form; phi = 4.2 - 0.008 t mL per g of milk protein,
// tuned to
//          Fernandez-Martin 1972 and Phipps 1969 for skim milk.
// fat:     10^[(1.2876 + 11.07e-4 t)(f + f^(5/3))], f = mass fraction: Phipps 1969 (40-80 degC, f <= 0.40),
// used at all
//          temperatures; below 42 degC times exp(2.7 f): solid fat clusters. That brings cold cream to
//          exp(0.1 F + 2721.5 / T - 9.68) mPa s (F in %, T in K), a fit to published cream tables at 5 and
//          20 degC; Bakshi & Smith 1984 (0-30 degC) lies 2.2 above it at 20 to 40 % fat, Phipps carried down
//          2 to 4 below. Index 1 - 0.8 f when cold (Liu et al. 2023: 0.92 at 10 %
//          fat).
// gum:     1 + a c + (b c)^2; n falls as 1 / (1 + d c); c = hydrated gum, g per 100 g water; a c, b c and d c
//          add up over the kinds (choice: no synergy, which locust bean with xanthan or carrageenan has). By
//          kind fitted to the mixes of Liu, Sala & Scholten 2023, Table 4 (10 % fat, cold): guar 0.3 %,
//          locust bean 0.55 %, xanthan 0.2 and 0.4 %, iota carrageenan 0.2 and 0.55 %. A blend: ENGINEERING
//          CHOICE inside their spread and Goff et al. 1994 (n = 0.7 hot).
// egg, ageing, loose solids: ENGINEERING CHOICES, see MODELS.md.
namespace stirbench::product {
namespace {

constexpr double ln_reference_rate = 3.912023005428146;  // ln 50: the rate that eta_50 above is given at
constexpr double ln_10 = 2.302585092994046;

// ln of Genotelle's equation, mPa s: log mu = 22.46 N - 0.114 + (30-t)/(91+t) (1.1 + 43.1 N^1.25), N =
// w/(1900-18w).
double genotelle_ln_mPa_s(double w_pct, double t) {
  const double n = w_pct / (1900.0 - 18.0 * w_pct);
  return ln_10 * (22.46 * n - 0.114 + (30.0 - t) / (91.0 + t) * (1.1 + 43.1 * n * std::sqrt(std::sqrt(n))));
}

// ln of the viscosity of water [Pa s]: own fit to IAPWS 2008 as given with IF97, 0..110 degC, largest error
// 0.035 %.
double water_ln_Pa_s(double t_degC) {
  constexpr std::array<double, 6> c = {-6.3249167,      -0.0345656233,  0.000327810135,
                                       -3.01211818e-06, 1.81451328e-08, -4.73755745e-11};
  const double t = std::clamp(t_degC, 0.0, 110.0);
  return c[0] + t * (c[1] + t * (c[2] + t * (c[3] + t * (c[4] + t * c[5]))));
}

double smooth_step(double x) {
  const double y = std::clamp(x, 0.0, 1.0);
  return y * y * (3.0 - 2.0 * y);
}

// Eilers; beyond 93 % of the closest packing the value stays (a paste, not a pourable mix).
double eilers(double phi, double phi_max) {
  const double p = std::min(phi, 0.93 * phi_max);
  const double root = 1.0 + 1.25 * p / (1.0 - p / phi_max);
  return root * root;
}

struct GumLaw {
  double a, b, d;
};
constexpr std::array<GumLaw, gum_kind_count> gum_laws = {{
    {6.5, 3.560197, 0.85},  // blend
    {7.5, 4.11, 0.80},      // guar
    {3.95, 2.163, 0.18},    // locust bean
    {0.0, 9.05, 2.2},       // xanthan
    {27.0, 1.9, 2.6},       // iota carrageenan
}};

// What hydrated gum makes of viscosity and index: factors on the first, divisors of the second.
struct Thickening {
  double viscosity = 1.0, index = 1.0;
};

Thickening thickening(const Product& product, double water_kg) {
  const PerGum gum_kg = hydrated_gum_kg(product);
  double linear = 0.0, root = 0.0, thins = 0.0;
  for (std::size_t i = 0; i < gum_kind_count; ++i) {
    if (!(gum_kg.value[i] > 0.0)) continue;
    const double c = water_kg > 0.0 ? std::min(100.0 * gum_kg.value[i] / water_kg, 3.0) : 3.0;
    linear += gum_laws[i].a * c;
    root += gum_laws[i].b * c;
    thins += gum_laws[i].d * c;
  }
  return {1.0 + linear + root * root, 1.0 + thins};
}

// 1 where the fat is solid enough to cluster, 0 where it is liquid.
double cold_fat_norm(double t) { return smooth_step((42.0 - t) / 14.0); }

// The fat-free part: its volume [L] and viscosity.
struct Plasma {
  double volume_L;
  double viscosity_Pa_s;
};

Plasma plasma_of(const PerComponent& kg, double t) {
  // Serum: sugars as sucrose. Monosaccharides thicken less, 42 DE syrup solids more (choices); salts count
  // half.
  const double sugars = kg[Component::sucrose] + kg[Component::lactose] +
                        0.90 * kg[Component::monosaccharide] + 1.10 * kg[Component::syrup_solids] +
                        0.5 * (kg[Component::milk_ash] + kg[Component::other_ash] + kg[Component::salt]);
  const double serum_kg = kg[Component::water] + sugars;
  const double serum_Pa_s =
      sugar_solution_viscosity_Pa_s(serum_kg > 0.0 ? 100.0 * sugars / serum_kg : 0.0, t);

  // Swollen protein, starch and fibre.
  const double milk_protein_L = (4.2 - 0.008 * std::clamp(t, 0.0, 100.0)) * kg[Component::milk_protein];
  const double swollen_L = milk_protein_L + 2.0 * kg[Component::egg_protein] +
                           2.5 * kg[Component::other_protein] + 1.6 * kg[Component::other_carbohydrate] +
                           3.0 * kg[Component::fibre];
  const double proteins_kg =
      kg[Component::milk_protein] + kg[Component::egg_protein] + kg[Component::other_protein];
  const double volume_L = kg[Component::water] + sugars / 1.59 + proteins_kg / 1.32 +
                          kg[Component::other_carbohydrate] / 1.59 + kg[Component::fibre] / 1.31;
  return {volume_L, serum_Pa_s * eilers(volume_L > 0.0 ? swollen_L / volume_L : 1.0, 0.80)};
}

// Phipps, and on top of it the clusters of cold fat.
double fat_factor(double fat_norm, double t, double cold) {
  const double root = std::cbrt(fat_norm);
  return std::exp(ln_10 * (1.2876 + 11.07e-4 * t) * fat_norm * (1.0 + root * root) + cold * 2.7 * fat_norm);
}

}  // namespace

double sugar_solution_viscosity_Pa_s(double sugars_pct, double t_degC) {
  constexpr double blend_pct = 20.0;
  const double w = std::clamp(sugars_pct, 0.0, 78.0);
  const double t = std::clamp(t_degC, -5.0, 130.0);
  double ln_mPa_s = genotelle_ln_mPa_s(w, t);
  if (w < blend_pct) {
    const double weight = (1.0 - w / blend_pct) * (1.0 - w / blend_pct);
    ln_mPa_s += weight * (water_ln_Pa_s(t) + 3.0 * ln_10 - genotelle_ln_mPa_s(0.0, t));
  }
  return 1.0e-3 * std::exp(ln_mPa_s);
}

PowerLaw power_law(const Product& product, double t_degC) {
  const bool clear = all_dissolved(product);
  const PerComponent kg = clear ? product.mass_kg : split(product).dissolved_kg;
  const double t = std::clamp(t_degC, -5.0, 130.0);
  const Plasma plasma = plasma_of(kg, t);
  const double total_kg = kg.sum();
  if (!(total_kg > 0.0)) return {plasma.viscosity_Pa_s, 1.0};
  double viscosity = plasma.viscosity_Pa_s;
  double index = 1.0;

  // Fat; its clusters come apart with shear.
  const double fat_kg = kg[Component::milk_fat] + kg[Component::other_fat] + kg[Component::emulsifier];
  const double fat = fat_kg / total_kg;
  const double volume_L = plasma.volume_L + fat_kg / 0.91;
  const double cold = cold_fat_norm(t);
  if (fat > 0.0) {
    viscosity *= fat_factor(fat, t, cold);
    index -= 0.8 * cold * std::min(fat, 0.4);
  }

  // Gum.
  if (kg[Component::stabiliser] > 0.0) {
    const Thickening gum = thickening(product, kg[Component::water]);
    viscosity *= gum.viscosity;
    index /= gum.index;
  }

  // A set custard is thicker; a curdled one has released its water again.
  if (product.egg_set_norm > 0.0 && volume_L > 0.0) {
    const double egg_pct = std::min(100.0 * kg[Component::egg_protein] / volume_L, 6.0);
    viscosity *= 1.0 + 1.5 * egg_pct * product.egg_set_norm * (1.0 - 0.7 * product.egg_curd_norm);
  }
  // Ageing: crystallised fat and late-swelling protein; fades when the fat melts.
  if (product.age_norm > 0.0) viscosity *= 1.0 + 0.5 * cold * product.age_norm * std::min(1.0, 10.0 * fat);

  // Loose grains.
  if (!clear) {
    const double loose_L = (product.undissolved_sugar_kg + product.dry_powder_kg) / 1.5 +
                           (product.dry_gum_kg + product.gum_lumps_kg) * 2.0;
    if (loose_L > 0.0) viscosity *= eilers(loose_L / (loose_L + volume_L), 0.74);
  }

  index = std::clamp(index, 0.25, 1.0);
  const double rise = index < 1.0 ? std::exp((1.0 - index) * ln_reference_rate) : 1.0;
  return {std::min(viscosity, 1.0e4) * rise, index};
}

double apparent_viscosity_Pa_s(const PowerLaw& law, double shear_per_s) {
  if (law.index == 1.0) return law.consistency_Pa_sn;
  return law.consistency_Pa_sn * std::pow(std::max(shear_per_s, 0.1), law.index - 1.0);
}

}  // namespace stirbench::product
