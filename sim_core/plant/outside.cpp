#include "sim_core/plant/outside.h"

#include <algorithm>

#include "sim_core/plant/zones.h"

namespace stirbench::plant {

double outside_degC(double wall_degC, double room_degC, double loss_W_per_K, double area_m2) {
  const double film_W_per_K = outside_W_per_m2K * area_m2;
  const double share = film_W_per_K > 0.0 ? std::min(1.0, loss_W_per_K / film_W_per_K) : 1.0;
  return room_degC + share * (wall_degC - room_degC);
}

double vat_outside_degC(const MachineSpec& spec, const PlantState& state) {
  return outside_degC(state.vat_wall_degC, state.environment.ambient_degC,
                      spec.vat.loss_W_per_K * state.health.insulation_factor, spec.vat.wall_area_m2);
}

double well_outside_degC(const MachineSpec& spec, const PlantState& state) {
  return outside_degC(state.well_wall_degC, state.environment.ambient_degC,
                      spec.well.loss_W_per_K * state.health.insulation_factor, spec.well.heated_area_m2);
}

double bare_part_degC(const PlantState& state, BarePart part) {
  const bool filled = state.product.total_kg() > least_kg;
  const bool at_well = part == BarePart::drain || part == BarePart::pump;
  if (part == BarePart::lid) return state.lid_degC;
  if (at_well) return filled ? state.well_degC : state.well_wall_degC;
  return filled ? state.vat_degC : state.vat_wall_degC;
}

}  // namespace stirbench::plant
