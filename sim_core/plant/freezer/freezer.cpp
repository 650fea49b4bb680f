#include "sim_core/plant/freezer/freezer.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim_core/plant/freezer/freezer_internal.h"
#include "sim_core/plant/freezer/freezer_laws.h"
#include "sim_core/plant/hose.h"
#include "sim_core/product/freezing.h"
#include "sim_core/product/kinetics.h"
#include "sim_core/product/properties.h"
#include "sim_core/product/viscosity.h"

namespace stirbench::plant {
namespace {

constexpr double scraping_norm = 0.5;      // of the penetration formula, see its declaration
constexpr double still_W_per_m2K = 60.0;   // product at rest on the wall: engineering choice
constexpr double first_crystal_um = 12.0;  // what a scraped wall sheds (choice)
constexpr double ripening_um3_per_s =
    60.0;  // at -5 degC: 35..40 um after 10 min, as batch-frozen ice cream is (from memory)
constexpr double trip_heat_norm = 1.1 * 1.1;

double smooth_step(double x) {
  const double y = std::clamp(x, 0.0, 1.0);
  return y * y * (3.0 - 2.0 * y);
}

// Share of the wall that the dasher keeps covered. A half-full cylinder is thrown all round; below that the
// film gets bare patches (choice).
double covered_norm(const FreezerSpec& spec, const FreezerState& f) {
  return std::clamp(std::pow(contents_L(f) / (0.45 * spec.free_L), 0.7), 0.0, 1.0);
}

double turns_per_s(const FreezerSpec& spec) { return spec.dasher_rpm / 60.0; }

// The dasher turns unless a charge that is kept is cold enough; the refrigeration also waits for the gate and
// for the setting.
bool dasher_turns(const FreezerState& f) { return f.running && !f.resting; }
bool refrigerates(const FreezerState& f) {
  return dasher_turns(f) && f.gate_norm <= 0.0 && f.setting != FreezerSetting::dasher;
}

// Keeping: both rest below the temperature at which it is ready and work again from 1 K above (choice).
void follow_setting(const FreezerSpec& spec, FreezerState& f) {
  if (f.setting != FreezerSetting::keep || !f.running || f.gate_norm > 0.0) {
    f.resting = false;
    return;
  }
  if (f.degC <= spec.ready_degC || f.torque_Nm >= spec.ready_Nm)
    f.resting = true;
  else if (f.degC >= spec.ready_degC + 1.0)
    f.resting = false;
}

bool has_supply(const PlantState& state) { return state.environment.supply_norm > 0.7; }

// Ice, its size and its flakes after the temperature has moved.
void follow_ice(FreezerState& f, const product::PerComponent& dissolved_kg, double dt_s) {
  const double before_kg = f.ice_kg;
  f.ice_kg = product::ice_fraction_norm(dissolved_kg, f.degC) * dissolved_kg.sum();
  if (!(f.ice_kg > 0.0)) {
    f.crystal_um = f.flake_kg = 0.0;
    return;
  }
  if (f.crystal_um <= 0.0) f.crystal_um = first_crystal_um;
  // Ripening: small crystals melt, large ones grow, size^3 linear in time; faster the warmer it is.
  const double cube = f.crystal_um * f.crystal_um * f.crystal_um +
                      ripening_um3_per_s * std::exp(0.15 * std::clamp(f.degC + 5.0, -20.0, 4.0)) * dt_s;
  f.crystal_um = std::cbrt(cube);
  const double grown_kg = f.ice_kg - before_kg;
  if (grown_kg > 0.0 && dasher_turns(f)) {
    // Where the wall is far colder than the product, the film freezes hard before the next blade: from 6 K
    // on, all of it at 14 K (choice; a proper charge runs with 4 to 5 K).
    f.flake_kg += grown_kg * smooth_step((f.degC - f.wall_degC - 6.0) / 8.0);
  } else if (grown_kg < 0.0) {
    f.flake_kg *= f.ice_kg / before_kg;
  }
  f.flake_kg = std::min(f.flake_kg, f.ice_kg);
}

// Air: beaten in while the product is slushy and thin enough to fold over, lost again when it melts.
void follow_air(const FreezerSpec& spec, FreezerState& f, double dt_s) {
  const double volume_L = mix_L(f);
  if (!(volume_L > 0.0)) {
    f.air_L = 0.0;
    return;
  }
  const double frozen = frozen_water_norm(f);
  const double now = f.air_L / volume_L;
  if (dasher_turns(f)) {
    const double best = attainable_overrun_norm(spec, f);
    const double window = smooth_step((frozen - 0.02) / 0.10) * (1.0 - smooth_step((frozen - 0.50) / 0.20));
    // An aged mix holds its bubbles with crystallised fat; an un-aged one takes twice as long (choice).
    const double tau_s = 150.0 * (2.0 - f.product.age_norm);
    if (best > now) f.air_L += (best - now) * volume_L * window * -std::expm1(-dt_s / tau_s);
  }
  if (frozen <= 0.0) f.air_L *= std::exp(-dt_s / 120.0);
  const double room_L = std::max(0.0, spec.free_L - volume_L);
  f.air_L = std::min(f.air_L, room_L);
}

void follow_motor(const FreezerSpec& spec, FreezerState& f, double dt_s) {
  const double load = f.torque_Nm / spec.rated_Nm;
  f.motor_heat_norm += (load * load - f.motor_heat_norm) * -std::expm1(-dt_s / spec.overload_tau_s);
  if (f.running && f.motor_heat_norm > trip_heat_norm) {
    f.tripped = true;
    f.running = false;
  }
}

// Heat of one second; returns the dasher's power.
void exchange_heat(const FreezerSpec& spec, PlantState& state, double dt_s) {
  FreezerState& f = state.freezer;
  const double kg = f.product.total_kg();
  const double covered = covered_norm(spec, f);
  f.viscosity_Pa_s = freezer_viscosity_Pa_s(spec, f);
  const double buried = std::clamp(contents_L(f) / spec.free_L, 0.0, 1.0);
  const double ice_norm = kg > 0.0 ? 1000.0 * f.ice_kg / ice_kg_per_m3 / mix_L(f) : 0.0;
  f.torque_Nm = dasher_turns(f)
                    ? covered * spec.friction_Nm + buried * spec.drag_Nm_per_Pa_s * f.viscosity_Pa_s +
                          frozen_in_Nm(ice_norm, spec.wall_area_m2)
                    : 0.0;
  // Blades that are frozen in turn no more: the motor stalls and only heats itself.
  const double dasher_W =
      f.torque_Nm > 2.5 * spec.rated_Nm ? 0.0 : f.torque_Nm * 2.0 * std::numbers::pi * turns_per_s(spec);

  f.refrigeration_W = f.compressor_W = 0.0;
  f.wall_degC = f.degC;
  f.evaporating_degC = f.degC;
  if (refrigerates(f)) {
    const auto& mass = f.product.mass_kg;
    const double scraped = scraping_norm * scraped_W_per_m2K(product::conductivity_W_per_mK(mass, f.degC),
                                                             product::density_kg_per_m3(mass, f.degC),
                                                             product::heat_capacity_J_per_kgK(mass, f.degC),
                                                             turns_per_s(spec), spec.blades);
    const double flakes = f.ice_kg > 0.0 ? f.flake_kg / f.ice_kg : 0.0;
    // A wall with frozen-on patches takes half as much (choice).
    const double product_W_per_K =
        spec.wall_area_m2 * std::max(still_W_per_m2K, covered * scraped * (1.0 - 0.5 * flakes));
    const double both = 1.0 / (1.0 / product_W_per_K + 1.0 / spec.refrigerant_W_per_K);
    const Refrigeration r = refrigeration(spec, f.degC, both);
    // A film would follow the refrigerant within the second: never more than a third of the way.
    f.refrigeration_W = std::min(r.taken_W, 1000.0 * kg * std::max(0.0, f.degC - r.evaporating_degC) / dt_s);
    f.evaporating_degC = r.evaporating_degC;
    f.wall_degC = f.degC - f.refrigeration_W / product_W_per_K;
    // Half of Carnot's figure against a condenser 15 K above the room (choice).
    const double lift_K = std::max(10.0, state.environment.ambient_degC + 15.0 - r.evaporating_degC);
    f.compressor_W = f.refrigeration_W * lift_K / (0.5 * (r.evaporating_degC + 273.15));
  }
  // Through the open lid three times as much (choice).
  const double room_W_per_K = spec.room_W_per_K * (f.lid_open ? 3.0 : 1.0);
  const double room_W = std::min(room_W_per_K, 500.0 * kg) * (state.environment.ambient_degC - f.degC);
  f.contents_J += (dasher_W - f.refrigeration_W + room_W) * dt_s;
  f.ledger.dasher_J += dasher_W * dt_s;
  f.ledger.refrigerant_J -= f.refrigeration_W * dt_s;
  f.ledger.room_J += room_W * dt_s;
}

void advance_second(const FreezerSpec& spec, PlantState& state, double dt_s) {
  FreezerState& f = state.freezer;
  if (f.running && !has_supply(state)) f.running = false;
  follow_setting(spec, f);
  if (!(f.product.total_kg() > 0.0)) {
    // No heat to take: the unit is off on its low-pressure switch, the blades rub on the bare wall.
    f.refrigeration_W = f.compressor_W = f.viscosity_Pa_s = f.ice_kg = f.air_L = f.crystal_um = f.flake_kg =
        0.0;
    f.torque_Nm = dasher_turns(f) ? spec.friction_Nm : 0.0;
    f.degC = f.wall_degC = f.evaporating_degC = state.environment.ambient_degC;
    follow_motor(spec, f, dt_s);
    return;
  }
  // Kinetics first, so that what dissolves in this step is in the solution that freezes.
  const product::Treatment treatment{f.degC, f.degC, f.degC, dasher_turns(f) ? spec.shear_per_s : 0.0,
                                     dasher_turns(f) ? 1.0 : 0.0};
  product::advance(f.product, treatment, dt_s);
  const product::PerComponent dissolved_kg = product::dissolved_kg(f.product);
  exchange_heat(spec, state, dt_s);
  f.degC = product::frozen_temperature_degC(f.product.mass_kg, dissolved_kg, f.contents_J, f.degC);
  follow_ice(f, dissolved_kg, dt_s);
  follow_air(spec, f, dt_s);
  if (refrigerates(f)) f.freezing_s += dt_s;
  const bool ready = f.degC <= spec.ready_degC || f.torque_Nm >= spec.ready_Nm;
  if (f.running && ready && f.ready_s < 0.0) f.ready_s = f.freezing_s;
  follow_motor(spec, f, dt_s);
}

}  // namespace

double contents_L(const FreezerState& f) { return mix_L(f) + f.air_L; }

double mix_L(const FreezerState& f) {
  const double kg = f.product.total_kg();
  return kg > 0.0 ? 1000.0 * kg / product::density_kg_per_m3(f.product.mass_kg, f.degC) : 0.0;
}

double overrun_norm(const FreezerState& f) {
  const double volume_L = mix_L(f);
  return volume_L > 0.0 ? f.air_L / volume_L : 0.0;
}

double kg_per_L(const FreezerState& f) {
  const double litres = contents_L(f);
  return litres > 0.0 ? f.product.total_kg() / litres : 0.0;
}

double frozen_water_norm(const FreezerState& f) {
  const double water_kg = f.product.mass_kg[product::Component::water];
  return water_kg > 0.0 ? std::min(1.0, f.ice_kg / water_kg) : 0.0;
}

namespace {

// What keeps air in: protein and emulsifier at the bubbles' walls, gum between them. Full from 2 % of the one
// or 0.4 % of the other (choice); brine and sugar water keep a twentieth, as bubbles without a skin run
// together.
double air_keeping_norm(const product::Product& p) {
  using product::Component;
  const double kg = p.total_kg();
  if (!(kg > 0.0)) return 0.0;
  const double skins_kg = p.mass_kg[Component::milk_protein] + p.mass_kg[Component::egg_protein] +
                          p.mass_kg[Component::other_protein] + 4.0 * p.mass_kg[Component::emulsifier];
  const double keeps = skins_kg / (0.02 * kg) + p.mass_kg[Component::stabiliser] / (0.004 * kg);
  return std::clamp(keeps, 0.05, 1.0);
}

}  // namespace

// best x what keeps air in x ageing x hydration x what a short charge loses to the slapping dasher, never
// above the room that is left over nine tenths of the cylinder. Un-aged two thirds, a dry stabiliser three
// quarters: choices in the published direction (Goff & Hartel 2013, ch. 6 and 7).
double attainable_overrun_norm(const FreezerSpec& spec, const FreezerState& f) {
  const double volume_L = mix_L(f);
  if (!(volume_L > 0.0)) return 0.0;
  const double aged = 0.65 + 0.35 * f.product.age_norm;
  const double hydrated = 0.75 + 0.25 * product::hydration_norm(f.product);
  const double filled = smooth_step((volume_L / spec.minimum_charge_L - 0.3) / 0.7);
  const double headroom = std::max(0.0, 0.9 * spec.free_L / volume_L - 1.0);
  return std::min(headroom, spec.best_overrun_norm * air_keeping_norm(f.product) * aged * hydrated *
                                (0.35 + 0.65 * filled));
}

double texture_um(const FreezerState& f) {
  return f.ice_kg > 0.0 ? f.crystal_um * (1.0 + 1.5 * f.flake_kg / f.ice_kg) : 0.0;
}

FreezerMode freezer_mode(const FreezerState& f) {
  const bool filled = f.product.total_kg() > least_kg;
  if (f.gate_norm > 0.0 && filled) return FreezerMode::emptying;
  if (f.running) return f.ready_s >= 0.0 ? FreezerMode::ready : FreezerMode::freezing;
  if (f.inflow_L_per_min > 0.0 || (filled && f.inlet_open)) return FreezerMode::filling;
  return FreezerMode::off;
}

const char* freezer_mode_name(FreezerMode mode) {
  switch (mode) {
    case FreezerMode::off: return "off";
    case FreezerMode::filling: return "filling";
    case FreezerMode::freezing: return "freezing";
    case FreezerMode::ready: return "ready";
    case FreezerMode::emptying: return "emptying";
  }
  return "";
}

void start_freezer(FreezerState& f) {
  f.running = true;
  f.freezing_s = 0.0;
  f.ready_s = -1.0;
}

void stop_freezer(FreezerState& f) {
  f.running = f.resting = false;
  f.torque_Nm = f.refrigeration_W = f.compressor_W = 0.0;
}

bool may_reset_freezer(const FreezerState& f) { return f.motor_heat_norm < 0.5; }

void reset_freezer(FreezerState& f) {
  if (may_reset_freezer(f)) f.tripped = false;
}

void empty_tub(FreezerState& f) {
  f.tub = {};
  f.tub_J = f.tub_air_L = 0.0;
}

void step_freezer(const MachineSpec& spec, PlantState& state, double dt_s) {
  FreezerState& f = state.freezer;
  f.overflow_L_per_min = f.drain_L_per_min = 0.0;
  const bool idle = !f.running && !(f.product.total_kg() > 0.0) && f.motor_heat_norm < 1.0e-6;
  if (idle && state.fittings.hose != HoseEnd::freezer) {
    f.inflow_L_per_min = f.outflow_L_per_min = f.line_bar = f.since_s = 0.0;
    return;
  }
  const bool through = state.fittings.hose == HoseEnd::freezer && state.flows.draw_L_per_min > 0.0;
  f.inflow_L_per_min = through ? state.flows.draw_L_per_min : 0.0;
  overflow_inlet(spec.freezer, state, dt_s);
  draw_into_tub(spec.freezer, f, dt_s);
  empty_through_drain(spec.freezer, f, dt_s);
  f.since_s += dt_s;
  // A second counted in ticks of a tenth ends a rounding early.
  if (f.since_s < 1.0 - 1.0e-6) return;
  advance_second(spec.freezer, state, f.since_s);
  f.since_s = 0.0;
  f.line_bar = line_pressure_bar(spec, state);
}

double freezer_residual_J(const FreezerState& f) {
  const FreezerLedger& l = f.ledger;
  const double held_J =
      f.product.total_kg() > 0.0
          ? product::frozen_enthalpy_J(f.product.mass_kg, product::dissolved_kg(f.product), f.degC)
          : 0.0;
  return held_J - (l.arrived_J + l.left_J + l.dasher_J + l.refrigerant_J + l.room_J);
}

double freezer_mass_residual_kg(const FreezerState& f) {
  return f.product.total_kg() -
         (f.ledger.arrived_kg - f.ledger.drawn_kg - f.ledger.spilled_kg - f.ledger.drained_kg);
}

std::string_view freezer_setting_word(FreezerSetting setting) {
  switch (setting) {
    case FreezerSetting::freeze: return "freeze";
    case FreezerSetting::dasher: return "dasher";
    case FreezerSetting::keep: return "keep";
    case FreezerSetting::count: break;
  }
  return "";
}

}  // namespace stirbench::plant
