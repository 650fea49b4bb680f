#pragma once

#include <array>
#include <cstdint>
#include <string_view>

// The life of an alarm, by the table of ISA-18.2 / IEC 62682 as secondary texts give it (the paths of latched
// and shelved alarms from memory; no claim of conformity). `alarm_state` names the state that an alarm's
// fields are in:
//
//   state                    cause present   latched   unacknowledged
//   normal                   no              no        no
//   unacknowledged           yes             any       yes
//   acknowledged             yes             any       no
//   returned_unacknowledged  no              no        yes
//   latched_unacknowledged   no              yes       yes
//   latched_acknowledged     no              yes       no
//   shelved                  by a person, for a time that the machine's content allows; afterwards by its
//                            cause
//   suppressed               by design; like out_of_service set by the machine's content; never annunciated
//
// Shelving, suppression and out-of-service change what is annunciated and shown; no interlock depends on
// them. Alarms that protect people or the machine (alarm_latches) can be neither shelved nor suppressed. A
// prompt (addition_waiting) asks for a step of the work; it is not an alarm and is only normal or
// acknowledged. The first press of Stop after an alarm was raised acknowledges all of them; its release
// resets those that are latched and whose cause has gone: one key serves both, in the order of the table.
namespace stirbench::control {

enum class AlarmId : std::uint8_t {
  emergency_stop,     // "Emergency stop pressed"
  lid_guard,          // "Lid guard open"
  shaft_cover_guard,  // "Shaft cover open"
  drive_overload,     // "Drive overloaded"
  over_temperature,   // "Heater cut-out tripped"
  chiller_pressure,   // "Chiller pressure out of range"
  power_returned,     // "Power came back"
  addition_waiting,   // not latched: a prompt
  hold_broken,        // "Hold interrupted": annunciated, not latched
  count
};
inline constexpr std::size_t alarm_count = static_cast<std::size_t>(AlarmId::count);
std::string_view alarm_key(AlarmId alarm);    // "lid_guard"
std::string_view alarm_title(AlarmId alarm);  // "Lid guard open"
int find_alarm(std::string_view key);         // index, -1 when there is none of that key
// Whether the alarm can latch. Guards latch when they stopped something; emergency stop, overload, cut-out,
// pressure and power always do.
bool alarm_latches(AlarmId alarm);
bool alarm_is_prompt(AlarmId alarm);

enum class AlarmState : std::uint8_t {
  normal,
  unacknowledged,
  acknowledged,
  returned_unacknowledged,
  latched_unacknowledged,
  latched_acknowledged,
  shelved,
  suppressed,
  out_of_service
};
inline constexpr std::size_t alarm_state_count = 9;
std::string_view alarm_state_name(AlarmState state);  // "latched_unacknowledged"

// What a machine's content says about one alarm.
enum class AlarmDuty : std::uint8_t { in_service, suppressed, out_of_service };
struct AlarmRule {
  AlarmDuty duty = AlarmDuty::in_service;
  double shelve_longest_s = 0.0;  // 0: it cannot be shelved
};
using AlarmRules = std::array<AlarmRule, alarm_count>;

struct Alarm {
  bool active = false;             // cause present now
  bool latched = false;            // stays until Stop clears it after its cause has gone
  std::uint64_t raised_tick = 0;   // when it was last raised
  std::uint64_t cleared_tick = 0;  // when it last cleared
  bool unacknowledged = false;
  std::uint64_t acknowledged_tick = 0;   // of the last acknowledgement
  std::uint64_t shelved_until_tick = 0;  // shelved when not 0
  std::uint8_t order = 0;                // its place in the cascade in which it was last raised; 1: first out

  bool stands() const { return active || latched; }
};

AlarmState alarm_state(const AlarmRule& rule, const Alarm& alarm);

}  // namespace stirbench::control
