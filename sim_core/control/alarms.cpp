#include "sim_core/control/alarms.h"

#include <cmath>

#include "sim_core/control/controller_internal.h"

// The life of alarms: raised, acknowledged, returned, latched, reset, shelved.
namespace stirbench::control {

namespace {

constexpr std::size_t index_of(AlarmId id) { return static_cast<std::size_t>(id); }

// Does `change` to one alarm and tells each state that it reaches, and when it begins or ceases to stand.
template <typename Change>
void transit(Scan& scan, AlarmId id, Change change) {
  Alarm& alarm = scan.state.alarms[index_of(id)];
  const AlarmRule& rule = scan.context.spec.alarms[index_of(id)];
  const AlarmState before = alarm_state(rule, alarm);
  const bool stood = alarm.stands();
  change(alarm);
  const auto subject = static_cast<std::int32_t>(id);
  const AlarmState after = alarm_state(rule, alarm);
  const bool told = rule.duty == AlarmDuty::in_service && after != AlarmState::shelved;
  if (alarm.stands() != stood) {
    (alarm.stands() ? alarm.raised_tick : alarm.cleared_tick) = scan.context.tick;
    if (told)
      scan.notices.push_back({alarm.stands() ? Notice::alarm_raised : Notice::alarm_cleared, subject, {}});
  }
  if (after != before && !alarm_is_prompt(id)) {
    scan.notices.push_back({Notice::alarm_state, subject, alarm_state_name(after)});
  }
}

// Its place among those that stand: the one that finds none standing came first.
std::uint8_t next_order(const ControlState& state) {
  int last = 0;
  for (std::size_t i = 0; i < alarm_count; ++i) {
    const Alarm& alarm = state.alarms[i];
    if (alarm.stands() && !alarm_is_prompt(static_cast<AlarmId>(i)) && alarm.order > last) last = alarm.order;
  }
  return static_cast<std::uint8_t>(last < 255 ? last + 1 : 255);
}

}  // namespace

std::string_view alarm_state_name(AlarmState state) {
  constexpr std::array<std::string_view, alarm_state_count> names{"normal",
                                                                  "unacknowledged",
                                                                  "acknowledged",
                                                                  "returned_unacknowledged",
                                                                  "latched_unacknowledged",
                                                                  "latched_acknowledged",
                                                                  "shelved",
                                                                  "suppressed",
                                                                  "out_of_service"};
  return names[static_cast<std::size_t>(state)];
}

int find_alarm(std::string_view key) {
  for (std::size_t i = 0; i < alarm_count; ++i) {
    if (alarm_key(static_cast<AlarmId>(i)) == key) return static_cast<int>(i);
  }
  return -1;
}

AlarmState alarm_state(const AlarmRule& rule, const Alarm& alarm) {
  if (rule.duty == AlarmDuty::out_of_service) return AlarmState::out_of_service;
  if (rule.duty == AlarmDuty::suppressed) return AlarmState::suppressed;
  if (alarm.shelved_until_tick != 0) return AlarmState::shelved;
  if (alarm.active) return alarm.unacknowledged ? AlarmState::unacknowledged : AlarmState::acknowledged;
  if (alarm.latched)
    return alarm.unacknowledged ? AlarmState::latched_unacknowledged : AlarmState::latched_acknowledged;
  return alarm.unacknowledged ? AlarmState::returned_unacknowledged : AlarmState::normal;
}

void set_alarm(Scan& scan, AlarmId id, bool active, bool latched) {
  const Alarm& now = scan.state.alarms[index_of(id)];
  if (now.active == active && now.latched == latched) return;
  const std::uint8_t order = now.stands() ? now.order : next_order(scan.state);
  transit(scan, id, [&](Alarm& alarm) {
    // Each time it is raised an alarm needs an acknowledgement; so does a latched one whose cause went
    // unseen.
    const bool rises = (active && !alarm.active) || (latched && !alarm.latched && !active);
    if (rises && !alarm_is_prompt(id)) alarm.unacknowledged = true;
    if ((active || latched) && !alarm_is_prompt(id)) alarm.order = order;
    alarm.active = active;
    alarm.latched = latched;
  });
}

bool any_unacknowledged(const ControlState& state) {
  for (const Alarm& alarm : state.alarms) {
    if (alarm.unacknowledged && alarm.shelved_until_tick == 0) return true;
  }
  return false;
}

static void acknowledge(Scan& scan, AlarmId id) {
  const Alarm& alarm = scan.state.alarms[index_of(id)];
  if (!alarm.unacknowledged || alarm.shelved_until_tick != 0) return;
  transit(scan, id, [&](Alarm& a) {
    a.unacknowledged = false;
    a.acknowledged_tick = scan.context.tick;
  });
}

void acknowledge_all(Scan& scan) {
  for (std::size_t i = 0; i < alarm_count; ++i) acknowledge(scan, static_cast<AlarmId>(i));
}

void clear_latched(Scan& scan) {
  for (std::size_t i = 0; i < alarm_count; ++i) {
    const Alarm& alarm = scan.state.alarms[i];
    // Reset leads from "latched, acknowledged" to "normal" and from nowhere else.
    if (alarm.latched && !alarm.unacknowledged) set_alarm(scan, static_cast<AlarmId>(i), alarm.active, false);
  }
}

static void end_shelving(Scan& scan, AlarmId id) {
  transit(scan, id, [](Alarm& alarm) {
    alarm.shelved_until_tick = 0;
    alarm.unacknowledged = alarm.active;
  });
  // Active or latched, and not yet annunciated.
  const AlarmRule& rule = scan.context.spec.alarms[index_of(id)];
  if (scan.state.alarms[index_of(id)].stands() && rule.duty == AlarmDuty::in_service) {
    scan.notices.push_back({Notice::alarm_raised, static_cast<std::int32_t>(id), {}});
  }
}

void watch_shelves(Scan& scan) {
  for (std::size_t i = 0; i < alarm_count; ++i) {
    const std::uint64_t until = scan.state.alarms[i].shelved_until_tick;
    if (until != 0 && scan.context.tick >= until) end_shelving(scan, static_cast<AlarmId>(i));
  }
}

std::string_view why_not_acknowledge(const ControlState& state, std::int32_t alarm) {
  if (state.mode == Mode::off) return "The display is dark: there is no supply.";
  if (alarm < 0) return any_unacknowledged(state) ? "" : "No alarm waits to be acknowledged.";
  if (static_cast<std::size_t>(alarm) >= alarm_count) return "There is no such alarm.";
  return state.alarms[static_cast<std::size_t>(alarm)].unacknowledged
             ? ""
             : "That alarm does not wait to be acknowledged.";
}

std::string_view why_not_shelve(const ControlSpec& spec, const ControlState& state, std::int32_t alarm,
                                double for_s) {
  if (state.mode == Mode::off) return "The display is dark: there is no supply.";
  if (alarm < 0 || static_cast<std::size_t>(alarm) >= alarm_count) return "There is no such alarm.";
  const AlarmRule& rule = spec.alarms[static_cast<std::size_t>(alarm)];
  if (alarm_latches(static_cast<AlarmId>(alarm)))
    return "That alarm protects people or the machine. It cannot be shelved.";
  if (!(rule.shelve_longest_s > 0.0) || rule.duty != AlarmDuty::in_service)
    return "That alarm cannot be shelved on this machine.";
  if (state.alarms[static_cast<std::size_t>(alarm)].shelved_until_tick != 0)
    return "That alarm is already shelved.";
  // Written so that a value that is not a number is refused too.
  return for_s > 0.0 && for_s <= rule.shelve_longest_s ? "" : "That alarm may not be shelved for so long.";
}

std::string_view why_not_unshelve(const ControlState& state, std::int32_t alarm) {
  if (state.mode == Mode::off) return "The display is dark: there is no supply.";
  if (alarm < 0 || static_cast<std::size_t>(alarm) >= alarm_count) return "There is no such alarm.";
  return state.alarms[static_cast<std::size_t>(alarm)].shelved_until_tick != 0 ? ""
                                                                               : "That alarm is not shelved.";
}

void obey_alarm_entries(Scan& scan) {
  const PanelInputs& panel = scan.panel;
  if (panel.acknowledge != PanelInputs::nothing) {
    const std::string_view reason = why_not_acknowledge(scan.state, panel.acknowledge);
    if (!reason.empty())
      scan.refuse(reason);
    else if (panel.acknowledge < 0)
      acknowledge_all(scan);
    else
      acknowledge(scan, static_cast<AlarmId>(panel.acknowledge));
  }
  if (panel.shelve != PanelInputs::nothing) {
    const std::string_view reason =
        why_not_shelve(scan.context.spec, scan.state, panel.shelve, panel.shelve_s);
    if (reason.empty()) {
      const auto ticks = static_cast<std::uint64_t>(std::llround(panel.shelve_s / scan.context.tick_s));
      transit(scan, static_cast<AlarmId>(panel.shelve), [&](Alarm& a) {
        a.shelved_until_tick = scan.context.tick + (ticks > 0 ? ticks : 1);
        a.unacknowledged = false;
      });
    } else {
      scan.refuse(reason);
    }
  }
  if (panel.unshelve != PanelInputs::nothing) {
    const std::string_view reason = why_not_unshelve(scan.state, panel.unshelve);
    if (reason.empty())
      end_shelving(scan, static_cast<AlarmId>(panel.unshelve));
    else
      scan.refuse(reason);
  }
}

}  // namespace stirbench::control
