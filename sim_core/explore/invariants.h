#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "sim_core/control/controller.h"
#include "sim_core/electrics/switching.h"

// What must always be so, by name: one judge for the exploration of all states and for the watch beside a
// run. It looks at what is true (where the lid is, which finger is down, what has power), not at what
// switches report: a broken safety part shows as a broken invariant. Drawn from the rules that
// control/controller.h and plant/wiring/switching.h state.
namespace stirbench::explore {

enum class Invariant : std::uint8_t {
  no_motion_with_guard_open,  // the drive has no power: what turns stops within the stopping time
  no_heat_with_guard_open,
  no_heat_without_circulation,
  no_restart_without_start_key,  // power or a command appears only when a finger freshly presses a start key
  no_start_while_alarm_stands,
  start_only_with_stop_up,
  one_start_key_at_a_time,
  stop_stops,  // while Stop is down nothing has power and nothing is commanded
  no_clear_with_cause_present,
  clear_only_on_stop_release,
  clear_needs_fresh_stop,  // pressed while no cause was present, and none came back
  reset_starts_nothing,
  closing_guard_starts_nothing,
  interruption_is_told,  // what interrupts a run latches its alarm
  emergency_stop_cuts_all,
  emergency_release_starts_nothing,
  power_return_starts_nothing,
  power_return_is_told,
  no_power_without_supply,
  overload_takes_drive,
  cutout_takes_heat,
  pressure_takes_chill,
  controller_lets_go,  // of the controller alone: nothing is commanded while a cause is present
  no_heat_command_without_drive,
  guard_wiring_alone,  // of the wiring alone, with everything commanded
  emergency_wiring_alone,
  supply_wiring_alone,
  protection_wiring_alone,
  heat_wiring_alone,
  alarm_life_by_table,  // alarms change state only as the table in control/alarms.h allows
  way_back_to_running,  // from any state: remove the causes, clear, start
  count
};
inline constexpr std::size_t invariant_count = static_cast<std::size_t>(Invariant::count);
std::string_view invariant_id(Invariant invariant);     // "no_motion_with_guard_open"
std::string_view invariant_words(Invariant invariant);  // the sentence for people
int find_invariant(std::string_view id);

using InvariantSet = std::uint64_t;  // one bit each
constexpr InvariantSet invariant_bit(Invariant invariant) {
  return InvariantSet{1} << static_cast<unsigned>(invariant);
}

// What is true after one scan.
struct GroundTruth {
  bool lid_open = false, cover_open = false;
  bool stop_in = false;  // the emergency stop's button
  bool fed = true;       // supply present and isolator on
  bool overload = false, cutout = false,
       pressure = false;  // the cause itself: overcurrent, too hot, out of range
  std::array<bool, control::key_count> finger{};
  bool drive = false, heat = false, chill = false;  // power at the loads
  bool drive_asked = false, heat_asked = false, chill_asked = false;
  bool commanded = false;  // the mode runs something
  // What wiring would let through with everything commanded, and with heat alone commanded.
  bool wired_drive = false, wired_heat = false, wired_chill = false, wired_heat_alone = false;
  std::array<control::Alarm, control::alarm_count> alarms{};
  // Stop is down, was freshly pressed with supply and without any cause, and so it has stayed; set by the
  // judge.
  bool honest_stop = false;

  bool guard_open() const { return lid_open || cover_open; }
  bool any_cause() const { return guard_open() || stop_in || overload || cutout || pressure; }
  bool any_power() const { return drive || heat || chill; }
  bool finger_on(control::Key key) const { return finger[static_cast<std::size_t>(key)]; }
};

// Fills in what wiring alone would do with the switches as they stand, whatever of them is wanted.
void evaluate_wiring(GroundTruth& scene, electrics::SwitchingTable& wiring, electrics::Switches switches);

// Judges one scan: sets now.honest_stop and returns what is broken. `before` is the scene of the scan before.
InvariantSet judge(const GroundTruth& before, GroundTruth& now);

}  // namespace stirbench::explore
