#include "sim_core/plant/upkeep/vanes.h"

#include <algorithm>
#include <cmath>

#include "sim_core/plant/pace.h"

namespace stirbench::plant {
namespace {

constexpr double product_W_per_K = 20.0;

}  // namespace

double vane_damage_norm(double temperature_degC) {
  return std::clamp((temperature_degC - glazes_degC) / (torn_degC - glazes_degC), 0.0, 1.0);
}

double vane_flow_norm(const VaneState& vanes) { return 1.0 - (1.0 - torn_flow_norm) * vanes.wear_norm; }

double vane_pulse_norm(const VaneState& vanes) { return vanes.wear_norm / 3.0; }

double pump_norm(const PlantState& state) { return state.health.pump_norm * vane_flow_norm(state.vanes); }

double vane_torque_Nm(const PumpSpec& spec, const VaneState& vanes, double wet_norm) {
  return spec.vane_friction_Nm * (1.0 - wet_norm) * (1.0 - 0.5 * vanes.wear_norm);
}

void advance_vanes(const PumpSpec& spec, VaneState& vanes, double wet_norm, double bath_degC, double dry_degC,
                   double shaft_rad_per_s, double dt_s) {
  if (!(spec.vane_J_per_K > 0.0)) return;
  const double dry_W_per_K = (1.0 - wet_norm) / spec.vane_K_per_W;
  const double W_per_K = dry_W_per_K + wet_norm * product_W_per_K;
  const double around_degC = bath_degC + dry_W_per_K / W_per_K * (dry_degC - bath_degC);
  if (shaft_rad_per_s <= 0.0 && std::abs(vanes.temperature_degC - around_degC) < 1.0e-3) return;
  const double power_W = vane_torque_Nm(spec, vanes, wet_norm) * shaft_rad_per_s;
  const double x = dt_s * W_per_K / spec.vane_J_per_K;
  vanes.temperature_degC +=
      (around_degC + power_W / W_per_K - vanes.temperature_degC) * (x / (1.0 + 0.5 * x));
  const double worn = shaft_rad_per_s > 0.0 ? wet_norm * dt_s / (3600.0 * spec.vane_life_h) : 0.0;
  // Only vanes that rub are damaged: hot product alone is what they are made for.
  const bool rubs = shaft_rad_per_s > 0.0 && wet_norm < 1.0;
  const double damage = rubs ? vane_damage_norm(vanes.temperature_degC) : 0.0;
  vanes.wear_norm = std::min(1.0, std::max(vanes.wear_norm + worn + damage * dt_s / tears_s, damage));
}

void replace_vanes(PlantState& state) {
  state.vanes.wear_norm = 0.0;
  invalidate_pace(state);
}

}  // namespace stirbench::plant
