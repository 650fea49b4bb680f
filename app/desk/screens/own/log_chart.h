#pragma once

#include "app/desk/kit/widgets/ui.h"
#include "sim_core/identification/fit.h"

namespace stirbench::desk::screens {

// Measured (dots) over simulated (line); under it their difference, with what the model itself may be off as
// a band.
void draw_log_chart(kit::Ui& ui, const identification::Fit& fit, const kit::Rect& rect);

}  // namespace stirbench::desk::screens
