#include <algorithm>
#include <cmath>

#include "sim_core/plant/freezer/freezer.h"
#include "sim_core/plant/hose.h"
#include "sim_core/plant/pump_and_draw.h"
#include "sim_core/plant/upkeep/assembly_effects.h"
#include "sim_core/product/kinetics.h"
#include "sim_core/product/properties.h"

// How the transfer hose was put on, what it holds, what its joint lets through.
namespace stirbench::plant {

namespace {

constexpr double crest_m = 0.6;

product::PowerLaw law_of(const PlantState& state) {
  return {state.coefficients.consistency_Pa_sn, state.coefficients.flow_index};
}

bool valve_shut(const MachineSpec& spec, const PlantState& state) {
  return !(free_area_norm(plunger_opening_norm(spec.assembly, state)) > 0.0);
}

void fly_off(PlantState& state) {
  empty_hose(state);
  state.line.jumped = true;
  state.line.route = HoseRoute::straight;
  state.fittings.hose = HoseEnd::none;
  state.freezer.line_bar = 0.0;
}

void leak(const MachineSpec& spec, PlantState& state, double pressure_Pa, double dt_s) {
  const double gap_m = joint_gap_m(state.line);
  const double viscosity = product::apparent_viscosity_Pa_s(law_of(state), 50.0);
  const double flow =
      ring_gap_flow_m3_per_s(spec.draw.hose_bore_m, gap_m, joint_length_m, pressure_Pa, viscosity);
  if (!(flow > 0.0)) return;
  const TakenLiquid taken =
      take_liquid(spec, state, flow * state.coefficients.density_kg_per_m3 * dt_s, true);
  state.masses.spilled_kg += taken.kg;
  state.ledger.material_J -= taken.enthalpy_J;
  state.floor_kg += taken.kg;
  state.line.leak_L_per_min = 6.0e4 * taken.kg / state.coefficients.density_kg_per_m3 / dt_s;
}

}  // namespace

double hose_rise_m(const MachineSpec& spec, const PlantState& state) {
  if (state.fittings.hose == HoseEnd::none) return 0.0;
  const double end_m = state.fittings.hose == HoseEnd::freezer ? spec.freezer.inlet_height_m : 0.0;
  return state.line.route == HoseRoute::high ? end_m + crest_m : end_m;
}

double joint_pressure_Pa(const MachineSpec& spec, const PlantState& state) {
  if (state.fittings.hose == HoseEnd::none) return 0.0;
  if (valve_shut(spec, state)) return 1.0e5 * state.freezer.line_bar;
  if (state.fittings.hose == HoseEnd::freezer && !state.freezer.inlet_open)
    return 1.0e5 * line_pressure_bar(spec, state);
  const Coefficients& c = state.coefficients;
  if (!(c.draw_kg_per_s > 0.0)) return 0.0;
  return hose_loss_Pa(spec, state, law_of(state), c.draw_kg_per_s / c.density_kg_per_m3) +
         c.density_kg_per_m3 * 9.81 * hose_rise_m(spec, state);
}

double joint_gap_m(const HoseLine& line) {
  if (line.clamped) return line.gasket ? 0.0 : 1.5e-4;
  return line.gasket ? 0.8e-4 : 3.0e-4;
}

double hose_L(const MachineSpec& spec) {
  return 785.398163397448 * spec.draw.hose_bore_m * spec.draw.hose_bore_m * spec.draw.hose_length_m;
}

void fill_hose(const MachineSpec& spec, PlantState& state, const TakenLiquid& mix) {
  HoseLine& line = state.line;
  product::merge(line.held, mix.product);
  line.held_J += mix.enthalpy_J;
  const double held_kg = line.held.total_kg();
  const double over_kg =
      held_kg - 1.0e-3 * hose_L(spec) * std::max(500.0, state.coefficients.density_kg_per_m3);
  if (!(over_kg > 0.0)) return;
  TakenLiquid through;
  through.product = product::draw_share(line.held, over_kg / held_kg);
  through.kg = through.product.total_kg();
  through.enthalpy_J = line.held_J * (through.kg / held_kg);
  line.held_J -= through.enthalpy_J;
  charge_freezer(spec.freezer, state, through);
}

double hose_degC(const PlantState& state) {
  const HoseLine& line = state.line;
  return line.held.total_kg() > 0.0
             ? product::temperature_degC(line.held.mass_kg, line.held_J, state.well_degC)
             : state.environment.ambient_degC;
}

void drain_hose(const MachineSpec& spec, PlantState& state) {
  HoseLine& line = state.line;
  if (!(line.held.total_kg() > 0.0)) return;
  const TakenLiquid all{line.held, line.held.total_kg(), line.held_J};
  line.held = {};
  line.held_J = 0.0;
  charge_freezer(spec.freezer, state, all);
}

double empty_hose(PlantState& state) {
  const double kg = state.line.held.total_kg();
  state.floor_kg += kg;
  state.line.held = {};
  state.line.held_J = 0.0;
  return kg;
}

void advance_hose(const MachineSpec& spec, PlantState& state, double dt_s) {
  HoseLine& line = state.line;
  line.leak_L_per_min = 0.0;
  if (state.fittings.hose == HoseEnd::none || (line.clamped && line.gasket)) return;
  const double pressure_Pa = joint_pressure_Pa(spec, state);
  if (!line.clamped && pressure_Pa > unclamped_holds_Pa) {
    fly_off(state);
    return;
  }
  if (!valve_shut(spec, state)) leak(spec, state, pressure_Pa, dt_s);
}

}  // namespace stirbench::plant
