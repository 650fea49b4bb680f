#include "sim_core/plant/drive.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace stirbench::plant {
namespace {

constexpr double per_rpm = std::numbers::pi / 30.0;
constexpr double trip_square = 1.125 * 1.125;

double rated_slip(const DriveSpec& spec) { return 1.0 - spec.rated_rpm / spec.synchronous_rpm; }

double breakdown_slip(const DriveSpec& spec) {
  const double l = spec.breakdown_ratio;
  return rated_slip(spec) * (l + std::sqrt(std::max(0.0, l * l - 1.0)));
}

double slip_of(const DriveSpec& spec, double motor_rpm) { return 1.0 - motor_rpm / spec.synchronous_rpm; }

// What the contents and the bearings hold against the shaft at `w` [rad/s].
struct Load {
  double viscous_Nm, inertial_Nm, pump_Nm, friction_Nm, rated_rad_per_s;
  double agitator(double w) const {
    const double r = w / rated_rad_per_s;
    return r * (viscous_Nm + inertial_Nm * r);
  }
  double pump(double w) const { return pump_Nm * std::min(1.0, w / rated_rad_per_s); }
  // Friction turns round with the speed; below a hundredth of the rated speed it fades in so that rest is
  // stable.
  double friction(double w) const { return friction_Nm * std::min(1.0, 100.0 * w / rated_rad_per_s); }
  double all(double w) const { return agitator(w) + pump(w) + friction(w); }
};

// Forward and backward field of the motor, each over its nominal flux.
struct Supply {
  double forward_norm, backward_norm;
  double torque_Nm(const DriveSpec& spec, double motor_rpm) const {
    const double forward = kloss_torque_Nm(spec, motor_rpm, forward_norm);
    return backward_norm > 0.0 ? forward - kloss_torque_Nm(spec, -motor_rpm, backward_norm) : forward;
  }
};

// Implicit steps: near the synchronous speed the motor holds the shaft with a time constant far below a tick,
// so an explicit step would swing.
double run(const DriveSpec& spec, const Load& load, double w, const Supply& supply, double dt_s) {
  const double gear = spec.gear_ratio * spec.gear_efficiency_norm;
  const double synchronous = spec.synchronous_rpm * per_rpm / spec.gear_ratio;
  const auto net_Nm = [&](double at) {
    return gear * supply.torque_Nm(spec, at * spec.gear_ratio / per_rpm) - load.all(at);
  };
  const double first_Nm = net_Nm(w);
  const int steps = std::abs(first_Nm) * dt_s > 0.02 * spec.inertia_kgm2 * synchronous ? 10 : 1;
  const double h = dt_s / steps;
  for (int i = 0; i < steps; ++i) {
    const double net = i == 0 ? first_Nm : net_Nm(w);
    const double slope = std::min(0.0, (net_Nm(w + 1.0e-4 * synchronous) - net) / (1.0e-4 * synchronous));
    w = std::clamp(w + h * net / (spec.inertia_kgm2 - h * slope), 0.0, synchronous);
  }
  return w;
}

// Overload relay and winding see the same current.
void follow_overload(const DriveSpec& drive, PlantState& state, double dt_s) {
  state.winding_degC = winding_degC(state.winding_degC, state.environment.ambient_degC,
                                    state.flows.motor_A / drive.rated_A, state.shaft_rad_per_s > 0.0, dt_s);
  state.motor_heat_norm = overload_heat_norm(
      state.motor_heat_norm, state.flows.motor_A / (drive.overload_A * state.health.overload_setting_norm),
      drive.overload_tau_s, dt_s);
  if (state.motor_heat_norm >= 1.0 && !state.safety.overload_stuck) state.overload_tripped = true;
}

}  // namespace

double rated_torque_Nm(const DriveSpec& spec) { return spec.rated_W / (spec.rated_rpm * per_rpm); }

double kloss_torque_Nm(const DriveSpec& spec, double motor_rpm, double supply_norm) {
  const double s = slip_of(spec, motor_rpm);
  const double sk = breakdown_slip(spec);
  return 2.0 * spec.breakdown_ratio * rated_torque_Nm(spec) * supply_norm * supply_norm * s * sk /
         (s * s + sk * sk);
}

double motor_current_A(const DriveSpec& spec, double motor_rpm, double supply_norm) {
  const double s = slip_of(spec, motor_rpm);
  const double sk2 = breakdown_slip(spec) * breakdown_slip(spec);
  const double sn = rated_slip(spec);
  const double load2 = spec.rated_A * spec.rated_A - spec.idle_A * spec.idle_A;
  const double share = s * s / (s * s + sk2) * (sn * sn + sk2) / (sn * sn);
  return supply_norm * std::sqrt(spec.idle_A * spec.idle_A + load2 * share);
}

