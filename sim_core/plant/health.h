#pragma once

#include <cstdint>

#include "sim_core/electrics/circuit_state.h"

// The mechanical and electrical health that faults change. The initialisers are a sound machine: with them
// every equation gives the same result, to the last bit, as it would without this struct.
namespace stirbench::plant {

struct Health {
  double element_contact_norm = 1.0;  // heat path from elements to the well's wall
  double insulation_factor = 1.0;     // of the losses through it
  double lid_leak_factor = 1.0;       // of the vapour that passes the closed lid
  double agitator_grip_norm = 1.0;    // share of the shaft's turning that the agitator takes
  double gear_drag_Nm = 0.0;          // at the agitator's shaft
  double bushing_friction_factor = 1.0;
  double pump_norm = 1.0;  // displacement
  double slip_factor = 1.0;
  double loop_loss_factor = 1.0;
  double air_leak_norm = 0.0;   // air that the pump draws in
  double draw_bore_norm = 1.0;  // free area of the draw valve
  double draw_leak_norm = 0.0;  // free area when it is shut
  double overload_setting_norm = 1.0;
  double cutout_offset_K = 0.0;
  double probe_air_norm = 0.0;  // share of the room's air in what the probe feels
  double probe_tau_factor = 1.0;
  double panel_offset_K = 0.0;
  double condenser_air_K = 0.0;
  double thickness_factor = 1.0;  // on the consistency of the product
  double pour_factor = 1.0;
  double pour_warm_K = 0.0;
  double soil_log10 = 0.0;  // growth carried in by old product
  double rinse_norm = 1.0;
  double seal_gap_norm = 0.0;  // of the shaft's seal, over that of one that is worn out
};

// The circuit's memory, its outputs, and the inputs that they were computed for.
struct CircuitState {
  electrics::Switchgear gear;
  electrics::CircuitOutputs supplied;
  double probe_offset_K = 0.0;  // what a faulty sensor circuit adds to the probe's temperature
  bool fan_on = true;           // condenser's fan has voltage
  bool exact_probe = true;      // the sensor circuit is sound
  bool balanced = true;         // all motors see three equal lines
  static constexpr std::uint32_t nothing_seen = 0xffffffffU;
  std::uint32_t seen_bits = nothing_seen;  // switches and demands
  double seen_supply_norm = -1.0;
  double seen_probe_degC = 0.0;
  double seen_rad_per_s = 0.0;
  double seen_compressor_W = 0.0;
};

// A fault of content in the machine: hash of its id, severity, and whether it is present (intermittent faults
// come and go).
struct ActiveFault {
  std::uint64_t mark = 0;
  double severity = 0.0;
  bool there = false;
};

}  // namespace stirbench::plant
