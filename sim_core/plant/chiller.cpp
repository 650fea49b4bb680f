#include "sim_core/plant/chiller.h"

#include <algorithm>
#include <cmath>

namespace stirbench::plant {
namespace {

// Pressure switches: open at once, close when the pressure is back and the motor has rested.
void watch_pressures(const refrigeration::ChillerSpec& spec, PlantState& state, bool rested) {
  const refrigeration::ChillerGauges& g = state.chiller.gauges;
  const bool too_high = g.discharge_bar > spec.high_pressure_cutout_bar;
  const bool too_low = g.suction_bar < spec.low_pressure_cutout_bar;
  if (state.compressor_on && (too_high || too_low) && !state.safety.pressure_stuck)
    state.pressure_tripped = true;
  if (state.pressure_tripped && !state.compressor_on && rested &&
      g.discharge_bar < 0.9 * spec.high_pressure_cutout_bar &&
      g.suction_bar > 1.1 * spec.low_pressure_cutout_bar) {
    state.pressure_tripped = false;
  }
}

void at_rest(const refrigeration::ChillerSpec& spec, PlantState& state, double elapsed_s) {
  Coefficients& c = state.coefficients;
  refrigeration::ChillerState& chiller = state.chiller;
  const double room_degC = state.environment.ambient_degC;
  const double coldest_degC = std::clamp(std::min(state.evaporator_degC, room_degC), -44.0, 60.0);
  const double gas_bar =
      refrigeration::r290_gas_pressure_bar(std::max(1.0e-3, chiller.health.charge_norm * spec.charge_kg),
                                           spec.evaporator_m3 + spec.condenser_m3, room_degC);
  const double rest_bar = std::min(refrigeration::r290_pressure_bar(coldest_degC), gas_bar);
  const double rest_degC = std::max(-44.0, refrigeration::r290_saturation_degC(rest_bar));
  const double lag = -std::expm1(-elapsed_s / spec.equalise_s);
  c.evaporating_degC += lag * (rest_degC - c.evaporating_degC);
  c.condensing_degC += lag * (rest_degC - c.condensing_degC);
  // Liquid gathers in a cold evaporator, and leaves a warm one.
  chiller.dry_norm += lag * ((state.evaporator_degC > room_degC ? 0.95 : 0.3) - chiller.dry_norm);
  refrigeration::ChillerGauges g;
  g.evaporating_degC = c.evaporating_degC;
  g.condensing_degC = c.condensing_degC;
  g.suction_bar = refrigeration::r290_pressure_bar(c.evaporating_degC);
  g.discharge_bar = refrigeration::r290_pressure_bar(c.condensing_degC);
  g.suction_degC = g.air_on_degC = g.air_off_degC = room_degC;
  g.discharge_degC = chiller.gauges.discharge_degC + lag * (room_degC - chiller.gauges.discharge_degC);
  chiller.gauges = g;
  c.chiller_capacity_W = c.compressor_W = 0.0;
}

void running(const MachineSpec& spec, PlantState& state, double elapsed_s) {
  Coefficients& c = state.coefficients;
  refrigeration::ChillerState& chiller = state.chiller;
  refrigeration::CycleBoundary setting = cycle_setting(spec, state);
  // The load in the middle of the interval: with that of its end the circuit would run ahead.
  if (elapsed_s > 0.0) setting.load_degC = 0.5 * (state.pace.chiller_load_degC + state.evaporator_degC);
  refrigeration::CycleState cycle{c.evaporating_degC, c.condensing_degC, chiller.dry_norm};
  const int steps = std::clamp(static_cast<int>(std::ceil(elapsed_s / 2.0)), 1, 30);
  for (int i = 0; i < steps && elapsed_s > 0.0; ++i)
    chiller.gauges = refrigeration::advance_cycle(spec.chiller, setting, cycle, elapsed_s / steps);
  c.evaporating_degC = cycle.evaporating_degC;
  c.condensing_degC = cycle.condensing_degC;
  chiller.dry_norm = cycle.dry_norm;
  refrigeration::ChillerGauges& g = chiller.gauges;
  if (elapsed_s <= 0.0) g = refrigeration::cycle_rate(spec.chiller, setting, cycle).gauges;
  g.compressor_A = compressor_A(spec, g.compressor_W, state.environment.supply_norm);
  c.chiller_capacity_W = g.cooling_W;
  c.compressor_W = g.compressor_W + spec.chiller.fan_W * chiller.health.fan_norm;
}

}  // namespace

refrigeration::CycleBoundary cycle_setting(const MachineSpec& spec, const PlantState& state) {
  refrigeration::CycleBoundary s;
  s.load_degC = state.evaporator_degC;
  s.air_degC = state.environment.ambient_degC + state.health.condenser_air_K;
  s.speed_norm = state.environment.frequency_Hz / spec.supply_Hz;
  s.health = state.chiller.health;
  if (!state.circuit.fan_on) s.health.fan_norm = 0.0;
  refrigeration::prepare_condenser(spec.chiller, s);
  return s;
}

double compressor_A(const MachineSpec& spec, double power_W, double supply_norm) {
  if (!(supply_norm > 0.0)) return 0.0;
  return std::hypot(power_W / (1.7320508 * spec.supply_V * supply_norm),
                    supply_norm * spec.chiller.compressor_idle_A);
}

void refresh_chiller(const MachineSpec& spec, PlantState& state, bool wanted, double elapsed_s) {
  const bool rested = state.compressor_off_s >= spec.chiller.minimum_off_s;
  const bool was_running = state.compressor_on;
  watch_pressures(spec.chiller, state, rested);
  state.compressor_on = wanted && !state.pressure_tripped && (was_running || rested);
  if (was_running && !state.compressor_on) state.compressor_off_s = 0.0;
  // A motor that has just started has not run for the time behind.
  if (state.compressor_on) {
    running(spec, state, was_running ? elapsed_s : 0.0);
  } else {
    at_rest(spec.chiller, state, elapsed_s);
  }
  state.flows.suction_bar = state.chiller.gauges.suction_bar;
  state.flows.discharge_bar = state.chiller.gauges.discharge_bar;
}

double chiller_heat_W(const PlantState& state, double evaporator_degC, double ahead_s) {
  if (!state.compressor_on) return 0.0;
  const Trend& trend = state.pace.trend;
  const double span_K =
      evaporator_degC - (state.coefficients.evaporating_degC + ahead_s * trend.evaporating_degC);
  const double W_per_K = state.chiller.gauges.evaporator_W_per_K + ahead_s * trend.evaporator_W_per_K;
  return std::max(0.0, W_per_K) * std::max(0.0, span_K);
}

}  // namespace stirbench::plant
