#pragma once

#include "app/cli/common.h"
#include "sim_core/signals/alarm_log.h"

// What the command line says about alarms.
namespace stirbench::cli {

// [{id, title, raised_s, acknowledged_s, returned_s, cleared_s, order, first_out}]; null for what has not
// happened.
nlohmann::json alarms_json(const signals::AlarmLog& log);
// [{at_s, id, state}], each step of each alarm's life.
nlohmann::json alarm_journal_json(const signals::AlarmLog& log);
nlohmann::json alarm_load_json(const signals::AlarmLoad& load);
void print_alarms(const signals::AlarmLog& log, std::uint64_t until_tick);

// `help alarms`: every alarm with its three texts.
int help_alarms(const CommonOptions& common);

}  // namespace stirbench::cli
