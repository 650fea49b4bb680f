#include "sim_core/plant/upkeep/wear.h"

#include <algorithm>
#include <cmath>

#include "sim_core/plant/plant.h"
#include "sim_core/plant/upkeep/assembly_effects.h"
#include "sim_core/plant/upkeep/seal.h"
#include "sim_core/plant/upkeep/service.h"
#include "sim_core/plant/upkeep/vanes.h"

namespace stirbench::plant {
namespace {

constexpr double squeals_below_norm = 0.5;

BushingDuty duty_of(const BushingSpec& spec, const PlantState& state, const BushingFit& fit,
                    double wet_norm) {
  BushingDuty duty;
  duty.bearing = fit.bearing;
  duty.wet_norm = wet_norm;
  duty.bath_degC = state.well_degC;
  duty.dry_degC = state.well_wall_degC;
  duty.friction_factor = fit.friction_factor * state.health.bushing_friction_factor;
  duty.wear_factor = fit.wear_factor;
  // A shaft that runs in its sleeve cuts at most a tenth of its diameter, then it breaks (choice).
  duty.most_play_mm = fit.bearing == Bearing::metal ? 1.0e3 * 0.1 * spec.diameter_m
                                                    : std::max(0.0, spec.wall_mm - fit.extra_play_mm);
  return duty;
}

// What each bushing does now.
BushingDuty agitator_duty(const MachineSpec& spec, const PlantState& state, const Wetting& wet) {
  return duty_of(spec.agitator_bushing, state, agitator_bushing_fit(spec, state.assembly), wet.agitator_norm);
}

BushingDuty shaft_end_duty(const MachineSpec& spec, const PlantState& state, const Wetting& wet) {
  return duty_of(spec.shaft_end_bushing, state, shaft_end_bushing_fit(spec, state.assembly),
                 wet.shaft_end_norm);
}

double torque_Nm(const BushingSpec& spec, const BushingDuty& duty, const BushingState& bushing) {
  return duty.friction_factor * friction_torque_Nm(spec, duty.bearing, bushing, duty.wet_norm);
}

double bushings_torque_Nm(const MachineSpec& spec, const PlantState& state, const Wetting& wet) {
  return torque_Nm(spec.agitator_bushing, agitator_duty(spec, state, wet), state.agitator_bushing) +
         torque_Nm(spec.shaft_end_bushing, shaft_end_duty(spec, state, wet), state.shaft_end_bushing) +
         state.health.gear_drag_Nm;
}

double rubbing_torque_Nm(const MachineSpec& spec, const PlantState& state, const Wetting& wet) {
  return bushings_torque_Nm(spec, state, wet) + vane_torque_Nm(spec.pump, state.vanes, wet.shaft_end_norm);
}

}  // namespace

Wetting wetting(const MachineSpec& spec, const PlantState& state) {
  const double fill = fill_L(state);
  const double well_L = spec.well.volume_L;
  return {wetting_norm(fill, 0.6 * well_L, 1.1 * well_L), wetting_norm(fill, 0.1 * well_L, 0.4 * well_L)};
}

double bushings_torque_Nm(const MachineSpec& spec, const PlantState& state) {
  return bushings_torque_Nm(spec, state, wetting(spec, state));
}

double rubbing_torque_Nm(const MachineSpec& spec, const PlantState& state) {
  return rubbing_torque_Nm(spec, state, wetting(spec, state));
}

double squeal_norm(const MachineSpec& spec, const PlantState& state) {
  if (!(state.shaft_rad_per_s > 0.0)) return 0.0;
  const Wetting wet = wetting(spec, state);
  const double foot = agitator_turns(state.assembly) ? wet.agitator_norm : 1.0;
  const double wettest = std::min(foot, wet.shaft_end_norm);
  return std::clamp(1.0 - wettest / squeals_below_norm, 0.0, 1.0);
}

void advance_wear(const MachineSpec& spec, PlantState& state, double dt_s) {
  const Wetting wet = wetting(spec, state);
  const double w = state.shaft_rad_per_s;
  advance_bushing(spec.agitator_bushing, agitator_duty(spec, state, wet), state.agitator_bushing, w, dt_s);
  advance_bushing(spec.shaft_end_bushing, shaft_end_duty(spec, state, wet), state.shaft_end_bushing, w, dt_s);
  advance_vanes(spec.pump, state.vanes, wet.shaft_end_norm, state.well_degC, state.well_wall_degC, w, dt_s);
  advance_seal(spec, state, wet.shaft_end_norm, dt_s);
  advance_assembly(spec, state, dt_s);
  advance_service(spec, state, dt_s);
  if (!(w > 0.0)) return;
  if (std::min(wet.agitator_norm, wet.shaft_end_norm) < 0.5) state.dry_run_s += dt_s;
  const double rubbing_Nm = rubbing_torque_Nm(spec, state, wet);
  if (std::abs(rubbing_Nm - state.pace.seen_rubbing_Nm) > 0.01 * std::max(1.0, state.flows.torque_Nm))
    state.pace.shaft_steady = false;
}

}  // namespace stirbench::plant
