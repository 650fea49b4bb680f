#pragma once

#include <array>
#include <complex>
#include <cstdint>
#include <vector>

#include "sim_core/electrics/diagram.h"
#include "sim_core/electrics/switches.h"

// What decides how current flows, and what comes of it.
namespace stirbench::electrics {

// One thing that is wrong in the circuit.
enum class DefectKind : std::uint8_t {
  none,
  wire_Ohm,           // a wire of `value` Ohm: loose or corroded joint; from 1e9 Ohm on it is broken
  stuck_open,         // contact `pole` of part `target` does not close
  stuck_closed,       // it has welded
  contact_Ohm,        // it closes, through `value` Ohm
  resistance_factor,  // winding, element, coil or sensor: `value` times what it should be; from 1e6 on it is
                      // broken
  leak_Ohm,           // terminal `target` to earth
  bridge_Ohm,         // terminal `target` to terminal `pole`, `value` Ohm
  dead,               // controller without function
  count
};
// Poles of a contactor, breaker, isolator, guard: 0, 1, ...; of an overload 0 is 95-96, 1 is 97-98; of a
// controller 0..2 are the outputs heat, drive, chill. resistance_factor: pole 0 the part itself or phase U /
// primary, 1 phase V / secondary, 2 phase W; a contactor's coil is 0; of a controller 0 .. 5 are the inputs.
struct Defect {
  DefectKind kind = DefectKind::none;
  std::uint16_t target = 0;  // wire, part or terminal, by `kind`
  std::uint16_t pole = 0;
  double value = 0.0;
};
inline constexpr std::size_t most_defects = 12;

// What a motor is to the network: admittance of a phase (star) in the positive and in the negative sequence.
struct MotorLoad {
  std::complex<double> forward_S;
  std::complex<double> backward_S;
  bool operator==(const MotorLoad&) const = default;
};

// What the outside gives.
struct CircuitInputs {
  double supply_norm = 1.0;  // 0: no supply
  Switches switches;
  MotorLoad drive_motor;
  MotorLoad compressor;
  double probe_degC = 22.0;
  double evaporator_degC = 22.0;
  bool operator==(const CircuitInputs&) const = default;
};

// Memory of the switchgear: one bit a part.
struct Switchgear {
  std::uint64_t pulled_in = 0;  // contactors; the controller when it works
  std::uint64_t tripped = 0;    // breakers
  std::array<Defect, most_defects> defects{};
  std::uint32_t defect_count = 0;

  bool is_in(int part) const { return (pulled_in >> static_cast<unsigned>(part) & 1U) != 0; }
  bool is_tripped(int part) const { return (tripped >> static_cast<unsigned>(part) & 1U) != 0; }
  bool add(const Defect& defect) {
    if (defect_count >= most_defects) return false;
    defects[defect_count++] = defect;
    return true;
  }
};

using Phasor = std::complex<double>;

// Phasors (effective values) of one solution of the alternating part, or values of the direct part.
struct Solution {
  std::vector<Phasor> volt;    // by terminal, against the supply's earth
  std::vector<Phasor> wire_A;  // by wire, from -> to
  std::vector<Phasor> out_A;   // by terminal: current that leaves into the part by it
};

// The controller's inputs I1 .. I6: true with 24 V at the terminal.
enum class Input : std::uint8_t {
  lid_closed,
  shaft_cover_closed,
  overload_tripped,
  cutout_right,
  pressure_right,
  emergency_stop_right,
  count
};
inline constexpr std::size_t input_count = static_cast<std::size_t>(Input::count);

// What the plant and the controller get from the circuit.
struct CircuitOutputs {
  double heaters_W = 0.0;
  double heat_norm = 0.0;           // heaters_W over the rated power of all at the supply's present voltage
  double drive_forward_norm = 0.0;  // sequence voltages at the motor over the nominal phase voltage
  double drive_backward_norm = 0.0;
  double drive_A = 0.0;  // greatest line current
  double compressor_forward_norm = 0.0;
  double compressor_backward_norm = 0.0;
  double fan_norm = 0.0;  // voltage over the rated one
  bool controller_on = false;
  std::array<bool, input_count> inputs{};
  double probe_Ohm = 0.0;  // as the controller finds it
  double evaporator_Ohm = 0.0;
  bool settled = true;  // the relays came to rest

  bool input(Input one) const { return inputs[static_cast<std::size_t>(one)]; }
};

}  // namespace stirbench::electrics
