#include "sim_core/plant/account.h"

#include <cmath>

#include "sim_core/plant/zones.h"

namespace stirbench::plant {

double stored_J(const MachineSpec& spec, const PlantState& state) {
  const Zones z = zones(state);
  const double product_J =
      enthalpy_at_J(state, z.well_kg, state.well_degC) + enthalpy_at_J(state, z.vat_kg, state.vat_degC);
  const double metal_J =
      spec.elements.mass_kg * spec.elements.cp_J_per_kgK * state.element_degC +
      spec.well.wall_mass_kg * spec.well.wall_cp_J_per_kgK * state.well_wall_degC +
      spec.vat.wall_mass_kg * spec.vat.wall_cp_J_per_kgK * state.vat_wall_degC +
      spec.chiller.evaporator_mass_kg * spec.chiller.evaporator_cp_J_per_kgK * state.evaporator_degC +
      spec.vat.lid_mass_kg * spec.vat.lid_cp_J_per_kgK * state.lid_degC;
  return product_J + metal_J - fusion_J_per_kg * state.wall_ice_kg + held_J(state.product);
}

double residual_J(const MachineSpec& spec, const PlantState& state) {
  const Ledger& l = state.ledger;
  return stored_J(spec, state) - l.start_J -
         (l.heaters_J + l.drive_J + l.chiller_J + l.surroundings_J + l.evaporation_J + l.material_J);
}

double mass_residual_kg(const PlantState& state) {
  const MassLedger& m = state.masses;
  return state.product.total_kg() - (m.start_kg + m.poured_kg + m.rinsed_kg - m.drawn_kg - m.spilled_kg -
                                     m.evaporated_kg - m.clung_kg - state.lid_water_kg);
}

double moved_J(const Ledger& l) {
  return std::abs(l.heaters_J) + std::abs(l.drive_J) + std::abs(l.chiller_J) + std::abs(l.surroundings_J) +
         std::abs(l.evaporation_J) + std::abs(l.material_J);
}

}  // namespace stirbench::plant
