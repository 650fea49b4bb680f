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

// Everything outside the circuit that decides how it conducts.
wiring::Conditions circuit_conditions(const MachineSpec& spec, const PlantState& state, const Demand& demand);

}  // namespace stirbench::plant
