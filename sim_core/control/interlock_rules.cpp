#include "sim_core/control/interlock_rules.h"

namespace stirbench::control {

std::string_view interlock_rule_name(InterlockRule rule) {
  constexpr std::array<std::string_view, interlock_rule_count> names{"emergency_stop_seen",
                                                                     "lid_seen",
                                                                     "shaft_cover_seen",
                                                                     "overload_seen",
                                                                     "cutout_seen",
                                                                     "pressure_seen",
                                                                     "causes_stop",
                                                                     "guards_latch",
                                                                     "latch_stays",
                                                                     "clear_wants_causes_right",
                                                                     "cause_spoils_press",
                                                                     "clear_wants_fresh_press",
                                                                     "clear_on_release",
                                                                     "clear_starts_nothing",
                                                                     "stop_stops",
                                                                     "stop_acknowledges",
                                                                     "alarms_refuse_start",
                                                                     "stop_down_refuses_start",
                                                                     "one_start_key",
                                                                     "start_wants_fresh_press",
                                                                     "return_starts_nothing",
                                                                     "return_latches",
                                                                     "keys_watched_without_supply",
                                                                     "heat_commands_drive"};
  return names[static_cast<std::size_t>(rule)];
}

}  // namespace stirbench::control
