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

double rohsenow_W_per_m2(double superheat_K, double surface_C) {
  if (!(superheat_K > 0.0)) return 0.0;
  constexpr double viscosity_Pa_s = 2.79e-4, vaporisation_J_per_kg = 2.257e6, lighter_kg_per_m3 = 957.3;
  constexpr double tension_N_per_m = 0.0589, cp_J_per_kgK = 4217.0, prandtl = 1.76, critical_W_per_m2 = 1.0e6;
  static const double front =
      viscosity_Pa_s * vaporisation_J_per_kg * std::sqrt(9.81 * lighter_kg_per_m3 / tension_N_per_m);
  const double jakob = cp_J_per_kgK * superheat_K / (surface_C * vaporisation_J_per_kg * prandtl);
  return std::min(critical_W_per_m2, front * jakob * jakob * jakob);
}

double boiling_onset_K(double W_per_m2) {
  if (!(W_per_m2 > 0.0)) return 0.0;
  constexpr double factor = 1082.0 * 1.015335;  // times 1.01325^1.156
  constexpr double exponent = 2.16 / 1.000308;  // over 1.01325^0.0234
  return std::pow(W_per_m2 / factor, 1.0 / exponent) / 1.8;
}

double boiling_extra_W_per_m2(double superheat_K, double convection_W_per_m2) {
  if (!(superheat_K > 0.0)) return 0.0;
  const double convection = std::max(0.0, convection_W_per_m2);
  const double onset_K = boiling_onset_K(convection);
  if (superheat_K <= onset_K) return 0.0;
  const double bubbles = rohsenow_W_per_m2(superheat_K) - rohsenow_W_per_m2(onset_K);
  return std::sqrt(convection * convection + bubbles * bubbles) - convection;
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
