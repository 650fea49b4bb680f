#include "sim_core/plant/upkeep/seal.h"

#include <algorithm>
#include <numbers>

#include "sim_core/plant/plant.h"
#include "sim_core/plant/upkeep/assembly_effects.h"
#include "sim_core/plant/zones.h"

namespace stirbench::plant {
namespace {

constexpr double drop_a_minute_kg_per_s = 1.0e-6;

double circle_m2(double diameter_m) { return 0.25 * std::numbers::pi * diameter_m * diameter_m; }

// Product over the well's floor.
double floor_pressure_Pa(const MachineSpec& spec, const PlantState& state) {
  const double fill = fill_L(state);
  const double well_L = std::min(fill, spec.well.volume_L);
  const double above_m =
      1.0e-3 * (well_L / circle_m2(spec.well.diameter_m) + (fill - well_L) / circle_m2(spec.vat.diameter_m));
  return state.coefficients.density_kg_per_m3 * 9.81 * above_m;
}

}  // namespace

double seal_gap_m(const SealSpec& spec, const PlantState& state) {
  return spec.worn_gap_m * std::max(state.seal.wear_norm, state.health.seal_gap_norm);
}

double seal_leak_kg_per_s(const MachineSpec& spec, const PlantState& state) {
  const double gap_m = seal_gap_m(spec.seal, state);
  // Less than a tenth of a worn one's gap is less than that drop for any product.
  if (gap_m < 0.1 * spec.seal.worn_gap_m || !(state.product.total_kg() > least_kg)) return 0.0;
  const double flow =
      ring_gap_flow_m3_per_s(spec.seal.diameter_m, gap_m, spec.seal.lip_m, floor_pressure_Pa(spec, state),
                             std::max(state.coefficients.viscosity_Pa_s, 5.0e-4));
  const double kg_per_s = flow * state.coefficients.density_kg_per_m3;
  return kg_per_s > drop_a_minute_kg_per_s ? kg_per_s : 0.0;
}

void advance_seal(const MachineSpec& spec, PlantState& state, double wet_norm, double dt_s) {
  SealState& seal = state.seal;
  if (state.shaft_rad_per_s > 0.0) {
    const double per_h = wet_norm / spec.seal.life_h + (1.0 - wet_norm) / spec.seal.dry_life_h;
    seal.wear_norm = std::min(1.0, seal.wear_norm + per_h * dt_s / 3600.0);
  }
  const double leak_kg = seal_leak_kg_per_s(spec, state) * dt_s;
  if (!(leak_kg > 0.0)) return;
  const TakenLiquid taken = take_liquid(spec, state, leak_kg, true);
  state.masses.spilled_kg += taken.kg;
  state.ledger.material_J -= taken.enthalpy_J;
  const double kept_kg = std::min(taken.kg, std::max(0.0, spec.seal.tray_kg - seal.tray_kg));
  seal.tray_kg += kept_kg;
  state.floor_kg += taken.kg - kept_kg;
}

void replace_seal(PlantState& state) { state.seal.wear_norm = 0.0; }

}  // namespace stirbench::plant
