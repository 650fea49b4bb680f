#include "app/desk/kit/widgets/popup.h"

#include <imgui_internal.h>

#include <algorithm>

#include "app/desk/kit/widgets/icon.h"
#include "app/desk/kit/widgets/item.h"
#include "app/desk/kit/widgets/text_block.h"

namespace stirbench::desk::kit {

namespace {

ImGuiID popup_id(std::string_view id) {
  const std::string name = "popup:" + std::string(id);
  return ImHashStr(name.c_str(), name.size());
}

bool popup_row(Ui& ui, const std::string& id, const std::string& label, bool chosen) {
  const float side = ui.em(14.0F);
  const Rect rect = at_cursor({std::max(ImGui::GetContentRegionAvail().x, 1.0F), ui.theme.control_height()});
  advance(rect);
  const Item item =
      add_item(ui, rect, {.id = id, .kind = "row", .label = label, .value = chosen ? "selected" : ""});
  if (item.drawn) {
    const float corner = ui.px(4.0F);
    if (item.hovered || item.held || chosen) {
      box(current_draw(), rect, ui.colour(item.hovered ? Token::sunk : Token::act2), 0, corner, 0.0F);
    }
    const float line = ui.theme.line_px(Type::body);
    if (chosen)
      icon(current_draw(), Icon::check, {rect.x + ui.px(8.0F), rect.y + (rect.h - side) * 0.5F, side, side},
           ui.colour(Token::act));
    text_at(ui, current_draw(), {rect.x + ui.px(16.0F) + side, rect.y + (rect.h - line) * 0.5F}, label);
    if (item.focused) focus_ring(ui, rect.inset(ui.px(4.0F)), corner);
  }
  return item.pressed;
}

}  // namespace

void open_popup(Ui& ui, std::string_view id) {
  ImGui::OpenPopupEx(popup_id(id));
  ui.host.animate();
}

int popup_list(Ui& ui, std::string_view id, const Rect& anchor, const std::vector<std::string>& items,
               int chosen) {
  const ImGuiID popup = popup_id(id);
  if (!ImGui::IsPopupOpen(popup, 0)) return -1;
  float widest = anchor.w;
  for (const std::string& item : items) {
    widest = std::max(widest, text_size(ui, item, Type::body).x + ui.em(14.0F) + ui.px(44.0F));
  }
  const float pad = ui.px(6.0F);
  const float spacing = ui.px(2.0F);
  const ImVec2 display = ImGui::GetIO().DisplaySize;
  const float row = ui.theme.control_height() + spacing;
  const float height =
      std::min(row * static_cast<float>(items.size()) - spacing + 2.0F * pad, display.y * 0.7F);
  const float width = std::min(widest, display.x - 2.0F * pad);
  const float x = std::clamp(anchor.x, pad, std::max(display.x - width - pad, pad));
  float y = anchor.bottom() + ui.px(4.0F);
  if (y + height > display.y - pad) y = std::max(anchor.y - ui.px(4.0F) - height, pad);
  ImGui::SetNextWindowPos({x, y});
  ImGui::SetNextWindowSize({width, height});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {pad, pad});
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {spacing, spacing});
  int picked = -1;
  if (ImGui::BeginPopupEx(popup, ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoMove |
                                     ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoSavedSettings)) {
    const std::size_t mark = ui.registry.begin_modal();
    for (std::size_t i = 0; i < items.size(); ++i) {
      const std::string row_id = std::string(id) + "." + std::to_string(i);
      if (ImGui::IsWindowAppearing() && static_cast<int>(i) == std::max(chosen, 0)) {
        ui.registry.request_focus(row_id, !GImGui->NavDisableHighlight);
      }
      if (popup_row(ui, row_id, items[i], static_cast<int>(i) == chosen)) picked = static_cast<int>(i);
    }
    ui.registry.end_modal(mark);
    if (picked >= 0 || ImGui::IsKeyPressed(ImGui::GetIO().KeyMap[ImGuiKey_Escape], false)) {
      ImGui::CloseCurrentPopup();
      ui.registry.request_focus(id, !GImGui->NavDisableHighlight);
    }
    ImGui::EndPopup();
  }
  ImGui::PopStyleVar(2);
  return picked;
}

}  // namespace stirbench::desk::kit
