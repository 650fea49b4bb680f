#include "sim_core/plant/freezer_laws.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace stirbench::plant {
namespace {

constexpr double capacity_slope_per_K = 0.035;

}  // namespace

double scraped_W_per_m2K(double conductivity_W_per_mK, double density_kg_per_m3, double heat_capacity_J_per_kgK,
                         double turns, int blades) {
  return 2.0 * std::sqrt(conductivity_W_per_mK * density_kg_per_m3 * heat_capacity_J_per_kgK * turns * blades /
                         std::numbers::pi);
}

double krieger_dougherty(double phi, double phi_max, double intrinsic) {
  const double share = std::clamp(phi / phi_max, 0.0, 0.97);
  return std::pow(1.0 - share, -intrinsic * phi_max);
}

Refrigeration refrigeration(const FreezerSpec& spec, double product_degC, double wall_W_per_K) {
  const double slope = capacity_slope_per_K * spec.capacity_W;
  const double at_zero_W = spec.capacity_W - slope * spec.rated_evaporating_degC;
  double te = (wall_W_per_K * product_degC - at_zero_W) / (wall_W_per_K + slope);
  te = std::clamp(te, spec.lowest_evaporating_degC, spec.maximum_evaporating_degC);
  // Throttled, the compressor sets the pace; on the low-pressure switch the wall does.
  const double taken_W = std::min(wall_W_per_K * (product_degC - te), at_zero_W + slope * te);
  return {te, std::max(0.0, taken_W)};
}

double overrun_by_weight(double mix_kg_per_L, double frozen_kg_per_L) {
  return mix_kg_per_L / frozen_kg_per_L - 1.0;
}

double frozen_volume_L(double mix_kg, double mix_kg_per_L, double overrun) {
  return mix_kg / mix_kg_per_L * (1.0 + overrun);
}

}  // namespace stirbench::plant
