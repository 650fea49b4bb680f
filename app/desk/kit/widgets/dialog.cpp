#include "app/desk/kit/widgets/dialog.h"

#include <GLFW/glfw3.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/button.h"
#include "app/desk/kit/widgets/item.h"

namespace stirbench::desk::kit {

namespace {

constexpr ImGuiWindowFlags layer_flags =
    ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove |
    ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoNavFocus |
    ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse;

// Height of the dialog's content in the last frame, and where the keyboard was before it opened.
struct Memory {
  float content_height = 0.0F;
  std::string focus_before;
  std::size_t mark = 0;
};
std::map<std::string, Memory, std::less<>>& memories() {
  static std::map<std::string, Memory, std::less<>> value;
  return value;
}

// Open dialogs from the outside in; each scope ends the one it began.
std::vector<std::string>& open_dialogs() {
  static std::vector<std::string> value;
  return value;
}

// Where a dialog lies: as high as its content was in the last frame, inside the window.
Rect dialog_rect(const Ui& ui, float width, float content_height, float pad) {
  const ImVec2 display = ImGui::GetIO().DisplaySize;
  const float margin = ui.px(24.0F);
  const float wide = std::min(std::round(ui.em(width)), display.x - 2.0F * margin);
  const float wanted = content_height > 0.0F ? content_height + 2.0F * pad : display.y * 0.4F;
  const float high = std::min(std::round(wanted), display.y - 2.0F * margin);
  return {std::round((display.x - wide) * 0.5F), std::round((display.y - high) * 0.42F), wide, high};
}

}  // namespace

DialogScope::DialogScope(Ui& ui, std::string_view id, std::string_view heading, float width) : ui_(ui) {
  const std::string name(id);
  Memory& memory = memories()[name];
  open_dialogs().push_back(name);
  const ImVec2 display = ImGui::GetIO().DisplaySize;
  ImGui::SetNextWindowPos({0.0F, 0.0F});
  ImGui::SetNextWindowSize(display);
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0.0F, 0.0F});
  ImGui::Begin(("dialog:" + name).c_str(), nullptr, layer_flags);
  ImGui::PopStyleVar();
  const bool appearing = ImGui::IsWindowAppearing();
  if (appearing) {
    ImGui::SetWindowFocus();
    memory.focus_before = ui.registry.focused_id();
    memory.content_height = 0.0F;
  }
  // Keeps the window in front of the screen below also when that asked for the focus.
  ImGui::BringWindowToDisplayFront(ImGui::GetCurrentWindow());
  current_draw()->AddRectFilled({0.0F, 0.0F}, display, ui.colour(Token::shade));

  const float pad = ui.px(20.0F);
  const Rect rect = dialog_rect(ui, width, memory.content_height, pad);
  // The first frame only measures: nothing is seen to jump.
  if (memory.content_height > 0.0F) {
    box(current_draw(), rect, ui.colour(Token::panel), ui.colour(Token::edge), ui.px(Measure::corner_panel),
        ui.px(1.0F));
  }
  memory.mark = ui.registry.begin_modal();
  ImGui::SetCursorScreenPos(rect.min());
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {pad, pad});
  ImGui::PushStyleVar(ImGuiStyleVar_Alpha, memory.content_height > 0.0F ? 1.0F : 0.0F);
  ImGui::BeginChild(("dialog.body:" + name).c_str(), rect.size(), false,
                    ImGuiWindowFlags_NavFlattened | ImGuiWindowFlags_AlwaysUseWindowPadding |
                        ImGuiWindowFlags_NoBackground);
  ui_.draw = current_draw();
  ui.registry.add({.id = name,
                   .kind = "dialog",
                   .label = std::string(heading),
                   .value = {},
                   .reason = {},
                   .rect = rect,
                   .visible_rect = rect,
                   .focusable = false});

  const float side = ui.theme.control_height();
  const ImVec2 start = ImGui::GetCursorScreenPos();
  const float room = width_left(ui) - side - ui.px(8.0F);
  text(ui, heading, {.type = Type::title, .wrap = std::max(room, 1.0F)});
  const ImVec2 after = ImGui::GetCursorScreenPos();
  at(ui, start.x + room + ui.px(8.0F), start.y);
  const bool crossed =
      icon_button(ui, name + ".close", Icon::cross, tr("Close"), {.kind = ButtonKind::quiet});
  at(ui, start.x, std::max(after.y, start.y + side) + ui.px(4.0F));
  const bool escaped = ImGui::IsKeyPressed(GLFW_KEY_ESCAPE, false) && !appearing &&
                       !ImGui::IsPopupOpen("", ImGuiPopupFlags_AnyPopupId);
  dismissed_ = crossed || escaped;
}

DialogScope::~DialogScope() {
  const std::string name = open_dialogs().back();
  open_dialogs().pop_back();
  Memory& memory = memories()[name];
  const ImGuiWindow* body = ImGui::GetCurrentWindow();
  const float height = body->DC.CursorMaxPos.y - body->DC.CursorStartPos.y;
  if (std::abs(height - memory.content_height) > 0.5F) ui_.host.animate();
  memory.content_height = height;
  ui_.registry.end_modal(memory.mark);
  ImGui::EndChild();
  ImGui::PopStyleVar(2);
  ImGui::End();
  ui_.draw = current_draw();
}

void tooltip(Ui& ui, std::string_view words) {
  const float wrap = std::min(text_size(ui, words, Type::caption).x, ui.em(300.0F));
  const ImVec2 size = text_size(ui, words, Type::caption, wrap + 1.0F);
  const float pad = ui.px(10.0F);
  const ImRect anchor = ImGui::GetCurrentContext()->LastItemData.Rect;
  const ImVec2 display = ImGui::GetIO().DisplaySize;
  const ImVec2 whole{size.x + 2.0F * pad, size.y + 2.0F * ui.px(7.0F)};
  Rect rect{anchor.Min.x, anchor.Max.y + ui.px(8.0F), whole.x, whole.y};
  if (rect.bottom() > display.y - ui.px(4.0F)) rect.y = anchor.Min.y - ui.px(8.0F) - whole.y;
  rect.x = std::clamp(rect.x, ui.px(4.0F), std::max(display.x - whole.x - ui.px(4.0F), ui.px(4.0F)));
  ImDrawList* draw = ImGui::GetForegroundDrawList();
  box(draw, rect, ui.colour(Token::stop), ui.colour(Token::stop), ui.px(Measure::corner_control), 0.0F);
  text_at(ui, draw, {rect.x + pad, rect.y + ui.px(7.0F)}, words,
          {.type = Type::caption, .colour = Token::on_stop, .wrap = wrap + 1.0F});
}

}  // namespace stirbench::desk::kit
