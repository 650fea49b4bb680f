#include "sim_core/control/controller_internal.h"

// Alarms and interlocks: what is active, what latches, what a stop does.
namespace stirbench::control {

namespace {

struct AlarmText {
  std::string_view key;
  std::string_view title;
  bool latches;
  std::string_view at_rest;        // what a person has to do, cause present, nothing latched
  std::string_view while_active;   // ... latched and the cause still present
  std::string_view while_latched;  // ... cause right, not yet cleared
};

constexpr std::string_view press_stop = "Press and let go Stop to clear the alarm, then start again.";

constexpr std::array<AlarmText, alarm_count> texts{{
    {"emergency_stop", "Emergency stop pressed", true, "",
     "See that everybody is safe. Turn the emergency stop free, then press Stop to clear the alarm.",
     press_stop},
    {"lid_guard", "Lid guard open", true, "Close the lid first.",
     "Close the lid, then press Stop to clear the alarm.", press_stop},
    {"shaft_cover_guard", "Shaft cover open", true, "Close the shaft cover first.",
     "Close the shaft cover, then press Stop to clear the alarm.", press_stop},
    {"drive_overload", "Drive overloaded", true, "",
     "Find out what held the agitator, reset the overload relay, then press Stop to clear the alarm.",
     press_stop},
    {"over_temperature", "Heater cut-out tripped", true, "",
     "Let the well cool, reset the heater cut-out, then press Stop to clear the alarm.", press_stop},
    {"chiller_pressure", "Chiller pressure out of range", true, "",
     "Wait until the chiller's pressure is back in range, then press Stop to clear the alarm.", press_stop},
    {"power_returned", "Power came back", true, "", press_stop, press_stop},
    {"addition_waiting", "Addition waiting", false, "", "", ""},
    {"hold_broken", "Hold interrupted", false, "", "", ""},
}};

const AlarmText& text_of(AlarmId alarm) { return texts[static_cast<std::size_t>(alarm)]; }

void watch_cause(Scan& scan, AlarmId id, bool present, bool latch_now, InterlockRule seen) {
  const Alarm& alarm = scan.state.alarms[static_cast<std::size_t>(id)];
  const bool there = present && scan.ruled(seen);
  const bool kept = alarm.latched && (there || scan.ruled(InterlockRule::latch_stays));
  set_alarm(scan, id, there, kept || (there && latch_now));
}

}  // namespace

void restart_by_itself(Scan& scan) {
  scan.state.mode = scan.state.phase >= 0 ? Mode::running : Mode::heating;
}

std::string_view alarm_key(AlarmId alarm) { return text_of(alarm).key; }
std::string_view alarm_title(AlarmId alarm) { return text_of(alarm).title; }
bool alarm_latches(AlarmId alarm) { return text_of(alarm).latches; }
bool alarm_is_prompt(AlarmId alarm) { return alarm == AlarmId::addition_waiting; }

bool any_latched(const ControlState& state) {
  for (const Alarm& alarm : state.alarms) {
    if (alarm.latched) return true;
  }
  return false;
}

std::string_view why_not_start(const ControlState& state) {
  // Causes first: pressing Stop is of no use before they are right.
  for (std::size_t i = 0; i < alarm_count; ++i) {
    const Alarm& alarm = state.alarms[i];
    if (!texts[i].latches || !alarm.active) continue;
    return alarm.latched || texts[i].at_rest.empty() ? texts[i].while_active : texts[i].at_rest;
  }
  for (std::size_t i = 0; i < alarm_count; ++i) {
    if (state.alarms[i].latched) return texts[i].while_latched;
  }
  return {};
}

bool causes_right(const ControlState& state) {
  for (std::size_t i = 0; i < alarm_count; ++i) {
    if (texts[i].latches && state.alarms[i].active) return false;
  }
  return true;
}

bool watch_supply(Scan& scan) {
  ControlState& state = scan.state;
  if (!scan.readings.supply_on) {
    if (state.had_supply) stop_everything(scan);
    state.mode = Mode::off;
    state.had_supply = false;
    state.probe_seen = false;
    state.key_armed = {};
    ++state.phase_ticks;
    return false;
  }
  if (!state.had_supply) {
    // Unexpected start-up by returning power is what ISO 14118 guards against: come back stopped, and say so.
    state.had_supply = true;
    state.mode = state.phase >= 0 ? Mode::paused : Mode::standby;
    if (!scan.ruled(InterlockRule::return_starts_nothing))
      restart_by_itself(scan);
    else if (scan.ruled(InterlockRule::return_latches))
      set_alarm(scan, AlarmId::power_returned, false, true);
  }
  return true;
}

void watch_causes(Scan& scan) {
  const plant::SensorReadings& readings = scan.readings;
  // A guard that interrupts something latches; one that is opened at rest interrupts nothing.
  const bool interrupts = mode_moves(scan.state.mode);
  const bool latch = interrupts && scan.ruled(InterlockRule::guards_latch);
  watch_cause(scan, AlarmId::emergency_stop, readings.emergency_stop_in, true,
              InterlockRule::emergency_stop_seen);
  watch_cause(scan, AlarmId::lid_guard, !readings.lid_closed, latch, InterlockRule::lid_seen);
  watch_cause(scan, AlarmId::shaft_cover_guard, !readings.shaft_cover_closed, latch,
              InterlockRule::shaft_cover_seen);
  watch_cause(scan, AlarmId::drive_overload, readings.overload_tripped, true, InterlockRule::overload_seen);
  watch_cause(scan, AlarmId::over_temperature, readings.cutout_tripped, true, InterlockRule::cutout_seen);
  watch_cause(scan, AlarmId::chiller_pressure, readings.pressure_tripped, true, InterlockRule::pressure_seen);
  // Each of them stops all: heat without stirring scorches, stirring under an open guard injures, and a
  // person should look before any part goes on alone.
  if (!why_not_start(scan.state).empty() && interrupts && scan.ruled(InterlockRule::causes_stop))
    stop_everything(scan);
}

void set_prompt(Scan& scan, AlarmId alarm, bool active) { set_alarm(scan, alarm, active, false); }

void stop_everything(Scan& scan) {
  ControlState& state = scan.state;
  state.heat_demand = false;
  state.chill_demand = false;
  if (state.mode == Mode::running) restart_hold(scan);
  state.mode = state.phase >= 0 ? Mode::paused : Mode::standby;
}

}  // namespace stirbench::control
