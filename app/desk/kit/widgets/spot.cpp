#include "app/desk/kit/widgets/spot.h"

#include <GLFW/glfw3.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "app/desk/kit/widgets/item.h"

namespace stirbench::desk::kit {

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

SpotState spot(Ui& ui, std::string_view id, std::string_view label, const Rect& rect,
               const SpotStyle& style) {
  const ImVec2 cursor = ImGui::GetCursorScreenPos();
  const Rect target = enlarged(ui, rect);
  ItemSpec spec{.id = id,
                .kind = "spot",
                .label = label,
                .value = style.value,
                .enabled = style.enabled,
                .reason = style.reason,
                .hint = style.hint};
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
      state.key_x = static_cast<float>(focused_key(item, GLFW_KEY_RIGHT)) -
                    static_cast<float>(focused_key(item, GLFW_KEY_LEFT));
      state.key_y = static_cast<float>(focused_key(item, GLFW_KEY_DOWN)) -
                    static_cast<float>(focused_key(item, GLFW_KEY_UP));
    }
  }
  const float corner = ui.px(style.corner);
  if (style.draw_hover && item.hovered && style.enabled) {
    current_draw()->AddRect(target.min(), target.max(), ui.theme.colour(Token::act).faded(0.7F).u32(), corner,
                            0, ui.px(2.0F));
  }
  if (item.focused) focus_ring(ui, target, corner);
  ImGui::SetCursorScreenPos(cursor);
  return state;
}

namespace {

// Where the arrow lies that comes to `ring` in the direction `way`.
Rect arrow_room(const Ui& ui, const Rect& ring, ImVec2 way) {
  const float length = ui.px(56.0F);
  const float half = ui.px(14.0F);
  if (way.x != 0.0F)
    return {way.x > 0.0F ? ring.x - length : ring.right(), ring.centre().y - half, length, 2.0F * half};
  return {ring.centre().x - half, way.y > 0.0F ? ring.y - length : ring.bottom(), 2.0F * half, length};
}

float overlap(const Rect& a, const Rect& b) {
  const float w = std::min(a.right(), b.right()) - std::max(a.x, b.x);
  const float h = std::min(a.bottom(), b.bottom()) - std::max(a.y, b.y);
  return w > 0.0F && h > 0.0F ? w * h : 0.0F;
}

// From the side on which the arrow hides the least of what can be pressed; from the side with more room when
// all are alike.
ImVec2 arrow_way(const Ui& ui, const Widget& target) {
  const ImVec2 display = ImGui::GetIO().DisplaySize;
  const Rect ring = target.visible_rect.inset(-ui.px(10.0F));
  const bool from_left = ring.x > display.x - ring.right();
  const ImVec2 right{1.0F, 0.0F};
  const ImVec2 left{-1.0F, 0.0F};
  ImVec2 best = from_left ? right : left;
  float least = std::numeric_limits<float>::max();
  for (const ImVec2 way :
       {from_left ? right : left, from_left ? left : right, ImVec2{0.0F, 1.0F}, ImVec2{0.0F, -1.0F}}) {
    const Rect room = arrow_room(ui, ring, way);
    float hidden = room.w * room.h - overlap(room, {0.0F, 0.0F, display.x, display.y});
    for (const Widget& other : ui.registry.all()) {
      if (!other.visible || !other.focusable || other.id == target.id || other.kind == "spot") continue;
      hidden += overlap(room, other.visible_rect);
    }
    if (hidden < least) best = way;
    least = std::min(least, hidden);
  }
  return best;
}

void draw_arrow(Ui& ui, ImDrawList* draw, const Rect& ring, ImVec2 way, float pulse) {
  const ImVec2 side{-way.y, way.x};
  const ImVec2 middle = ring.centre();
  const float away = ui.px(6.0F + 6.0F * pulse);
  const ImVec2 tip{middle.x - way.x * (ring.w * 0.5F + away), middle.y - way.y * (ring.h * 0.5F + away)};
  const auto at = [&](float back, float across) {
    return ImVec2{tip.x - way.x * back + side.x * across, tip.y - way.y * back + side.y * across};
  };
  const float length = ui.px(44.0F);
  const float head = ui.px(14.0F);
  for (const bool outline : {true, false}) {
    const ImU32 colour = ui.colour(outline ? Token::panel : Token::act);
    const float grow = outline ? ui.px(2.5F) : 0.0F;
    draw->AddLine(at(head - grow, 0.0F), at(length + grow, 0.0F), colour, ui.px(7.0F) + 2.0F * grow);
    const float half = head * 0.75F + grow * 1.3F;
    draw->AddTriangleFilled(at(-1.6F * grow, 0.0F), at(head + grow, -half), at(head + grow, half), colour);
  }
}

}  // namespace

void draw_pointer(Ui& ui) {
  const std::string& id = ui.registry.pointed();
  if (id.empty()) return;
  const Widget* widget = ui.registry.find(id);
  if (widget == nullptr || !widget->visible) return;
  // One slow pulse a second and a half; a still ring with reduced motion.
  float pulse = 0.0F;
  if (!ui.reduced_motion) {
    constexpr double period_s = 1.5;
    pulse = static_cast<float>(
        0.5 - 0.5 * std::cos(2.0 * 3.14159265358979 * std::fmod(ui.now_s, period_s) / period_s));
    ui.host.animate();
  }
  ImDrawList* draw = ImGui::GetForegroundDrawList();
  const Colour act = ui.theme.colour(Token::act);
  const Rect rect = widget->visible_rect;
  const Rect ring = rect.inset(-ui.px(6.0F + 4.0F * pulse));
  const float corner = ui.px(10.0F);
  draw->AddRect(ring.min(), ring.max(), ui.colour(Token::panel), corner, 0, ui.px(7.0F));
  draw->AddRect(ring.min(), ring.max(), act.u32(), corner, 0, ui.px(4.0F));

  draw_arrow(ui, draw, ring, arrow_way(ui, *widget), pulse);
}

}  // namespace stirbench::desk::kit
