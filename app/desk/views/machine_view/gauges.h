#pragma once

#include "app/desk/kit/widgets/ui.h"
#include "sim_core/machine/state.h"

// What a gauge set, a clamp meter and thermometers on the chiller's circuit show, as a table at the cursor.
// Pressures as gauges show them: above the air's.
namespace stirbench::desk::views {

void draw_gauges(kit::Ui& ui, const machine::State& state);

}  // namespace stirbench::desk::views
