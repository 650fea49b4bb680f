#pragma once

#include <array>
#include <cstdint>

// The parts that keep people safe, and what may be wrong with them. How they are wired is the circuit's
// (content/circuits/ID.json, drawn in words at electrics::switching_chain); what they are to it says
// switches_of() in plant/electrical_link.h.
namespace stirbench::plant {

enum class KeyContact : std::uint8_t { good, stuck_down, dead };
inline constexpr std::size_t panel_keys = 6;  // heat, chill, stir, run, stop, rinse

struct SafetyParts {
  bool emergency_stop_in = false;  // the button is pressed and latched: its position, not a fault
  // What is wrong. The initialisers are sound parts.
  bool lid_switch_closed = false;  // the reed always reads closed: contact stuck, or a magnet taped to it
  bool cover_switch_closed = false;
  bool guard_wire_broken = false;
  double guard_wire_loose_s = 0.0;   // opens for 0.3 s each time the drive has turned this long; 0: sound
  double guard_wire_shaken_s = 0.0;  // turned since it last opened
  bool drive_welded = false;         // contactors that stay closed whatever their coils do
  bool heat_welded = false;
  bool chill_welded = false;
  bool emergency_contactor_welded = false;
  bool emergency_contact_closed = false;  // the button's contact does not open
  bool cutout_bridged = false;            // by a wire: it neither breaks the line nor reports
  bool overload_stuck = false;            // its contact does not open
  bool pressure_stuck = false;
  std::array<KeyContact, panel_keys> keys{};

  static constexpr double loose_open_s = 0.3;
  bool guard_wire_open() const {
    return guard_wire_broken || (guard_wire_loose_s > 0.0 && guard_wire_shaken_s >= guard_wire_loose_s);
  }
  bool emergency_contact_open() const { return emergency_stop_in && !emergency_contact_closed; }
};

}  // namespace stirbench::plant
