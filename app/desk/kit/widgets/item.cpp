#include "app/desk/kit/widgets/item.h"

#include <GLFW/glfw3.h>
#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

#include "app/desk/kit/widgets/dialog.h"

namespace stirbench::desk::kit {

namespace {

// The control that the pointer rests on and since when: explanations wait a moment so that they do not chase
// the pointer.
struct Rest {
  unsigned int id = 0;
  double since_s = 0.0;
};
Rest& rest() {
  static Rest value;
  return value;
}
constexpr double explain_after_s = 0.45;

void explain(Ui& ui, const Item& item, const ItemSpec& spec) {
  std::string_view words = spec.enabled ? spec.hint : spec.reason;
  if (words.empty() && spec.tooltip_label) words = spec.label;
  if (words.empty() || item.held) return;
  if (item.focused) {
    tooltip(ui, words);
    return;
  }
  if (!item.hovered) return;
  if (rest().id != item.imgui_id) rest() = {item.imgui_id, ui.now_s};
  if (ui.now_s - rest().since_s >= explain_after_s) {
    tooltip(ui, words);
  } else {
    ui.host.wake_at(rest().since_s + explain_after_s + 0.005);
  }
}

bool enter_pressed() {
  return ImGui::IsKeyPressed(GLFW_KEY_ENTER, false) || ImGui::IsKeyPressed(GLFW_KEY_KP_ENTER, false);
}

// Gives the keyboard to an item that was asked for, and scrolls to it.
void take_requests(Ui& ui, const Rect& rect, std::string_view id, unsigned int imgui_id, bool text_input) {
  ImGuiContext& g = *GImGui;
  ImGuiWindow* window = g.CurrentWindow;
  const ImRect bounds(rect.min(), rect.max());
  const bool focus = ui.registry.take_focus_request(id);
  if (focus) {
    if (g.ActiveId != 0 && g.ActiveId != imgui_id) ImGui::ClearActiveID();
    ImGui::FocusWindow(window);
    ImGui::SetFocusID(imgui_id, window);
    g.NavDisableHighlight = !ui.registry.focus_shows_ring();
    g.NavDisableMouseHover = ui.registry.focus_shows_ring();
    if (text_input) {
      g.NavNextActivateId = imgui_id;
      g.NavNextActivateFlags = ImGuiActivateFlags_PreferInput;
    }
    ui.host.animate();
  }
  if (focus || ui.registry.take_scroll_request(id)) {
    for (ImGuiWindow* w = window; w != nullptr && (w->Flags & ImGuiWindowFlags_ChildWindow) != 0;
         w = w->ParentWindow) {
      ImRect wide = bounds;
      wide.Expand(ui.px(8.0F));
      ImGui::ScrollToBringRectIntoView(w, wide);
    }
    ui.host.animate();
  }
}

}  // namespace

ImDrawList* current_draw() { return ImGui::GetWindowDrawList(); }

float eased(Ui& ui, double start_s, double duration_s) {
  if (ui.reduced_motion || duration_s <= 0.0) return 1.0F;
  const double share = std::clamp((ui.now_s - start_s) / duration_s, 0.0, 1.0);
  if (share < 1.0) ui.host.animate();
  const double left = 1.0 - share;
  return static_cast<float>(1.0 - left * left * left);
}

Rect at_cursor(ImVec2 size) {
  const ImVec2 cursor = ImGui::GetCursorScreenPos();
  return {std::round(cursor.x), std::round(cursor.y), std::round(size.x), std::round(size.y)};
}

void advance(const Rect& rect) { ImGui::ItemSize(ImRect(rect.min(), rect.max())); }

void wrap_line(float natural) {
  // After same_line() the line has a height already. What does not fit beside the last control goes below it.
  const ImGuiWindow* window = ImGui::GetCurrentWindow();
  if (window->DC.CurrLineSize.y > 0.0F && natural > ImGui::GetContentRegionAvail().x) ImGui::NewLine();
}

float placed_width(float wanted, float natural) {
  if (wanted >= 0.0F) wrap_line(wanted > 0.0F ? wanted : natural);
  if (wanted > 0.0F) return wanted;
  const float room = std::max(ImGui::GetContentRegionAvail().x, 1.0F);
  return wanted < 0.0F ? room : std::min(natural, room);
}

void register_item(Ui& ui, const Rect& rect, const ItemSpec& spec, unsigned int imgui_id, bool focused) {
  const ImGuiWindow* window = ImGui::GetCurrentWindow();
  const ImRect clip = window->ClipRect;
  Widget widget;
  widget.id = std::string(spec.id);
  widget.kind = spec.kind;
  widget.label = std::string(spec.label);
  widget.value = spec.value;
  widget.reason = spec.enabled ? std::string() : std::string(spec.reason);
  widget.rect = rect;
  widget.visible_rect = rect.overlap({clip.Min.x, clip.Min.y, clip.GetWidth(), clip.GetHeight()});
  widget.visible = widget.visible_rect.w >= 4.0F && widget.visible_rect.h >= 4.0F;
  widget.enabled = spec.enabled;
  widget.focused = focused;
  widget.focusable = spec.focusable;
  widget.imgui_id = imgui_id;
  ui.registry.add(std::move(widget));
  const bool text_input = std::string_view(spec.kind) == "field";
  if (imgui_id != 0) take_requests(ui, rect, spec.id, imgui_id, text_input && spec.enabled);
  if (imgui_id == 0) ui.registry.take_scroll_request(spec.id);
}

Item add_item(Ui& ui, const Rect& rect, const ItemSpec& spec) {
  ImGuiContext& g = *GImGui;
  Item item;
  item.rect = rect;
  item.imgui_id = ImHashStr(spec.id.data(), spec.id.size());
  const ImRect bounds(rect.min(), rect.max());
  // ImGui keeps an item active only while somebody names it; its own widgets do so when they make their id.
  ImGui::KeepAliveID(item.imgui_id);
  item.drawn = ImGui::ItemAdd(bounds, item.imgui_id, nullptr, spec.focusable ? 0 : ImGuiItemFlags_NoNav);
  if (item.drawn) {
    const ImGuiButtonFlags flags =
        spec.on_press ? ImGuiButtonFlags_PressedOnClick : ImGuiButtonFlags_PressedOnClickRelease;
    item.pressed = ImGui::ButtonBehavior(bounds, item.imgui_id, &item.hovered, &item.held, flags);
  }
  item.has_keyboard = g.NavId == item.imgui_id && g.NavWindow == g.CurrentWindow;
  item.focused = item.has_keyboard && !g.NavDisableHighlight;
  if (item.focused && enter_pressed()) item.pressed = true;
  if (!spec.enabled) item.pressed = item.held = false;
  register_item(ui, rect, spec, item.imgui_id, item.has_keyboard);
  if (item.hovered && spec.enabled) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
  explain(ui, item, spec);
  return item;
}

void focus_ring(Ui& ui, const Rect& rect, float corner) {
  ImGuiWindow* window = ImGui::GetCurrentWindow();
  const float width = ui.px(Measure::focus_width);
  const float away = ui.px(Measure::focus_gap) + width * 0.5F;
  const Rect ring = rect.inset(-away);
  // The ring may reach over the edge of a scroll area's content, not over the area itself.
  window->DrawList->PushClipRect(window->OuterRectClipped.Min, window->OuterRectClipped.Max, false);
  window->DrawList->AddRect(ring.min(), ring.max(), ui.colour(Token::act), corner + away, 0, width);
  window->DrawList->PopClipRect();
}

void box(ImDrawList* draw, const Rect& rect, ImU32 ground, ImU32 border, float corner, float border_width) {
  if ((ground & IM_COL32_A_MASK) != 0) draw->AddRectFilled(rect.min(), rect.max(), ground, corner);
  if (border_width > 0.0F) {
    // The stroke runs inside the rectangle so that neighbours line up to the pixel. ImGui itself moves it in
    // by half a pixel.
    const float half = border_width * 0.5F - 0.5F;
    const Rect stroke = rect.inset(half);
    draw->AddRect(stroke.min(), stroke.max(), border, std::max(corner - half, 0.0F), 0, border_width);
  }
}

bool focused_key(const Item& item, int glfw_key, bool repeat) {
  return item.has_keyboard && ImGui::IsKeyPressed(glfw_key, repeat);
}

void claim_arrows() { ImGui::NavMoveRequestCancel(); }

}  // namespace stirbench::desk::kit