double motor_power_W(const DriveSpec& spec, double motor_torque_Nm, double supply_norm) {
  const double synchronous = spec.synchronous_rpm * per_rpm;
  const double constant_W =
      std::max(0.0, spec.rated_W / spec.efficiency_norm - rated_torque_Nm(spec) * synchronous);
  return motor_torque_Nm * synchronous + constant_W * supply_norm * supply_norm;
}

DriveSpec at_frequency(const DriveSpec& spec, double frequency_norm) {
  DriveSpec out = spec;
  out.synchronous_rpm = spec.synchronous_rpm * frequency_norm;
  out.rated_rpm = out.synchronous_rpm - (spec.synchronous_rpm - spec.rated_rpm);
  out.rated_W = spec.rated_W * out.rated_rpm / spec.rated_rpm;
  return out;
}

double rated_agitator_rad_per_s(const DriveSpec& spec) { return spec.rated_rpm * per_rpm / spec.gear_ratio; }

AgitatorPower agitator_power_W(const AgitatorSpec& spec, double viscosity_Pa_s, double density_kg_per_m3,
                               double turns_per_s) {
  const double d3 = spec.diameter_m * spec.diameter_m * spec.diameter_m;
  const double n2 = turns_per_s * turns_per_s;
  return {spec.laminar_power_Kp * viscosity_Pa_s * n2 * d3, spec.turbulent_power_Np * density_kg_per_m3 * n2 *
                                                                turns_per_s * d3 * spec.diameter_m *
                                                                spec.diameter_m};
}

double overload_heat_norm(double heat_norm, double current_per_setting, double tau_s, double dt_s) {
  const double aim = current_per_setting * current_per_setting / trip_square;
  const double x = dt_s / tau_s;
  return heat_norm + (aim - heat_norm) * (x / (1.0 + 0.5 * x));
}

double winding_degC(double now_degC, double room_degC, double current_per_rated, bool turns, double dt_s) {
  const double aim_degC = room_degC + winding_rise_K * current_per_rated * current_per_rated;
  const double x = dt_s / (turns ? winding_tau_s : 3.0 * winding_tau_s);
  return now_degC + (aim_degC - now_degC) * (x / (1.0 + 0.5 * x));
}

DriveHeat advance_steady_shaft(const MachineSpec& spec, PlantState& state, double dt_s) {
  follow_overload(spec.drive, state, dt_s);
  return {state.pace.stir_vat_W, state.pace.stir_well_W};
}

DriveHeat turn_shaft(const MachineSpec& spec, PlantState& state, const Actuators& relays,
                     double friction_torque_Nm, double dt_s) {
  const double frequency_norm = state.environment.frequency_Hz / spec.supply_Hz;
  const DriveSpec drive = at_frequency(spec.drive, frequency_norm);
  const Coefficients& c = state.coefficients;
  // The flux goes with V / f.
  const double volts = relays.from_circuit() ? relays.drive_forward_norm : state.environment.supply_norm;
  const Supply supply{volts / frequency_norm, relays.drive_backward_norm / frequency_norm};
  const bool powered = relays.drive_on && supply.forward_norm > 0.0;
  double& w = state.shaft_rad_per_s;
  const double before = w;

  double current_A = 0.0;
  DriveHeat heat;
  if (powered || w > 0.0) {
    const Load load{c.viscous_torque_Nm, c.agitator_torque_Nm - c.viscous_torque_Nm, c.pump_torque_Nm,
                    friction_torque_Nm, rated_agitator_rad_per_s(spec.drive)};
    if (powered) {
      w = run(drive, load, w, supply, dt_s);
      const double rpm = w * drive.gear_ratio / per_rpm;
      const bool equal = !(supply.backward_norm > 0.0);
      current_A = equal ? motor_current_A(drive, rpm, supply.forward_norm) : relays.drive_A;
      // The backward field's torque costs what the forward one's earns.
      const double against_Nm = equal ? 0.0 : kloss_torque_Nm(drive, -rpm, supply.backward_norm);
      state.flows.drive_W = motor_power_W(
          drive, kloss_torque_Nm(drive, rpm, supply.forward_norm) + against_Nm, supply.forward_norm);
    } else {
      w = std::max(0.0, w - dt_s * (drive.brake_torque_Nm + load.all(w)) / drive.inertia_kgm2);
    }
    state.flows.torque_Nm = load.all(w);
    heat.vat_W = load.agitator(w) * w;
    heat.well_W = (load.pump(w) + load.friction(w)) * w;
  }
  state.flows.motor_A = current_A;
  state.flows.agitator_rpm = w / per_rpm;
  follow_overload(drive, state, dt_s);
  Pace& p = state.pace;
  p.stir_vat_W = heat.vat_W;
  p.stir_well_W = heat.well_W;
  p.shaft_steady = std::abs(w - before) <= 1.0e-6 * rated_agitator_rad_per_s(drive);
  return heat;
}

}  // namespace stirbench::plant
