#include "sim_core/explore/promela.h"

#include <algorithm>
#include <array>

namespace stirbench::explore {

namespace {

constexpr std::array<std::string_view, 17> rules{"emergency_stop_seen",
                                                 "lid_seen",
                                                 "shaft_cover_seen",
                                                 "overload_seen",
                                                 "causes_stop",
                                                 "guards_latch",
                                                 "latch_stays",
                                                 "clear_wants_causes_right",
                                                 "cause_spoils_press",
                                                 "clear_wants_fresh_press",
                                                 "clear_on_release",
                                                 "clear_starts_nothing",
                                                 "stop_stops",
                                                 "alarms_refuse_start",
                                                 "stop_down_refuses_start",
                                                 "start_wants_fresh_press",
                                                 "return_starts_nothing"};

constexpr std::array<std::string_view, 13> invariants{"no_motion_with_guard_open",
                                                      "no_restart_without_start_key",
                                                      "no_start_while_alarm_stands",
                                                      "start_only_with_stop_up",
                                                      "stop_stops_all",
                                                      "no_clear_with_cause_present",
                                                      "clear_only_on_stop_release",
                                                      "clear_needs_fresh_stop",
                                                      "reset_starts_nothing",
                                                      "interruption_is_told",
                                                      "emergency_stop_cuts_all",
                                                      "controller_lets_go",
                                                      "power_return_starts_nothing"};

constexpr std::string_view head =
    R"(/* Stopping and starting of the mixer's controller. Check: spin -a FILE && cc -o pan pan.c && ./pan -E
   World: lid, shaft cover, emergency stop, overload, supply, a finger on Stop and one on Stir. One thing changes, then the controller scans. */
)";

constexpr std::string_view body = R"(
bool lid, cover, stop_in, overload, fed = true;          /* true: open, off, pressed, tripped, there */
bool finger_stop, finger_stir;
bool moves, had_supply = true, armed;                    /* the controller's memory */
bool key_stop, key_stir;
bool latched_lid, latched_cover, latched_stop, latched_overload, latched_power;
bool drive;                                              /* power at the motor */
/* what was, for the judge */
bool was_moves, was_drive, was_stop, was_stir, was_fed = true, honest;
bool was_lid, was_cover, was_stop_in, was_overload, was_power;

bool see_lid, see_cover, see_stop, see_overload, pressed_stop, pressed_stir, released, right, begins, cleared, stands;
bool no_motion_with_guard_open, no_restart_without_start_key, no_start_while_alarm_stands, start_only_with_stop_up;
bool stop_stops_all, no_clear_with_cause_present, clear_only_on_stop_release, clear_needs_fresh_stop;
bool reset_starts_nothing, interruption_is_told, emergency_stop_cuts_all, controller_lets_go, power_return_starts_nothing;

#define any_latched (latched_lid || latched_cover || latched_stop || latched_overload || latched_power)
#define any_seen (see_lid || see_cover || see_stop || see_overload)
#define any_cause (lid || cover || stop_in || overload)

inline clear() {
  latched_lid = false; latched_cover = false; latched_stop = false; latched_overload = false; latched_power = false
}

inline scan() {
  pressed_stop = finger_stop && !key_stop;
  pressed_stir = finger_stir && (!key_stir || !start_wants_fresh_press);
  released = !finger_stop && key_stop;
  key_stop = finger_stop;
  key_stir = finger_stir;
  if
  :: !fed -> moves = false; had_supply = false; armed = false
  :: else ->
    if
    :: !had_supply ->
      had_supply = true;
      moves = !return_starts_nothing;
      latched_power = return_starts_nothing
    :: else -> skip
    fi;
    see_lid = lid && lid_seen;
    see_cover = cover && shaft_cover_seen;
    see_stop = stop_in && emergency_stop_seen;
    see_overload = overload && overload_seen;
    latched_lid = (latched_lid && (see_lid || latch_stays)) || (see_lid && moves && guards_latch);
    latched_cover = (latched_cover && (see_cover || latch_stays)) || (see_cover && moves && guards_latch);
    latched_stop = (latched_stop && (see_stop || latch_stays)) || see_stop;
    latched_overload = (latched_overload && (see_overload || latch_stays)) || see_overload;
    if
    :: (any_seen || any_latched) && causes_stop -> moves = false
    :: else -> skip
    fi;
    if
    :: pressed_stop ->
      moves = moves && !stop_stops;
      armed = !any_seen || !clear_wants_causes_right
    :: !pressed_stop && finger_stop && !clear_wants_fresh_press -> armed = !any_seen
    :: else -> skip
    fi;
    armed = armed && !(any_seen && cause_spoils_press && clear_wants_causes_right);
    if
    :: released || (armed && !clear_on_release) ->
      if
      :: armed && any_latched -> clear(); moves = moves || !clear_starts_nothing
      :: else -> skip
      fi;
      armed = false
    :: else -> skip
    fi;
    if
    :: pressed_stir && (!(any_seen || any_latched) || !alarms_refuse_start) &&
       (!(finger_stop || released) || !stop_down_refuses_start) -> moves = true
    :: else -> skip
    fi
  fi;
  drive = moves && fed && !lid && !cover && !stop_in && !overload
}

inline judge() {
  right = fed && !any_cause;
  cleared = (was_lid && !latched_lid) || (was_cover && !latched_cover) || (was_stop_in && !latched_stop) ||
            (was_overload && !latched_overload) || (was_power && !latched_power);
  begins = !was_moves && (moves || (drive && !was_drive));
  stands = any_latched || any_cause;
  no_motion_with_guard_open = !(drive && (lid || cover));
  no_restart_without_start_key = !(begins && !(finger_stir && !was_stir));
  no_start_while_alarm_stands = !(!was_moves && moves && stands);
  start_only_with_stop_up = !(!was_moves && moves && (finger_stop || was_stop));
  stop_stops_all = !(finger_stop && (moves || drive));
  no_clear_with_cause_present = !((was_lid && !latched_lid && lid) || (was_cover && !latched_cover && cover) ||
                                  (was_stop_in && !latched_stop && stop_in) || (was_overload && !latched_overload && overload));
  clear_only_on_stop_release = !(cleared && !(was_stop && !finger_stop));
  clear_needs_fresh_stop = !(cleared && !honest);
  reset_starts_nothing = !(cleared && !was_drive && (moves || drive));
  interruption_is_told = !(was_moves && fed && ((lid && !latched_lid) || (cover && !latched_cover) ||
                                                (stop_in && !latched_stop) || (overload && !latched_overload) || (any_cause && moves)));
  emergency_stop_cuts_all = !(drive && stop_in);
  controller_lets_go = !(moves && any_cause);
  power_return_starts_nothing = !(!was_fed && fed && (moves || drive));
  honest = finger_stop && right && (!was_stop || honest)
}

inline remember() {
  was_moves = moves; was_drive = drive; was_stop = finger_stop; was_stir = finger_stir; was_fed = fed;
  was_lid = latched_lid; was_cover = latched_cover; was_stop_in = latched_stop; was_overload = latched_overload; was_power = latched_power;
  see_lid = false; see_cover = false; see_stop = false; see_overload = false;
  pressed_stop = false; pressed_stir = false; released = false; right = false; begins = false; cleared = false; stands = false
}

active proctype machine() {
end:
  do
  :: atomic {
    if
    :: lid = !lid
    :: cover = !cover
    :: stop_in = !stop_in
    :: overload = !overload
    :: fed = !fed
    :: finger_stop = !finger_stop
    :: finger_stir = !finger_stir
    :: finger_stop = !finger_stop; lid = !lid
    :: finger_stir = !finger_stir; lid = !lid
    :: finger_stir = !finger_stir; finger_stop = !finger_stop
    :: skip
    fi;
    d_step { scan(); judge() };
)";

}  // namespace

std::span<const std::string_view> promela_rules() { return rules; }
std::span<const std::string_view> promela_invariants() { return invariants; }

std::string promela_model(std::string_view left_out) {
  if (!left_out.empty() && std::find(rules.begin(), rules.end(), left_out) == rules.end()) return {};
  std::string text(head);
  for (const std::string_view rule : rules) {
    text += "#define " + std::string(rule) + (rule == left_out ? " false" : " true") + "\n";
  }
  text += body;
  for (const std::string_view invariant : invariants) text += "    assert(" + std::string(invariant) + ");\n";
  text += "    d_step { remember() }\n  }\n  od\n}\n";
  return text;
}

}  // namespace stirbench::explore
