#pragma once

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/work/debrief/best_run.h"

namespace stirbench::desk::screens {

// What the best run did in the step that this run was in at `at_s`, beside what this run did. Returns the
// moment [s] of a pressed line of this run, negative when none was pressed.
double draw_compare(kit::Ui& ui, work::BestRunSearch& search, const work::DebriefModel& model,
                    const training::Lesson& lesson, const machine::Machine& machine, double at_s,
                    const kit::Rect& rect);

}  // namespace stirbench::desk::screens
