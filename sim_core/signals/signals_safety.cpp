#include "sim_core/signals/signals.h"
#include "sim_core/signals/signals_internal.h"

// Readings of emergency stop, contactors and the alarms' lives.
namespace stirbench::signals {

namespace {

template <control::AlarmState state>
double alarms_in(M m, S s) {
  int count = 0;
  for (std::size_t i = 0; i < control::alarm_count; ++i) {
    count += control::alarm_state(m.control.alarms[i], s.control.alarms[i]) == state ? 1 : 0;
  }
  return count;
}

// Key of the first of the active or latched alarms; empty when there is none.
std::string_view first_out(M, S s) {
  for (std::size_t i = 0; i < control::alarm_count; ++i) {
    const control::Alarm& alarm = s.control.alarms[i];
    if (alarm.stands() && alarm.order == 1) return control::alarm_key(static_cast<control::AlarmId>(i));
  }
  return {};
}

}  // namespace

void add_safety_signals(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      flag("alarm_emergency_stop", "the emergency stop's alarm stands",
           [](M, S s) {
             return as_number(
                 s.control.alarms[static_cast<std::size_t>(control::AlarmId::emergency_stop)].stands());
           }),
      flag("emergency_stop_in", "the emergency stop is pressed",
           [](M, S s) { return as_number(s.plant.safety.emergency_stop_in); }),
      flag("drive_contactor", "the drive has power", [](M, S s) { return as_number(s.contactors.drive_on); }),
      flag("heat_contactor", "the elements have power",
           [](M, S s) { return as_number(s.contactors.heat_norm > 0.0); }),
      flag("chill_contactor", "the chiller has power",
           [](M, S s) { return as_number(s.contactors.chiller_on); }),
      flag("alarm_unacknowledged", "an alarm waits to be acknowledged",
           [](M, S s) { return as_number(control::any_unacknowledged(s.control)); }),
      {"alarms_shelved", SignalKind::number, "how many alarms are shelved",
       alarms_in<control::AlarmState::shelved>, nullptr, false},
      {"first_out", SignalKind::text, "key of the alarm that came first of those that stand", nullptr,
       first_out, false},
  };
  list.insert(list.end(), more.begin(), more.end());
}

}  // namespace stirbench::signals
