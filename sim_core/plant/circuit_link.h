#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"
#include "sim_core/plant/wiring/circuit_state.h"

// Between the plant and its circuit: what the machine's parts are to the network.
namespace stirbench::plant {

// What the controller's program wants switched on.
struct Demand {
  bool heat = false;
  bool drive = false;
  bool chill = false;
};

// The drive's admittances at its speed: load and magnetising part of motor_current_A at slip s and, for the backward field, at 2 - s.
// Both at nominal voltage and at the supply's frequency.
wiring::MotorLoad drive_load(const MachineSpec& spec, const PlantState& state);
// The compressor's: real power and idle current while it runs, a still motor's otherwise (forward equals backward, five times the idle
// current: choice).
wiring::MotorLoad compressor_load(const MachineSpec& spec, const PlantState& state);

// What switches stand on and off outside the controller.
wiring::Conditions safety_conditions(const PlantState& state);
// Everything outside the circuit that decides how it conducts.
wiring::Conditions circuit_conditions(const MachineSpec& spec, const PlantState& state, const Demand& demand);

// Lets the circuit come to rest for the state as it is; does nothing when no switch, demand, voltage or temperature that counts has changed since
// the last time. Without a circuit it does nothing.
void follow_circuit(const MachineSpec& spec, PlantState& state, const Demand& demand);
// The same with the demand of the last time: when hands may have moved a switch.
void follow_circuit(const MachineSpec& spec, PlantState& state);

// What plant and controller get.
Actuators circuit_actuators(const MachineSpec& spec, const PlantState& state);
// Puts into `readings` what arrives at the controller's inputs; nothing without a circuit.
void read_circuit(const MachineSpec& spec, const PlantState& state, Readings& readings);

}  // namespace stirbench::plant
