#include <algorithm>
#include <cmath>

#include "sim_core/product/kinetics.h"
#include "sim_core/product/pools.h"
#include "sim_core/product/properties.h"

// Masses going in and out of the product. All shares below are ENGINEERING CHOICES: they make good practice
// (stirring, a rain of powder rather than a dump, warm but not hot) visibly better than bad practice; no
// source gives numbers.
namespace stirbench::product {
namespace {

double mixed(double old_value, double old_kg, double new_value, double new_kg) {
  const double total = old_kg + new_kg;
  return total > 0.0 ? (old_value * old_kg + new_value * new_kg) / total : new_value;
}

// log10 of the mean of two populations given as log10 of a ratio each.
double mixed_log10(double old_log10, double old_kg, double new_log10, double new_kg) {
  const double total = old_kg + new_kg;
  if (!(total > 0.0)) return new_log10;
  if (!(old_kg > 0.0)) return new_log10;
  if (!(new_kg > 0.0) || old_log10 == new_log10) return old_log10;
  // Scaled by the larger one, so that nothing under- or overflows.
  const double top = std::max(old_log10, new_log10);
  const double sum = old_kg * std::pow(10.0, old_log10 - top) + new_kg * std::pow(10.0, new_log10 - top);
  return top + std::log10(sum / total);
}

// What the histories of a blend are: by the mass that carries each of them.
void blend_histories(Product& into, const Product& from) {
  const double a = into.total_kg();
  const double b = from.total_kg();
  const double whey_a = into.mass_kg[Component::milk_protein];
  const double whey_b = from.mass_kg[Component::milk_protein];
  const double egg_a = into.mass_kg[Component::egg_protein];
  const double egg_b = from.mass_kg[Component::egg_protein];
  const double gum_a = into.dry_gum_kg + into.gum_lumps_kg;
  const double gum_b = from.dry_gum_kg + from.gum_lumps_kg;
  if (whey_a + whey_b > 0.0) {
    into.native_whey_norm = mixed(into.native_whey_norm, whey_a, from.native_whey_norm, whey_b);
  }
  // Survivors add up: a little raw product in a treated batch leaves the batch little better than raw.
  into.lethality_s = std::max(0.0, -reference_D_s * mixed_log10(-into.lethality_s / reference_D_s, a,
                                                                -from.lethality_s / reference_D_s, b));
  into.growth_log10 = mixed_log10(into.growth_log10, a, from.growth_log10, b);
  if (egg_a + egg_b > 0.0) {
    into.egg_set_norm = mixed(into.egg_set_norm, egg_a, from.egg_set_norm, egg_b);
    into.egg_curd_norm = mixed(into.egg_curd_norm, egg_a, from.egg_curd_norm, egg_b);
  }
  const double fat_a = into.mass_kg[Component::milk_fat];
  const double fat_b = from.mass_kg[Component::milk_fat];
  if (fat_a + fat_b > 0.0) into.set_fat_norm = mixed(into.set_fat_norm, fat_a, from.set_fat_norm, fat_b);
  into.age_norm = mixed(into.age_norm, a, from.age_norm, b);
  into.air_norm = mixed(into.air_norm, a, from.air_norm, b);
  if (gum_a + gum_b > 0.0) {
    into.hot_gum_degC = std::max(into.hot_gum_fraction > 0.0 ? into.hot_gum_degC : 0.0,
                                 from.hot_gum_fraction > 0.0 ? from.hot_gum_degC : 0.0);
    into.hot_gum_fraction = mixed(into.hot_gum_fraction, gum_a, from.hot_gum_fraction, gum_b);
  }
}

// Share of a gum that clumps: little when rained into moving product, most when dumped on a still surface;
// more when much comes at once (over 0.5 % of the product) and, for gums that swell at once, more in hot
// product. A gum carried by sugar (stabiliser blends) clumps less.
double lump_share(double gum_kg, double ingredient_kg, double product_kg, double t_degC, bool cold_soluble,
                  bool stirred) {
  const double dose = product_kg > 0.0 ? gum_kg / product_kg : 1.0;
  double share = stirred ? 0.02 + std::clamp((dose - 0.005) * 60.0, 0.0, 0.5) : 0.60;
  if (cold_soluble) share += 0.2 * std::clamp((t_degC - 50.0) / 30.0, 0.0, 1.0);
  share *= 0.3 + 0.7 * std::min(1.0, gum_kg / ingredient_kg);
  return std::clamp(share, 0.0, 0.9);
}

// Share of crystals or powder that goes straight to the floor.
double sunk_share(double solids_kg, double product_kg, double t_degC, Form form, bool stirred) {
  if (!(product_kg > 0.0)) return 1.0;
  const double dose = solids_kg / product_kg;
  if (form == Form::crystals) {
    if (!stirred) return 0.85;
    return std::clamp((dose - 0.20) * 1.5, 0.0, 0.4) + 0.05 * std::clamp((20.0 - t_degC) / 20.0, 0.0, 1.0);
  }
  // Powder: wetting suffers from a thick layer and from heat that glues the grains together.
  double share = stirred ? std::clamp((dose - 0.08) * 2.0, 0.0, 0.3) : 0.4;
  return std::min(0.7, share + 0.15 * std::clamp((t_degC - 60.0) / 20.0, 0.0, 1.0));
}

}  // namespace

void add_ingredient(Product& product, const Ingredient& ingredient, double kg, double mean_degC, bool stirred,
                    std::optional<double> added_degC) {
  if (!(kg > 0.0)) return;
  const double before_kg = product.total_kg();
  Product added;
  for (std::size_t i = 0; i < component_count; ++i)
    added.mass_kg.value[i] = kg * ingredient.fraction.value[i];
  added.set_fat_norm = milk_fat_set_norm(added_degC.value_or(ingredient.supply_degC));
  added.yolk_solids_kg = kg * ingredient.yolk_solids_norm;
  const double solids_kg = kg - added.mass_kg[Component::water];
  const double gum_kg = added.mass_kg[Component::stabiliser];

  switch (ingredient.form) {
    case Form::liquid: break;
    case Form::crystals: {
      const double sunk = sunk_share(solids_kg, before_kg, mean_degC, Form::crystals, stirred);
      added.sunk_sugar_kg = sunk * solids_kg;
      added.undissolved_sugar_kg = solids_kg - added.sunk_sugar_kg;
      break;
    }
    case Form::powder: {
      const double powder_kg = std::max(0.0, solids_kg - gum_kg);
      const double sunk = sunk_share(powder_kg, before_kg, mean_degC, Form::powder, stirred);
      added.sunk_powder_kg = sunk * powder_kg;
      added.dry_powder_kg = powder_kg - added.sunk_powder_kg;
      break;
    }
    case Form::gum: break;
  }
  // Gum that comes dry lumps or disperses, whatever else is in the bag.
  if (ingredient.gum != GumKind::blend) added.gum_kg[ingredient.gum] = gum_kg;
  if (gum_kg > 0.0 && ingredient.form != Form::liquid) {
    const bool cold_soluble = ingredient.hydration_degC <= 0.0;
    added.gum_lumps_kg = gum_kg * lump_share(gum_kg, kg, before_kg, mean_degC, cold_soluble, stirred);
    added.dry_gum_kg = gum_kg - added.gum_lumps_kg;
    added.hot_gum_fraction = cold_soluble ? 0.0 : 1.0;
    added.hot_gum_degC = ingredient.hydration_degC;
  }
  merge(product, added);
}

void merge(Product& into, const Product& from) {
  if (!(from.total_kg() > 0.0)) return;
  blend_histories(into, from);
  for (std::size_t i = 0; i < component_count; ++i) into.mass_kg.value[i] += from.mass_kg.value[i];
  into.undissolved_sugar_kg += from.undissolved_sugar_kg;
  into.sunk_sugar_kg += from.sunk_sugar_kg;
  into.dry_powder_kg += from.dry_powder_kg;
  into.sunk_powder_kg += from.sunk_powder_kg;
  into.dry_gum_kg += from.dry_gum_kg;
  into.gum_lumps_kg += from.gum_lumps_kg;
  for (std::size_t i = 0; i < gum_kind_count; ++i) into.gum_kg.value[i] += from.gum_kg.value[i];
  into.unset_fat_kg += from.unset_fat_kg;
  into.yolk_solids_kg += from.yolk_solids_kg;
  into.scorched_kg += from.scorched_kg;
  into.alkaline_kg += from.alkaline_kg;
  into.acid_kg += from.acid_kg;
  into.chlorine_kg += from.chlorine_kg;
}

Product draw_share(Product& product, double share_norm) {
  const double share = std::clamp(share_norm, 0.0, 1.0);
  const double kept = 1.0 - share;
  Product drawn = product;
  if (product.sunk_sugar_kg > 0.0 || product.sunk_powder_kg > 0.0) {
    const PerComponent sunk_kg = split(product).sunk_kg;
    for (std::size_t i = 0; i < component_count; ++i) {
      drawn.mass_kg.value[i] = share * std::max(0.0, product.mass_kg.value[i] - sunk_kg.value[i]);
      product.mass_kg.value[i] -= drawn.mass_kg.value[i];
    }
  } else {
    for (std::size_t i = 0; i < component_count; ++i) {
      drawn.mass_kg.value[i] = share * product.mass_kg.value[i];
      product.mass_kg.value[i] *= kept;
    }
  }
  drawn.sunk_sugar_kg = 0.0;
  drawn.sunk_powder_kg = 0.0;
  for (double Product::*pool :
       {&Product::undissolved_sugar_kg, &Product::dry_powder_kg, &Product::dry_gum_kg, &Product::gum_lumps_kg,
        &Product::yolk_solids_kg, &Product::scorched_kg, &Product::alkaline_kg, &Product::acid_kg,
        &Product::chlorine_kg, &Product::unset_fat_kg}) {
    drawn.*pool = share * product.*pool;
    product.*pool *= kept;
  }
  for (std::size_t i = 0; i < gum_kind_count; ++i) {
    drawn.gum_kg.value[i] = share * product.gum_kg.value[i];
    product.gum_kg.value[i] *= kept;
  }
  return drawn;
}

void remove_share(Product& product, double share_norm) { draw_share(product, share_norm); }

}  // namespace stirbench::product
