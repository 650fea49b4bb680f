#include "sim_core/plant/heat.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim_core/plant/chiller.h"
#include "sim_core/plant/scorch.h"
#include "sim_core/plant/transfer.h"

namespace stirbench::plant {
namespace {

enum Node : std::size_t { element, well_wall, well, vat, vat_wall, evaporator, lid, room, node_count };

struct Network {
  std::array<double, node_count> t{};
  std::array<double, node_count> per_C{};  // 1 / heat capacity [K/J]; 0: keeps its temperature
  std::array<double, node_count> sum_W_per_K{};
  std::array<double, node_count> heat_J{};
  struct Link {
    std::size_t a, b;
    double W_per_K;
  };
  std::array<Link, 10> link{};
  std::size_t links = 0;

  void join(std::size_t a, std::size_t b, double W_per_K) {
    if (!(W_per_K > 0.0)) return;
    link[links++] = {a, b, W_per_K};
    sum_W_per_K[a] += W_per_K;
    sum_W_per_K[b] += W_per_K;
  }
  void flow(double dt_s) {
    std::array<double, node_count> x{};
    for (std::size_t i = 0; i < node_count; ++i) x[i] = dt_s * sum_W_per_K[i] * per_C[i];
    for (std::size_t i = 0; i < links; ++i) {
      const Link& l = link[i];
      const double stiff = x[l.a] + x[l.b];
      const double q_J = l.W_per_K * (t[l.a] - t[l.b]) * dt_s / std::max(1.0, stiff);
      heat_J[l.a] -= q_J;
      heat_J[l.b] += q_J;
    }
  }
};

// Wall to well product, with the boiling at the wall on top.
double well_wall_W_per_K(const MachineSpec& spec, const PlantState& state) {
  const Coefficients& c = state.coefficients;
  const double above_K = state.well_wall_degC - c.boiling_point_degC;
  if (above_K <= 0.0 || !(c.well_wall_W_per_K > 0.0)) return c.well_wall_W_per_K;
  const double area_m2 = spec.well.heated_area_m2;
  const double boiling_h = boiling_flux_W_per_m2(above_K) / above_K;
  const double through_deposit = boiling_h / (1.0 + boiling_h * deposit_m2K_per_W(state.deposit_kg_per_m2));
  const double wet = std::min(1.0, c.volume_L / spec.well.volume_L);
  const double extra_W = wet * area_m2 * through_deposit * above_K;
  return c.well_wall_W_per_K + extra_W / std::max(1.0, state.well_wall_degC - state.well_degC);
}

double inverse(double capacity_J_per_K) {
  return capacity_J_per_K > 0.0 ? 1.0 / capacity_J_per_K : 0.0;
}

Network metal_nodes(const MachineSpec& spec, const PlantState& state) {
  Network n;
  n.t = {state.element_degC,  state.well_wall_degC,  state.well_degC, state.vat_degC,
         state.vat_wall_degC, state.evaporator_degC, state.lid_degC,  state.environment.ambient_degC};
  n.per_C[element] = inverse(spec.elements.mass_kg * spec.elements.cp_J_per_kgK);
  n.per_C[well_wall] = inverse(spec.well.wall_mass_kg * spec.well.wall_cp_J_per_kgK);
  n.per_C[vat_wall] = inverse(spec.vat.wall_mass_kg * spec.vat.wall_cp_J_per_kgK);
  n.per_C[evaporator] = inverse(spec.chiller.evaporator_mass_kg * spec.chiller.evaporator_cp_J_per_kgK);
  n.per_C[lid] = inverse(spec.vat.lid_mass_kg * spec.vat.lid_cp_J_per_kgK);
  n.join(element, well_wall, spec.elements.contact_W_per_K);
  n.join(evaporator, vat_wall, spec.chiller.wall_W_per_K * (1.0 - spec.well.evaporator_share_norm));
  n.join(evaporator, well_wall, spec.chiller.wall_W_per_K * spec.well.evaporator_share_norm);
  n.join(vat_wall, room, spec.vat.loss_W_per_K);
  n.join(well_wall, room, spec.well.loss_W_per_K);
  n.join(lid, room, state.coefficients.lid_room_W_per_K);
  return n;
}

void join_product(const MachineSpec& spec, const PlantState& state, const Zones& z, Network& n) {
  if (!z.present) return;
  const Coefficients& c = state.coefficients;
  const std::size_t top = z.merged ? well : vat;
  n.per_C[well] = 1.0 / ((z.merged ? z.total_kg : z.well_kg) * c.well_cp_J_per_kgK);
  n.join(well_wall, well, well_wall_W_per_K(spec, state));
  if (!z.merged) {
    n.per_C[vat] = 1.0 / (z.vat_kg * c.vat_cp_J_per_kgK);
    n.join(well, vat, c.exchange_kg_per_s * 0.5 * (c.well_cp_J_per_kgK + c.vat_cp_J_per_kgK));
  }
  // Under ice the wall and the product see the freezing point instead of each other (freeze_and_melt).
  if (!(state.wall_ice_kg > 0.0)) n.join(top, vat_wall, c.vat_wall_W_per_K);
  n.join(top, state.fittings.lid_open ? std::size_t{room} : std::size_t{lid}, c.surface_W_per_K);
}

}  // namespace

double heater_W(const MachineSpec& spec, double heat_norm, double supply_norm) {
  const double volts = supply_norm * spec.supply_V / spec.elements.rated_V;
  return std::clamp(heat_norm, 0.0, 1.0) * spec.elements.count * spec.elements.rated_W_each * volts * volts;
}

void move_heat(const MachineSpec& spec, PlantState& state, double heaters_W, double stir_vat_W,
               double stir_well_W, double dt_s) {
  const Zones z = zones(state);
  Network n = metal_nodes(spec, state);
  join_product(spec, state, z, n);
  n.flow(dt_s);

  // Sources; without product the shaft's friction ends in the well's wall.
  n.heat_J[element] += heaters_W * dt_s;
  n.heat_J[z.present ? std::size_t{well} : std::size_t{well_wall}] += stir_well_W * dt_s;
  n.heat_J[z.present ? (z.merged ? std::size_t{well} : std::size_t{vat}) : std::size_t{well_wall}] +=
      stir_vat_W * dt_s;
  const double chiller_W = chiller_heat_W(spec, state);
  n.heat_J[evaporator] -= chiller_W * dt_s;

  state.element_degC += n.heat_J[element] * n.per_C[element];
  state.well_wall_degC += n.heat_J[well_wall] * n.per_C[well_wall];
  state.vat_wall_degC += n.heat_J[vat_wall] * n.per_C[vat_wall];
  state.evaporator_degC += n.heat_J[evaporator] * n.per_C[evaporator];
  state.lid_degC += n.heat_J[lid] * n.per_C[lid];
  warm(state, z, n.heat_J[well], n.heat_J[vat]);

  state.ledger.heaters_J += heaters_W * dt_s;
  state.ledger.drive_J += (stir_vat_W + stir_well_W) * dt_s;
  state.ledger.chiller_J -= chiller_W * dt_s;
  state.ledger.surroundings_J -= n.heat_J[room];
  state.flows.heaters_W = heaters_W;
  state.flows.chiller_W = chiller_W;
}

void freeze_and_melt(const MachineSpec& spec, PlantState& state, double dt_s) {
  const Coefficients& c = state.coefficients;
  const double freezing_degC = c.freezing_point_degC;
  const bool stirs = state.shaft_rad_per_s > 1.0;
  double& ice_kg = state.wall_ice_kg;
  // Ice needs a germ: half a kelvin of supercooling at the wall, and a wall that nothing wipes.
  const bool starts = !stirs && state.vat_wall_degC < freezing_degC - 0.5;
  const bool product_freezes = state.vat_degC < freezing_degC || state.well_degC < freezing_degC;
  if (!(ice_kg > 0.0) && !starts && !product_freezes) return;
  const Zones z = zones(state);
  if (!z.present) return;
  const double most_kg = 0.5 * z.total_kg;
  const double top_C = z.merged ? z.total_kg * c.well_cp_J_per_kgK : z.vat_kg * c.vat_cp_J_per_kgK;

  if ((ice_kg > 0.0 || starts) && c.vat_wall_W_per_K > 0.0) {
    // Product to interface, interface through the layer to the wall; neither may overshoot the freezing
    // point.
    const double wall_C = spec.vat.wall_mass_kg * spec.vat.wall_cp_J_per_kgK;
    const double area_m2 =
        std::max(0.01, spec.vat.wall_area_m2 * std::min(1.0, c.volume_L / spec.vat.working_L));
    const double layer_m = std::max(2.0e-4, ice_kg / (917.0 * area_m2));
    const auto limited = [dt_s](double W_per_K, double capacity) {
      return W_per_K * dt_s / std::max(1.0, 2.0 * W_per_K * dt_s / capacity);
    };
    const double from_product_J = limited(c.vat_wall_W_per_K, top_C) * (state.vat_degC - freezing_degC);
    double to_wall_J = limited(2.2 * area_m2 / layer_m, wall_C) * (freezing_degC - state.vat_wall_degC);
    double grown_kg = (to_wall_J - from_product_J) / fusion_J_per_kg;
    // All molten or no room for more: the wall's side takes exactly what is left.
    grown_kg = std::clamp(grown_kg, -ice_kg, std::max(0.0, most_kg - ice_kg));
    to_wall_J = from_product_J + grown_kg * fusion_J_per_kg;
    warm(state, z, 0.0, -from_product_J);
    state.vat_wall_degC += to_wall_J / wall_C;
    ice_kg += grown_kg;
  }
  if (stirs && ice_kg > 0.0) {
    // Wiped off within a minute and molten by the product, as far as that is warm enough.
    const double spare_J = 0.2 * std::max(0.0, state.vat_degC - freezing_degC) * top_C;
    const double molten_kg = ice_kg < 1.0e-4 ? std::min(ice_kg, spare_J / fusion_J_per_kg)
                                             : std::min(ice_kg * dt_s / 60.0, spare_J / fusion_J_per_kg);
    warm(state, z, 0.0, -molten_kg * fusion_J_per_kg);
    ice_kg -= molten_kg;
  }
  // Bulk colder than its freezing point: crystals form and hold it there.
  const auto hold = [&](double t_degC, double capacity, bool in_well) {
    if (t_degC >= freezing_degC) return;
    const double grown_kg = std::clamp((freezing_degC - t_degC) * capacity / fusion_J_per_kg, 0.0,
                                       std::max(0.0, most_kg - ice_kg));
    ice_kg += grown_kg;
    warm(state, z, in_well ? grown_kg * fusion_J_per_kg : 0.0, in_well ? 0.0 : grown_kg * fusion_J_per_kg);
  };
  hold(state.vat_degC, top_C, false);
  if (!z.merged) hold(state.well_degC, z.well_kg * c.well_cp_J_per_kgK, true);
}

}  // namespace stirbench::plant
