#include "app/cli/alarms.h"

namespace stirbench::cli {

namespace {

nlohmann::json seconds_or_null(std::uint64_t tick) {
  if (tick == signals::not_yet) return nullptr;
  return static_cast<double>(tick) / machine::ticks_per_second;
}

std::string clock_at(std::uint64_t tick) {
  return clock_text(static_cast<double>(tick) / machine::ticks_per_second);
}

}  // namespace

nlohmann::json alarms_json(const signals::AlarmLog& log) {
  nlohmann::json list = nlohmann::json::array();
  for (const signals::AlarmOccurrence& one : log.occurrences()) {
    list.push_back({{"id", control::alarm_key(one.id)},
                    {"title", control::alarm_title(one.id)},
                    {"raised_s", seconds_or_null(one.raised_tick)},
                    {"acknowledged_s", seconds_or_null(one.acknowledged_tick)},
                    {"returned_s", seconds_or_null(one.returned_tick)},
                    {"cleared_s", seconds_or_null(one.cleared_tick)},
                    {"order", one.order},
                    {"first_out", one.order == 1}});
  }
  return list;
}

nlohmann::json alarm_journal_json(const signals::AlarmLog& log) {
  nlohmann::json list = nlohmann::json::array();
  for (const signals::AlarmTransition& one : log.transitions()) {
    list.push_back({{"at_s", seconds_or_null(one.tick)},
                    {"id", control::alarm_key(one.id)},
                    {"state", control::alarm_state_name(one.to)}});
  }
  return list;
}

nlohmann::json alarm_load_json(const signals::AlarmLoad& load) {
  nlohmann::json most = nullptr;
  if (load.most_often >= 0) most = control::alarm_key(static_cast<control::AlarmId>(load.most_often));
  return {{"shift_s", load.shift_s},
          {"alarms", load.alarms},
          {"per_hour", load.per_hour},
          {"per_10min", load.per_10min},
          {"peak_10min", load.peak_10min},
          {"floods", load.floods},
          {"flood_norm", load.flood_norm},
          {"unacknowledged", load.unacknowledged},
          {"stale", load.stale},
          {"longest_to_acknowledge_s", load.longest_to_acknowledge_s},
          {"most_often", most},
          {"most_often_norm", load.most_often_norm},
          {"verdict", signals::load_words(load)}};
}

void print_alarms(const signals::AlarmLog& log, std::uint64_t until_tick) {
  for (const signals::AlarmOccurrence& one : log.occurrences()) {
    std::string line = "alarm            " + std::string(control::alarm_title(one.id)) + ", raised at " +
                       clock_at(one.raised_tick);
    if (one.order == 1) line += " (first out)";
    if (!control::alarm_is_prompt(one.id) && one.acknowledged_tick != signals::not_yet)
      line += ", acknowledged at " + clock_at(one.acknowledged_tick);
    line +=
        one.cleared_tick == signals::not_yet ? ", still there" : ", cleared at " + clock_at(one.cleared_tick);
    print(line);
  }
  const signals::AlarmLoad load = log.load(until_tick);
  if (load.alarms == 0) return;
  print("alarm load       " + std::to_string(load.alarms) + ", " + fixed(load.per_hour, 1) +
        " an hour, at most " + std::to_string(load.peak_10min) + " in 10 min: " + signals::load_words(load));
}

int help_alarms(const CommonOptions& common) {
  const library::Library library = load_library(common);
  nlohmann::json list = nlohmann::json::array();
  for (std::size_t i = 0; i < control::alarm_count; ++i) {
    const auto id = static_cast<control::AlarmId>(i);
    const std::string key(control::alarm_key(id));
    const library::AlarmText& text = library.alarms.at(key);
    list.push_back({{"id", key},
                    {"title", control::alarm_title(id)},
                    {"latches", control::alarm_latches(id)},
                    {"prompt", control::alarm_is_prompt(id)},
                    {"cause", text.cause},
                    {"consequence", text.consequence},
                    {"action", text.action}});
    if (common.json) continue;
    print(std::string(control::alarm_title(id)) + " (" + key + ")" +
          (control::alarm_latches(id) ? ", latches" : ""));
    print("    cause:       " + text.cause);
    print("    consequence: " + text.consequence);
    print("    action:      " + text.action);
  }
  if (common.json) print_json({{"alarms", list}});
  return exit_done;
}

}  // namespace stirbench::cli
