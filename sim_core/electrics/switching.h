#pragma once

#include <cstdint>
#include <vector>

#include "sim_core/electrics/circuit_state.h"

// What comes of the switches: the yes and no of a circuit, without its volts. The circuit decides. A
// SwitchingTable looks its answers up and keeps them; switching_chain() says the same in a few lines, for a
// machine whose circuit nobody has drawn. That it says the same as the shipped circuits is tested for every
// combination of the switches, with and without supply (tests/app/library/switching_test.cpp).
namespace stirbench::electrics {

// At nominal supply voltage.
struct Switched {
  bool controller_on = false;
  std::array<bool, input_count> inputs{};           // false while the controller is off
  bool heat = false, drive = false, chill = false;  // power at the loads

  bool input(Input one) const { return inputs[static_cast<std::size_t>(one)]; }
  bool operator==(const Switched&) const = default;
};

// Below this share of its nominal voltage, or with this much of a backward field, a compressor motor neither
// starts nor keeps turning: its protector opens (choice; about what such motors stand).
inline constexpr double compressor_least_norm = 0.7;
inline constexpr double compressor_backward_norm = 0.10;
// From this share of its nominal voltage on the drive's motor counts as fed.
inline constexpr double drive_least_norm = 0.05;

// The yes and no of a solved circuit.
Switched switched(const CircuitOutputs& supplied);

// The wiring as a chain (common practice for a small machine):
//
//   supply - isolator -+- control transformer - controller, display, coils
//                      '- emergency-stop contactor -+- drive contactor - overload relay - motor
//                                                   +- heat contactor  - cut-out        - elements
//                                                   '- chill contactor - pressure switch - compressor
//
//  * Emergency stop: one contact feeds the coil of the emergency-stop contactor, which cuts all three loads
//    whatever their own contactors do; the other is the controller's input. Controller, display and control
//    circuit stay fed, and so do the supply terminals: an emergency stop is no isolation.
//  * Guard loop: the coils of drive and heat hang behind both guards in series; the controller reads each
//    guard by a contact of its own.
//  * Overload relay: its contact lies in the drive contactor's coil. A welded drive contactor goes on over
//    it.
//  * Cut-out and pressure switch break the line of elements and compressor themselves, past their contactors.
//  * The heat contactor's coil is fed over an auxiliary contact of the drive contactor: no heat while the
//    drive is not switched on.
//  * The isolator is before everything.
Switched switching_chain(Switches switches, bool supply_there = true);

// The answers of one circuit, each solved when it is first asked for, from relays at rest, and then kept.
// Without a network: the chain's. `loads` gives the motors' admittances and the supply; `gear` the defects
// that the circuit has. `network` has to outlive the table.
class SwitchingTable {
 public:
  SwitchingTable(const Network& network, const CircuitInputs& loads, const Switchgear& gear = {});
  Switched of(Switches switches);
  std::uint32_t solved() const { return solved_; }  // how many combinations were asked for so far

 private:
  const Network* network_;
  CircuitInputs loads_;
  Switchgear gear_;
  std::vector<std::uint16_t>
      known_;  // by the switches' bits: the answer's own bits, 0 when it is not known yet
  std::uint32_t solved_ = 0;
};

}  // namespace stirbench::electrics
