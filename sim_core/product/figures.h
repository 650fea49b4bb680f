#pragma once

#include "sim_core/product/product.h"

// The figures a recipe is judged by.
namespace stirbench::product {

// Percentages by total mass. Fat: milk fat and other fat. Sugars: added sweeteners (sucrose, monosaccharides,
// syrup solids); lactose counts as milk solids not fat, as usual in the trade's recipes. An empty product
// gives zeros.
struct Figures {
  double mass_kg = 0.0;
  double volume_cold_L = 0.0;  // at 5 degC
  double volume_hot_L = 0.0;   // at 85 degC: must fit below the brim
  double fat_pct = 0.0;
  double milk_solids_not_fat_pct = 0.0;
  double sugars_pct = 0.0;
  double total_solids_pct = 0.0;
  double stabiliser_pct = 0.0;
  double yolk_solids_pct = 0.0;
  double freezing_point_degC = 0.0;
};

Figures figures(const Product& fully_dissolved);

}  // namespace stirbench::product
