#include "app/desk/kit/widgets/panel.h"

#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

#include "app/desk/kit/theme/fill.h"
#include "app/desk/kit/widgets/item.h"
#include "app/desk/kit/widgets/text_block.h"

namespace stirbench::desk::kit {

namespace {

// A child region without decoration of its own. Regions flatten into one keyboard order.
void begin_region(Ui& ui, std::string_view id, const Rect& rect, ImVec2 padding, bool scroll) {
  ImGui::SetCursorScreenPos(rect.min());
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, padding);
  ImGui::PushStyleVar(ImGuiStyleVar_ScrollbarSize, ui.px(10.0F));
  ImGui::PushStyleVar(ImGuiStyleVar_ScrollbarRounding, ui.px(5.0F));
  const std::string name = "region:" + std::string(id);
  ImGuiWindowFlags flags = ImGuiWindowFlags_NavFlattened | ImGuiWindowFlags_AlwaysUseWindowPadding |
                           ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoBackground;
  if (!scroll) flags |= ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse;
  ImGui::BeginChild(name.c_str(), {std::max(rect.w, 1.0F), std::max(rect.h, 1.0F)}, false, flags);
}

// Content below the edge fades out, so that it shows even where the bar is overlooked.
void end_region(Ui& ui, Token ground) {
  const ImGuiWindow* window = ImGui::GetCurrentWindow();
  const bool more = window->ScrollMax.y > 1.0F && window->Scroll.y < window->ScrollMax.y - ui.px(4.0F) &&
                    (window->Flags & ImGuiWindowFlags_NoScrollbar) == 0;
  const ImRect outer = window->OuterRectClipped;
  if (more) {
    ImDrawList* draw = ImGui::GetWindowDrawList();
    const ImU32 solid = ui.colour(ground);
    const ImU32 clear = ui.theme.colour(ground).faded(0.0F).u32();
    const float right = outer.Max.x - ui.px(11.0F);
    draw->PushClipRect(outer.Min, outer.Max, false);
    draw->AddRectFilledMultiColor({outer.Min.x + ui.px(8.0F), outer.Max.y - ui.px(24.0F)},
                                  {right, outer.Max.y}, clear, clear, solid, solid);
    draw->PopClipRect();
  }
  ImGui::EndChild();
  ImGui::PopStyleVar(3);
}

}  // namespace

PanelScope::PanelScope(Ui& ui, std::string_view id, const Rect& rect, const PanelStyle& style)
    : ui_(ui), rect_(rect), ground_(style.ground) {
  const float pad = ui.px(style.padding);
  fill_ground(current_draw(), rect, ui.theme.colour(style.ground), ui.px(Measure::corner_panel));
  box(current_draw(), rect, 0, ui.colour(style.border), ui.px(Measure::corner_panel), ui.px(Measure::line));
  ui.registry.add({.id = std::string(id),
                   .kind = "panel",
                   .label = style.caption,
                   .value = {},
                   .reason = {},
                   .rect = rect,
                   .visible_rect = rect,
                   .focusable = false});
  // The region stays inside the line, so that scrolled content does not run over it.
  const Rect region = rect.inset(ui.px(1.0F));
  begin_region(ui, id, region, {pad - ui.px(1.0F), pad - ui.px(1.0F)}, style.scroll);
  inner_ = rect.inset(pad);
  if (!style.caption.empty()) {
    caption(ui, style.caption);
    const float used = ImGui::GetCursorScreenPos().y - inner_.y + ImGui::GetScrollY();
    inner_.take_top(used);
  }
  ui_.draw = current_draw();
}

PanelScope::~PanelScope() {
  end_region(ui_, ground_);
  ImGui::SetCursorScreenPos({rect_.x, rect_.y});
  advance(rect_);
  ui_.draw = current_draw();
}

CardScope::CardScope(Ui& ui, std::string_view id, const Rect& rect, std::string_view label, bool enabled,
                     std::string_view reason)
    : rect_(rect) {
  ImGui::SetCursorScreenPos(rect.min());
  const Item item =
      add_item(ui, rect,
               {.id = id, .kind = "card", .label = label, .value = {}, .enabled = enabled, .reason = reason});
  pressed_ = item.pressed;
  hovered_ = item.hovered && enabled;
  const Colour ground = ui.theme.colour(Token::panel);
  const float corner = ui.px(Measure::corner_panel);
  const Colour fill = mix(ground, ui.theme.colour(Token::act2), item.held ? 0.9F : hovered_ ? 0.45F : 0.0F);
  fill_ground(current_draw(), rect, fill, corner);
  box(current_draw(), rect, 0, ui.colour(hovered_ ? Token::act : Token::line), corner,
      ui.px(hovered_ ? 2.0F : 1.0F));
  if (item.focused) focus_ring(ui, rect, corner);
  inner_ = rect.inset(ui.px(24.0F));
  ImGui::PushClipRect(rect.min(), rect.max(), true);
  ImGui::SetCursorScreenPos(inner_.min());
}

CardScope::~CardScope() {
  ImGui::PopClipRect();
  ImGui::SetCursorScreenPos({rect_.x, rect_.y});
  advance(rect_);
}

ScrollScope::ScrollScope(Ui& ui, std::string_view id, const Rect& rect) : ui_(ui) {
  begin_region(ui, id, rect, {ui.px(6.0F), ui.px(6.0F)}, true);
  ui_.draw = current_draw();
}

ScrollScope::~ScrollScope() {
  end_region(ui_, Token::paper);
  ui_.draw = current_draw();
}

}  // namespace stirbench::desk::kit
