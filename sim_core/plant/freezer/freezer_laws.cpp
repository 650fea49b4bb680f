#include "sim_core/plant/freezer/freezer_laws.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace stirbench::plant {
namespace {

constexpr double capacity_slope_per_K = 0.035;

}  // namespace

double scraped_W_per_m2K(double conductivity_W_per_mK, double density_kg_per_m3,
                         double heat_capacity_J_per_kgK, double turns, int blades) {
  return 2.0 * std::sqrt(conductivity_W_per_mK * density_kg_per_m3 * heat_capacity_J_per_kgK * turns *
                         blades / std::numbers::pi);
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

double drain_L_per_min(double head_m, double viscosity_Pa_s, double density_kg_per_m3) {
  constexpr double bore_m = 0.015;
  constexpr double length_m = 0.1;
  constexpr double contraction = 0.6;
  constexpr double gravity = 9.80665;
  if (!(head_m > 0.0) || !(density_kg_per_m3 > 0.0)) return 0.0;
  const double area_m2 = std::numbers::pi * bore_m * bore_m / 4.0;
  const double orifice = contraction * area_m2 * std::sqrt(2.0 * gravity * head_m);
  const double pipe = std::numbers::pi * std::pow(bore_m, 4) * density_kg_per_m3 * gravity *
                      (head_m + length_m) / (128.0 * std::max(viscosity_Pa_s, 1.0e-6) * length_m);
  return 60000.0 / (1.0 / orifice + 1.0 / pipe);
}

double frozen_in_Nm(double ice_volume_norm, double wall_area_m2) {
  constexpr double packed = 0.64;
  constexpr double bond_Pa = 0.3e6;
  if (ice_volume_norm <= packed) return 0.0;
  const double diameter_m = std::sqrt(wall_area_m2 / (2.0 * std::numbers::pi));
  return bond_Pa * (ice_volume_norm - packed) / (1.0 - packed) * 0.02 * wall_area_m2 * 0.5 * diameter_m;
}

}  // namespace stirbench::plant
