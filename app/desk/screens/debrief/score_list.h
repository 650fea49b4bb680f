#pragma once

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/work/debrief/debrief_model.h"

namespace stirbench::desk::screens {

// The score, criterion by criterion, each with its reason and its moment. Returns the moment [s] of a pressed
// criterion or event, negative when none was pressed.
double draw_score_list(kit::Ui& ui, const work::DebriefModel& model, const kit::Rect& rect);

// What happened, in words, in order; the same return.
double draw_event_list(kit::Ui& ui, const work::DebriefModel& model, const machine::Machine& machine,
                       double now_s, const kit::Rect& rect);

// An event in plain words; empty for those that only matter to monitors.
std::string event_words(const machine::Event& event, const machine::Machine& machine, const kit::Ui& ui);

}  // namespace stirbench::desk::screens
