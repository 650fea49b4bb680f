#include "sim_core/plant/evaporation.h"

#include <algorithm>
#include <cmath>

#include "sim_core/plant/outside.h"
#include "sim_core/plant/transfer.h"
#include "sim_core/product/properties.h"

namespace stirbench::plant {
namespace {

using product::Component;

constexpr double pressure_Pa = 101325.0;
constexpr double dry_air_J_per_kgK = 287.055;

struct Air {
  double dry_kg_per_m3;
  double humidity_ratio;
};

Air air_at(double t_degC, double vapour_Pa) {
  const double vapour = std::min(vapour_Pa, 0.99 * pressure_Pa);
  return {(pressure_Pa - vapour) / (dry_air_J_per_kgK * (t_degC + 273.15)),
          0.62198 * vapour / (pressure_Pa - vapour)};
}

double surface_area_m2(const MachineSpec& spec, const Zones& z) {
  const double d = z.vat_kg > 0.0 ? spec.vat.diameter_m : spec.well.diameter_m;
  return 0.785398163397448 * d * d;
}

// Water that may still turn to vapour: what is left of a pan boiled dry stays wet.
double vapour_left_kg(const PlantState& state, const Zones& z) {
  const double liquid_kg = state.product.mass_kg[Component::water] - state.wall_ice_kg - 0.05 * z.total_kg;
  return std::max(0.0, 0.2 * liquid_kg);
}

void vapour_flow(PlantState& state, double kg, double dt_s) {
  state.flows.steam_kg_per_h += 3600.0 * kg / dt_s;
}

// The vat's outside: room air and radiation (9 W/(m2 K) together, still air) on its wall area against what
// comes through the insulation; below the dew point the room's moisture settles on it. Most of the heat that
// sets free goes back to the room, the insulation lets its own share in.
void refresh_dew(const MachineSpec& spec, PlantState& state, double room_Pa) {
  Coefficients& c = state.coefficients;
  const double area_m2 = spec.vat.wall_area_m2;
  const double room_degC = state.environment.ambient_degC;
  const double to_room = outside_W_per_m2K * area_m2;
  // loss_W_per_K goes all the way from the wall to the room, the outside film included.
  const double through =
      1.0 / std::max(1.0e-3, 1.0 / std::max(1.0e-6, spec.vat.loss_W_per_K) - 1.0 / to_room);
  const double outside_degC =
      plant::outside_degC(state.vat_wall_degC, room_degC, spec.vat.loss_W_per_K, area_m2);
  c.dew_kg_per_s = c.dew_W = 0.0;
  // Cheap way out: in most rooms the outside is far from the dew point.
  if (state.dew_kg <= 0.0 &&
      product::saturation_pressure_Pa(std::clamp(outside_degC, -40.0, 99.0)) >= room_Pa)
    return;
  // The latent heat warms the outside: two rounds suffice as it does so by a few kelvin only.
  double wall_degC = outside_degC;
  for (int i = 0; i < 8; ++i) {
    const double settles = area_m2 * dew_kg_per_m2s(0.5 * outside_W_per_m2K, wall_degC, room_Pa);
    const double warmer = outside_degC + settles * 2.5e6 / (to_room + through);
    wall_degC += 0.5 * (warmer - wall_degC);
    c.dew_kg_per_s = settles;
  }
  if (state.dew_kg <= 0.0 && c.dew_kg_per_s < 0.0) c.dew_kg_per_s = 0.0;
  c.dew_W = 2.5e6 * c.dew_kg_per_s * through / (through + to_room);
}

// Bubbles make foam where there is protein to hold it; the volume rises with it.
void foam(PlantState& state, double kg) {
  state.product.air_norm = std::min(0.4, state.product.air_norm + kg * state.coefficients.foam_per_kg);
}

}  // namespace

double shah_kg_per_m2h(double water_degC, double room_degC, double room_vapour_Pa) {
  const double water_Pa = product::saturation_pressure_Pa(water_degC);
  const Air w = air_at(water_degC, water_Pa);
  const Air r = air_at(room_degC, room_vapour_Pa);
  const double lighter = r.dry_kg_per_m3 - w.dry_kg_per_m3;
  const double forced = 5.0e-5 * (water_Pa - room_vapour_Pa);
  const double buoyant =
      lighter > 0.0 ? 35.0 * w.dry_kg_per_m3 * std::cbrt(lighter) * (w.humidity_ratio - r.humidity_ratio)
                    : 0.0;
  return forced < 0.0 ? forced : std::max(forced, buoyant);
}

double humidity_ratio(double vapour_Pa) {
  const double vapour = std::min(vapour_Pa, 0.99 * pressure_Pa);
  return 0.62198 * vapour / (pressure_Pa - vapour);
}

double dew_point_degC(double vapour_Pa) {
  // The logarithm of the saturation pressure is nearly straight: few rounds from a Magnus start.
  const double wanted = std::log(std::max(10.0, vapour_Pa));
  const double magnus = wanted - std::log(611.2);
  double t = std::clamp(243.12 * magnus / (17.62 - magnus), -40.0, 99.0);
  for (int i = 0; i < 3; ++i) {
    const double here = std::log(product::saturation_pressure_Pa(t));
    const double slope = (std::log(product::saturation_pressure_Pa(t + 0.01)) - here) / 0.01;
    t = std::clamp(t + (wanted - here) / slope, -40.0, 99.0);
  }
  return t;
}

double dew_kg_per_m2s(double air_W_per_m2K, double wall_degC, double room_vapour_Pa) {
  const double wall_Pa = product::saturation_pressure_Pa(std::clamp(wall_degC, -40.0, 99.0));
  return air_W_per_m2K / (1006.0 * 0.9) * (humidity_ratio(room_vapour_Pa) - humidity_ratio(wall_Pa));
}

double lid_water_kg_per_s(const PlantState& state, double drip) {
  constexpr double most_kg_per_m2 = 0.06;
  const double area_m2 = state.coefficients.surface_m2;
  if (state.fittings.lid_open || !(drip > 0.0) || !(area_m2 > 0.0)) return -state.lid_water_kg / 20.0;
  return drip * (1.0 - state.lid_water_kg / (most_kg_per_m2 * area_m2));
}

double boiling_point_degC(double freezing_point_degC) { return 100.0 - 0.2753 * freezing_point_degC; }

void refresh_surface(const MachineSpec& spec, PlantState& state) {
  Coefficients& c = state.coefficients;
  const Zones z = zones(state);
  const double room_degC = state.environment.ambient_degC;
  const double lid_K = state.lid_degC - room_degC;
  const double lid_outside = room_air_W_per_m2K(lid_K) + radiation_W_per_m2K(0.3, state.lid_degC, room_degC);
  // An open lid hangs in the room with both faces.
  c.lid_room_W_per_K = lid_outside * spec.vat.lid_area_m2 * (state.fittings.lid_open ? 2.0 : 1.0);
  c.surface_W_per_K = c.evaporation_kg_per_s = c.lid_drip_kg_per_s = c.surface_m2 = 0.0;
  const double room_Pa = state.environment.humidity_norm * product::saturation_pressure_Pa(room_degC);
  state.head_space_humidity_norm = state.environment.humidity_norm;
  refresh_dew(spec, state, room_Pa);
  if (!z.present) return;

  const double surface_degC = std::min(state.vat_degC, 99.0);
  const double area_m2 = surface_area_m2(spec, z);
  // Water activity from the freezing point: ln a = -9.69e-3 per K of depression (ideal solution near 0 degC).
  const double activity = std::exp(9.69e-3 * c.freezing_point_degC);
  c.surface_m2 = area_m2;
  const double surface_Pa = product::saturation_pressure_Pa(surface_degC);
  const double open_kg_per_s = spec.factors.evaporation * activity *
                               shah_kg_per_m2h(surface_degC, room_degC, room_Pa) * area_m2 / 3600.0;
  c.vapour_J_per_kg = product::vapour_enthalpy_J_per_kg(state.vat_degC);
  if (state.fittings.lid_open) {
    const double air = surface_degC > room_degC ? room_air_W_per_m2K(surface_degC - room_degC) : 1.0;
    c.evaporation_kg_per_s = open_kg_per_s;
    c.surface_W_per_K = area_m2 * (air + radiation_W_per_m2K(0.95, surface_degC, room_degC));
    return;
  }
  c.evaporation_kg_per_s = std::min(1.0, spec.vat.lid_vapour_leak_norm * state.health.lid_leak_factor) *
                           std::max(0.0, open_kg_per_s);
  // Vapour that condenses on the lid and drips back carries its latent heat there.
  const double lid_degC = std::clamp(state.lid_degC, 0.0, 99.0);
  const double lid_Pa = product::saturation_pressure_Pa(lid_degC);
  const double drip_kg_per_s =
      std::max(0.0, spec.factors.evaporation * activity * shah_kg_per_m2h(surface_degC, lid_degC, lid_Pa) *
                        area_m2 / 3600.0);
  c.lid_drip_kg_per_s = drip_kg_per_s;
  // Air between two wet surfaces holds their mean; colder than that mean it is mist.
  const double between_Pa = 0.5 * (activity * surface_Pa + std::min(lid_Pa, activity * surface_Pa));
  state.head_space_humidity_norm =
      std::min(1.0, between_Pa / product::saturation_pressure_Pa(0.5 * (surface_degC + lid_degC)));
  const double drip_W = drip_kg_per_s * product::evaporation_heat_J_per_kg(surface_degC);
  const double through_air = 4.0 + radiation_W_per_m2K(0.3, surface_degC, lid_degC);
  c.surface_W_per_K =
      std::min(200.0, area_m2 * through_air + drip_W / std::max(0.5, surface_degC - lid_degC));
}

namespace {

// Water between product and lid. The film counts as outside of the energy account, as a pail does; its latent
// heat went with surface_W_per_K.
void follow_lid_water(PlantState& state, const Zones& z, double drip_kg_per_s, double dt_s) {
  const double most_kg = z.merged ? z.total_kg : z.vat_kg;
  const double rate = lid_water_kg_per_s(state, drip_kg_per_s);
  const double kg =
      std::clamp(rate * dt_s, -state.lid_water_kg, 0.2 * std::min(most_kg, vapour_left_kg(state, z)));
  if (kg == 0.0) return;
  move_water(state, z, -kg);
  state.lid_water_kg += kg;
}

void follow_dew(const MachineSpec& spec, PlantState& state, double ahead_s, double dt_s) {
  const Coefficients& c = state.coefficients;
  if (c.dew_kg_per_s == 0.0) return;
  // More than 100 g/m2 runs down to the floor.
  const double most_kg = 0.1 * spec.vat.wall_area_m2;
  const double dew_kg = std::max(0.0, state.dew_kg + c.dew_kg_per_s * dt_s);
  state.dew_kg = std::min(dew_kg, most_kg);
  state.floor_water_kg += dew_kg - state.dew_kg;
  const double heat_J = (c.dew_W + ahead_s * state.pace.trend.dew_W) * dt_s;
  state.vat_wall_degC += heat_J / (spec.vat.wall_mass_kg * spec.vat.wall_cp_J_per_kgK);
  state.ledger.surroundings_J += heat_J;
}

}  // namespace

void evaporate(const MachineSpec& spec, PlantState& state, const Zones& z, double dt_s) {
  const Coefficients& c = state.coefficients;
  const Trend& trend = state.pace.trend;
  const double ahead_s = state.pace.coefficients_age_s + 0.5 * dt_s;
  follow_dew(spec, state, ahead_s, dt_s);
  if (!z.present) return;
  const bool drips = c.lid_drip_kg_per_s > 0.0 || state.lid_water_kg > 0.0;
  if (drips)
    follow_lid_water(state, z, std::max(0.0, c.lid_drip_kg_per_s + ahead_s * trend.lid_drip_kg_per_s), dt_s);
  if (c.evaporation_kg_per_s == 0.0) return;
  const double kg_per_s = c.evaporation_kg_per_s + ahead_s * trend.evaporation_kg_per_s;
  const double kg = std::min(kg_per_s * dt_s, vapour_left_kg(state, z));
  // A single zone's mass has moved with the drops.
  const Zones now = drips && z.merged ? zones(state) : z;
  remove_vapour(state, now, kg, c.vapour_J_per_kg, product::evaporation_heat_J_per_kg(state.vat_degC), false);
  if (kg > 0.0) vapour_flow(state, kg, dt_s);
}

void boil(PlantState& state, double dt_s) {
  const double boiling_degC = state.coefficients.boiling_point_degC;
  if (state.well_degC <= boiling_degC && state.vat_degC <= boiling_degC) return;
  Zones z = zones(state);
  if (!z.present) return;
  const Coefficients& c = state.coefficients;
  const double share = std::min(1.0, dt_s / 0.3);

  if (state.well_degC > boiling_degC && !z.merged) {
    const double vapour_J = product::vapour_enthalpy_J_per_kg(state.well_degC);
    const double latent_J = vapour_J - product::component_enthalpy_J_per_kg(Component::water, state.vat_degC);
    const double flash_J = share * (state.well_degC - boiling_degC) * z.well_kg * c.well_cp_J_per_kgK;
    const double kg = std::min(flash_J / latent_J, vapour_left_kg(state, z));
    const double escapes = 0.3 + 0.7 * std::clamp(1.0 - (boiling_degC - state.vat_degC) / 20.0, 0.0, 1.0);
    const double condensed_J = (1.0 - escapes) * kg * latent_J;
    add_heat(state, z, -condensed_J, condensed_J);
    remove_vapour(state, z, escapes * kg, vapour_J, latent_J, true);
    vapour_flow(state, escapes * kg, dt_s);
    foam(state, escapes * kg);
    z = zones(state);
  }
  if (state.vat_degC > boiling_degC) {
    const double vapour_J = product::vapour_enthalpy_J_per_kg(state.vat_degC);
    const double latent_J = product::evaporation_heat_J_per_kg(state.vat_degC);
    const double zone_kg = z.merged ? z.total_kg : z.vat_kg;
    const double flash_J = share * (state.vat_degC - boiling_degC) * zone_kg * c.vat_cp_J_per_kgK;
    const double kg = std::min(flash_J / latent_J, vapour_left_kg(state, z));
    remove_vapour(state, z, kg, vapour_J, latent_J, false);
    vapour_flow(state, kg, dt_s);
    foam(state, kg);
  }
}

}  // namespace stirbench::plant
