#pragma once

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/work/run/live_run.h"

namespace stirbench::desk::screens {

// The board beside the isolator: its handle, whose padlocks and tags hang there, and (not in a test) what is
// still to do.
void draw_lockout_board(kit::Ui& ui, const work::LiveRun& run);

}  // namespace stirbench::desk::screens
