#pragma once

#include "app/desk/screens/train/hand_grid.h"

// What is at hand for the transfer hose, for washing the vat and for wear service.
namespace stirbench::desk::screens {

// Joint, route and contents of the hose.
void draw_hose_hands(HandGrid& grid);
// Chemicals into the vat's water, brush, swabs, and what strip and swab read.
void draw_wash_hands(HandGrid& grid);
// Feeler gauge, threads, and the service sheet.
void draw_service_hands(HandGrid& grid);

}  // namespace stirbench::desk::screens
