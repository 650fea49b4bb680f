#pragma once

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/work/run/live_run.h"

namespace stirbench::desk::screens {

enum class LeaveAnswer : unsigned char { none, stay, look_back, leave };

// Asks before a run that is under way is left. Ids: train.leave.stay, train.leave.score, train.leave.go.
LeaveAnswer draw_leave_dialog(kit::Ui& ui, const work::LiveRun& run);

}  // namespace stirbench::desk::screens
