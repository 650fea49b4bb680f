#include "sim_core/faults/safety.h"

#include <array>

namespace stirbench::faults {

namespace {

using Parts = plant::SafetyParts;
using plant::KeyContact;

// In the order of the panel's keys.
constexpr std::size_t heat_key = 0, stir_key = 2, run_key = 3, stop_key = 4;

constexpr std::array<SafetyFault, 19> safety_table{{
    {"lid_reed_stuck", "Lid's reed switch stuck closed",
     "Its contact stays closed: loop and controller take the lid for shut, whatever it does.", false, false,
     [](Parts& p, double) { p.lid_switch_closed = true; }},
    {"lid_magnet_taped", "Magnet taped to the lid's reed switch",
     "The reed sees a magnet always: loop and controller take the lid for shut, whatever it does.", true,
     false, [](Parts& p, double) { p.lid_switch_closed = true; }},
    {"cover_switch_stuck", "Shaft cover's switch stuck closed",
     "Its contact stays closed: loop and controller take the cover for shut, whatever it does.", false, false,
     [](Parts& p, double) { p.cover_switch_closed = true; }},
    {"cover_switch_taped", "Shaft cover's switch held down with tape",
     "The switch is held: loop and controller take the cover for shut, whatever it does.", true, false,
     [](Parts& p, double) { p.cover_switch_closed = true; }},
    {"drive_contactor_welded", "Drive contactor welded closed",
     "The motor stays fed whatever coil, guards and overload relay do. Isolator and emergency stop still cut "
     "it.",
     false, false, [](Parts& p, double) { p.drive_welded = true; }},
    {"heat_contactor_welded", "Heat contactor welded closed",
     "The elements stay fed whatever coil and guards do. Cut-out, isolator and emergency stop still cut "
     "them.",
     false, false, [](Parts& p, double) { p.heat_welded = true; }},
    {"chill_contactor_welded", "Chill contactor welded closed",
     "The compressor stays fed whatever its coil does. Pressure switch, isolator and emergency stop still "
     "cut it.",
     false, false, [](Parts& p, double) { p.chill_welded = true; }},
    {"emergency_contactor_welded", "Emergency-stop contactor welded closed",
     "The emergency stop no longer cuts by itself; the controller still sees the button and lets the other "
     "contactors go.",
     false, false, [](Parts& p, double) { p.emergency_contactor_welded = true; }},
    {"emergency_contact_stuck", "Emergency stop's contact does not open",
     "Neither its contactor nor the controller learns that the button was pressed.", false, false,
     [](Parts& p, double) { p.emergency_contact_closed = true; }},
    {"guard_wire_broken", "Wire of the guard loop broken",
     "A normally closed loop without its feed: both guards read open, drive and heat have no coil voltage.",
     false, false, [](Parts& p, double) { p.guard_wire_broken = true; }},
    {"guard_wire_loose", "Wire of the guard loop loose",
     "Shaken by the drive it opens for a moment, every 30 s at severity 1, every 300 s at 0.1.", false, true,
     [](Parts& p, double severity) { p.guard_wire_loose_s = 30.0 / severity; }},
    {"cutout_bridged", "Heater cut-out bridged with a wire",
     "The cut-out neither breaks the elements' line nor reports.", true, false,
     [](Parts& p, double) { p.cutout_bridged = true; }},
    {"overload_stuck", "Overload relay's contact stuck",
     "It heats up but does not open: the motor is not protected.", false, false,
     [](Parts& p, double) { p.overload_stuck = true; }},
    {"pressure_switch_stuck", "Pressure switch stuck closed",
     "It does not open: the compressor is not protected.", false, false,
     [](Parts& p, double) { p.pressure_stuck = true; }},
    {"stop_key_dead", "Stop key's contact does not close",
     "The controller does not learn that Stop was pressed.", false, false,
     [](Parts& p, double) { p.keys[stop_key] = KeyContact::dead; }},
    {"stop_key_stuck", "Stop key stuck down",
     "The controller sees Stop held: nothing clears, nothing starts.", false, false,
     [](Parts& p, double) { p.keys[stop_key] = KeyContact::stuck_down; }},
    {"heat_key_stuck", "Heat key stuck down",
     "The controller sees Heat held; only a fresh press would count.", false, false,
     [](Parts& p, double) { p.keys[heat_key] = KeyContact::stuck_down; }},
    {"stir_key_stuck", "Stir key stuck down",
     "The controller sees Stir held; only a fresh press would count.", false, false,
     [](Parts& p, double) { p.keys[stir_key] = KeyContact::stuck_down; }},
    {"run_key_stuck", "Run key stuck down", "The controller sees Run held; only a fresh press would count.",
     false, false, [](Parts& p, double) { p.keys[run_key] = KeyContact::stuck_down; }},
}};

}  // namespace

std::span<const SafetyFault> safety_faults() { return safety_table; }

const SafetyFault* find_safety_fault(std::string_view id) {
  for (const SafetyFault& fault : safety_table) {
    if (fault.id == id) return &fault;
  }
  return nullptr;
}

std::string inject_safety_fault(plant::PlantState& state, std::string_view id, double severity) {
  const SafetyFault* fault = find_safety_fault(id);
  if (fault == nullptr) return "there is no fault \"" + std::string(id) + "\"";
  // Written so that a value that is not a number is refused too.
  if (!(severity > 0.0 && severity <= 1.0)) {
    return std::string(id) + ": expected a severity above 0, at most 1, found " + std::to_string(severity);
  }
  fault->apply(state.safety, severity);
  return {};
}

}  // namespace stirbench::faults
