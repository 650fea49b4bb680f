#include "sim_core/plant/scorch.h"

#include <algorithm>
#include <cmath>

#include "sim_core/plant/upkeep/cleaning.h"

namespace stirbench::plant {

double scorch_kg_per_m2s(double r120_kg_per_m2s, double wall_degC, double product_degC, double shear_per_s) {
  if (!(wall_degC > product_degC)) return 0.0;
  const double slope = std::exp(std::min(wall_degC - 120.0, 60.0) / 12.0);
  const double heated = -std::expm1((product_degC - wall_degC) / 5.0);
  return r120_kg_per_m2s * slope * heated / (1.0 + shear_per_s / 2.0);
}

double scorch_reference_kg_per_m2s(const product::PerComponent& mass_kg) {
  using product::Component;
  const double total_kg = mass_kg.sum();
  if (!(total_kg > 0.0)) return 0.0;
  const double sticks_kg = mass_kg[Component::milk_protein] + mass_kg[Component::egg_protein] +
                           mass_kg[Component::other_protein] + mass_kg[Component::lactose] +
                           mass_kg[Component::sucrose] + mass_kg[Component::monosaccharide] +
                           mass_kg[Component::syrup_solids] + mass_kg[Component::other_carbohydrate];
  return std::min(1.4e-3, 7.0e-4 / 0.2 * sticks_kg / total_kg);
}

double deposit_m2K_per_W(double deposit_kg_per_m2) { return deposit_kg_per_m2 / (1100.0 * 0.35); }

void scorch(const MachineSpec& spec, PlantState& state, double shear_per_s, double dt_s) {
  const double r120 = state.coefficients.scorch_kg_per_m2s;
  if (r120 > 0.0 && state.well_wall_degC > 70.0) {
    // A full layer stops growing: it insulates itself from the product that would feed it.
    const double room = 1.0 - state.deposit_kg_per_m2 / 3.0;
    state.deposit_kg_per_m2 +=
        room * dt_s * scorch_kg_per_m2s(r120, state.well_wall_degC, state.well_degC, shear_per_s);
  }
  if (state.deposit_kg_per_m2 > 0.0 && shear_per_s > 0.0 && state.well_kg > 0.0) {
    const double boost = state.product.alkaline_kg > 0.0 ? deposit_boost(wash_liquid(spec, state)) : 1.0;
    const double lost =
        state.deposit_kg_per_m2 * std::min(1.0, boost * dt_s / 1800.0 * std::min(1.0, shear_per_s / 30.0));
    state.deposit_kg_per_m2 -= lost;
    state.product.scorched_kg += lost * spec.well.heated_area_m2;
  }
}

}  // namespace stirbench::plant
