#pragma once

#include <array>
#include <cstdint>

// The parts that keep people safe, as they are wired, and what may be wrong with them. The wiring (a choice of this project, common
// practice for a small machine):
//
//   supply - isolator -+- control transformer - controller, display, coils
//                      '- emergency-stop contactor -+- drive contactor - overload relay - motor
//                                                   +- heat contactor  - cut-out        - elements
//                                                   '- chill contactor - pressure switch - compressor
//
//  * Emergency stop: one contact that opens when the button goes in. It feeds the coil of the emergency-stop contactor, which cuts all three
//    loads whatever their own contactors do, and the controller's input. Controller, display and control circuit stay fed, and so do the
//    supply terminals: an emergency stop is no isolation.
//  * Guard loop: one feed wire runs to the lid's reed and to the shaft cover's switch. The coils of drive and heat hang behind both in
//    series, the controller reads each. A wire that breaks reads as both guards open.
//  * Overload relay: its contact lies in the drive contactor's coil. A welded drive contactor goes on over it.
//  * Cut-out and pressure switch break the line of elements and compressor themselves, past their contactors.
//  * The heat contactor's coil is fed over an auxiliary contact of the drive contactor: no heat while the drive is not switched on.
//  * The isolator is before everything.
namespace stirbench::plant {

enum class KeyContact : std::uint8_t { good, stuck_down, dead };
inline constexpr std::size_t panel_keys = 6;  // heat, chill, stir, run, stop, rinse

struct SafetyParts {
  bool emergency_stop_in = false;          // the button is pressed and latched: where hands have put it, no fault
  // What is wrong. The initialisers are sound parts.
  bool lid_switch_closed = false;          // the reed reads closed whatever the lid does: contact stuck, or a magnet taped to it
  bool cover_switch_closed = false;
  bool guard_wire_broken = false;
  double guard_wire_loose_s = 0.0;         // the wire opens for 0.3 s each time the drive has turned so long; 0: it is sound
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
