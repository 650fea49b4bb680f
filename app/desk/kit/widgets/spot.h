#pragma once

#include <string>
#include <string_view>

#include "app/desk/kit/widgets/ui.h"

namespace stirbench::desk::kit {

struct SpotStyle {
  bool enabled = true;
  std::string reason{};
  std::string value{};  // "open", "closed", "0.40"
  std::string hint{};   // tooltip
  bool draggable = false;
  bool tooltip = true;     // the label shows when there is no hint
  bool draw_hover = true;  // a soft outline when hovered; the focus ring is always drawn
  float corner = 8.0F;
};

struct SpotState {
  bool pressed = false;  // clicked, Enter or Space
  bool hovered = false;
  bool held = false;
  bool focused = false;   // has the keyboard
  bool dragging = false;  // held and moved more than 4 px
  bool dropped = false;   // let go after dragging, in this frame
  ImVec2 mouse{0.0F, 0.0F};
  ImVec2 drag{0.0F, 0.0F};  // since the press
  float key_x = 0.0F;  // arrow keys while focused and held with Shift: -1, 0, 1 (dragging without a mouse)
  float key_y = 0.0F;
};

// An invisible control over a drawing (machine.lid, machine.draw_valve). Reachable by Tab, pressed with Enter
// or Space. Does not move the cursor. Targets smaller than 24 px are enlarged around their centre.
SpotState spot(Ui& ui, std::string_view id, std::string_view label, const Rect& rect,
               const SpotStyle& style = {});

// Draws the guiding ring and arrow at the widget the registry points at. The app calls it once, last.
void draw_pointer(Ui& ui);

}  // namespace stirbench::desk::kit
