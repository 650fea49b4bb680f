#pragma once

#include <optional>

#include "app/desk/kit/widgets/ui.h"
#include "sim_core/hands/action.h"
#include "sim_core/machine/state.h"

namespace stirbench::desk::views {

// The machine's emergency stop: a red button on yellow ground (ISO 13850, IEC 60204-1), pressed by one push,
// set free by turning. Id: panel.emergency_stop, value "in" while it is latched. Returns what the hand did.
std::optional<hands::Action> draw_emergency_stop(kit::Ui& ui, const machine::State& state,
                                                 const kit::Rect& rect);

}  // namespace stirbench::desk::views
