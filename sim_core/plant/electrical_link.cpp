#include "sim_core/plant/electrical_link.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim_core/electrics/sensors.h"
#include "sim_core/electrics/solve.h"
#include "sim_core/plant/drive.h"
#include "sim_core/plant/plant.h"

namespace stirbench::plant {
namespace {

// Whether the circuit has to be looked at again.
bool is_old(const PlantState& s, std::uint32_t bits) {
  const CircuitState& c = s.circuit;
  if (bits != c.seen_bits || s.environment.supply_norm != c.seen_supply_norm) return true;
  if (!c.exact_probe && std::abs(s.probe_degC - c.seen_probe_degC) > 0.02) return true;
  if (c.balanced) return false;
  // With unequal lines the motors' own impedances divide the voltage.
  return std::abs(s.shaft_rad_per_s - c.seen_rad_per_s) > 0.01 ||
         std::abs(s.chiller.gauges.compressor_W - c.seen_compressor_W) > 20.0;
}

void read_probe(const MachineSpec& spec, PlantState& s) {
  CircuitState& c = s.circuit;
  const int part = spec.circuit.by_role(electrics::CircuitPartKind::pt100, electrics::CircuitRole::probe);
  const double Ohm_at_0 = spec.circuit.parts[static_cast<std::size_t>(part)].dc_Ohm;
  const double right_Ohm = electrics::pt_Ohm(Ohm_at_0, s.probe_degC);
  c.exact_probe =
      !c.supplied.controller_on || std::abs(c.supplied.probe_Ohm - right_Ohm) < 1.0e-7 * right_Ohm;
  // A controller's display ends at these (choice).
  const double read_degC = std::clamp(electrics::pt_degC(Ohm_at_0, c.supplied.probe_Ohm), -60.0, 250.0);
  c.probe_offset_K = c.exact_probe ? 0.0 : read_degC - s.probe_degC;
}

// A machine without a circuit.
electrics::Switched chained(const PlantState& s, const LoadCommands& wanted) {
  constexpr double least_supply_norm = 0.5;  // the controller's own, and the coils'
  return electrics::switching_chain(switches_of(s, wanted), s.environment.supply_norm > least_supply_norm);
}

}  // namespace

electrics::MotorLoad drive_load(const MachineSpec& spec, const PlantState& state) {
  const double frequency_norm = state.environment.frequency_Hz / spec.supply_Hz;
  const DriveSpec drive = at_frequency(spec.drive, frequency_norm);
  const double motor_rpm = state.shaft_rad_per_s * drive.gear_ratio * 30.0 / std::numbers::pi;
  const double phase_V = spec.supply_V / std::numbers::sqrt3;
  const auto admittance = [&](double rpm) {
    const double all_A = motor_current_A(drive, rpm, 1.0 / frequency_norm);
    const double idle_A = drive.idle_A / frequency_norm;
    const double load_A = std::sqrt(std::max(0.0, all_A * all_A - idle_A * idle_A));
    return electrics::Phasor(load_A, -idle_A) / phase_V;
  };
  // The backward field turns the other way: its slip is 2 - s.
  return {admittance(motor_rpm), admittance(-motor_rpm)};
}

electrics::MotorLoad compressor_load(const MachineSpec& spec, const PlantState& state) {
  const double phase_V = spec.supply_V / std::numbers::sqrt3;
  const double idle_A = spec.chiller.compressor_idle_A;
  const electrics::Phasor still = electrics::Phasor(2.5 * idle_A, -4.3 * idle_A) / phase_V;
  if (!state.compressor_on) return {still, still};
  return {electrics::Phasor(state.chiller.gauges.compressor_W / (3.0 * phase_V), -idle_A) / phase_V, still};
}

electrics::Switches switches_of(const PlantState& state, const LoadCommands& wanted) {
  using S = electrics::Switch;
  const SafetyParts& parts = state.safety;
  const bool loop_whole = !parts.guard_wire_open();
  electrics::Switches out;
  out.set(S::heat_wanted, wanted.heat);
  out.set(S::drive_wanted, wanted.drive);
  out.set(S::chill_wanted, wanted.chill);
  out.set(S::isolator_on, state.fittings.isolator_on);
  out.set(S::lid_closed, loop_whole && (!state.fittings.lid_open || parts.lid_switch_closed));
  out.set(S::shaft_cover_closed,
          loop_whole && (!state.fittings.shaft_cover_open || parts.cover_switch_closed));
  out.set(S::cutout_tripped, state.cutout_tripped);
  out.set(S::overload_tripped, state.overload_tripped);
  out.set(S::pressure_tripped, state.pressure_tripped);
  out.set(S::emergency_stop_open, parts.emergency_contact_open());
  out.set(S::heat_welded, parts.heat_welded);
  out.set(S::drive_welded, parts.drive_welded);
  out.set(S::chill_welded, parts.chill_welded);
  out.set(S::emergency_welded, parts.emergency_contactor_welded);
  return out;
}

electrics::CircuitInputs circuit_inputs(const MachineSpec& spec, const PlantState& state,
                                        const LoadCommands& wanted) {
  electrics::CircuitInputs c;
  c.switches = switches_of(state, wanted);
  c.supply_norm = state.environment.supply_norm;
  c.drive_motor = drive_load(spec, state);
  c.compressor = compressor_load(spec, state);
  c.probe_degC = state.probe_degC;
  c.evaporator_degC = state.evaporator_degC;
  return c;
}

LoadCommands last_wanted(const PlantState& state) {
  if (state.circuit.seen_bits == CircuitState::nothing_seen) return {};
  const electrics::Switches seen{state.circuit.seen_bits};
  return {seen.is(electrics::Switch::heat_wanted), seen.is(electrics::Switch::drive_wanted),
          seen.is(electrics::Switch::chill_wanted)};
}

void update_circuit(const MachineSpec& spec, PlantState& state, const LoadCommands& wanted) {
  if (spec.circuit.empty()) return;
  CircuitState& c = state.circuit;
  const std::uint32_t bits = switches_of(state, wanted).bits;
  if (!is_old(state, bits)) return;
  c.supplied = electrics::settle_relays(spec.circuit, circuit_inputs(spec, state, wanted), c.gear);
  c.seen_bits = bits;
  c.seen_supply_norm = state.environment.supply_norm;
  c.seen_probe_degC = state.probe_degC;
  c.seen_rad_per_s = state.shaft_rad_per_s;
  c.seen_compressor_W = state.chiller.gauges.compressor_W;
  c.balanced = c.supplied.drive_backward_norm == 0.0 && c.supplied.compressor_backward_norm == 0.0;
  c.fan_on = !(c.supplied.compressor_forward_norm > 0.0) || c.supplied.fan_norm > 0.5;
  read_probe(spec, state);
}

void update_circuit(const MachineSpec& spec, PlantState& state) {
  update_circuit(spec, state, last_wanted(state));
}

void put_inputs(const electrics::Switched& switched, SensorReadings& readings) {
  using I = electrics::Input;
  readings.supply_on = switched.controller_on;
  readings.lid_closed = switched.input(I::lid_closed);
  readings.shaft_cover_closed = switched.input(I::shaft_cover_closed);
  readings.overload_tripped = switched.input(I::overload_tripped);
  readings.cutout_tripped = !switched.input(I::cutout_right);
  readings.pressure_tripped = !switched.input(I::pressure_right);
  readings.emergency_stop_in = !switched.input(I::emergency_stop_right);
}

SensorReadings read_sensors(const MachineSpec& spec, const PlantState& state) {
  SensorReadings readings;
  readings.probe_degC = probe_reading_degC(state);
  put_inputs(spec.circuit.empty() ? chained(state, {}) : electrics::switched(state.circuit.supplied),
             readings);
  return readings;
}

Actuators switch_loads(const MachineSpec& spec, PlantState& state, const LoadCommands& wanted) {
  Actuators out;
  if (spec.circuit.empty()) {
    const electrics::Switched chain = chained(state, wanted);
    const double volts = spec.supply_V / spec.elements.rated_V;
    out.heat_norm = chain.heat ? volts * volts : 0.0;
    out.drive_on = chain.drive;
    out.chiller_on = chain.chill && state.environment.supply_norm > electrics::compressor_least_norm;
    return out;
  }
  update_circuit(spec, state, wanted);
  const electrics::CircuitOutputs& supplied = state.circuit.supplied;
  const electrics::Switched on = electrics::switched(supplied);
  out.heat_norm = supplied.heat_norm;
  out.drive_on = on.drive;
  out.drive_forward_norm = supplied.drive_forward_norm;
  out.drive_backward_norm = supplied.drive_backward_norm;
  out.drive_A = supplied.drive_A;
  out.chiller_on = on.chill;
  return out;
}

electrics::SwitchingTable switching_table(const MachineSpec& spec, const electrics::Switchgear& gear) {
  const PlantState still = initial_state(spec, {});
  return {spec.circuit, circuit_inputs(spec, still, {}), gear};
}

}  // namespace stirbench::plant
