#pragma once

#include "app/desk/views/panel/panel.h"

// The dark display with its numbers and message line. Internal to panel.
namespace stirbench::desk::views::panel {

float display_height(const kit::Ui& ui, float width);
// What a finger did on the display.
struct DisplayTouch {
  bool acknowledge = false;
  bool details = false;
};
DisplayTouch draw_display(kit::Ui& ui, const machine::Machine& machine, const machine::State& state,
                          const kit::Rect& rect);

}  // namespace stirbench::desk::views::panel
