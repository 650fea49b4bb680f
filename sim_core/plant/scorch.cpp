#include "sim_core/plant/scorch.h"

#include <algorithm>
#include <cmath>

#include "sim_core/plant/upkeep/cleaning.h"

namespace stirbench::plant {

namespace {

constexpr double film_density_kg_per_m3 = 1030.0;
constexpr double film_W_per_mK = 0.5;
constexpr double thickest_film_kg_per_m2 = 1.0;  // about a millimetre; more flakes off (choice)
constexpr double covers_kg_per_m2 = 0.01;        // protein that hides the stone from acid (choice): 10 um
constexpr double least_reached_norm = 0.05;      // of it through cracks in a whole film (choice)

// Share of a product layer at the wall that is heated far enough to stick: 5 K decide.
double heated_norm(double wall_degC, double product_degC) {
  return wall_degC > product_degC ? 1.0 - std::exp((product_degC - wall_degC) / 5.0) : 0.0;
}

double scorch_of(double r120_kg_per_m2s, double wall_degC, double heated, double shear_per_s) {
  const double slope = std::exp(std::min(wall_degC - 120.0, 60.0) / 7.0);
  return r120_kg_per_m2s * slope * heated / (1.0 + shear_per_s / 2.0);
}

double film_of(double protein_norm, double wall_degC, double heated, double shear_per_s) {
  constexpr double lowest_degC = 70.0;
  constexpr double moving_per_s = 30.0;  // full effect of the flow from this shear rate on (choice)
  if (!(wall_degC > lowest_degC) || !(protein_norm > 0.0)) return 0.0;
  constexpr double at_95 = 2.0e-4 / 3600.0 * film_density_kg_per_m3 * film_W_per_mK;
  const double warmer = arrhenius(std::min(wall_degC, 120.0), 95.0, 89.0e3);
  const double flow = 4.0 - 3.0 * std::min(1.0, shear_per_s / moving_per_s);
  return at_95 * warmer * heated * flow * std::min(2.0, protein_norm / 0.033);
}

void grow_film(const MachineSpec& spec, PlantState& state, double heated, double shear_per_s, double dt_s) {
  const double total_kg = state.product.total_kg();
  if (!(total_kg > 0.0)) return;
  const double protein = state.product.mass_kg[product::Component::milk_protein] / total_kg;
  const double there = state.protein_film_kg_per_m2 + state.mineral_film_kg_per_m2;
  const double room = std::max(0.0, 1.0 - there / thickest_film_kg_per_m2);
  const double grown =
      spec.factors.white_film * room * dt_s * film_of(protein, state.well_wall_degC, heated, shear_per_s);
  const double mineral = std::min(1.0, spec.factors.milk_stone * mineral_share_norm);
  state.mineral_film_kg_per_m2 += mineral * grown;
  state.protein_film_kg_per_m2 += (1.0 - mineral) * grown;
}

// What alkali takes of the protein, and acid of the stone under it.
void wash_white_film(const MachineSpec& spec, PlantState& state, double dt_s) {
  const WashLiquid wash = wash_liquid(spec, state);
  const double taken_kg_per_m2 = dt_s * film_density_kg_per_m3 * film_removal_m_per_s(wash);
  state.protein_film_kg_per_m2 = std::max(0.0, state.protein_film_kg_per_m2 - taken_kg_per_m2);
  const double dissolved_kg_per_m2 = dt_s * film_density_kg_per_m3 * stone_removal_m_per_s(wash) *
                                     spec.factors.descaling *
                                     stone_reached_norm(state.protein_film_kg_per_m2);
  state.mineral_film_kg_per_m2 = std::max(0.0, state.mineral_film_kg_per_m2 - dissolved_kg_per_m2);
}

}  // namespace

double scorch_kg_per_m2s(double r120_kg_per_m2s, double wall_degC, double product_degC, double shear_per_s) {
  return scorch_of(r120_kg_per_m2s, wall_degC, heated_norm(wall_degC, product_degC), shear_per_s);
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

double film_kg_per_m2s(double protein_norm, double wall_degC, double product_degC, double shear_per_s) {
  return film_of(protein_norm, wall_degC, heated_norm(wall_degC, product_degC), shear_per_s);
}

double film_m2K_per_W(double film_kg_per_m2) {
  return film_kg_per_m2 / (film_density_kg_per_m3 * film_W_per_mK);
}

double layers_m2K_per_W(const PlantState& state) {
  return deposit_m2K_per_W(state.deposit_kg_per_m2) +
         film_m2K_per_W(state.protein_film_kg_per_m2 + state.mineral_film_kg_per_m2);
}

double stone_reached_norm(double protein_film_kg_per_m2) {
  return std::max(least_reached_norm, 1.0 - protein_film_kg_per_m2 / covers_kg_per_m2);
}

bool shows_bloom(const PlantState& state) {
  return state.mineral_film_kg_per_m2 > bloom_kg_per_m2 &&
         state.mineral_film_kg_per_m2 > state.protein_film_kg_per_m2;
}

double deposit_m2K_per_W(double deposit_kg_per_m2) { return deposit_kg_per_m2 / (1100.0 * 0.35); }

void scorch(const MachineSpec& spec, PlantState& state, double shear_per_s, double dt_s) {
  const double r120 = state.coefficients.scorch_kg_per_m2s;
  const bool hot = state.well_wall_degC > 70.0;
  const double heated = hot ? heated_norm(state.well_wall_degC, state.well_degC) : 0.0;
  if (r120 > 0.0 && heated > 0.0) {
    // A full layer stops growing: it insulates itself from the product that would feed it.
    const double room = 1.0 - state.deposit_kg_per_m2 / 3.0;
    state.deposit_kg_per_m2 += room * dt_s * scorch_of(r120, state.well_wall_degC, heated, shear_per_s);
  }
  if (heated > 0.0) grow_film(spec, state, heated, shear_per_s, dt_s);
  const bool alkali = state.product.alkaline_kg > 0.0 && state.protein_film_kg_per_m2 > 0.0;
  const bool acid = state.product.acid_kg > 0.0 && state.mineral_film_kg_per_m2 > 0.0;
  if ((alkali || acid) && state.well_kg > 0.0) wash_white_film(spec, state, dt_s);
  if (state.deposit_kg_per_m2 > 0.0 && shear_per_s > 0.0 && state.well_kg > 0.0) {
    const double boost = state.product.alkaline_kg > 0.0 ? deposit_boost(wash_liquid(spec, state)) : 1.0;
    const double lost =
        state.deposit_kg_per_m2 * std::min(1.0, boost * dt_s / 1800.0 * std::min(1.0, shear_per_s / 30.0));
    state.deposit_kg_per_m2 -= lost;
    state.product.scorched_kg += lost * spec.well.heated_area_m2;
  }
}

}  // namespace stirbench::plant
