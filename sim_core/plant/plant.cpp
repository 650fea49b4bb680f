#include "sim_core/plant/plant.h"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "sim_core/plant/chiller.h"
#include "sim_core/plant/coefficients.h"
#include "sim_core/plant/drive.h"
#include "sim_core/plant/evaporation.h"
#include "sim_core/plant/freezer/freezer.h"
#include "sim_core/plant/heat.h"
#include "sim_core/plant/hose.h"
#include "sim_core/plant/pace.h"
#include "sim_core/plant/probe.h"
#include "sim_core/plant/pump_and_draw.h"
#include "sim_core/plant/scorch.h"
#include "sim_core/plant/upkeep/cleaning.h"
#include "sim_core/plant/upkeep/wear.h"
#include "sim_core/plant/zones.h"
#include "sim_core/product/foam.h"
#include "sim_core/product/kinetics.h"
#include "sim_core/product/properties.h"

namespace stirbench::plant {
namespace {

// Flows are rates of this tick. Pressures belong to the chiller and stay between its refreshes, the drive's
// figures to a shaft that may be keeping its speed.
void begin_flows(PlantState& state, double dt_s) {
  const Flows& old = state.flows;
  Flows fresh;
  fresh.suction_bar = old.suction_bar;
  fresh.discharge_bar = old.discharge_bar;
  fresh.drive_W = old.drive_W;
  fresh.motor_A = old.motor_A;
  fresh.agitator_rpm = old.agitator_rpm;
  fresh.torque_Nm = old.torque_Nm;
  fresh.spill_L_per_min = state.pour_spill_L * 60.0 / dt_s;
  state.pour_spill_L = 0.0;
  state.flows = fresh;
}

DriveHeat turn_or_keep(const MachineSpec& spec, PlantState& state, const Actuators& relays, double dt_s) {
  if (state.pace.shaft_steady) return advance_steady_shaft(spec, state, dt_s);
  state.flows.drive_W = state.flows.torque_Nm = 0.0;
  const bool turns = relays.drive_on || state.shaft_rad_per_s > 0.0;
  state.pace.seen_rubbing_Nm = turns ? rubbing_torque_Nm(spec, state) : 0.0;
  return turn_shaft(spec, state, relays, state.pace.seen_rubbing_Nm, dt_s);
}

// The head space follows surface and lid at once; an empty vat's "product" temperature is that of its air.
void head_space(PlantState& state, const Zones& z) {
  const double below_degC = z.present ? state.vat_degC : state.vat_wall_degC;
  const double above_degC = state.fittings.lid_open ? state.environment.ambient_degC : state.lid_degC;
  state.head_space_degC = 0.5 * (below_degC + above_degC);
  if (z.present) return;
  // A film follows the air; what heat it takes for that came from the room.
  const double before_J = state.well_J + state.vat_J;
  state.well_degC = state.vat_degC = state.head_space_degC;
  state.well_J = enthalpy_at_J(state, z.total_kg, state.well_degC);
  state.vat_J = 0.0;
  state.ledger.surroundings_J += state.well_J - before_J;
}

// A pail in the room: about 2 W/K.
void cool_pail(PlantState& state, double dt_s) {
  const double pail_kg = state.pail.total_kg();
  if (pail_kg > 0.0)
    state.pail_degC +=
        (state.environment.ambient_degC - state.pail_degC) * std::min(1.0, dt_s * 2.0 / (3500.0 * pail_kg));
}

// A wet floor dries with a time constant of four hours (choice).
void dry_floor(PlantState& state, double dt_s) {
  constexpr double dries_s = 4.0 * 3600.0;
  if (state.floor_water_kg > 0.0) state.floor_water_kg *= std::max(0.0, 1.0 - dt_s / dries_s);
}

// What moves too slowly to be looked at each tick, unless something changes meanwhile.
void slow_parts(const MachineSpec& spec, PlantState& state, double dt_s) {
  Pace& p = state.pace;
  p.wear_due_s += dt_s;
  const bool quiet = p.shaft_steady && state.coefficients.draw_kg_per_s <= 0.0 && !state.fittings.rinse_on;
  if (quiet && state.since_refresh_s > 0.5 * dt_s) return;
  advance_wear(spec, state, p.wear_due_s);
  advance_washing(spec, state, p.wear_due_s);
  cool_pail(state, p.wear_due_s);
  dry_floor(state, p.wear_due_s);
  p.wear_due_s = 0.0;
}

// A liquid that falls into the vat takes air along, as far as the product now there holds it.
void take_air_along(const MachineSpec& spec, PlantState& state, double before_kg) {
  const double total_kg = state.product.total_kg();
  const double share = total_kg > 0.0 ? (total_kg - before_kg) / total_kg : 0.0;
  const double held = product::foam_hold_norm(state.product, mean_degC(state, zones(state)));
  double& air = state.product.air_norm;
  air = std::min(0.4, air + spec.factors.foam * share * held * product::poured_air_norm);
}

// The compressor follows its relay at once, not at the next refresh.
void stop_compressor_with_relay(PlantState& state, const Actuators& relays, double dt_s) {
  if (state.compressor_on && !relays.chiller_on) {
    state.compressor_on = false;
    state.compressor_off_s = 0.0;
  }
  if (!state.compressor_on) state.compressor_off_s = std::min(1.0e6, state.compressor_off_s + dt_s);
}

}  // namespace

PlantState initial_state(const MachineSpec& spec, const Environment& environment) {
  PlantState s;
  s.environment = environment;
  const double t = environment.ambient_degC;
  for (double* node : {&s.well_degC,
                       &s.vat_degC,
                       &s.element_degC,
                       &s.well_wall_degC,
                       &s.vat_wall_degC,
                       &s.evaporator_degC,
                       &s.lid_degC,
                       &s.head_space_degC,
                       &s.probe_pocket_degC,
                       &s.probe_degC,
                       &s.pail_degC,
                       &s.freezer.degC,
                       &s.freezer.wall_degC,
                       &s.freezer.evaporating_degC,
                       &s.agitator_bushing.temperature_degC,
                       &s.shaft_end_bushing.temperature_degC,
                       &s.vanes.temperature_degC,
                       &s.winding_degC,
                       &s.coefficients.evaporating_degC,
                       &s.coefficients.condensing_degC,
                       &s.coefficients.coldest_degC,
                       &s.coefficients.mean_degC,
                       &s.coefficients.hottest_degC,
                       &s.assembly.agitator_degC}) {
    *node = t;
  }
  s.prime_norm = 0.0;
  s.flows.suction_bar = s.flows.discharge_bar = refrigeration::r290_pressure_bar(t);
  s.ledger.start_J = stored_J(spec, s);
  return s;
}

double probe_reading_degC(const PlantState& state) {
  return state.probe_degC + state.circuit.probe_offset_K + state.health.panel_offset_K;
}

void step(const MachineSpec& spec, PlantState& state, const Actuators& relays, double dt_s) {
  assert(dt_s > 0.0 && dt_s <= 1.0);
  begin_flows(state, dt_s);
  stop_compressor_with_relay(state, relays, dt_s);
  detect_switching(state, relays);

  // The shaft before all else: stirring is what moves heat and flow, and coefficients are those of its speed.
  const double before_rad_per_s = state.shaft_rad_per_s;
  const DriveHeat stirring = turn_or_keep(spec, state, relays, dt_s);
  refresh_when_due(spec, state, relays, before_rad_per_s, dt_s);

  // Mass before heat, so that heat meets what is really there.
  rinse(spec, state, dt_s);
  draw(spec, state, dt_s);
  advance_hose(spec, state, dt_s);
  step_freezer(spec, state, dt_s);
  const Zones z = zones(state);
  const double fill = fill_L(state, z.total_kg);
  advance_prime(spec, state, fill, dt_s);

  // Heat between all nodes from one set of temperatures, then the changes of phase that it leads to.
  const bool covered = fill >= spec.probe.covered_L;
  const double probe_before_degC = round_pocket_degC(spec, state, covered);
  const double heaters_W = heater_W(spec, relays.heat_norm, state.environment.supply_norm);
  move_heat(spec, state, z, {heaters_W, stirring.vat_W, stirring.well_W}, dt_s);
  freeze_and_melt(spec, state, z, dt_s);
  evaporate(spec, state, z, dt_s);
  const double air_before_norm = state.product.air_norm;
  boil(state, dt_s);

  // Only here can foam and rinse water have risen above the brim; what is whipped in rises too slowly to pass
  // the last litre within a tick.
  if (fill > spec.vat.brim_L - 1.0 || state.product.air_norm > air_before_norm)
    state.flows.spill_L_per_min += spill_overflow(spec, state) * 60.0 / dt_s;

  // What the wall and the bearings suffered in this tick.
  if (state.well_wall_degC > 70.0 || state.deposit_kg_per_m2 > 0.0 || state.protein_film_kg_per_m2 > 0.0 ||
      state.product.acid_kg > 0.0)
    scorch(spec, state, shear_per_s(spec, state, fill), dt_s);
  slow_parts(spec, state, dt_s);

  // Last what only looks on: air, probe, cut-out.
  head_space(state, z);
  follow_probe(spec, state, covered, 0.5 * (probe_before_degC + round_pocket_degC(spec, state, covered)),
               dt_s);
  const double cutout_degC = spec.elements.cutout_degC + state.health.cutout_offset_K;
  if (state.well_wall_degC > cutout_degC && !state.safety.cutout_bridged) state.cutout_tripped = true;
  const bool turning = state.shaft_rad_per_s > 0.0;
  state.flows.circulation_L_per_min = turning ? state.coefficients.circulation_L_per_min : 0.0;
  state.flows.compressor_W = state.compressor_on ? state.coefficients.compressor_W : 0.0;
  advance_ages(state, dt_s);
}

void pour(const MachineSpec& spec, PlantState& state, const product::Ingredient& ingredient, double kg,
          double t_degC) {
  if (!(kg > 0.0)) return;
  kg *= state.health.pour_factor;
  t_degC += state.health.pour_warm_K;
  // Kinetics up to this moment come before the pour.
  refresh(spec, state);
  product::PerComponent added;
  for (std::size_t i = 0; i < product::component_count; ++i)
    added.value[i] = kg * ingredient.fraction.value[i];
  const double added_J = product::enthalpy_J(added, t_degC);
  const bool stirred = state.shaft_rad_per_s > 0.3 * rated_agitator_rad_per_s(spec.drive);
  const Zones before = zones(state);
  const double before_J = held_J(state.product);
  state.product.growth_log10 =
      std::max({state.product.growth_log10, state.health.soil_log10, germs_lead_log10(state)});
  product::add_ingredient(state.product, ingredient, kg, product_degC(state), stirred, t_degC);
  state.ledger.material_J += held_J(state.product) - before_J;
  mix_in(spec, state, before, added_J, t_degC);
  if (ingredient.form == product::Form::liquid) take_air_along(spec, state, before.total_kg);
  state.masses.poured_kg += state.product.total_kg() - before.total_kg;
  state.ledger.material_J += added_J;
  state.pour_spill_L += spill_overflow(spec, state);
  refresh(spec, state);
  invalidate_pace(state);
}

void reset_overload(PlantState& state) {
  // The bimetal has to bend back: until a fifth of the way has cooled, the button does not hold (engineering
  // choice).
  if (state.motor_heat_norm < 0.8) state.overload_tripped = false;
}

void reset_cutout(const MachineSpec& spec, PlantState& state) {
  if (state.well_wall_degC < spec.elements.cutout_degC + state.health.cutout_offset_K - 20.0)
    state.cutout_tripped = false;
}

double fill_L(const PlantState& state, double total_kg) {
  return 1000.0 * total_kg / (state.coefficients.density_kg_per_m3 * (1.0 - state.product.air_norm));
}

double fill_L(const PlantState& state) { return fill_L(state, state.product.total_kg()); }

double product_degC(const PlantState& state) { return mean_degC(state, zones(state)); }

}  // namespace stirbench::plant
