#include "sim_core/plant/circuit_link.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim_core/plant/drive.h"
#include "sim_core/plant/wiring/sensors.h"
#include "sim_core/plant/wiring/solve.h"

namespace stirbench::plant {
namespace {

constexpr std::uint32_t heat_bit = 1U, drive_bit = 2U, chill_bit = 4U;

// Guards as their switches show them.
bool lid_reads_closed(const PlantState& s) {
  return !s.safety.guard_wire_open() && (!s.fittings.lid_open || s.safety.lid_switch_closed);
}
bool cover_reads_closed(const PlantState& s) {
  return !s.safety.guard_wire_open() && (!s.fittings.shaft_cover_open || s.safety.cover_switch_closed);
}

// All switch positions as one number; needed twice a tick, so it allocates nothing.
std::uint32_t switch_bits(const PlantState& s, const Demand& d) {
  const auto bit = [](bool on, unsigned place) { return on ? 1U << place : 0U; };
  const SafetyParts& parts = s.safety;
  return (d.heat ? heat_bit : 0U) | (d.drive ? drive_bit : 0U) | (d.chill ? chill_bit : 0U) | bit(s.fittings.isolator_on, 3) |
         bit(lid_reads_closed(s), 4) | bit(cover_reads_closed(s), 5) | bit(s.cutout_tripped, 6) | bit(s.overload_tripped, 7) |
         bit(s.pressure_tripped, 8) | bit(parts.emergency_contact_open(), 9) | bit(parts.heat_welded, 10) | bit(parts.drive_welded, 11) |
         bit(parts.chill_welded, 12) | bit(parts.emergency_contactor_welded, 13);
}

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
  const int part = spec.circuit.by_role(wiring::PartKind::pt100, wiring::Role::probe);
  const double Ohm_at_0 = spec.circuit.parts[static_cast<std::size_t>(part)].dc_Ohm;
  const double right_Ohm = wiring::pt_Ohm(Ohm_at_0, s.probe_degC);
  c.exact_probe = !c.supplied.controller_on || std::abs(c.supplied.probe_Ohm - right_Ohm) < 1.0e-7 * right_Ohm;
  // A controller's display ends at these (choice).
  const double read_degC = std::clamp(wiring::pt_degC(Ohm_at_0, c.supplied.probe_Ohm), -60.0, 250.0);
  c.probe_offset_K = c.exact_probe ? 0.0 : read_degC - s.probe_degC;
}

}  // namespace

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

wiring::Conditions safety_conditions(const PlantState& state) {
  wiring::Conditions c;
  c.isolator_on = state.fittings.isolator_on;
  c.lid_closed = lid_reads_closed(state);
  c.shaft_cover_closed = cover_reads_closed(state);
  c.emergency_stop_in = state.safety.emergency_contact_open();
  c.heat_welded = state.safety.heat_welded;
  c.drive_welded = state.safety.drive_welded;
  c.chill_welded = state.safety.chill_welded;
  c.emergency_welded = state.safety.emergency_contactor_welded;
  c.cutout_tripped = state.cutout_tripped;
  c.overload_tripped = state.overload_tripped;
  c.pressure_tripped = state.pressure_tripped;
  return c;
}

wiring::Conditions circuit_conditions(const MachineSpec& spec, const PlantState& state, const Demand& demand) {
  wiring::Conditions c = safety_conditions(state);
  c.supply_norm = state.environment.supply_norm;
  c.heat = demand.heat;
  c.drive = demand.drive;
  c.chill = demand.chill;
  c.drive_motor = drive_load(spec, state);
  c.compressor = compressor_load(spec, state);
  c.probe_degC = state.probe_degC;
  c.evaporator_degC = state.evaporator_degC;
  return c;
}

void follow_circuit(const MachineSpec& spec, PlantState& state, const Demand& demand) {
  if (spec.circuit.empty()) return;
  CircuitState& c = state.circuit;
  const std::uint32_t bits = switch_bits(state, demand);
  if (!is_old(state, bits)) return;
  c.supplied = wiring::settle(spec.circuit, circuit_conditions(spec, state, demand), c.gear);
  c.seen_bits = bits;
  c.seen_supply_norm = state.environment.supply_norm;
  c.seen_probe_degC = state.probe_degC;
  c.seen_rad_per_s = state.shaft_rad_per_s;
  c.seen_compressor_W = state.chiller.gauges.compressor_W;
  c.balanced = c.supplied.drive_backward_norm == 0.0 && c.supplied.compressor_backward_norm == 0.0;
  c.fan_on = !(c.supplied.compressor_forward_norm > 0.0) || c.supplied.fan_norm > 0.5;
  read_probe(spec, state);
}

void follow_circuit(const MachineSpec& spec, PlantState& state) {
  const std::uint32_t bits = state.circuit.seen_bits;
  const bool seen = bits != CircuitState::nothing_seen;
  follow_circuit(spec, state,
                 {seen && (bits & heat_bit) != 0U, seen && (bits & drive_bit) != 0U, seen && (bits & chill_bit) != 0U});
}

Actuators circuit_actuators(const MachineSpec&, const PlantState& state) {
  const wiring::Supplied& s = state.circuit.supplied;
  Actuators out;
  out.heat_norm = s.heat_norm;
  out.drive_on = s.drive_forward_norm > 0.05;
  out.drive_forward_norm = s.drive_forward_norm;
  out.drive_backward_norm = s.drive_backward_norm;
  out.drive_A = s.drive_A;
  // A compressor motor does not start or keep turning on less than about 70 % of its voltage, nor on two
  // lines: its protector opens.
  out.chiller_on = s.compressor_forward_norm > 0.7 && s.compressor_backward_norm < 0.10;
  return out;
}

void read_circuit(const MachineSpec& spec, const PlantState& state, Readings& readings) {
  if (spec.circuit.empty()) return;
  const wiring::Supplied& s = state.circuit.supplied;
  readings.supply_on = s.controller_on;
  readings.lid_closed = s.inputs[0];
  readings.shaft_cover_closed = s.inputs[1];
  readings.overload_tripped = s.inputs[2];
  readings.cutout_tripped = !s.inputs[3];
  readings.pressure_tripped = !s.inputs[4];
  readings.emergency_stop_in = !s.inputs[5];
}

}  // namespace stirbench::plant
