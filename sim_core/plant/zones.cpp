#include "sim_core/plant/zones.h"

#include <algorithm>

#include "sim_core/plant/plant.h"
#include "sim_core/plant/upkeep/cleaning.h"
#include "sim_core/product/kinetics.h"
#include "sim_core/product/properties.h"

namespace stirbench::plant {
namespace {

// When the composition changed, the well keeps its temperature and the vat takes what is left of `total_J`.
void share_out(PlantState& state, double total_J) {
  const Zones z = zones(state);
  if (z.merged) {
    state.well_J = total_J;
    state.vat_J = 0.0;
  } else {
    state.well_J = enthalpy_at_J(state, z.well_kg, state.well_degC);
    state.vat_J = total_J - state.well_J;
  }
  update_zone_temperatures(state);
}

// Puts both zones at one temperature.
void pool(PlantState& state, const Zones& z) {
  const double total_J = state.well_J + state.vat_J;
  state.well_J = z.total_kg > 0.0 ? total_J * z.well_kg / z.total_kg : total_J;
  state.vat_J = total_J - state.well_J;
}

}  // namespace

Zones zones(const PlantState& state) {
  Zones z;
  z.total_kg = state.product.total_kg();
  z.well_kg = std::min(state.well_kg, z.total_kg);
  z.vat_kg = z.total_kg - z.well_kg;
  z.present = z.total_kg > least_kg;
  z.merged = z.vat_kg < merge_kg;
  return z;
}

double mean_degC(const PlantState& state, const Zones& z) {
  if (!z.present) return state.well_degC;
  return (z.well_kg * state.well_degC + z.vat_kg * state.vat_degC) / z.total_kg;
}

double enthalpy_at_J(const PlantState& state, double kg, double t_degC) {
  const double total_kg = state.product.total_kg();
  return total_kg > 0.0 ? product::enthalpy_J(state.product.mass_kg, t_degC) * (kg / total_kg) : 0.0;
}

void add_heat(PlantState& state, const Zones& z, double well_heat_J, double vat_heat_J) {
  if (!z.present) return;
  state.well_J += well_heat_J;
  state.vat_J += vat_heat_J;
  const Coefficients& c = state.coefficients;
  if (z.merged) {
    state.well_degC += (well_heat_J + vat_heat_J) / (z.total_kg * c.well_cp_J_per_kgK);
    state.vat_degC = state.well_degC;
    pool(state, z);
  } else {
    state.well_degC += well_heat_J / (z.well_kg * c.well_cp_J_per_kgK);
    state.vat_degC += vat_heat_J / (z.vat_kg * c.vat_cp_J_per_kgK);
  }
}

void update_zone_temperatures(PlantState& state) {
  const Zones z = zones(state);
  if (z.total_kg <= 0.0) {
    state.well_J = state.vat_J = 0.0;
    return;
  }
  if (z.merged) {
    state.well_degC =
        product::temperature_degC(state.product.mass_kg, state.well_J + state.vat_J, state.well_degC);
    state.vat_degC = state.well_degC;
    pool(state, z);
    return;
  }
  state.well_degC = product::temperature_degC(state.product.mass_kg, state.well_J * (z.total_kg / z.well_kg),
                                              state.well_degC);
  state.vat_degC =
      product::temperature_degC(state.product.mass_kg, state.vat_J * (z.total_kg / z.vat_kg), state.vat_degC);
}

void keep_well_full(const MachineSpec& spec, PlantState& state) {
  const Zones z = zones(state);
  if (z.total_kg <= 0.0) {
    state.well_kg = 0.0;
    return;
  }
  const double full_kg = 1.0e-3 * spec.well.volume_L * state.coefficients.density_kg_per_m3;
  const double wanted_kg = std::min(z.total_kg, full_kg);
  const double down_kg = wanted_kg - z.well_kg;
  // The source's own specific enthalpy travels with the mass, so the temperatures of a sinking flow mix by
  // themselves.
  const double moved_J = down_kg > 0.0 ? (z.vat_kg > 0.0 ? down_kg * state.vat_J / z.vat_kg : 0.0)
                                       : (z.well_kg > 0.0 ? down_kg * state.well_J / z.well_kg : 0.0);
  state.well_J += moved_J;
  state.vat_J -= moved_J;
  state.well_kg = wanted_kg;
  if (z.total_kg - wanted_kg <= 0.0) {
    state.well_J += state.vat_J;
    state.vat_J = 0.0;
  }
}

void mix_in(const MachineSpec& spec, PlantState& state, const Zones& before, double added_J,
            double added_degC) {
  const double low = before.present ? std::min({added_degC, state.well_degC, state.vat_degC}) : added_degC;
  const double high = before.present ? std::max({added_degC, state.well_degC, state.vat_degC}) : added_degC;
  const double total_J = state.well_J + state.vat_J + added_J;
  if (!before.present) state.well_degC = state.vat_degC = added_degC;
  const double total_kg = state.product.total_kg();
  state.coefficients.density_kg_per_m3 = product::density_kg_per_m3(state.product.mass_kg, state.well_degC);
  // What lands in a well that is not full mixes there; share_out only sees where the surface is then.
  const double full_kg = 1.0e-3 * spec.well.volume_L * state.coefficients.density_kg_per_m3;
  state.well_kg = std::min(total_kg, full_kg);
  if (!before.merged) {
    share_out(state, total_J);
    if (state.vat_degC >= low - 1.0e-9 && state.vat_degC <= high + 1.0e-9) return;
  }
  state.well_degC = product::temperature_degC(state.product.mass_kg, total_J, 0.5 * (low + high));
  state.vat_degC = state.well_degC;
  state.well_J = total_J * state.well_kg / total_kg;
  state.vat_J = total_J - state.well_J;
}

TakenLiquid take_liquid(const MachineSpec& spec, PlantState& state, double kg, bool from_well) {
  TakenLiquid out;
  const Zones z = zones(state);
  const double sunk_kg = state.product.sunk_sugar_kg + state.product.sunk_powder_kg;
  const double liquid_kg = z.total_kg - sunk_kg;
  const double free_kg = liquid_kg - state.wall_ice_kg;
  if (!(kg > 0.0) || !(free_kg > 0.0)) return out;
  double want_kg = std::min(kg, free_kg);
  // The last spoonful is taken too, else a film would be drawn for ever; what clings to the walls goes there.
  const bool all_free = free_kg == z.total_kg;
  const double clings_kg = all_free ? film_room_kg(spec, state, 0.0) : 0.0;
  if (free_kg - want_kg < std::max(0.02, clings_kg)) want_kg = free_kg;
  const bool source_well = from_well || z.vat_kg <= want_kg;
  const double source_degC = source_well ? state.well_degC : state.vat_degC;
  const double total_J = state.well_J + state.vat_J;

  out.product = product::draw_share(state.product, want_kg / liquid_kg);
  out.kg = out.product.total_kg();
  out.enthalpy_J = product::enthalpy_J(out.product.mass_kg, source_degC);
  const double sets_J = product::milk_fat_setting_J_per_kg * out.product.unset_fat_kg;
  out.product.unset_fat_kg = 0.0;
  state.ledger.material_J += solution_J_per_kg * loose_sugar_kg(out.product);
  if (source_well) state.well_kg = std::max(0.0, z.well_kg - out.kg);
  const double left_kg = state.product.total_kg();
  state.well_kg = std::min(state.well_kg, left_kg);
  if (left_kg <= 1.0e-9) {
    // Nothing is left to carry the rounding: it leaves with the last drop.
    out.enthalpy_J = total_J + sets_J;
    state.product = {};
    state.well_kg = state.well_J = state.vat_J = 0.0;
    leave_film(state, clings_kg, out);
    return out;
  }
  // The wall that the falling level bares keeps its film.
  const double bared_kg = all_free ? film_room_kg(spec, state, left_kg) : 0.0;
  if (sunk_kg > 0.0) {
    share_out(state, total_J - out.enthalpy_J);
  } else {
    (source_well ? state.well_J : state.vat_J) -= out.enthalpy_J;
    if (state.well_kg <= 0.0) {
      state.vat_J += state.well_J;
      state.well_J = 0.0;
    }
  }
  keep_well_full(spec, state);
  update_zone_temperatures(state);
  out.enthalpy_J += sets_J;
  leave_film(state, std::min(bared_kg, film_share_norm(spec, state) * out.kg), out);
  return out;
}

void remove_vapour(PlantState& state, const Zones& z, double kg, double vapour_J_per_kg,
                   double latent_J_per_kg, bool from_well) {
  const double latent_J = kg * latent_J_per_kg;
  add_heat(state, z, from_well ? -latent_J : 0.0, from_well ? 0.0 : -latent_J);
  double& water_kg = state.product.mass_kg[product::Component::water];
  water_kg = std::max(0.0, water_kg - kg);
  if (z.merged) state.well_kg = std::max(0.0, z.well_kg - kg * z.well_kg / z.total_kg);
  // All zones share one composition, so the well hands water to the vat for the mix that replaces it; its
  // temperature must not notice.
  const double shift_J =
      z.merged ? 0.0 : kg * z.well_kg / z.total_kg * state.coefficients.water_excess_J_per_kg;
  state.well_J -= shift_J;
  state.vat_J += shift_J - kg * (vapour_J_per_kg - latent_J_per_kg);
  state.masses.evaporated_kg += kg;
  state.ledger.evaporation_J -= kg * vapour_J_per_kg;
}

void move_water(PlantState& state, const Zones& z, double kg) {
  double& water_kg = state.product.mass_kg[product::Component::water];
  water_kg = std::max(0.0, water_kg + kg);
  if (z.merged) state.well_kg = std::max(0.0, z.well_kg + kg * z.well_kg / z.total_kg);
  const double shift_J =
      z.merged ? 0.0 : kg * z.well_kg / z.total_kg * state.coefficients.water_excess_J_per_kg;
  const double carried_J =
      kg * product::component_enthalpy_J_per_kg(product::Component::water, state.vat_degC);
  state.well_J += shift_J;
  state.vat_J += carried_J - shift_J;
  state.ledger.material_J += carried_J;
}

double spill_overflow(const MachineSpec& spec, PlantState& state) {
  const double over_L = fill_L(state) - spec.vat.brim_L;
  if (!(over_L > 0.0)) return 0.0;
  const double kg = 1.0e-3 * over_L * (1.0 - state.product.air_norm) * state.coefficients.density_kg_per_m3;
  const TakenLiquid taken = take_liquid(spec, state, kg, false);
  state.masses.spilled_kg += taken.kg;
  state.floor_kg += taken.kg;
  state.ledger.material_J -= taken.enthalpy_J;
  return taken.kg > 0.0 ? over_L : 0.0;
}

}  // namespace stirbench::plant
