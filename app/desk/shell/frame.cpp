#include <GLFW/glfw3.h>
#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/theme/fill.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/shell/app.h"

// What the shell draws around a screen: ground, top bar, toasts, pointer; and the keys that work everywhere.
namespace stirbench::desk::shell {

using kit::tr;

namespace {

constexpr ImGuiWindowFlags base_flags = ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                                        ImGuiWindowFlags_NoSavedSettings |
                                        ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoNavFocus |
                                        ImGuiWindowFlags_NoScrollWithMouse | ImGuiWindowFlags_NoBackground;

float top_bar_height(const kit::Ui& ui) {
  return std::max(ui.px(kit::Measure::top_bar), ui.theme.control_height() + ui.px(18.0F));
}

}  // namespace

void App::apply_style(const kit::Theme& theme) {
  ImGuiStyle& style = ImGui::GetStyle();
  style.WindowPadding = {0.0F, 0.0F};
  style.ItemSpacing = {theme.px(kit::Measure::gap_small), theme.px(kit::Measure::gap_small)};
  style.WindowBorderSize = 0.0F;
  style.ChildBorderSize = 0.0F;
  style.PopupBorderSize = theme.px(1.0F);
  style.PopupRounding = theme.px(kit::Measure::corner_panel);
  style.WindowMinSize = {1.0F, 1.0F};
  style.ScrollbarSize = theme.px(10.0F);
  style.ScrollbarRounding = theme.px(5.0F);
  style.AntiAliasedLinesUseTex = true;
  const auto set = [&](ImGuiCol which, kit::Token token) { style.Colors[which] = theme.colour(token).vec(); };
  set(ImGuiCol_Text, kit::Token::ink);
  set(ImGuiCol_WindowBg, kit::Token::paper);
  set(ImGuiCol_PopupBg, kit::Token::panel);
  set(ImGuiCol_Border, kit::Token::edge);
  set(ImGuiCol_ScrollbarGrab, kit::Token::ink2);
  set(ImGuiCol_ScrollbarGrabHovered, kit::Token::act);
  set(ImGuiCol_ScrollbarGrabActive, kit::Token::act);
  style.Colors[ImGuiCol_ScrollbarGrab].w = 0.55F;
  style.Colors[ImGuiCol_ScrollbarBg] = {0.0F, 0.0F, 0.0F, 0.0F};
  style.Colors[ImGuiCol_NavHighlight] = {0.0F, 0.0F, 0.0F, 0.0F};
}

void App::build_frame() {
  kit::Ui ui = make_ui();
  registry_.begin_frame();
  dismiss_toasts();
  handle_keys(ui);
  const ImVec2 display = ImGui::GetIO().DisplaySize;
  ImGui::SetNextWindowPos({0.0F, 0.0F});
  ImGui::SetNextWindowSize(display);
  ImGui::Begin("stirbench", nullptr, base_flags);
  ui.draw = kit::current_draw();
  if (screens::Screen* screen = top(); screen != nullptr) {
    const float bar = top_bar_height(ui);
    const kit::Rect whole{0.0F, 0.0F, display.x, display.y};
    draw_top_bar(ui);
    ui.area = whole;
    ui.area.take_top(bar);
    ui.area = ui.area.inset(ui.px(kit::Measure::gutter));
    at(ui, ui.area.x, ui.area.y);
    screen->draw(ui);
  }
  ImGui::End();
  draw_toasts(ui);
  registry_.end_frame();
  draw_pointer(ui);
}

void App::handle_keys(kit::Ui&) {
  const ImGuiIO& io = ImGui::GetIO();
  if (ImGui::IsKeyPressed(GLFW_KEY_TAB) && !io.KeyCtrl && !io.KeyAlt) {
    const std::string next = registry_.neighbour(registry_.focused_id(), io.KeyShift ? -1 : 1);
    if (!next.empty()) registry_.request_focus(next);
  }
  if (io.KeyAlt && ImGui::IsKeyPressed(GLFW_KEY_LEFT, false) && !registry_.has_modal() && top() != nullptr)
    back();
  if (io.KeyCtrl) {
    // Text size, as in any reader: Ctrl with plus, minus, 0.
    int percent = settings_.text_percent;
    if (ImGui::IsKeyPressed(GLFW_KEY_EQUAL, false) || ImGui::IsKeyPressed(GLFW_KEY_KP_ADD, false))
      percent += 10;
    if (ImGui::IsKeyPressed(GLFW_KEY_MINUS, false) || ImGui::IsKeyPressed(GLFW_KEY_KP_SUBTRACT, false))
      percent -= 10;
    if (ImGui::IsKeyPressed(GLFW_KEY_0, false)) percent = 100;
    percent = std::clamp(percent, 100, 200);
    if (percent != settings_.text_percent) {
      screens::Settings changed = settings_;
      changed.text_percent = percent;
      change_settings(changed);
    }
  }
}

void App::draw_back_and_titles(kit::Ui& ui, const screens::TopBar& bar, kit::Rect& room) {
  const float height = ui.theme.control_height();
  const float middle = room.y + room.h * 0.5F;
  if (stack_.size() > 1 && bar.can_leave) {
    const std::string label = bar.back_label.empty() ? tr("Back") : bar.back_label;
    const kit::ButtonStyle style{.icon = kit::Icon::arrow_left};
    const kit::Rect rect = room.take_left(button_width(ui, label, style), ui.px(kit::Measure::gutter));
    if (button_at(ui, "bar.back", label, {rect.x, std::round(middle - height * 0.5F), rect.w, height}, style))
      back();
  }
  const float title_line = ui.theme.line_px(kit::Type::body_bold);
  const std::string heading = fitted(ui, bar.title, kit::Type::body_bold, room.w);
  const kit::Rect title_rect =
      room.take_left(text_size(ui, heading, kit::Type::body_bold).x, ui.px(kit::Measure::gutter));
  text_at(ui, kit::current_draw(), {title_rect.x, std::round(middle - title_line * 0.5F)}, heading,
          {.type = kit::Type::body_bold, .id = "bar.title"});
  if (bar.subtitle.empty()) return;
  const float needed = text_size(ui, bar.subtitle, kit::Type::caption).x;
  // Half a word helps nobody: the subtitle goes before it is cut below a few letters.
  if (room.w < std::min(needed, ui.em(60.0F))) return;
  const std::string under = fitted(ui, bar.subtitle, kit::Type::caption, room.w);
  const kit::Rect rect =
      room.take_left(text_size(ui, under, kit::Type::caption).x, ui.px(kit::Measure::gutter));
  const float line = ui.theme.line_px(kit::Type::caption);
  text_at(ui, kit::current_draw(), {rect.x, std::round(middle - line * 0.5F)}, under,
          {.type = kit::Type::caption, .colour = kit::Token::ink2});
}

void App::draw_top_bar(kit::Ui& ui) {
  const ImVec2 display = ImGui::GetIO().DisplaySize;
  const kit::Rect bar{0.0F, 0.0F, display.x, top_bar_height(ui)};
  ImDrawList* draw = kit::current_draw();
  kit::fill_ground(draw, bar, ui.theme.colour(kit::Token::panel), 0.0F);
  draw->AddRectFilled({bar.x, bar.bottom() - ui.px(1.0F)}, bar.max(), ui.colour(kit::Token::line));
  screens::Screen& screen = *top();
  const screens::TopBar words = screen.top_bar(ui);
  kit::Rect room = bar.inset(ui.px(kit::Measure::gutter), 0.0F);
  const kit::Rect tools =
      room.take_right(tools_width_, tools_width_ > 0.0F ? ui.px(kit::Measure::gutter) : 0.0F);
  draw_back_and_titles(ui, words, room);
  if (room.w > ui.em(40.0F)) screen.draw_bar_middle(ui, room);

  // The tools' width is known after they were drawn once; until then they are invisible.
  const bool measured = tools_width_ > 0.0F;
  if (!measured) ImGui::PushStyleVar(ImGuiStyleVar_Alpha, 0.0F);
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing,
                      {ui.px(kit::Measure::gutter), ui.px(kit::Measure::gap_small)});
  at(ui, measured ? tools.x : bar.x, std::round(bar.y + (bar.h - ui.theme.control_height()) * 0.5F));
  // Tools take the width they need, whatever is left at the right of the cursor now.
  ImRect& content = ImGui::GetCurrentWindow()->ContentRegionRect;
  const float edge = content.Max.x;
  content.Max.x = tools.x + 2.0F * bar.w;
  ImGui::BeginGroup();
  screen.draw_tools(ui);
  ImGui::EndGroup();
  content.Max.x = edge;
  const float width = ImGui::GetItemRectSize().x;
  ImGui::PopStyleVar();
  if (!measured) ImGui::PopStyleVar();
  if (std::abs(width - tools_width_) > 0.5F && width > 1.0F) {
    tools_width_ = width;
    animate();
  }
}

