#pragma once

#include "app/desk/screens/train/hand_grid.h"

namespace stirbench::desk::screens {

// Buttons for the hands of a group that have no place of their own on a screen (Hand::listed): one for each,
// or one for each choice of its only parameter. The button's id is the group's prefix, the hand's name and
// the choice: "hand.clean.wipe_floor".
void draw_listed(HandGrid& grid, hands::Group group);

}  // namespace stirbench::desk::screens
