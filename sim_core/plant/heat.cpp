#include "sim_core/plant/heat.h"

#include <algorithm>
#include <cmath>

#include "sim_core/plant/chiller.h"
#include "sim_core/plant/scorch.h"
#include "sim_core/plant/transfer.h"

namespace stirbench::plant {
namespace {

// Conductances between the nodes [W/K]; 0 where there is no link.
struct Links {
  double contact = 0.0;    // element - well wall
  double into_well = 0.0;  // well wall - well
  double exchange = 0.0;   // well - vat
  double into_wall = 0.0;  // vat - vat wall
  double to_lid = 0.0;     // vat - lid
  double to_room = 0.0;    // vat - room, lid open
  double wall_coil = 0.0;  // vat wall - evaporator
  double well_coil = 0.0;  // well wall - evaporator
  double wall_loss = 0.0;  // vat wall - room
  double well_loss = 0.0;  // well wall - room
  double lid_loss = 0.0;   // lid - room
};

// A value for each node.
struct Nodes {
  double element = 0.0, well_wall = 0.0, well = 0.0, vat = 0.0, vat_wall = 0.0, evaporator = 0.0, lid = 0.0;
};

// Boiling at the wall, as a conductance to the well's product on top of the others.
double boiling_W_per_K(const MachineSpec& spec, const PlantState& state) {
  const double extra_W = wall_boiling_W(spec, state);
  return extra_W > 0.0 ? extra_W / std::max(1.0, state.well_wall_degC - state.well_degC) : 0.0;
}

Links links_at(const MachineSpec& spec, const PlantState& state, const Zones& z, double ahead_s) {
  const Coefficients& c = state.coefficients;
  const Trend& trend = state.pace.trend;
  const auto then = [ahead_s](double value, double slope) { return std::max(0.0, value + ahead_s * slope); };
  Links l;
  const double share = spec.well.evaporator_share_norm;
  l.contact = spec.elements.contact_W_per_K * state.health.element_contact_norm;
  l.wall_coil = spec.chiller.wall_W_per_K * (1.0 - share);
  l.well_coil = spec.chiller.wall_W_per_K * share;
  l.wall_loss = spec.vat.loss_W_per_K * state.health.insulation_factor;
  l.well_loss = spec.well.loss_W_per_K * state.health.insulation_factor;
  l.lid_loss = then(c.lid_room_W_per_K, trend.lid_room_W_per_K);
  if (!z.present) return l;
  l.into_well = then(c.well_wall_W_per_K, trend.well_wall_W_per_K) + boiling_W_per_K(spec, state);
  if (!z.merged) {
    l.exchange =
        then(c.exchange_kg_per_s, trend.exchange_kg_per_s) * 0.5 * (c.well_cp_J_per_kgK + c.vat_cp_J_per_kgK);
  }
  // Under ice the wall and the product see the freezing point instead of each other (freeze_and_melt).
  if (!(state.wall_ice_kg > 0.0)) l.into_wall = then(c.vat_wall_W_per_K, trend.vat_wall_W_per_K);
  (state.fittings.lid_open ? l.to_room : l.to_lid) = then(c.surface_W_per_K, trend.surface_W_per_K);
  return l;
}

double inverse(double capacity_J_per_K) { return capacity_J_per_K > 0.0 ? 1.0 / capacity_J_per_K : 0.0; }

// 1 / heat capacity [K/J]; 0 for what has none and so keeps its temperature.
Nodes per_capacity_K_per_J(const MachineSpec& spec, const Coefficients& c, const Zones& z) {
  Nodes n;
  n.element = inverse(spec.elements.mass_kg * spec.elements.cp_J_per_kgK);
  n.well_wall = inverse(spec.well.wall_mass_kg * spec.well.wall_cp_J_per_kgK);
  n.vat_wall = inverse(spec.vat.wall_mass_kg * spec.vat.wall_cp_J_per_kgK);
  n.evaporator = inverse(spec.chiller.evaporator_mass_kg * spec.chiller.evaporator_cp_J_per_kgK);
  n.lid = inverse(spec.vat.lid_mass_kg * spec.vat.lid_cp_J_per_kgK);
  // One zone: both names stand for all of it.
  n.well = inverse((z.merged ? z.total_kg : z.well_kg) * c.well_cp_J_per_kgK);
  n.vat = z.merged ? n.well : inverse(z.vat_kg * c.vat_cp_J_per_kgK);
  return n;
}

// dt (sum of a node's conductances) / C: how far it would follow within the tick.
Nodes stiffness(const Links& l, const Nodes& per_C, double dt_s) {
  Nodes n;
  n.element = dt_s * l.contact * per_C.element;
  n.well_wall = dt_s * (l.contact + l.into_well + l.well_coil + l.well_loss) * per_C.well_wall;
  n.well = dt_s * (l.into_well + l.exchange) * per_C.well;
  n.vat = dt_s * (l.exchange + l.into_wall + l.to_lid + l.to_room) * per_C.vat;
  n.vat_wall = dt_s * (l.into_wall + l.wall_coil + l.wall_loss) * per_C.vat_wall;
  n.evaporator = dt_s * (l.wall_coil + l.well_coil) * per_C.evaporator;
  n.lid = dt_s * (l.to_lid + l.lid_loss) * per_C.lid;
  return n;
}

void weaken(Links& l, const Nodes& x) {
  const auto limit = [](double& link, double a, double b) { link /= std::max(1.0, a + b); };
  limit(l.contact, x.element, x.well_wall);
  limit(l.into_well, x.well_wall, x.well);
  limit(l.exchange, x.well, x.vat);
  limit(l.into_wall, x.vat, x.vat_wall);
  limit(l.to_lid, x.vat, x.lid);
  limit(l.to_room, x.vat, 0.0);
  limit(l.wall_coil, x.vat_wall, x.evaporator);
  limit(l.well_coil, x.well_wall, x.evaporator);
  limit(l.wall_loss, x.vat_wall, 0.0);
  limit(l.well_loss, x.well_wall, 0.0);
  limit(l.lid_loss, x.lid, 0.0);
}

Nodes temperatures(const PlantState& s) {
  return {s.element_degC,  s.well_wall_degC,  s.well_degC, s.vat_degC,
          s.vat_wall_degC, s.evaporator_degC, s.lid_degC};
}

// Temperatures in the middle of the tick, along the line through the last two; and remembers the present.
Nodes middle_of_tick(PlantState& state, bool slow, double dt_s) {
  Pace& p = state.pace;
  const Nodes now = temperatures(state);
  const double forward = slow && p.before_s > 0.0 ? 0.5 * dt_s / p.before_s : 0.0;
  const NodeTemperatures& was = p.before_degC;
  const auto ahead = [forward](double t, double before) { return t + forward * (t - before); };
  const Nodes middle = {ahead(now.element, was[0]),  ahead(now.well_wall, was[1]),
                        ahead(now.well, was[2]),     ahead(now.vat, was[3]),
                        ahead(now.vat_wall, was[4]), ahead(now.evaporator, was[5]),
                        ahead(now.lid, was[6])};
  p.before_degC = {now.element, now.well_wall, now.well, now.vat, now.vat_wall, now.evaporator, now.lid};
  p.before_s = dt_s;
  return middle;
}

}  // namespace

double heater_W(const MachineSpec& spec, double heat_norm, double supply_norm) {
  return std::max(0.0, heat_norm) * spec.elements.count * spec.elements.rated_W_each * supply_norm *
         supply_norm;
}

double wall_boiling_W(const MachineSpec& spec, const PlantState& state) {
  const Coefficients& c = state.coefficients;
  const double above_K = state.well_wall_degC - c.boiling_point_degC;
  if (above_K <= 0.0 || !(c.well_wall_W_per_K > 0.0)) return 0.0;
  const double wet_m2 = std::min(1.0, c.volume_L / spec.well.volume_L) * spec.well.heated_area_m2;
  const double convection_W = c.well_wall_W_per_K * std::max(0.0, state.well_wall_degC - state.well_degC);
  const double h = spec.factors.boiling * boiling_extra_W_per_m2(above_K, convection_W / wet_m2) / above_K;
  return wet_m2 * h / (1.0 + h * layers_m2K_per_W(state)) * above_K;
}

double singing_norm(const MachineSpec& spec, const PlantState& state) {
  const double boiling_W = wall_boiling_W(spec, state);
  if (!(boiling_W > 0.0)) return 0.0;
  const double loud = boiling_W / (sings_W_per_m2 * spec.well.heated_area_m2);
  const double colder_K = state.coefficients.boiling_point_degC - state.well_degC;
  return std::min(1.0, loud) * std::clamp(colder_K / quiet_within_K, 0.0, 1.0);
}

void move_heat(const MachineSpec& spec, PlantState& state, const Zones& z, const HeatSources& sources,
               double dt_s) {
  Links l = links_at(spec, state, z, state.pace.coefficients_age_s + 0.5 * dt_s);
  const Nodes per_C = per_capacity_K_per_J(spec, state.coefficients, z);
  const Nodes x = stiffness(l, per_C, dt_s);
  const double stiffest = std::max({x.element, x.well_wall, x.well, x.vat, x.vat_wall, x.evaporator, x.lid});
  const bool slow = stiffest < 0.25;
  if (!slow) weaken(l, x);
  const Nodes t = middle_of_tick(state, slow, dt_s);
  const double room = state.environment.ambient_degC;

  // Each flux once [W]; both its ends get the same.
  const double contact = l.contact * (t.element - t.well_wall);
  const double into_well = l.into_well * (t.well_wall - t.well);
  const double up = l.exchange * (t.well - t.vat);
  const double into_wall = l.into_wall * (t.vat - t.vat_wall);
  const double to_lid = l.to_lid * (t.vat - t.lid);
  const double to_room = l.to_room * (t.vat - room);
  const double wall_coil = l.wall_coil * (t.vat_wall - t.evaporator);
  const double well_coil = l.well_coil * (t.well_wall - t.evaporator);
  const double wall_loss = l.wall_loss * (t.vat_wall - room);
  const double well_loss = l.well_loss * (t.well_wall - room);
  const double lid_loss = l.lid_loss * (t.lid - room);
  const double chiller_W = chiller_heat_W(state, t.evaporator, state.pace.chiller_age_s + 0.5 * dt_s);

  // Without product the shaft's friction ends in the well's wall.
  const double stir_W = sources.stir_vat_W + sources.stir_well_W;
  const double to_wall_W = z.present ? 0.0 : stir_W;
  state.element_degC += (sources.heaters_W - contact) * dt_s * per_C.element;
  state.well_wall_degC += (contact - into_well - well_coil - well_loss + to_wall_W) * dt_s * per_C.well_wall;
  state.vat_wall_degC += (into_wall - wall_coil - wall_loss) * dt_s * per_C.vat_wall;
  state.evaporator_degC += (wall_coil + well_coil - chiller_W) * dt_s * per_C.evaporator;
  state.lid_degC += (to_lid - lid_loss) * dt_s * per_C.lid;
  add_heat(state, z, (into_well - up + sources.stir_well_W) * dt_s,
           (up - into_wall - to_lid - to_room + sources.stir_vat_W) * dt_s);

  state.ledger.heaters_J += sources.heaters_W * dt_s;
  state.ledger.drive_J += stir_W * dt_s;
  state.ledger.chiller_J -= chiller_W * dt_s;
  state.ledger.surroundings_J -= (to_room + wall_loss + well_loss + lid_loss) * dt_s;
  state.flows.heaters_W = sources.heaters_W;
  state.flows.chiller_W = chiller_W;
}

void freeze_and_melt(const MachineSpec& spec, PlantState& state, const Zones& z, double dt_s) {
  const Coefficients& c = state.coefficients;
  const double freezing_degC = c.freezing_point_degC;
  const bool stirs = state.shaft_rad_per_s > 1.0;
  double& ice_kg = state.wall_ice_kg;
  // Ice needs a germ: half a kelvin of supercooling at the wall, and a wall that nothing wipes.
  const bool starts = !stirs && state.vat_wall_degC < freezing_degC - 0.5;
  const bool product_freezes = state.vat_degC < freezing_degC || state.well_degC < freezing_degC;
  if (!z.present || (!(ice_kg > 0.0) && !starts && !product_freezes)) return;
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
    add_heat(state, z, 0.0, -from_product_J);
    state.vat_wall_degC += to_wall_J / wall_C;
    ice_kg += grown_kg;
  }
  if (stirs && ice_kg > 0.0) {
    // Wiped off within a minute and molten by the product, as far as that is warm enough.
    const double spare_J = 0.2 * std::max(0.0, state.vat_degC - freezing_degC) * top_C;
    const double molten_kg = ice_kg < 1.0e-4 ? std::min(ice_kg, spare_J / fusion_J_per_kg)
                                             : std::min(ice_kg * dt_s / 60.0, spare_J / fusion_J_per_kg);
    add_heat(state, z, 0.0, -molten_kg * fusion_J_per_kg);
    ice_kg -= molten_kg;
  }
  // Bulk colder than its freezing point: crystals form and hold it there.
  const auto hold = [&](double t_degC, double capacity, bool in_well) {
    if (t_degC >= freezing_degC) return;
    const double grown_kg = std::clamp((freezing_degC - t_degC) * capacity / fusion_J_per_kg, 0.0,
                                       std::max(0.0, most_kg - ice_kg));
    ice_kg += grown_kg;
    add_heat(state, z, in_well ? grown_kg * fusion_J_per_kg : 0.0,
             in_well ? 0.0 : grown_kg * fusion_J_per_kg);
  };
  hold(state.vat_degC, top_C, false);
  if (!z.merged) hold(state.well_degC, z.well_kg * c.well_cp_J_per_kgK, true);
}

}  // namespace stirbench::plant
