#pragma once

#include <string>
#include <vector>

#include "sim_core/product/product.h"

// The figures a recipe is judged by, and the published heat-treatment rows.
namespace stirbench::product {

// Percentages by mass of everything. Fat: of milk and other. Sugars: what was added as sweetener (sucrose,
// monosaccharides, syrup solids); lactose counts as milk solids not fat, as the trade's recipes do. An empty
// product gives zeros.
struct Figures {
  double mass_kg = 0.0;
  double volume_cold_L = 0.0;  // at 5 degC
  double volume_hot_L = 0.0;   // at 85 degC: what has to fit under the brim
  double fat_pct = 0.0;
  double milk_solids_not_fat_pct = 0.0;
  double sugars_pct = 0.0;
  double total_solids_pct = 0.0;
  double stabiliser_pct = 0.0;
  double yolk_solids_pct = 0.0;
  double freezing_point_degC = 0.0;
};

Figures figures(const Product& fully_dissolved);

// One published heat-treatment row: hold at or above `temperature_degC` for `hold_s`, continuously, coldest
// zone.
struct HeatRow {
  std::string id;     // "us_mix_80c_25s"
  std::string title;  // "US frozen dessert mix, 175 degF for 25 s"
  std::string jurisdiction;
  std::string source;
  double temperature_degC = 0.0;
  double hold_s = 0.0;
};

// All rows known to the project, sorted by jurisdiction then temperature. degF rows are converted exactly.
// `source` says whether the text itself, a digest of it or only memory stands behind the row. A row is a
// published figure, not a permit: local law and the approving authority decide.
const std::vector<HeatRow>& heat_rows();

}  // namespace stirbench::product
