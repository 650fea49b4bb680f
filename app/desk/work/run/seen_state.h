#pragma once

#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// The machine as somebody beside it sees it, for the views of fault lessons and tests.
namespace stirbench::desk::work {

// `state` without what no eye sees: the elements' power and heat, the chiller's power, the zones'
// temperatures (the panel's reading stands for both; the room's, while the panel is dark), play of bushings
// and what has burnt on under the product. For drawing alone.
machine::State as_seen(const machine::State& state);

}  // namespace stirbench::desk::work
