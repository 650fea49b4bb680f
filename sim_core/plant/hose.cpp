#include "sim_core/plant/hose.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim_core/plant/plant.h"
#include "sim_core/plant/pump_and_draw.h"
#include "sim_core/plant/upkeep/vanes.h"

namespace stirbench::plant {
namespace {

constexpr double seal_lap_norm = 0.03;
constexpr double pail_floor_m2 = 0.045;  // a pail of 0.24 m diameter
constexpr double surface_tension_N_per_m = 0.045;
constexpr double splash_limit = 57.7;

}  // namespace

double free_area_norm(double handle_norm) {
  const double h = (std::clamp(handle_norm, 0.0, 1.0) - seal_lap_norm) / (1.0 - seal_lap_norm);
  if (!(h > 0.0)) return 0.0;
  const double phi = 2.0 * std::acos(std::max(-1.0, 1.0 - 2.0 * h));
  return std::min(1.0, (phi - std::sin(phi)) / (2.0 * std::numbers::pi));
}

double line_pressure_bar(const MachineSpec& spec, const PlantState& state) {
  if (state.fittings.hose != HoseEnd::freezer || !(state.product.total_kg() > least_kg)) return 0.0;
  const bool shut = !(free_area_norm(state.fittings.draw_opening_norm) > 0.0);
  if (shut) return state.freezer.inlet_open ? 0.0 : state.freezer.line_bar;
  const double rpm = state.shaft_rad_per_s * 30.0 / std::numbers::pi * state.prime_norm;
  const product::PowerLaw law{state.coefficients.consistency_Pa_sn, state.coefficients.flow_index};
  const double drawn = state.freezer.inlet_open
                           ? state.coefficients.draw_kg_per_s / state.coefficients.density_kg_per_m3
                           : 0.0;
  const double pump_bar =
      rpm > 1.0 ? pump_point(spec, product::apparent_viscosity_Pa_s(law, 50.0), rpm * pump_norm(state),
                             drawn * 6.0e4, state.health.slip_factor, state.health.loop_loss_factor)
                      .pressure_bar
                : 0.0;
  const double head_bar =
      1.0e-5 * state.coefficients.density_kg_per_m3 * 9.81 * std::max(0.0, draw_head_m(spec, fill_L(state)));
  if (!state.freezer.inlet_open) return head_bar + pump_bar;
  const double bore_m = spec.draw.valve_bore_m;
  const double lost_bar = 1.0e-5 * (valve_loss_Pa(product::apparent_viscosity_Pa_s(law, 50.0),
                                                  state.coefficients.density_kg_per_m3, bore_m,
                                                  free_area_norm(state.fittings.draw_opening_norm), drawn) +
                                    body_loss_Pa(law, spec.draw.valve_laminar_K1, bore_m, drawn));
  return std::clamp(head_bar + pump_bar - lost_bar, 0.0, head_bar + pump_bar);
}

double spray_from_hose(const MachineSpec& spec, PlantState& state) {
  // What a soft hose springs back by: a tenth of a litre a bar (choice).
  const double litres = 0.1 * state.freezer.line_bar;
  state.freezer.line_bar = 0.0;
  if (!(litres > 1.0e-4)) return 0.0;
  const TakenLiquid taken =
      take_liquid(spec, state, 1.0e-3 * litres * state.coefficients.density_kg_per_m3, true);
  state.masses.spilled_kg += taken.kg;
  state.ledger.material_J -= taken.enthalpy_J;
  state.floor_kg += taken.kg;
  return taken.kg > 0.0 ? litres : 0.0;
}

double splash_norm(double flow, double bore_m, double fall_m, double density, double viscosity_Pa_s) {
  if (!(flow > 0.0) || !(fall_m > 0.0)) return 0.0;
  const double out = flow / (0.25 * std::numbers::pi * bore_m * bore_m);
  const double v = std::sqrt(out * out + 2.0 * 9.81 * fall_m);
  const double d = std::sqrt(4.0 * flow / (std::numbers::pi * v));
  const double weber = density * v * v * d / surface_tension_N_per_m;
  const double reynolds = density * v * d / viscosity_Pa_s;
  const double k = std::sqrt(weber) * std::sqrt(std::sqrt(reynolds));
  return std::clamp(0.004 * (k / splash_limit - 1.0), 0.0, 0.03);
}

Fall fall_into_pail(const MachineSpec& spec, const PlantState& state) {
  const double level_m =
      state.pail.total_kg() / (std::max(500.0, state.coefficients.density_kg_per_m3) * pail_floor_m2);
  if (state.fittings.hose == HoseEnd::pail) return {std::max(0.0, 0.05 - level_m), spec.draw.hose_bore_m};
  return {std::max(0.05, 0.30 - level_m), spec.draw.valve_bore_m};
}

}  // namespace stirbench::plant