// A click on a message takes it away and reaches nothing below it; Escape takes the newest.
void App::dismiss_toasts() {
  ImGuiIO& io = ImGui::GetIO();
  if (io.MouseClicked[0]) {
    const auto hit = [&](const Toast& toast) { return toast.drawn.contains(io.MousePos); };
    const auto found = std::find_if(toasts_.begin(), toasts_.end(), hit);
    if (found != toasts_.end()) {
      toasts_.erase(found);
      io.MouseClicked[0] = false;
    }
  }
  if (!toasts_.empty() && !registry_.has_modal() && ImGui::IsKeyPressed(GLFW_KEY_ESCAPE, false))
    toasts_.pop_back();
}

void App::draw_toasts(kit::Ui& ui) {
  std::erase_if(toasts_, [&](const Toast& toast) { return toast.until_s <= ui.now_s; });
  const ImVec2 display = ImGui::GetIO().DisplaySize;
  ImDrawList* draw = ImGui::GetForegroundDrawList();
  // Under the top bar: controls are rather at the foot of a screen.
  float top = top_bar_height(ui) + ui.px(8.0F);
  const float pad = ui.px(14.0F);
  const float side = std::round(ui.em(16.0F));
  for (std::size_t i = toasts_.size(); i-- > 0;) {
    Toast& toast = toasts_[i];
    const float cross = side + ui.px(10.0F);
    const float widest =
        std::min(ui.em(560.0F), display.x - ui.px(48.0F)) - 2.0F * pad - side - ui.px(10.0F) - cross;
    const ImVec2 size = text_size(ui, toast.words, kit::Type::body, widest);
    const float width = size.x + 2.0F * pad + side + ui.px(10.0F) + cross;
    const float height = size.y + 2.0F * ui.px(10.0F);
    const kit::Rect rect{std::round((display.x - width) * 0.5F), std::round(top), width, height};
    draw->AddRectFilled(rect.min(), rect.max(), ui.colour(kit::Token::panel),
                        ui.px(kit::Measure::corner_panel));
    draw->AddRect(rect.min(), rect.max(), ui.colour(status_colour(toast.state)),
                  ui.px(kit::Measure::corner_panel), 0, ui.px(2.0F));
    const float line = ui.theme.line_px(kit::Type::body);
    kit::icon(draw, status_icon(toast.state),
              {rect.x + pad, std::round(rect.y + ui.px(10.0F) + (line - side) * 0.5F), side, side},
              ui.colour(status_colour(toast.state)));
    text_at(ui, draw, {rect.x + pad + side + ui.px(10.0F), rect.y + ui.px(10.0F)}, toast.words,
            {.wrap = widest});
    kit::icon(
        draw, kit::Icon::cross,
        {rect.right() - pad - side, std::round(rect.y + ui.px(10.0F) + (line - side) * 0.5F), side, side},
        ui.colour(kit::Token::ink2));
    toast.drawn = rect;
    registry_.add({.id = "toast." + std::to_string(i),
                   .kind = "toast",
                   .label = toast.words,
                   .value = toast.words,
                   .rect = rect,
                   .visible_rect = rect,
                   .focusable = false});
    top = rect.bottom() + ui.px(8.0F);
    window_.wake_at(toast.until_s);
  }
}

}  // namespace stirbench::desk::shell
