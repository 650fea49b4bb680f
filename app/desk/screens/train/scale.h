#pragma once

#include <vector>

#include "app/desk/screens/train/at_hand.h"

namespace stirbench::desk {

// The scale: choose an ingredient, weigh it, pour it in. Takes the place of the list At hand while it is open.
void draw_scale(Ui& ui, AtHandState& state, const LiveRun& run, const Rect& rect, std::vector<bench::Action>& out);

}  // namespace stirbench::desk
