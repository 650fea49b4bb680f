#include "sim_core/plant/upkeep/wear.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim_core/plant/plant.h"
#include "sim_core/plant/upkeep/assembly_effects.h"
#include "sim_core/plant/upkeep/service.h"

namespace stirbench::plant {
namespace {

double mix(double dry, double wet, double wet_norm) { return dry + (wet - dry) * wet_norm; }

}  // namespace

double wetting_norm(double fill, double dry_below_L, double wet_above_L) {
  return std::clamp((fill - dry_below_L) / (wet_above_L - dry_below_L), 0.0, 1.0);
}

double friction_torque_Nm(const BushingSpec& spec, double wet_norm) {
  return mix(spec.friction_dry, spec.friction_wet, wet_norm) * spec.load_N * 0.5 * spec.diameter_m;
}

double wear_mm_per_s(const BushingSpec& spec, double wet_norm, double temperature_degC,
                     double shaft_rad_per_s) {
  const double speed_m_per_s = shaft_rad_per_s * 0.5 * spec.diameter_m;
  const double over_K = temperature_degC - spec.softening_degC;
  const double soft = over_K > 0.0 ? std::exp2(std::min(over_K / 10.0, 10.0)) : 1.0;
  // Mixed lubrication: a drop of product already does most of it, so the wear is blended by its logarithm.
  const double k =
      wet_norm >= 1.0
          ? spec.wear_wet_mm3_per_Nm
          : std::exp(mix(std::log(spec.wear_dry_mm3_per_Nm), std::log(spec.wear_wet_mm3_per_Nm), wet_norm));
  const double face_mm2 = 1.0e6 * spec.diameter_m * spec.length_m;
  return k * soft * spec.load_N * speed_m_per_s / face_mm2;
}

void wear_bushing(const BushingSpec& spec, BushingState& bushing, double wet_norm, double bath_degC,
                  double room_degC, double shaft_rad_per_s, double dt_s, double friction_factor,
                  double wear_factor) {
  const double face_m2 = std::numbers::pi * spec.diameter_m * spec.length_m;
  const double around_degC = mix(room_degC, bath_degC, wet_norm);
  if (shaft_rad_per_s <= 0.0 && std::abs(bushing.temperature_degC - around_degC) < 1.0e-3) return;
  const double power_W = friction_factor * friction_torque_Nm(spec, wet_norm) * shaft_rad_per_s;
  const double conductance = face_m2 * mix(50.0, 1500.0, wet_norm);
  const double capacity = 4.0e4 * face_m2;
  const double x = dt_s * conductance / capacity;
  bushing.temperature_degC +=
      (around_degC + power_W / conductance - bushing.temperature_degC) * (x / (1.0 + 0.5 * x));
  // Nylon melts, bronze seizes: above this temperature there is no bushing left to heat.
  bushing.temperature_degC = std::min(bushing.temperature_degC, 320.0);
  if (shaft_rad_per_s > 0.0)
    bushing.play_mm +=
        wear_factor * dt_s * wear_mm_per_s(spec, wet_norm, bushing.temperature_degC, shaft_rad_per_s);
}

Wetting wetting(const MachineSpec& spec, const PlantState& state) {
  const double fill = fill_L(state);
  const double well_L = spec.well.volume_L;
  return {wetting_norm(fill, 0.6 * well_L, 1.1 * well_L), wetting_norm(fill, 0.1 * well_L, 0.4 * well_L)};
}

double bushings_torque_Nm(const MachineSpec& spec, const PlantState& state) {
  const Wetting wet = wetting(spec, state);
  const double bushings_Nm = agitator_bushing_fit(spec, state.assembly).friction_factor *
                                 friction_torque_Nm(spec.agitator_bushing, wet.agitator_norm) +
                             shaft_end_bushing_fit(spec, state.assembly).friction_factor *
                                 friction_torque_Nm(spec.shaft_end_bushing, wet.shaft_end_norm);
  return bushings_Nm * state.health.bushing_friction_factor + state.health.gear_drag_Nm;
}

void advance_wear(const MachineSpec& spec, PlantState& state, double dt_s) {
  const Wetting wet = wetting(spec, state);
  const double w = state.shaft_rad_per_s;
  const double room_degC = state.environment.ambient_degC;
  const BushingFit foot = agitator_bushing_fit(spec, state.assembly);
  const BushingFit end = shaft_end_bushing_fit(spec, state.assembly);
  wear_bushing(spec.agitator_bushing, state.agitator_bushing, wet.agitator_norm, state.well_degC, room_degC,
               w, dt_s, foot.friction_factor, foot.wear_factor);
  wear_bushing(spec.shaft_end_bushing, state.shaft_end_bushing, wet.shaft_end_norm, state.well_degC,
               room_degC, w, dt_s, end.friction_factor, end.wear_factor);
  advance_assembly(spec, state, dt_s);
  advance_service(spec, state, dt_s);
  if (w > 0.0 && std::min(wet.agitator_norm, wet.shaft_end_norm) < 0.5) state.dry_run_s += dt_s;
}

}  // namespace stirbench::plant
