#include "sim_core/refrigeration/r290.h"

#include <algorithm>
#include <cmath>

namespace stirbench::refrigeration {
namespace {

double legal(double t_degC) { return std::clamp(t_degC, -45.0, 80.0); }

}  // namespace

double r290_pressure_bar(double t_degC) { return std::exp(9.58173 - 2102.237 / (legal(t_degC) + 261.931)); }

double r290_saturation_degC(double pressure_bar) {
  return 2102.237 / (9.58173 - std::log(pressure_bar)) - 261.931;
}

double r290_evaporation_heat_kJ_per_kg(double t_degC) {
  const double t = legal(t_degC);
  return 374.90 - t * (1.3678 + t * (5.876e-3 + t * 5.977e-5));
}

double r290_vapour_kg_per_m3(double t_degC) {
  const double t = legal(t_degC);
  return std::exp(2.337535 + t * (2.947343e-2 + t * (-9.38430e-5 + t * 6.24627e-7)));
}

double r290_liquid_kJ_per_kg(double t_degC) {
  const double t = legal(t_degC);
  return 200.0 + t * (2.5295 + t * (2.3e-3 + t * 3.5e-5));
}

double r290_liquid_kg_per_m3(double t_degC) {
  const double t = legal(t_degC);
  return 528.6 - t * (1.385 + 5.0e-3 * t);
}

double r290_superheated_share(double superheat_K) { return 1.0 / (1.0 + 5.3e-3 * superheat_K); }

double r290_discharge_cp_kJ_per_kgK(double condensing_degC) {
  return std::max(1.7, 2.12 + 0.0165 * (condensing_degC - 35.0));
}

double r290_gas_pressure_bar(double kg, double m3, double t_degC) {
  return 1.0e-5 * kg * 188.6 * (t_degC + 273.15) / m3;
}

}  // namespace stirbench::refrigeration
