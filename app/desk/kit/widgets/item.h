#pragma once

#include <string>
#include <string_view>

#include "app/desk/kit/widgets/ui.h"

// What all controls share: placing, the ImGui item under them, registration, focus ring, explanation. Screens
// use widgets.h.
namespace stirbench::desk::kit {

struct ItemSpec {
  std::string_view id{};
  const char* kind = "button";
  std::string_view label{};
  std::string value{};
  bool enabled = true;
  std::string_view reason{};  // shown when hovered or focused while not enabled
  std::string_view hint{};    // shown when hovered or focused while enabled
  bool focusable = true;
  bool on_press = false;       // react to the press rather than to the release (sliders, dragging)
  bool tooltip_label = false;  // the label is not drawn: show it as hint
};

struct Item {
  unsigned int imgui_id = 0;
  Rect rect;
  bool drawn = false;  // not clipped away
  bool pressed = false;
  bool hovered = false;
  bool held = false;
  bool has_keyboard = false;  // keys go here, also after a click, when no ring shows
  bool focused = false;       // the focus ring shows
};

// The rectangle of `size` at the cursor. Does not move the cursor.
Rect at_cursor(ImVec2 size);
// Moves the cursor past a rectangle at the cursor.
void advance(const Rect& rect);

// Adds the item. Enter and Space press it; a disabled one can be focused, so that its reason can be read, but
// not pressed.
Item add_item(Ui& ui, const Rect& rect, const ItemSpec& spec);

// For ImGui's own items (text input) just submitted: registers, and carries out focus requests. True when it
// should be activated.
void register_item(Ui& ui, const Rect& rect, const ItemSpec& spec, unsigned int imgui_id, bool focused);

// 3 px ring, 2 px away. Call after drawing the control.
void focus_ring(Ui& ui, const Rect& rect, float corner);

// Flat box with a border.
void box(ImDrawList* draw, const Rect& rect, ImU32 ground, ImU32 border, float corner,
         float border_width = 1.0F);

// Starts a new line when a control of this width does not fit beside the one before it.
void wrap_line(float natural);

// Width for a Place: natural when 0, fill when < 0. Starts a new line when it does not fit beside the control
// before it.
float placed_width(float wanted, float natural);

// True while the key was just pressed and the item has the keyboard.
bool focused_key(const Item& item, int glfw_key, bool repeat = true);
// Keeps ImGui from moving the focus with the arrow keys in this frame.
void claim_arrows();

}  // namespace stirbench::desk::kit
