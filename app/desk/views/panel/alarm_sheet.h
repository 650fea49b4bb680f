#pragma once

#include <vector>

#include "app/desk/kit/widgets/ui.h"
#include "app/library/library.h"
#include "sim_core/hands/action.h"
#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"
#include "sim_core/signals/alarm_log.h"

// The alarms of a run in one sheet: what stands now with cause, consequence and way out, which of them came
// first, what has been, and how much they asked of one person. Life and words of an alarm:
// sim_core/control/alarms.h; load: sim_core/signals/alarm_log.h.
namespace stirbench::desk::views {

// The state of an alarm's life in plain words, translated.
std::string alarm_state_words(control::AlarmState state);

struct AlarmSheetInput {
  const machine::Machine& machine;
  const machine::State& state;
  const signals::AlarmLog& log;
  const library::Library& library;
};

// Ids: alarms.acknowledge (all), alarms.KEY.acknowledge, alarms.KEY.shelve, alarms.KEY.unshelve,
// alarms.close. What fingers did is added to `out`. False when it was closed.
bool draw_alarm_sheet(kit::Ui& ui, const AlarmSheetInput& input, std::vector<hands::Action>& out);

}  // namespace stirbench::desk::views
