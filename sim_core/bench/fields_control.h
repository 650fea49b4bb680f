#pragma once

#include "sim_core/bench/state.h"

// The visits of controller, alarms and safety parts; a part of fields.h, which says how they work.
namespace stirbench::bench {

template <typename V, typename T, std::size_t N>
void visit_array(V& v, const char* name, const std::array<T, N>& items);
template <typename V, typename T>
void visit_part(V& v, const char* name, const T& part);

template <typename V>
void visit(V& v, const plant::SafetyParts& p) {
  const auto& [button, lid, cover, broken, loose, shaken, drive, heat, chill, main, contact, cutout, overload, pressure, keys] = p;
  v("emergency_stop_in", button);
  v("lid_switch_closed", lid);
  v("cover_switch_closed", cover);
  v("guard_wire_broken", broken);
  v("guard_wire_loose_s", loose);
  v("guard_wire_shaken_s", shaken);
  v("drive_welded", drive);
  v("heat_welded", heat);
  v("chill_welded", chill);
  v("emergency_contactor_welded", main);
  v("emergency_contact_closed", contact);
  v("cutout_bridged", cutout);
  v("overload_stuck", overload);
  v("pressure_stuck", pressure);
  visit_array(v, "keys", keys);
}

template <typename V>
void visit(V& v, const control::Outputs& o) {
  const auto& [heat, drive, chill] = o;
  v("heat_norm", heat);
  v("drive", drive);
  v("chill", chill);
}

template <typename V>
void visit(V& v, const plant::Actuators& a) {
  const auto& [heat, drive, chiller, forward, backward, drive_A] = a;
  v("heat_norm", heat);
  v("drive_on", drive);
  v("chiller_on", chiller);
  v("drive_forward_norm", forward);
  v("drive_backward_norm", backward);
  v("drive_A", drive_A);
}

template <typename V>
void visit(V& v, const control::Alarm& a) {
  const auto& [active, latched, raised, cleared, unacknowledged, acknowledged_tick, shelved_until, order] = a;
  v("active", active);
  v("latched", latched);
  v("raised_tick", raised);
  v("cleared_tick", cleared);
  v("unacknowledged", unacknowledged);
  v("acknowledged_tick", acknowledged_tick);
  v("shelved_until_tick", shelved_until);
  v("order", order);
}

template <typename V>
void visit(V& v, const control::ControlState& c) {
  const auto& [mode, target, heat_target, chill_target, recipe, mark, phase, confirmed, done, phase_ticks, hold_ticks, cycle_ticks,
               heat_demand, chill_demand, key_down, key_armed, alarms, supply, probe_seen, probe_before, probe_rate] = c;
  v("mode", mode);
  v("target_degC", target);
  v("heat_target_degC", heat_target);
  v("chill_target_degC", chill_target);
  // The index depends on which other recipes there are; an old journal shall verify when a new one has been added.
  static_cast<void>(recipe);
  v("recipe_mark", mark);
  v("phase", phase);
  v("confirmed", confirmed);
  v("recipe_done", done);
  v("phase_ticks", phase_ticks);
  v("hold_ticks", hold_ticks);
  v("cycle_ticks", cycle_ticks);
  v("heat_demand", heat_demand);
  v("chill_demand", chill_demand);
  visit_array(v, "key_down", key_down);
  visit_array(v, "key_armed", key_armed);
  for (const control::Alarm& alarm : alarms) visit_part(v, "alarms.", alarm);
  v("had_supply", supply);
  v("probe_seen", probe_seen);
  v("probe_before_degC", probe_before);
  v("probe_rate_K_per_s", probe_rate);
}

}  // namespace stirbench::bench
