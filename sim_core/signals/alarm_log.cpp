#include "sim_core/signals/alarm_log.h"

#include <algorithm>
#include <array>

namespace stirbench::signals {

using machine::Event;
using machine::EventKind;

namespace {

using control::AlarmState;

constexpr std::uint64_t window_ticks = 600 * machine::ticks_per_second;
constexpr int flood_begins_above = 10;
constexpr int flood_ends_below = 5;

double seconds(std::uint64_t ticks) { return static_cast<double>(ticks) / machine::ticks_per_second; }

// Counts over a sliding window of 10 min; each alarm leaves it 10 min after it came.
void sweep(const std::vector<std::uint64_t>& rises, std::uint64_t until_tick, AlarmLoad& load) {
  std::size_t in = 0, out = 0;
  bool flood = false;
  std::uint64_t began = 0, flooded = 0;
  while (in < rises.size()) {
    const bool leaves = out < in && rises[out] + window_ticks <= rises[in];
    if (leaves)
      ++out;
    else
      ++in;
    const std::uint64_t now = leaves ? rises[out - 1] + window_ticks : rises[in - 1];
    const int count = static_cast<int>(in - out);
    load.peak_10min = std::max(load.peak_10min, count);
    if (!flood && count > flood_begins_above) {
      flood = true;
      began = now;
      ++load.floods;
    } else if (flood && count < flood_ends_below) {
      flood = false;
      flooded += now - began;
    }
  }
  // The last ones leave the window after the last rise.
  for (; flood && out < in; ++out) {
    if (static_cast<int>(in - out - 1) >= flood_ends_below) continue;
    flooded += std::min(until_tick, rises[out] + window_ticks) - began;
    flood = false;
  }
  if (until_tick > 0) load.flood_norm = static_cast<double>(flooded) / static_cast<double>(until_tick);
}

}  // namespace

AlarmOccurrence* AlarmLog::last_of(control::AlarmId id) {
  for (auto it = occurrences_.rbegin(); it != occurrences_.rend(); ++it) {
    if (it->id == id) return &*it;
  }
  return nullptr;
}

void AlarmLog::see(const std::vector<Event>& events) {
  for (const Event& event : events) {
    const auto id = static_cast<control::AlarmId>(event.subject);
    if (event.kind == EventKind::alarm_raised) {
      occurrences_.push_back({.id = id, .raised_tick = event.tick, .order = static_cast<int>(event.number)});
      continue;
    }
    const bool cleared = event.kind == EventKind::alarm_cleared;
    if (!cleared && event.kind != EventKind::alarm_state) continue;
    AlarmOccurrence* one = last_of(id);
    if (cleared) {
      if (one != nullptr) one->cleared_tick = event.tick;
      continue;
    }
    const auto to = static_cast<AlarmState>(static_cast<int>(event.number));
    transitions_.push_back({id, event.tick, to});
    if (one == nullptr) continue;
    const bool returned = to == AlarmState::returned_unacknowledged ||
                          to == AlarmState::latched_unacknowledged ||
                          to == AlarmState::latched_acknowledged || to == AlarmState::normal;
    const bool seen =
        to == AlarmState::acknowledged || to == AlarmState::latched_acknowledged || to == AlarmState::normal;
    if (to == AlarmState::unacknowledged) one->returned_tick = not_yet;
    if (returned && one->returned_tick == not_yet) one->returned_tick = event.tick;
    if (seen && one->acknowledged_tick == not_yet) one->acknowledged_tick = event.tick;
  }
}

AlarmLoad AlarmLog::load(std::uint64_t until_tick) const {
  AlarmLoad load;
  load.shift_s = seconds(until_tick);
  std::vector<std::uint64_t> rises;
  std::array<int, control::alarm_count> times{};
  for (const AlarmOccurrence& one : occurrences_) {
    if (control::alarm_is_prompt(one.id)) continue;
    rises.push_back(one.raised_tick);
    ++times[static_cast<std::size_t>(one.id)];
    if (one.acknowledged_tick == not_yet) {
      ++load.unacknowledged;
    } else {
      load.longest_to_acknowledge_s =
          std::max(load.longest_to_acknowledge_s, seconds(one.acknowledged_tick - one.raised_tick));
    }
    const std::uint64_t end = one.cleared_tick == not_yet ? until_tick : one.cleared_tick;
    if (end > one.raised_tick && end - one.raised_tick > 86400 * machine::ticks_per_second) ++load.stale;
  }
  load.alarms = static_cast<int>(rises.size());
  if (load.shift_s > 0.0) {
    load.per_hour = load.alarms * 3600.0 / load.shift_s;
    load.per_10min = load.per_hour / 6.0;
  }
  for (std::size_t i = 0; i < times.size(); ++i) {
    if (times[i] > 0 && (load.most_often < 0 || times[i] > times[static_cast<std::size_t>(load.most_often)]))
      load.most_often = static_cast<int>(i);
  }
  if (load.most_often >= 0)
    load.most_often_norm =
        static_cast<double>(times[static_cast<std::size_t>(load.most_often)]) / load.alarms;
  sweep(rises, until_tick, load);
  return load;
}

std::string load_words(const AlarmLoad& load) {
  if (load.floods > 0 || load.per_hour > manageable_per_hour) return "more than can be managed";
  return load.per_hour > acceptable_per_hour ? "more than is comfortable"
                                             : "within what one person can handle";
}

}  // namespace stirbench::signals
