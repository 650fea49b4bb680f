#include "sim_core/plant/coefficients.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim_core/plant/drive.h"
#include "sim_core/plant/evaporation.h"
#include "sim_core/plant/plant.h"
#include "sim_core/plant/probe.h"
#include "sim_core/plant/pump_and_draw.h"
#include "sim_core/plant/scorch.h"
#include "sim_core/plant/transfer.h"
#include "sim_core/plant/upkeep/assembly_effects.h"
#include "sim_core/plant/upkeep/vanes.h"
#include "sim_core/product/foam.h"
#include "sim_core/product/freezing.h"
#include "sim_core/product/kinetics.h"
#include "sim_core/product/pools.h"
#include "sim_core/product/properties.h"

namespace stirbench::plant {
namespace {

using product::PowerLaw;

// A zone's properties for heat transfer.
struct Fluid {
  double density_kg_per_m3, cp_J_per_kgK, conductivity_W_per_mK, expansion_per_K;
  PowerLaw law;
  double kinematic_m2_per_s(double shear) const {
    return product::apparent_viscosity_Pa_s(law, shear) / density_kg_per_m3;
  }
  double diffusivity_m2_per_s() const { return conductivity_W_per_mK / (density_kg_per_m3 * cp_J_per_kgK); }
};

Fluid fluid_at(const product::Product& p, double t_degC, double thickness_factor) {
  Fluid f;
  f.density_kg_per_m3 = product::density_kg_per_m3(p.mass_kg, t_degC);
  f.cp_J_per_kgK = product::heat_capacity_J_per_kgK(p.mass_kg, t_degC);
  f.conductivity_W_per_mK = product::conductivity_W_per_mK(p.mass_kg, t_degC);
  const double warmer = product::density_kg_per_m3(p.mass_kg, t_degC + 2.0);
  f.expansion_per_K = (f.density_kg_per_m3 - warmer) / (2.0 * f.density_kg_per_m3);
  f.law = product::power_law(p, t_degC);
  f.law.consistency_Pa_sn *= thickness_factor;
  return f;
}

// Share of the agitator that is in product; none when it is off.
double covered_norm(const MachineSpec& spec, const PlantState& state, double fill) {
  if (!agitator_turns(state.assembly)) return 0.0;
  return std::clamp(fill / spec.agitator.covered_L, 0.0, 1.0);
}

// Free and forced convection at once (Churchill 1977, from memory).
double together(double free, double forced) {
  return std::cbrt(free * free * free + forced * forced * forced);
}

double circle_m2(double diameter_m) { return 0.25 * std::numbers::pi * diameter_m * diameter_m; }

void refresh_properties(const MachineSpec& spec, PlantState& state, const Fluid& well, const Fluid& vat) {
  Coefficients& c = state.coefficients;
  const product::PerComponent& kg = state.product.mass_kg;
  c.density_kg_per_m3 = product::density_kg_per_m3(kg, mean_degC(state, zones(state)));
  c.volume_L = fill_L(state);
  c.well_cp_J_per_kgK = well.cp_J_per_kgK;
  c.vat_cp_J_per_kgK = vat.cp_J_per_kgK;
  c.consistency_Pa_sn = vat.law.consistency_Pa_sn;
  c.flow_index = vat.law.index;
  c.freezing_point_degC = product::freezing_point_degC(
      product::all_dissolved(state.product) ? kg : product::dissolved_kg(state.product));
  c.boiling_point_degC = boiling_point_degC(c.freezing_point_degC);
  if (state.wall_ice_kg > 0.0) {
    // Ice is pure: what is left freezes lower.
    product::PerComponent rest =
        product::all_dissolved(state.product) ? kg : product::dissolved_kg(state.product);
    rest[product::Component::water] = std::max(0.0, rest[product::Component::water] - state.wall_ice_kg);
    c.freezing_point_degC = product::freezing_point_degC(rest);
  }
  const double total_kg = kg.sum();
  c.water_excess_J_per_kg = product::component_enthalpy_J_per_kg(product::Component::water, state.well_degC) -
                            product::enthalpy_J(kg, state.well_degC) / total_kg;
  c.scorch_kg_per_m2s = spec.factors.burning * scorch_reference_kg_per_m2s(kg);
  // 20 % of the vapour's volume stays as foam where there is protein to hold it.
  c.foam_per_kg = 0.2 * product::protein_hold_norm(product::protein_norm(state.product)) * 1.67e3 /
                  std::max(1.0, c.volume_L);
}

// Air that the agitator draws in where its vortex comes near the blades. The level at rest is that of the
// liquid without its air.
void refresh_drawn_air(const MachineSpec& spec, PlantState& state, const Fluid& vat) {
  Coefficients& c = state.coefficients;
  c.drawn_air_norm = c.foam_hold_norm = 0.0;
  const double liquid_L = c.volume_L * (1.0 - state.product.air_norm);
  const double covered = covered_norm(spec, state, liquid_L) * state.health.agitator_grip_norm;
  if (!(state.shaft_rad_per_s > 0.0) || !(covered > 0.0)) return;
  const double d = spec.agitator.diameter_m;
  const double n = state.shaft_rad_per_s / (2.0 * std::numbers::pi);
  const double reynolds = n * d * d * vat.density_kg_per_m3 / c.viscosity_Pa_s;
  const double dip_m = product::vortex_dip_m(state.shaft_rad_per_s, d, spec.vat.diameter_m, reynolds);
  const double cover_m = 1.0e-3 * (liquid_L - spec.agitator.covered_L) / circle_m2(spec.vat.diameter_m);
  const double drawn = product::drawn_air_norm(dip_m, cover_m);
  if (!(drawn > 0.0)) return;
  c.foam_hold_norm = product::foam_hold_norm(state.product, state.vat_degC);
  c.drawn_air_norm = spec.factors.foam * covered * c.foam_hold_norm * drawn;
}

// Kinetics let air rise out of the product; here the agitator folds new air in.
void whip(PlantState& state, double dt_s) {
  double& air = state.product.air_norm;
  const double drawn = state.coefficients.drawn_air_norm;
  if (drawn > air) air += (drawn - air) * -std::expm1(-dt_s / product::whipping_s);
}

void refresh_drive(const MachineSpec& spec, PlantState& state, const Fluid& vat, double fill) {
  Coefficients& c = state.coefficients;
  const AgitatorSpec& a = spec.agitator;
  const double rated_w = rated_agitator_rad_per_s(spec.drive);
  const double n = rated_w / (2.0 * std::numbers::pi);
  const double now_n = state.shaft_rad_per_s / (2.0 * std::numbers::pi);
  const double covered = covered_norm(spec, state, fill) * state.health.agitator_grip_norm;
  const double rated_Pa_s = product::apparent_viscosity_Pa_s(vat.law, a.shear_ks * n);
  c.viscosity_Pa_s = product::apparent_viscosity_Pa_s(vat.law, a.shear_ks * (now_n > 0.05 * n ? now_n : n));
  // Blades in foam find less to push.
  const double density = vat.density_kg_per_m3 * (1.0 - state.product.air_norm);
  const AgitatorPower power = agitator_power_W(a, rated_Pa_s, density, n);
  c.viscous_torque_Nm = covered * power.viscous_W / rated_w;
  c.agitator_torque_Nm = c.viscous_torque_Nm + covered * power.inertial_W / rated_w;
}

// The draw takes its share of the pump's flow before the loop gets the rest.
void refresh_flow(const MachineSpec& spec, PlantState& state, const Fluid& well) {
  Coefficients& c = state.coefficients;
  const double rated_w = rated_agitator_rad_per_s(spec.drive);
  const double rpm = state.shaft_rad_per_s * 30.0 / std::numbers::pi;
  const double viscosity = product::apparent_viscosity_Pa_s(well.law, 50.0);
  const double drawn_m3_per_s = draw_flow_m3_per_s(spec, state, well.law, rpm);
  c.draw_kg_per_s = drawn_m3_per_s * c.density_kg_per_m3;
  const double rated_rpm = rated_w * 30.0 / std::numbers::pi;
  const Health& health = state.health;
  const double moves = pump_norm(state);
  const PumpPoint rated =
      pump_point(spec, viscosity, rated_rpm * moves, 0.0, health.slip_factor, health.loop_loss_factor);
  const PumpPoint now = pump_point(spec, viscosity, rpm * state.prime_norm * moves, drawn_m3_per_s * 6.0e4,
                                   health.slip_factor, health.loop_loss_factor);
  c.circulation_L_per_min = now.circulation_L_per_min;
  // Hydraulic torque Vd dp / 2 pi at 60 % efficiency of the vanes (engineering choice).
  c.pump_torque_Nm = state.prime_norm * moves * spec.pump.displacement_L_per_rev * 1.0e-3 *
                     rated.pressure_bar * 1.0e5 / (2.0 * std::numbers::pi * 0.6);
}

void refresh_exchange(const MachineSpec& spec, PlantState& state, const Fluid& well, const Fluid& vat) {
  Coefficients& c = state.coefficients;
  const double lighter = 9.81 * (vat.density_kg_per_m3 - well.density_kg_per_m3) / vat.density_kg_per_m3;
  const double buoyant = passage_flow_m3_per_s(lighter, spec.well.passage_m, vat.kinematic_m2_per_s(1.0));
  // Layered: conduction through the passage's liquid over about 0.1 m.
  const double still = 10.0 * vat.conductivity_W_per_mK * circle_m2(spec.well.passage_m) / vat.cp_J_per_kgK;
  c.exchange_kg_per_s = c.density_kg_per_m3 * (c.circulation_L_per_min / 6.0e4 + buoyant) + still;
}

void refresh_walls(const MachineSpec& spec, PlantState& state, const Fluid& well, const Fluid& vat,
                   double fill) {
  Coefficients& c = state.coefficients;
  const AgitatorSpec& a = spec.agitator;
  const double n = state.shaft_rad_per_s / (2.0 * std::numbers::pi);
  const double shear = std::max(1.0, a.shear_ks * n);
  const auto stirred = [&](const Fluid& f, double factor, double impeller_m, double diameter_m) {
    if (!(n > 0.01)) return 0.0;
    const double nu = f.kinematic_m2_per_s(shear);
    const double nusselt =
        stirred_nusselt(factor, n * impeller_m * impeller_m / nu, nu / f.diffusivity_m2_per_s());
    return nusselt * f.conductivity_W_per_mK / diameter_m;
  };
  // Well: heated or chilled floor and side, swept by the paddle at the shaft's foot as long as the well is
  // wet.
  const double well_still =
      horizontal_plate_W_per_m2K(well.conductivity_W_per_mK, well.expansion_per_K,
                                 std::max(1.0, std::abs(state.well_wall_degC - state.well_degC)),
                                 well.kinematic_m2_per_s(1.0), well.diffusivity_m2_per_s());
  const double well_wet = std::clamp(fill / spec.well.volume_L, 0.0, 1.0);
  const double resistance = layers_m2K_per_W(state);
  const auto conductance = [&](double h) {
    return well_wet * spec.well.heated_area_m2 * h / (1.0 + h * resistance);
  };
  const double well_h =
      together(well_still, agitator_turns(state.assembly)
                               ? state.health.agitator_grip_norm * well_wet *
                                     stirred(well, a.nusselt_well_a, a.foot_m, spec.well.diameter_m)
                               : 0.0);
  c.well_wall_W_per_K = conductance(well_h);
  c.still_wall_W_per_K = conductance(well_still);

  // Vat: the wetted part of the cylinder.
  const double wetted =
      std::clamp((fill - spec.well.volume_L) / (spec.vat.working_L - spec.well.volume_L), 0.0, 1.2);
  const double height_m =
      std::max(0.02, wetted * spec.vat.wall_area_m2 / (std::numbers::pi * spec.vat.diameter_m));
  const double delta_K = std::max(1.0, std::abs(state.vat_wall_degC - state.vat_degC));
  const double nu = vat.kinematic_m2_per_s(1.0);
  const double alpha = vat.diffusivity_m2_per_s();
  const double rayleigh =
      9.81 * std::abs(vat.expansion_per_K) * delta_K * height_m * height_m * height_m / (nu * alpha);
  const double vat_still =
      vertical_plate_nusselt(rayleigh, nu / alpha) * vat.conductivity_W_per_mK / height_m;
  const double vat_h =
      together(vat_still, state.health.agitator_grip_norm * covered_norm(spec, state, fill) *
                              stirred(vat, a.nusselt_wall_a, a.diameter_m, spec.vat.diameter_m));
  c.vat_wall_W_per_K = wetted * spec.vat.wall_area_m2 * vat_h;
}

void without_product(PlantState& state) {
  const Coefficients old = state.coefficients;
  Coefficients& c = state.coefficients;
  c = Coefficients{};
  c.lid_room_W_per_K = old.lid_room_W_per_K;
  c.evaporating_degC = old.evaporating_degC;
  c.condensing_degC = old.condensing_degC;
  c.chiller_capacity_W = old.chiller_capacity_W;
  c.compressor_W = old.compressor_W;
  c.seen_fittings = old.seen_fittings;
  c.volume_L = fill_L(state);
}

}  // namespace

double fittings_number(const PlantState& state, bool drive_wanted) {
  const Fittings& f = state.fittings;
  return f.draw_opening_norm + (f.lid_open ? 2.0 : 0.0) + 4.0 * static_cast<double>(f.hose) +
         (drive_wanted ? 16.0 : 0.0) + (f.rinse_on ? 32.0 : 0.0) + (state.freezer.inlet_open ? 64.0 : 0.0) +
         128.0 * static_cast<double>(state.line.route);
}

double shear_per_s(const MachineSpec& spec, const PlantState& state) {
  return shear_per_s(spec, state, fill_L(state));
}

double shear_per_s(const MachineSpec& spec, const PlantState& state, double fill) {
  const double n = state.shaft_rad_per_s / (2.0 * std::numbers::pi);
  return spec.agitator.shear_ks * n * covered_norm(spec, state, fill) * state.health.agitator_grip_norm;
}

void advance_kinetics(const MachineSpec& spec, PlantState& state) {
  if (!(state.since_refresh_s > 0.0)) return;
  Coefficients& c = state.coefficients;
  const Zones z = zones(state);
  const double coldest = std::min(state.well_degC, state.vat_degC);
  const double hottest = std::max(state.well_degC, state.vat_degC);
  const double mean = mean_degC(state, z);
  if (z.present) {
    const double shear = shear_per_s(spec, state);
    const double w = state.shaft_rad_per_s;
    const double r = w / rated_agitator_rad_per_s(spec.drive);
    const double power_W = w * r * (c.viscous_torque_Nm + r * (c.agitator_torque_Nm - c.viscous_torque_Nm));
    // The middle of the interval: at 2 K/min its ends would be 0.5 % off in lethality.
    const product::Treatment treatment{0.5 * (coldest + c.coldest_degC),
                                       0.5 * (hottest + c.hottest_degC),
                                       0.5 * (mean + c.mean_degC),
                                       shear,
                                       power_W / z.total_kg,
                                       spec.factors.fat_setting};
    const double before_J = held_J(state.product);
    product::advance(state.product, treatment, state.since_refresh_s);
    whip(state, state.since_refresh_s);
    const double freed_J = before_J - held_J(state.product);
    if (freed_J != 0.0) add_heat(state, z, freed_J * z.well_kg / z.total_kg, freed_J * z.vat_kg / z.total_kg);
  }
  c.coldest_degC = coldest;
  c.hottest_degC = hottest;
  c.mean_degC = mean;
  state.since_refresh_s = 0.0;
}

void compute_coefficients(const MachineSpec& spec, PlantState& state) {
  const Zones z = zones(state);
  if (!z.present) {
    without_product(state);
  } else {
    const double thickness = state.health.thickness_factor * spec.factors.thickness;
    const Fluid vat = fluid_at(state.product, state.vat_degC, thickness);
    const bool alike = std::abs(state.vat_degC - state.well_degC) < 0.01;
    const Fluid well = alike ? vat : fluid_at(state.product, state.well_degC, thickness);
    refresh_properties(spec, state, well, vat);
    const double fill = state.coefficients.volume_L;
    refresh_drive(spec, state, vat, fill);
    refresh_flow(spec, state, well);
    refresh_exchange(spec, state, well, vat);
    refresh_walls(spec, state, well, vat, fill);
    refresh_drawn_air(spec, state, vat);
  }
  refresh_surface(spec, state);
  refresh_probe(spec, state);
}

void refresh(const MachineSpec& spec, PlantState& state) {
  update_zone_temperatures(state);
  advance_kinetics(spec, state);
  keep_well_full(spec, state);
  update_zone_temperatures(state);
  compute_coefficients(spec, state);
  Coefficients& c = state.coefficients;
  c.coldest_degC = std::min(state.well_degC, state.vat_degC);
  c.hottest_degC = std::max(state.well_degC, state.vat_degC);
  c.mean_degC = product_degC(state);
}

}  // namespace stirbench::plant
