#include "sim_core/plant/chiller.h"

#include <algorithm>
#include <cmath>

namespace stirbench::plant {
namespace {

double legal(double t_degC) {
  return std::clamp(t_degC, -45.0, 75.0);
}

}  // namespace

double r290_pressure_bar(double t_degC) {
  return std::exp(9.58173 - 2102.237 / (legal(t_degC) + 261.931));
}

double r290_saturation_degC(double pressure_bar) {
  return 2102.237 / (9.58173 - std::log(pressure_bar)) - 261.931;
}

double r290_evaporation_heat_kJ_per_kg(double t_degC) {
  const double t = legal(t_degC);
  return 374.90 - t * (1.3678 + t * (5.876e-3 + t * 5.977e-5));
}

double r290_vapour_kg_per_m3(double t_degC) {
  const double t = legal(t_degC);
  return std::exp(2.337535 + t * (2.947343e-2 + t * (-9.38430e-5 + t * 6.24627e-7)));
}

double r290_liquid_kJ_per_kg(double t_degC) {
  const double t = legal(t_degC);
  return 200.0 + t * (2.5295 + t * (2.3e-3 + t * 3.5e-5));
}

Cycle r290_cycle(const ChillerSpec& spec, double evaporating_degC, double condensing_degC) {
  constexpr double n = 1.06;
  const double pe_kPa = 100.0 * r290_pressure_bar(evaporating_degC);
  const double ratio = std::max(1.0, 100.0 * r290_pressure_bar(condensing_degC) / pe_kPa);
  const double ln_ratio = std::log(ratio);
  const double filling =
      std::max(0.0, 1.0 + spec.clearance_norm - spec.clearance_norm * std::exp(ln_ratio / 1.13));
  const double suction_kg_per_m3 =
      r290_vapour_kg_per_m3(evaporating_degC) * std::max(0.5, 1.0 - 0.005 * spec.superheat_K);
  const double kg_per_s = filling * spec.swept_m3_per_h / 3600.0 * suction_kg_per_m3;
  Cycle out;
  out.cooling_kJ_per_kg = r290_liquid_kJ_per_kg(evaporating_degC) +
                          r290_evaporation_heat_kJ_per_kg(evaporating_degC) + 1.75 * spec.superheat_K -
                          r290_liquid_kJ_per_kg(condensing_degC - spec.subcooling_K);
  const double work_kJ_per_kg = n / (n - 1.0) * pe_kPa / suction_kg_per_m3 *
                                std::expm1(ln_ratio * (n - 1.0) / n) / spec.isentropic_norm;
  out.cooling_W = 1000.0 * kg_per_s * out.cooling_kJ_per_kg;
  out.power_W = 1000.0 * kg_per_s * work_kJ_per_kg;
  return out;
}

Balance chiller_balance(const ChillerSpec& spec, double load_degC, double ambient_degC, Balance start,
                        int steps) {
  Balance b = start;
  const double warmest = std::min(load_degC, spec.maximum_evaporating_degC);
  b.evaporating_degC = std::clamp(b.evaporating_degC, std::min(-44.0, warmest), warmest);
  b.condensing_degC = std::clamp(b.condensing_degC, ambient_degC, 74.0);
  for (int i = 0; i < steps; ++i) {
    b.cycle = r290_cycle(spec, b.evaporating_degC, b.condensing_degC);
    // Slopes of the capacity: about +3.5 % per K of evaporating, -1 % per K of condensing temperature.
    const double lack_W = spec.evaporator_W_per_K * (load_degC - b.evaporating_degC) - b.cycle.cooling_W;
    const double excess_W =
        b.cycle.cooling_W + b.cycle.power_W - spec.condenser_W_per_K * (b.condensing_degC - ambient_degC);
    b.evaporating_degC = std::clamp(
        b.evaporating_degC + lack_W / (spec.evaporator_W_per_K + 0.035 * b.cycle.cooling_W), -44.0, warmest);
    b.condensing_degC =
        std::clamp(b.condensing_degC + excess_W / (spec.condenser_W_per_K + 0.005 * b.cycle.cooling_W),
                   ambient_degC, 74.0);
  }
  return b;
}

void refresh_chiller(const MachineSpec& spec, PlantState& state, bool wanted, double elapsed_s) {
  Coefficients& c = state.coefficients;
  const ChillerSpec& chiller = spec.chiller;
  const double ambient_degC = state.environment.ambient_degC;
  const double discharge_bar = r290_pressure_bar(c.condensing_degC);
  const double suction_bar = r290_pressure_bar(c.evaporating_degC);
  const bool too_high = discharge_bar > chiller.high_pressure_cutout_bar;
  const bool too_low = suction_bar < chiller.low_pressure_cutout_bar;
  const bool running = state.compressor_on;
  if (running && (too_high || too_low)) state.pressure_tripped = true;
  const bool rested = state.compressor_off_s >= chiller.minimum_off_s;
  if (state.pressure_tripped && !running && rested &&
      discharge_bar < 0.9 * chiller.high_pressure_cutout_bar &&
      suction_bar > 1.1 * chiller.low_pressure_cutout_bar) {
    state.pressure_tripped = false;
  }
  state.compressor_on = wanted && !state.pressure_tripped && (running || rested);
  if (running && !state.compressor_on) state.compressor_off_s = 0.0;

  if (state.compressor_on) {
    const Balance now{c.evaporating_degC, c.condensing_degC, {}};
    const Balance aim = chiller_balance(chiller, state.evaporator_degC, ambient_degC, now, 3);
    const double lag = -std::expm1(-elapsed_s / 8.0);
    c.evaporating_degC += lag * (aim.evaporating_degC - c.evaporating_degC);
    c.condensing_degC += lag * (aim.condensing_degC - c.condensing_degC);
    const Cycle cycle = r290_cycle(chiller, c.evaporating_degC, c.condensing_degC);
    c.chiller_capacity_W = cycle.cooling_W;
    c.compressor_W = cycle.power_W + chiller.fan_W;
  } else {
    // At rest the refrigerant gathers in the coldest place and both sides end at its pressure (simplified).
    const double rest_degC = std::clamp(std::min(state.evaporator_degC, ambient_degC), -44.0, 60.0);
    const double lag = -std::expm1(-elapsed_s / 30.0);
    c.evaporating_degC += lag * (rest_degC - c.evaporating_degC);
    c.condensing_degC += lag * (rest_degC - c.condensing_degC);
    c.chiller_capacity_W = c.compressor_W = 0.0;
  }
  state.flows.suction_bar = r290_pressure_bar(c.evaporating_degC);
  state.flows.discharge_bar = r290_pressure_bar(c.condensing_degC);
}

double chiller_heat_W(const MachineSpec& spec, const PlantState& state) {
  if (!state.compressor_on) return 0.0;
  const Coefficients& c = state.coefficients;
  const double offered_W = spec.chiller.evaporator_W_per_K * (state.evaporator_degC - c.evaporating_degC);
  return std::clamp(offered_W, 0.0, c.chiller_capacity_W);
}

}  // namespace stirbench::plant
