#pragma once

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/work/run/live_run.h"
#include "app/desk/work/run/pacing.h"

namespace stirbench::desk::screens {

// Pause, 1x, 10x, 60x, 300x and "to my next step". Ids: speed.pause, speed.1, speed.10, speed.60, speed.300,
// speed.next.
void draw_speed_bar(kit::Ui& ui, work::Pacing& pacing, const work::LiveRun& run);

}  // namespace stirbench::desk::screens
