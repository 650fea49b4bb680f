#include "sim_core/electrics/sensors.h"

#include <algorithm>
#include <cmath>

namespace stirbench::electrics {
namespace {
constexpr double a = 3.9083e-3;
constexpr double b = -5.775e-7;
constexpr double c = -4.183e-12;
constexpr double zero_K = 273.15;
}  // namespace

double pt_Ohm(double Ohm_at_0, double degC) {
  const double t = std::clamp(degC, -200.0, 850.0);
  const double below = t < 0.0 ? c * (t - 100.0) * t * t * t : 0.0;
  return Ohm_at_0 * (1.0 + a * t + b * t * t + below);
}

double pt_degC(double Ohm_at_0, double Ohm) {
  const double most = pt_Ohm(Ohm_at_0, 850.0);
  if (!(Ohm < most)) return 850.0;
  const double under = a * a - 4.0 * b * (1.0 - Ohm / Ohm_at_0);
  double t = (-a + std::sqrt(std::max(0.0, under))) / (2.0 * b);
  if (t >= 0.0) return t;
  for (int i = 0; i < 8; ++i) {
    const double slope = Ohm_at_0 * (a + 2.0 * b * t + c * t * t * (4.0 * t - 300.0));
    t = std::clamp(t - (pt_Ohm(Ohm_at_0, t) - Ohm) / slope, -200.0, 10.0);
  }
  return t;
}

double ntc_Ohm(double Ohm_at_25, double beta_K, double degC) {
  return Ohm_at_25 * std::exp(beta_K * (1.0 / (degC + zero_K) - 1.0 / 298.15));
}

double ntc_degC(double Ohm_at_25, double beta_K, double Ohm) {
  const double inverse = 1.0 / 298.15 + std::log(std::max(Ohm, 1.0e-6) / Ohm_at_25) / beta_K;
  return inverse > 1.0e-4 ? 1.0 / inverse - zero_K : 9.0e3;
}

}  // namespace stirbench::electrics
