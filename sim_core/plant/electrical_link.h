#pragma once

#include "sim_core/electrics/circuit_state.h"
#include "sim_core/electrics/switching.h"
#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// The electrical link, between the plant and the machine's circuit: what the machine's parts are to the
// network, and what loads and controller get from it. Nobody else decides what has power or what the
// controller reads.
namespace stirbench::plant {

// What the controller's program wants switched on.
struct LoadCommands {
  bool heat = false;
  bool drive = false;
  bool chill = false;
};

// The drive's admittances at its speed: load and magnetising part of motor_current_A at slip s and, for the
// backward field, at 2 - s. Both at nominal voltage and at the supply's frequency.
electrics::MotorLoad drive_load(const MachineSpec& spec, const PlantState& state);
// The compressor's: real power and idle current while it runs, a still motor's otherwise (forward equals
// backward, five times the idle current: choice).
electrics::MotorLoad compressor_load(const MachineSpec& spec, const PlantState& state);

// Where every switch stands: the one place that says what hands, trips and broken safety parts are to the
// wiring.
electrics::Switches switches_of(const PlantState& state, const LoadCommands& wanted);
// Everything outside the circuit that decides how it conducts.
electrics::CircuitInputs circuit_inputs(const MachineSpec& spec, const PlantState& state,
                                        const LoadCommands& wanted);
// What the controller wanted when the circuit was last looked at; nothing before the first time.
LoadCommands last_wanted(const PlantState& state);

// Lets the circuit come to rest for the state as it is; does nothing when no switch, want, voltage or
// temperature that counts has changed since the last time. Without a circuit it does nothing.
void update_circuit(const MachineSpec& spec, PlantState& state, const LoadCommands& wanted);
// The same with what was wanted the last time: when hands may have moved a switch.
void update_circuit(const MachineSpec& spec, PlantState& state);

// What the controller reads: the probe, and its inputs as the circuit was last left. A pure function of the
// state.
SensorReadings read_sensors(const MachineSpec& spec, const PlantState& state);
// What the answer of a wiring is as the controller's inputs.
void put_inputs(const electrics::Switched& switched, SensorReadings& readings);

// What the loads get for what is wanted: lets the circuit come to rest and reads it. A machine without a
// circuit is switched by electrics::switching_chain().
Actuators switch_loads(const MachineSpec& spec, PlantState& state, const LoadCommands& wanted);

// Answers about this machine's wiring at nominal supply, its motors at rest (spec.circuit has to outlive the
// table).
electrics::SwitchingTable switching_table(const MachineSpec& spec, const electrics::Switchgear& gear = {});

}  // namespace stirbench::plant
