#include "sim_core/plant/transfer.h"

#include <algorithm>
#include <cmath>

namespace stirbench::plant {

double stirred_nusselt(double a, double reynolds, double prandtl) {
  if (!(reynolds > 0.0)) return 0.0;
  if (reynolds < 100.0) return 2.154 * a * std::sqrt(reynolds) * std::cbrt(prandtl);
  return a * std::cbrt(reynolds * reynolds * prandtl);
}

double vertical_plate_nusselt(double rayleigh, double prandtl) {
  const double ra = std::clamp(rayleigh, 0.0, 1.0e12);
  const double shape = std::pow(1.0 + std::pow(0.492 / prandtl, 9.0 / 16.0), 8.0 / 27.0);
  const double root = 0.825 + 0.387 * std::pow(ra, 1.0 / 6.0) / shape;
  return root * root;
}

double horizontal_plate_W_per_m2K(double conductivity_W_per_mK, double beta_per_K, double delta_K,
                                  double kinematic_m2_per_s, double diffusivity_m2_per_s) {
  const double buoyancy = 9.81 * std::abs(beta_per_K * delta_K) / (kinematic_m2_per_s * diffusivity_m2_per_s);
  return 0.15 * conductivity_W_per_mK * std::cbrt(buoyancy);
}

double boiling_flux_W_per_m2(double superheat_K) {
  if (!(superheat_K > 0.0)) return 0.0;
  const double gentle = 1042.0 * superheat_K * std::cbrt(superheat_K);
  const double violent = 5.56 * superheat_K * superheat_K * superheat_K * superheat_K;
  return std::min(1.0e6, std::max(gentle, violent));
}

double passage_flow_m3_per_s(double reduced_gravity_m_per_s2, double diameter_m, double kinematic_m2_per_s) {
  if (!(reduced_gravity_m_per_s2 > 0.0)) return 0.0;
  const double d2 = diameter_m * diameter_m;
  const double inertial = 0.055 * std::sqrt(reduced_gravity_m_per_s2 * d2 * d2 * diameter_m);
  const double viscous = 0.008 * reduced_gravity_m_per_s2 * d2 * d2 / kinematic_m2_per_s;
  return inertial * viscous / (inertial + viscous);
}

double radiation_W_per_m2K(double emissivity, double surface_degC, double room_degC) {
  const double a = surface_degC + 273.15;
  const double b = room_degC + 273.15;
  return emissivity * 5.670374e-8 * (a * a + b * b) * (a + b);
}

double room_air_W_per_m2K(double delta_K) { return 1.70 * std::cbrt(std::abs(delta_K)); }

}  // namespace stirbench::plant
