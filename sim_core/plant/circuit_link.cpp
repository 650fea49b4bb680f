#include "sim_core/plant/circuit_link.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim_core/plant/drive.h"

namespace stirbench::plant {

wiring::MotorLoad drive_load(const MachineSpec& spec, const PlantState& state) {
  const double frequency_norm = state.environment.frequency_Hz / spec.supply_Hz;
  const DriveSpec drive = at_frequency(spec.drive, frequency_norm);
  const double motor_rpm = state.shaft_rad_per_s * drive.gear_ratio * 30.0 / std::numbers::pi;
  const double phase_V = spec.supply_V / std::numbers::sqrt3;
  const auto admittance = [&](double rpm) {
    const double all_A = motor_current_A(drive, rpm, 1.0 / frequency_norm);
    const double idle_A = drive.idle_A / frequency_norm;
    const double load_A = std::sqrt(std::max(0.0, all_A * all_A - idle_A * idle_A));
    return wiring::Phasor(load_A, -idle_A) / phase_V;
  };
  // The backward field turns the other way: its slip is 2 - s.
  return {admittance(motor_rpm), admittance(-motor_rpm)};
}

wiring::MotorLoad compressor_load(const MachineSpec& spec, const PlantState& state) {
  const double phase_V = spec.supply_V / std::numbers::sqrt3;
  const double idle_A = spec.chiller.compressor_idle_A;
  const wiring::Phasor still = wiring::Phasor(2.5 * idle_A, -4.3 * idle_A) / phase_V;
  if (!state.compressor_on) return {still, still};
  return {wiring::Phasor(state.chiller.gauges.compressor_W / (3.0 * phase_V), -idle_A) / phase_V, still};
}

wiring::Conditions circuit_conditions(const MachineSpec& spec, const PlantState& state, const Demand& demand) {
  wiring::Conditions c;
  c.supply_norm = state.environment.supply_norm;
  c.isolator_on = state.fittings.isolator_on;
  c.lid_closed = !state.fittings.lid_open;
  c.shaft_cover_closed = !state.fittings.shaft_cover_open;
  c.cutout_tripped = state.cutout_tripped;
  c.overload_tripped = state.overload_tripped;
  c.pressure_tripped = state.pressure_tripped;
  c.heat = demand.heat;
  c.drive = demand.drive;
  c.chill = demand.chill;
  c.drive_motor = drive_load(spec, state);
  c.compressor = compressor_load(spec, state);
  c.probe_degC = state.probe_degC;
  c.evaporator_degC = state.evaporator_degC;
  return c;
}

}  // namespace stirbench::plant
