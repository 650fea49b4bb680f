#pragma once

#include "app/desk/views/panel/panel.h"

// The dark display with its numbers and message line. Internal to panel.
namespace stirbench::desk::panel_parts {

float display_height(const Ui& ui, float width);
// What a finger did on the display.
struct DisplayTouch {
  bool acknowledge = false;
  bool details = false;
};
DisplayTouch draw_display(Ui& ui, const bench::Machine& machine, const bench::State& state, const Rect& rect);

}  // namespace stirbench::desk::panel_parts
