#include "sim_core/product/figures.h"

#include "sim_core/product/freezing.h"
#include "sim_core/product/properties.h"

namespace stirbench::product {

Figures figures(const Product& fully_dissolved) {
  const PerComponent& kg = fully_dissolved.mass_kg;
  Figures out;
  out.mass_kg = kg.sum();
  out.freezing_point_degC = freezing_point_degC(kg);
  if (!(out.mass_kg > 0.0)) return out;
  out.volume_cold_L = 1000.0 * out.mass_kg / density_kg_per_m3(kg, 5.0);
  out.volume_hot_L = 1000.0 * out.mass_kg / density_kg_per_m3(kg, 85.0);
  const double pct = 100.0 / out.mass_kg;
  out.fat_pct = pct * (kg[Component::milk_fat] + kg[Component::other_fat]);
  out.milk_solids_not_fat_pct =
      pct * (kg[Component::milk_protein] + kg[Component::lactose] + kg[Component::milk_ash]);
  out.sugars_pct =
      pct * (kg[Component::sucrose] + kg[Component::monosaccharide] + kg[Component::syrup_solids]);
  out.total_solids_pct = pct * (out.mass_kg - kg[Component::water]);
  out.stabiliser_pct = pct * kg[Component::stabiliser];
  out.yolk_solids_pct = pct * fully_dissolved.yolk_solids_kg;
  return out;
}

}  // namespace stirbench::product
