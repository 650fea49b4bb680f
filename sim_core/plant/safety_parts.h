#pragma once

#include <array>
#include <cstdint>

// The safety parts as they are wired, and what can be wrong with them. The wiring (a choice of this project,
// common practice for a small machine):
//
//   supply - isolator -+- control transformer - controller, display, coils
//                      '- emergency-stop contactor -+- drive contactor - overload relay - motor
//                                                   +- heat contactor  - cut-out        - elements
//                                                   '- chill contactor - pressure switch - compressor
//
//  * Emergency stop: one contact, which opens when the button is pressed. It feeds the controller's input and
//    the coil of the emergency-stop contactor, which cuts all three loads whatever their own contactors do.
//    Controller, display, control circuit and the supply terminals stay live: an emergency stop is not
//    isolation.
//  * Guard loop: one feed wire runs to the lid's reed switch and to the shaft cover's switch. The coils of
//    the drive and heat contactors are fed through both in series; the controller reads each. A broken wire
//    reads as both guards open.
//  * Overload relay: its contact is in the circuit of the drive contactor's coil. It cannot stop a drive
//    whose contactor is welded.
//  * Cut-out and pressure switch break the supply of elements and compressor directly, behind their
//    contactors.
//  * The heat contactor's coil is fed through an auxiliary contact of the drive contactor: no heat unless the
//    drive is on.
//  * The isolator is upstream of everything.
namespace stirbench::plant {

enum class KeyContact : std::uint8_t { good, stuck_down, dead };
inline constexpr std::size_t panel_keys = 6;  // heat, chill, stir, run, stop, rinse

struct SafetyParts {
  bool emergency_stop_in = false;          // the button is pressed and latched: its position, not a fault
  // What is wrong. The initialisers are sound parts.
  bool lid_switch_closed = false;          // the reed always reads closed: contact stuck, or a magnet taped to it
  bool cover_switch_closed = false;
  bool guard_wire_broken = false;
  double guard_wire_loose_s = 0.0;         // opens for 0.3 s each time the drive has turned this long; 0: sound
  double guard_wire_shaken_s = 0.0;        // turned since it last opened
  bool drive_welded = false;               // contactors that stay closed whatever their coils do
  bool heat_welded = false;
  bool chill_welded = false;
  bool emergency_contactor_welded = false;
  bool emergency_contact_closed = false;   // the button's contact does not open
  bool cutout_bridged = false;             // by a wire: it neither breaks the line nor reports
  bool overload_stuck = false;             // its contact does not open
  bool pressure_stuck = false;
  std::array<KeyContact, panel_keys> keys{};

  static constexpr double loose_open_s = 0.3;
  bool guard_wire_open() const {
    return guard_wire_broken || (guard_wire_loose_s > 0.0 && guard_wire_shaken_s >= guard_wire_loose_s);
  }
  bool emergency_contact_open() const { return emergency_stop_in && !emergency_contact_closed; }
};

}  // namespace stirbench::plant
