#pragma once

#include <string>
#include <vector>

#include "app/desk/kit/text/units.h"
#include "app/desk/kit/theme/geometry.h"
#include "app/desk/kit/theme/theme.h"
#include "app/desk/kit/widgets/host.h"
#include "app/desk/kit/widgets/registry.h"

namespace stirbench::desk::kit {

// What a screen gets for one frame: everything that drawing needs.
struct Ui {
  Theme& theme;
  Registry& registry;
  Host& host;        // frames and messages
  UnitChoice units;  // how the person wants quantities shown
  bool reduced_motion = false;
  double now_s = 0.0;          // steady clock of the window, for motion only; never for the simulation
  double dt_s = 0.0;           // since the last frame, 0..0.1
  Rect area;                   // where this screen draws: the window below the top bar, without gutters
  ImDrawList* draw = nullptr;  // draw list of the current window; call current_draw() inside panels

  float px(float unscaled) const { return theme.px(unscaled); }
  float em(float unscaled) const { return theme.em(unscaled); }
  ImU32 colour(Token token) const { return theme.u32(token); }
  // Quantity in the person's units, as text: "85.0 °C".
  std::string shown(Quantity quantity, double si_value, int decimals = -1) const {
    return show_text(quantity, si_value, units, decimals);
  }
};

// Draw list of the panel, dialog or scroll area one is inside.
ImDrawList* current_draw();

// 0..1 eased share of a motion that started at start_s; 1 at once with reduced motion. Asks for the frames it
// needs.
float eased(Ui& ui, double start_s, double duration_s);

}  // namespace stirbench::desk::kit
