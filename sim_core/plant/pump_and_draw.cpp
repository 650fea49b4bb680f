#include "sim_core/plant/pump_and_draw.h"

#include <algorithm>
#include <cmath>

#include "sim_core/plant/drive.h"
#include "sim_core/plant/freezer/freezer.h"
#include "sim_core/plant/hose.h"
#include "sim_core/plant/plant.h"
#include "sim_core/plant/upkeep/assembly_effects.h"
#include "sim_core/plant/upkeep/cleaning.h"
#include "sim_core/plant/upkeep/vanes.h"
#include "sim_core/product/kinetics.h"
#include "sim_core/product/properties.h"

namespace stirbench::plant {
namespace {

constexpr double per_bar = 1.0e5;
constexpr double L_per_min = 6.0e4;  // in 1 m3/s
constexpr double gravity = 9.81;
constexpr double laminar_share = 0.02;  // of the loop's loss with water at rated flow

// Root of a falling function between two bounds, by false position with Illinois' halving: about ten
// evaluations. A function that has no root between them gives the bound nearer to it.
template <typename F>
double falls_to_zero(double low, double high, F&& function) {
  double at_low = function(low);
  double at_high = function(high);
  if (at_low <= 0.0) return low;
  if (at_high >= 0.0) return high;
  const double close = 1.0e-12 * (high - low);
  int side = 0;
  for (int i = 0; i < 80 && high - low > close; ++i) {
    const double x = (low * at_high - high * at_low) / (at_high - at_low);
    const double y = function(x);
    if (y == 0.0 || x <= low || x >= high) return x;
    if (y > 0.0) {
      if (x - low < close) return x;
      low = x;
      at_low = y;
      if (side == 1) at_high *= 0.5;
      side = 1;
    } else {
      if (high - x < close) return x;
      high = x;
      at_high = y;
      if (side == -1) at_low *= 0.5;
      side = -1;
    }
  }
  return 0.5 * (low + high);
}

// The loop's curve: p = flow^2 + laminar flow in shares of rated flow and loss, so that
// flow = half (sqrt(thick^2 + 4 steep bar) - thick).
struct Loop {
  double half_L_per_min, thick, steep_per_bar;
};
Loop loop_of(const MachineSpec& spec, double viscosity_Pa_s, double loss_factor) {
  const double rated =
      rated_agitator_rad_per_s(spec.drive) * 30.0 / 3.141592653589793 * spec.pump.displacement_L_per_rev;
  return {0.5 * rated, laminar_share * viscosity_Pa_s / 1.0e-3,
          (1.0 + laminar_share) / (spec.pump.circulation_loss_bar_at_rated * loss_factor)};
}

// The point at which `net_L_per_min` is shared between the loop and a slip that grows with the pressure
// (laminar) or with its root (orifice): `u` = sqrt(thick^2 + 4 steep bar) - thick solves a quadratic in each
// case.
PumpPoint shared(const Loop& loop, double u) {
  return {loop.half_L_per_min * u, u * (u + 2.0 * loop.thick) / (4.0 * loop.steep_per_bar)};
}
PumpPoint with_laminar_slip(const Loop& loop, double slip_per_bar, double net_L_per_min) {
  const double a = slip_per_bar / (4.0 * loop.steep_per_bar);
  const double b = 2.0 * a * loop.thick + loop.half_L_per_min;
  return shared(loop, 2.0 * net_L_per_min / (b + std::sqrt(b * b + 4.0 * a * net_L_per_min)));
}
PumpPoint with_orifice_slip(const Loop& loop, double slip_per_root_bar, double net_L_per_min) {
  const double k = slip_per_root_bar * slip_per_root_bar / (4.0 * loop.steep_per_bar);
  const double through = net_L_per_min * loop.half_L_per_min;
  const double h = through + loop.thick * k;
  // h^2 - (half^2 - k) net^2, written without the difference.
  const double d =
      k * (2.0 * through * loop.thick + loop.thick * loop.thick * k + net_L_per_min * net_L_per_min);
  return shared(loop, net_L_per_min * net_L_per_min / (h + std::sqrt(d)));
}

// Metzner-Reed's effective viscosity in a bore.
double pipe_viscosity_Pa_s(const product::PowerLaw& law, double v, double bore_m) {
  const double n = law.index;
  return law.consistency_Pa_sn * std::pow((3.0 * n + 1.0) / (4.0 * n), n) *
         std::pow(8.0 * v / bore_m, n - 1.0);
}

}  // namespace

double hose_loss_Pa(const MachineSpec& spec, const PlantState& state, const product::PowerLaw& law,
                    double flow) {
  if (state.fittings.hose == HoseEnd::none || !(flow > 0.0)) return 0.0;
  const double density = state.coefficients.density_kg_per_m3;
  const double open_Pa =
      pipe_loss_Pa(law, density, spec.draw.hose_bore_m, spec.draw.hose_length_m, 1.5, flow);
  if (state.line.route != HoseRoute::kinked) return open_Pa;
  return open_Pa + valve_loss_Pa(product::apparent_viscosity_Pa_s(law, 50.0), density, spec.draw.hose_bore_m,
                                 kinked_norm, flow);
}

double churchill_friction(double reynolds, double relative_roughness) {
  const double re = std::max(reynolds, 1.0e-6);
  if (re < 1000.0) return 64.0 / re;  // the other branches add nothing here
  const double inner = std::log(1.0 / (std::pow(7.0 / re, 0.9) + 0.27 * relative_roughness));
  const double a = std::pow(2.457 * inner, 16.0);
  const double b = std::pow(37530.0 / re, 16.0);
  return 8.0 * std::pow(std::pow(8.0 / re, 12.0) + std::pow(a + b, -1.5), 1.0 / 12.0);
}

double hooper_K(double laminar_K1, double turbulent_K, double reynolds, double bore_m) {
  return laminar_K1 / reynolds + turbulent_K * (1.0 + 0.0254 / bore_m);
}

double body_loss_Pa(const product::PowerLaw& law, double laminar_K1, double bore_m, double flow_m3_per_s) {
  if (!(flow_m3_per_s > 0.0)) return 0.0;
  const double v = flow_m3_per_s / (0.785398163397448 * bore_m * bore_m);
  return 0.5 * laminar_K1 * pipe_viscosity_Pa_s(law, v, bore_m) * v / bore_m;
}

double pipe_loss_Pa(const product::PowerLaw& law, double density_kg_per_m3, double bore_m, double length_m,
                    double fittings_K, double flow_m3_per_s) {
  if (!(flow_m3_per_s > 0.0)) return 0.0;
  const double v = flow_m3_per_s / (0.785398163397448 * bore_m * bore_m);
  const double f =
      churchill_friction(density_kg_per_m3 * v * bore_m / pipe_viscosity_Pa_s(law, v, bore_m), 0.0);
  return (f * length_m / bore_m + fittings_K) * 0.5 * density_kg_per_m3 * v * v;
}

double valve_loss_Pa(double viscosity_Pa_s, double density_kg_per_m3, double bore_m, double opening_norm,
                     double flow_m3_per_s) {
  constexpr double discharge = 0.61;
  const double area_m2 = 0.785398163397448 * bore_m * bore_m * opening_norm;
  const double radius_m = 0.5 * bore_m * std::sqrt(opening_norm);
  const double jet = flow_m3_per_s / (discharge * area_m2);
  return 0.5 * density_kg_per_m3 * jet * jet +
         3.0 * viscosity_Pa_s * flow_m3_per_s / (radius_m * radius_m * radius_m);
}

PumpPoint pump_point(const MachineSpec& spec, double viscosity_Pa_s, double agitator_rpm,
                     double outflow_L_per_min, double slip_factor, double loss_factor) {
  const PumpSpec& pump = spec.pump;
  const double net = pump.displacement_L_per_rev * agitator_rpm - outflow_L_per_min;
  if (!(net > 0.0)) return {0.0, 0.0};
  const Loop loop = loop_of(spec, viscosity_Pa_s, loss_factor);
  const double leak = pump.slip_L_per_min_per_bar * slip_factor;
  const double laminar = leak * std::min(1.0e3, 1.0e-3 / viscosity_Pa_s);
  // The smaller of the two slips is the one that is there.
  PumpPoint point = with_laminar_slip(loop, laminar, net);
  if (laminar * point.pressure_bar > leak * std::sqrt(point.pressure_bar))
    point = with_orifice_slip(loop, leak, net);
  if (point.pressure_bar <= pump.shut_off_bar) return point;
  // The vanes fold: what they let back goes nowhere else.
  const double p = 4.0 * loop.steep_per_bar * pump.shut_off_bar;
  return {loop.half_L_per_min * p / (loop.thick + std::sqrt(loop.thick * loop.thick + p)), pump.shut_off_bar};
}

double draw_head_m(const MachineSpec& spec, double fill) {
  const auto area = [](double d) { return 0.785398163397448 * d * d; };
  const double above_L = fill - spec.well.volume_L;
  const double over_bottom_m =
      1.0e-3 * (above_L > 0.0 ? above_L / area(spec.vat.diameter_m) : above_L / area(spec.well.diameter_m));
  return over_bottom_m + spec.draw.outlet_height_m;
}

double draw_flow_m3_per_s(const MachineSpec& spec, const PlantState& state, const product::PowerLaw& law,
                          double agitator_rpm) {
  const Health& health = state.health;
  const double opening =
      std::max(free_area_norm(plunger_opening_norm(spec.assembly, state)) * health.draw_bore_norm,
               health.draw_leak_norm);
  const bool shut = !(opening > 1.0e-4);
  if (shut && !(front_gap_m(spec.assembly, state.assembly) > 0.0)) return 0.0;
  const bool to_freezer = state.fittings.hose == HoseEnd::freezer;
  if (to_freezer && !state.freezer.inlet_open) return 0.0;
  const double density = state.coefficients.density_kg_per_m3;
  // A well that empties below the valve still runs out through its sump: the last centimetre drives it.
  const double up_m = hose_rise_m(spec, state);
  // Foam stands higher by what it is lighter.
  const double head_Pa =
      density * gravity *
      ((1.0 - state.product.air_norm) * std::max(0.01, draw_head_m(spec, fill_L(state))) - up_m);
  const double viscosity = product::apparent_viscosity_Pa_s(law, 50.0);
  const double prime = state.prime_norm;
  const double rpm = agitator_rpm * prime * pump_norm(state);
  if (shut) {
    // A drip: what it takes is nothing to the pump.
    const double pump_Pa = rpm > 1.0 ? per_bar * pump_point(spec, viscosity, rpm, 0.0).pressure_bar : 0.0;
    return front_leak_m3_per_s(spec, state, head_Pa + pump_Pa, viscosity);
  }
  const double most = 0.785398163397448 * spec.draw.valve_bore_m * spec.draw.valve_bore_m * 20.0;
  const double flow = falls_to_zero(0.0, most, [&](double q) {
    const double driven_Pa = rpm > 1.0 ? per_bar * pump_point(spec, viscosity, rpm, q * L_per_min,
                                                              health.slip_factor, health.loop_loss_factor)
                                                       .pressure_bar
                                       : 0.0;
    return head_Pa + driven_Pa - valve_loss_Pa(viscosity, density, spec.draw.valve_bore_m, opening, q) -
           body_loss_Pa(law, spec.draw.valve_laminar_K1, spec.draw.valve_bore_m, q) -
           hose_loss_Pa(spec, state, law, q);
  });
  // Air in the line comes out with the product: without prime, half of the time only air.
  return flow * (0.5 + 0.5 * prime);
}

void advance_prime(const MachineSpec& spec, PlantState& state, double fill, double dt_s) {
  const bool flooded = fill >= spec.pump.prime_L;
  const double most = std::min(prime_limit_norm(spec, state), 1.0 - state.health.air_leak_norm);
  if (flooded && state.prime_norm == most) return;
  const bool turns = state.shaft_rad_per_s > 0.1 * rated_agitator_rad_per_s(spec.drive);
  if (flooded && state.prime_norm < most) {
    state.prime_norm = std::min(most, state.prime_norm + dt_s / (turns ? 6.0 : 30.0));
  } else if (flooded && turns) {
    state.prime_norm = std::max(most, state.prime_norm - dt_s / 4.0);
  } else if (!flooded && turns && state.prime_norm > 0.0) {
    state.prime_norm = std::max(0.0, state.prime_norm - dt_s / 4.0);
  }
  // A pump that draws air whips it in.
  if (!flooded && turns && state.product.air_norm < 0.2 && state.product.total_kg() > least_kg) {
    state.product.air_norm += 5.0e-4 * dt_s;
  }
}

void draw(const MachineSpec& spec, PlantState& state, double dt_s) {
  const Coefficients& c = state.coefficients;
  if (!(c.draw_kg_per_s > 0.0)) return;
  TakenLiquid taken = take_liquid(spec, state, c.draw_kg_per_s * dt_s, true);
  if (!(taken.kg > 0.0)) return;
  state.masses.drawn_kg += taken.kg;
  pass_valve(state, taken.product);
  state.ledger.material_J -= taken.enthalpy_J;
  state.flows.draw_L_per_min = taken.kg / c.density_kg_per_m3 * L_per_min / dt_s;
  if (state.fittings.hose == HoseEnd::freezer) {
    fill_hose(spec, state, taken);
    return;
  }
  if (state.line.jumped) {  // nothing leads it into the pail
    state.floor_kg += taken.kg;
    state.flows.splash_L_per_min = state.flows.draw_L_per_min;
    return;
  }
  // What splashes out of the pail goes to the floor.
  const Fall fall = fall_into_pail(spec, state);
  const double viscosity = product::apparent_viscosity_Pa_s({c.consistency_Pa_sn, c.flow_index}, 500.0);
  const double splash = splash_norm(state.flows.draw_L_per_min / L_per_min, fall.bore_m, fall.fall_m,
                                    c.density_kg_per_m3, viscosity);
  state.flows.splash_L_per_min = splash * state.flows.draw_L_per_min;
  const double splashed_kg = product::draw_share(taken.product, splash).total_kg();
  state.floor_kg += splashed_kg;
  const double pail_J = product::enthalpy_J(state.pail.mass_kg, state.pail_degC) +
                        taken.enthalpy_J * (1.0 - splashed_kg / taken.kg);
  product::merge(state.pail, taken.product);
  state.pail_degC = product::temperature_degC(state.pail.mass_kg, pail_J, state.well_degC);
}

void rinse(const MachineSpec& spec, PlantState& state, double dt_s) {
  if (!state.fittings.rinse_on) return;
  product::Product water;
  const double kg = spec.rinse.flow_kg_per_s * state.health.rinse_norm * dt_s;
  water.mass_kg[product::Component::water] = kg;
  const double added_J = product::enthalpy_J(water.mass_kg, spec.rinse.water_degC);
  const Zones before = zones(state);
  product::merge(state.product, water);
  mix_in(spec, state, before, added_J, spec.rinse.water_degC);
  state.masses.rinsed_kg += kg;
  state.ledger.material_J += added_J;
}

}  // namespace stirbench::plant
