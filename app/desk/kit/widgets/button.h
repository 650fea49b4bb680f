#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/desk/kit/widgets/icon.h"
#include "app/desk/kit/widgets/text_block.h"
#include "app/desk/kit/widgets/ui.h"

namespace stirbench::desk::kit {

// Size of a control in scaled pixels: 0 = natural, < 0 = fill to the edge of the region, > 0 = that many.
struct Place {
  float w = 0.0F;
  float h = 0.0F;
};

enum class ButtonKind : std::uint8_t {
  normal,   // panel ground, edge
  primary,  // the one thing to do: act ground
  stop,     // dark ground
  quiet,    // no border until hovered
  key       // a key of the machine's panel: like normal, 44 px high, label centred; lamp when lit
};

struct ButtonStyle {
  ButtonKind kind = ButtonKind::normal;
  Icon icon = Icon::none;  // before the label
  Icon icon_after = Icon::none;
  bool enabled = true;
  std::string reason{};   // why not enabled; shown as tooltip (also from the keyboard)
  bool selected = false;  // thick act border, act2 ground: the current one of several
  bool lit = false;       // key: a dot after the label says it is running
  std::string hint{};     // tooltip when enabled
  Place place{};
  Align align = Align::centre;
  std::string value{};  // registered value; default "selected"/"lit" or empty
};

// True in the frame in which it is pressed (mouse, Enter or Space).
bool button(Ui& ui, std::string_view id, std::string_view label, const ButtonStyle& style = {});
// A button at a fixed place in a drawing or bar; does not move the cursor.
bool button_at(Ui& ui, std::string_view id, std::string_view label, const Rect& rect,
               const ButtonStyle& style = {});
float button_width(const Ui& ui, std::string_view label, const ButtonStyle& style = {});

// A rounded pill that is on or off (speed 1x 10x 60x, filters). True when pressed; the caller changes
// `selected`.
bool chip(Ui& ui, std::string_view id, std::string_view label, bool selected, const ButtonStyle& style = {});

// Underlined words.
bool link(Ui& ui, std::string_view id, std::string_view label);

// Square button with only a shape; `label` is what it is called (tooltip, registry).
bool icon_button(Ui& ui, std::string_view id, Icon which, std::string_view label,
                 const ButtonStyle& style = {});

// Button that opens a list; returns the index chosen in this frame or -1. Items have the ids "ID.0", "ID.1",
// ...
int menu_button(Ui& ui, std::string_view id, std::string_view label, const std::vector<std::string>& items,
                const ButtonStyle& style = {});

}  // namespace stirbench::desk::kit
