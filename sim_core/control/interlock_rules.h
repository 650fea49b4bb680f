#pragma once

#include <array>
#include <cstdint>
#include <string_view>

// The interlock rules of the scan, each by a name; those of the wiring are in its circuit. Exploration and
// its tests take one out at a time to show that it would be missed; a machine that people meet always has
// them all (ScanContext::without is 0).
namespace stirbench::control {

enum class InterlockRule : std::uint8_t {
  emergency_stop_seen,
  lid_seen,
  shaft_cover_seen,
  overload_seen,
  cutout_seen,
  pressure_seen,
  causes_stop,   // what stands stops all
  guards_latch,  // a guard that interrupts something latches
  latch_stays,   // a cause that goes away clears nothing
  clear_wants_causes_right,
  cause_spoils_press,  // one that comes back while Stop is down
  clear_wants_fresh_press,
  clear_on_release,
  clear_starts_nothing,
  stop_stops,
  stop_acknowledges,
  alarms_refuse_start,
  stop_down_refuses_start,
  one_start_key,
  start_wants_fresh_press,
  return_starts_nothing,  // of the supply
  return_latches,
  keys_watched_without_supply,
  heat_commands_drive,
  count
};
inline constexpr std::size_t interlock_rule_count = static_cast<std::size_t>(InterlockRule::count);
std::string_view interlock_rule_name(InterlockRule rule);  // "clear_on_release"

// Rules left out, one bit each.
using OmittedRules = std::uint64_t;
constexpr OmittedRules omitting(InterlockRule rule) { return OmittedRules{1} << static_cast<unsigned>(rule); }
constexpr bool in_force(OmittedRules left_out, InterlockRule rule) {
  return (left_out & omitting(rule)) == 0;
}

}  // namespace stirbench::control
