#include "app/desk/ui/spot.h"

#include <GLFW/glfw3.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

#include "app/desk/shell/app.h"
#include "app/desk/ui/item.h"

namespace stirbench::desk {

namespace {

constexpr float drag_from_px = 4.0F;

// The spot that is held, where it was pressed and whether it moved: only one pointer, so one memory.
struct Hold {
  unsigned int id = 0;
  ImVec2 from{0.0F, 0.0F};
  bool moved = false;
};
Hold& hold() {
  static Hold value;
  return value;
}

Rect enlarged(const Ui& ui, const Rect& rect) {
  const float least = ui.px(Measure::target_min);
  const float grow_x = std::max(least - rect.w, 0.0F) * 0.5F;
  const float grow_y = std::max(least - rect.h, 0.0F) * 0.5F;
  return rect.inset(-grow_x, -grow_y);
}

void track_drag(Ui& ui, const Item& item, SpotState& state) {
  const ImVec2 mouse = ImGui::GetIO().MousePos;
  if (item.held && hold().id != item.imgui_id) hold() = {item.imgui_id, mouse, false};
  if (hold().id != item.imgui_id) return;
  state.drag = {mouse.x - hold().from.x, mouse.y - hold().from.y};
  if (std::hypot(state.drag.x, state.drag.y) > ui.px(drag_from_px)) hold().moved = true;
  if (item.held) {
    state.dragging = hold().moved;
    return;
  }
  // Let go: a drop is not a click.
  state.dropped = hold().moved;
  if (hold().moved) state.pressed = false;
  hold() = {};
}

}  // namespace

SpotState spot(Ui& ui, std::string_view id, std::string_view label, const Rect& rect, const SpotStyle& style) {
  const ImVec2 cursor = ImGui::GetCursorScreenPos();
  const Rect target = enlarged(ui, rect);
  ItemSpec spec{.id = id, .kind = "spot", .label = label, .value = style.value, .enabled = style.enabled, .reason = style.reason, .hint = style.hint};
  spec.tooltip_label = style.tooltip && style.hint.empty();
  const Item item = add_item(ui, target, spec);
  SpotState state;
  state.pressed = item.pressed;
  state.hovered = item.hovered;
  state.held = item.held;
  state.focused = item.focused;
  state.mouse = ImGui::GetIO().MousePos;
  if (style.draggable && style.enabled) {
    track_drag(ui, item, state);
    if (item.focused && ImGui::GetIO().KeyShift) {
      claim_arrows();
      state.key_x = static_cast<float>(focused_key(item, GLFW_KEY_RIGHT)) - static_cast<float>(focused_key(item, GLFW_KEY_LEFT));
      state.key_y = static_cast<float>(focused_key(item, GLFW_KEY_DOWN)) - static_cast<float>(focused_key(item, GLFW_KEY_UP));
    }
  }
  const float corner = ui.px(style.corner);
  if (style.draw_hover && item.hovered && style.enabled) {
    current_draw()->AddRect(target.min(), target.max(), ui.theme.colour(Token::act).faded(0.7F).u32(), corner, 0, ui.px(2.0F));
  }
  if (item.focused) focus_ring(ui, target, corner);
  ImGui::SetCursorScreenPos(cursor);
  return state;
}

void draw_pointer(Ui& ui) {
  const std::string& id = ui.registry.pointed();
  if (id.empty()) return;
  const Widget* widget = ui.registry.find(id);
  if (widget == nullptr || !widget->visible) return;
  // One slow pulse a second and a half; a still ring with reduced motion.
  float pulse = 0.0F;
  if (!ui.reduced_motion) {
    constexpr double period_s = 1.5;
    pulse = static_cast<float>(0.5 - 0.5 * std::cos(2.0 * 3.14159265358979 * std::fmod(ui.now_s, period_s) / period_s));
    ui.app.animate();
  }
  ImDrawList* draw = ImGui::GetForegroundDrawList();
  const Colour act = ui.theme.colour(Token::act);
  const Rect rect = widget->visible_rect;
  const Rect ring = rect.inset(-ui.px(6.0F + 4.0F * pulse));
  const float corner = ui.px(10.0F);
  draw->AddRect(ring.min(), ring.max(), ui.colour(Token::panel), corner, 0, ui.px(7.0F));
  draw->AddRect(ring.min(), ring.max(), act.u32(), corner, 0, ui.px(4.0F));

  // The arrow comes from the side with more room.
  const ImVec2 display = ImGui::GetIO().DisplaySize;
  const float length = ui.px(44.0F);
  const bool from_left = rect.x > display.x - rect.right();
  const float direction = from_left ? 1.0F : -1.0F;
  const float tip_x = (from_left ? ring.x : ring.right()) - direction * ui.px(6.0F + 6.0F * pulse);
  const float y = rect.centre().y;
  const float head = ui.px(14.0F);
  for (const bool outline : {true, false}) {
    const ImU32 colour = outline ? ui.colour(Token::panel) : act.u32();
    const float grow = outline ? ui.px(2.5F) : 0.0F;
    const float neck = tip_x - direction * head;
    draw->AddLine({neck + direction * grow, y}, {tip_x - direction * (length + grow), y}, colour, ui.px(7.0F) + 2.0F * grow);
    const ImVec2 a{tip_x + direction * grow * 1.6F, y};
    const ImVec2 b{neck - direction * grow, y - head * 0.75F - grow * 1.3F};
    const ImVec2 c{neck - direction * grow, y + head * 0.75F + grow * 1.3F};
    draw->AddTriangleFilled(a, b, c, colour);
  }
}

}  // namespace stirbench::desk
