#pragma once

#include <vector>

#include "app/desk/screens/train/at_hand.h"

namespace stirbench::desk::screens {

// The scale: choose an ingredient, weigh it, pour it in. Takes the place of the list At hand while it is
// open.
void draw_scale(kit::Ui& ui, AtHandState& state, const work::LiveRun& run, const kit::Rect& rect,
                std::vector<hands::Action>& out);

}  // namespace stirbench::desk::screens
