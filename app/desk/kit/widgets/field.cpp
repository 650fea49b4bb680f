#include "app/desk/kit/widgets/field.h"

#include <GLFW/glfw3.h>
#include <imgui_internal.h>
#include <imgui_stdlib.h>

#include <algorithm>
#include <cmath>

#include "app/desk/kit/widgets/field_internal.h"
#include "app/desk/kit/widgets/item.h"

namespace stirbench::desk::kit {

namespace {

// The text field that Enter was pressed in, and the frame in which that was.
struct Entered {
  ImGuiID id = 0;
  int frame = -1;
};
Entered& last_entered() {
  static Entered value;
  return value;
}

ImGuiID text_id(std::string_view id) {
  const ImGuiID seed = ImHashStr(id.data(), id.size());
  return ImHashStr("##text", 0, seed);
}

void push_text_style(Ui& ui, float height, float right_room) {
  const ImFont* font = ui.theme.font(Type::body);
  ImGui::PushFont(const_cast<ImFont*>(font));
  ImGui::PushStyleVar(ImGuiStyleVar_FramePadding,
                      {ui.px(11.0F), std::max((height - font->FontSize) * 0.5F, 0.0F)});
  ImGui::PushStyleVar(ImGuiStyleVar_FrameBorderSize, 0.0F);
  const ImVec4 clear{0.0F, 0.0F, 0.0F, 0.0F};
  for (const int which :
       {ImGuiCol_FrameBg, ImGuiCol_FrameBgHovered, ImGuiCol_FrameBgActive, ImGuiCol_NavHighlight}) {
    ImGui::PushStyleColor(which, clear);
  }
  ImGui::PushStyleColor(ImGuiCol_Text, ui.theme.colour(Token::ink).vec());
  ImGui::PushStyleColor(ImGuiCol_TextDisabled, ui.theme.colour(Token::ink2).vec());
  ImGui::PushStyleColor(ImGuiCol_TextSelectedBg,
                        mix(ui.theme.colour(Token::panel), ui.theme.colour(Token::act), 0.25F).vec());
  (void)right_room;
}

void pop_text_style() {
  ImGui::PopStyleColor(7);
  ImGui::PopStyleVar(2);
  ImGui::PopFont();
}

}  // namespace

void field_label(Ui& ui, std::string_view label, bool above) {
  if (!above || label.empty()) return;
  text(ui, label, {.type = Type::caption, .colour = Token::ink2, .wrap = -1.0F});
  gap(ui, 4.0F);
}

void field_error(Ui& ui, const std::string& error) {
  if (error.empty()) return;
  gap(ui, 4.0F);
  const float side = std::round(ui.em(11.0F));
  const float left = side + ui.px(6.0F);
  const float wrap = std::max(ImGui::GetContentRegionAvail().x - left, 1.0F);
  const Rect rect = at_cursor(text_size(ui, error, Type::caption, wrap));
  const float line = ui.theme.line_px(Type::caption);
  icon(current_draw(), Icon::cross, {rect.x, rect.y + (line - side) * 0.5F, side, side},
       ui.colour(Token::bad));
  text_at(ui, current_draw(), {rect.x + left, rect.y}, error,
          {.type = Type::caption, .colour = Token::bad, .wrap = wrap});
  advance({rect.x, rect.y, rect.w + left, rect.h});
}

TextEdit edit_text(Ui& ui, const Rect& rect, const ItemSpec& spec, std::string& words,
                   const FieldStyle& style, float right_room) {
  TextEdit edit;
  ImGuiContext& g = *GImGui;
  const ImGuiID id = text_id(spec.id);
  const bool was_active = g.ActiveId == id;
  const bool bad = !style.error.empty();
  const bool hovered = ImGui::IsMouseHoveringRect(rect.min(), rect.max()) && ImGui::IsWindowHovered();
  const Token border = !style.enabled ? Token::line
                       : bad          ? Token::bad
                       : was_active   ? Token::act
                                      : Token::edge;
  const Colour ground = ui.theme.colour(style.enabled ? Token::panel : Token::sunk);
  const float corner = ui.px(Measure::corner_control);
  box(current_draw(), rect,
      hovered && style.enabled ? mix(ground, ui.theme.colour(Token::act), 0.05F).u32() : ground.u32(),
      ui.colour(border), corner, ui.px(bad || was_active ? 2.0F : 1.0F));

  const std::string before = words;
  ImGui::SetCursorScreenPos(rect.min());
  push_text_style(ui, style.multiline ? ui.theme.control_height() : rect.h, right_room);
  ImGui::PushOverrideID(ImHashStr(spec.id.data(), spec.id.size()));
  ImGuiInputTextFlags flags = style.enabled ? 0 : ImGuiInputTextFlags_ReadOnly;
  if (style.password) flags |= ImGuiInputTextFlags_Password;
  if (style.multiline) {
    ImGui::InputTextMultiline("##text", &words, rect.size(), flags);
  } else {
    ImGui::SetNextItemWidth(std::max(rect.w - right_room, 1.0F));
    ImGui::InputTextWithHint("##text", style.hint.c_str(), &words, flags | ImGuiInputTextFlags_AutoSelectAll);
  }
  ImGui::PopID();
  edit.active = g.ActiveId == id;
  pop_text_style();
  edit.changed = words != before;
  const bool enter =
      ImGui::IsKeyPressed(GLFW_KEY_ENTER, false) || ImGui::IsKeyPressed(GLFW_KEY_KP_ENTER, false);
  if (was_active && enter && !style.multiline) {
    edit.entered = true;
    last_entered() = {ImHashStr(spec.id.data(), spec.id.size()), ImGui::GetFrameCount()};
  }
  const bool has_keyboard = edit.active || (g.NavId == id && g.NavWindow == g.CurrentWindow);
  ItemSpec registered = spec;
  registered.value = style.password ? std::string(words.size(), '*') : words;
  register_item(ui, rect, registered, id, has_keyboard);
  edit.hovered = hovered;
  if (has_keyboard && !g.NavDisableHighlight) focus_ring(ui, rect, corner);
  if (hovered) ImGui::SetMouseCursor(ImGuiMouseCursor_TextInput);
  ImGui::SetCursorScreenPos(rect.min());
  advance(rect);
  return edit;
}

bool text_field(Ui& ui, std::string_view id, std::string_view label, std::string& words,
                const FieldStyle& style) {
  field_label(ui, label, style.label_above);
  const float width = placed_width(style.place.w, ui.em(260.0F));
  const float natural =
      style.multiline ? ui.theme.line_px(Type::body) * 4.0F + ui.px(16.0F) : ui.theme.control_height();
  const Rect rect = at_cursor({width, style.place.h > 0.0F ? style.place.h : natural});
  const ItemSpec spec{.id = id,
                      .kind = "field",
                      .label = label,
                      .value = {},
                      .enabled = style.enabled,
                      .reason = style.reason};
  const TextEdit edit = edit_text(ui, rect, spec, words, style, 0.0F);
  if (edit.hovered && !style.enabled && !style.reason.empty()) tooltip(ui, style.reason);
  field_error(ui, style.error);
  return edit.changed;
}

bool entered(Ui&, std::string_view id) {
  return last_entered().id == ImHashStr(id.data(), id.size()) &&
         last_entered().frame == ImGui::GetFrameCount();
}

}  // namespace stirbench::desk::kit
