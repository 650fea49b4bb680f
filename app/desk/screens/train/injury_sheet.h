#pragma once

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/work/run/live_run.h"

namespace stirbench::desk::screens {

enum class InjuryAnswer : unsigned char { none, rewind, try_again, look_back };

// The sheet over a run that an injury stopped: sign, what would have happened, why, what to do instead.
InjuryAnswer draw_injury_sheet(kit::Ui& ui, const work::LiveRun& run);

}  // namespace stirbench::desk::screens
