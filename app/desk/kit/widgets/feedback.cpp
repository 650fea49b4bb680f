#include "app/desk/kit/widgets/feedback.h"

#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/button.h"
#include "app/desk/kit/widgets/item.h"
#include "app/desk/kit/widgets/text_block.h"

namespace stirbench::desk::kit {

Icon status_icon(Status state) {
  switch (state) {
    case Status::none: return Icon::none;
    case Status::info: return Icon::info;
    case Status::good: return Icon::check;
    case Status::due: return Icon::half_ring;
    case Status::bad: return Icon::cross;
    case Status::not_yet: return Icon::ring;
  }
  return Icon::none;
}

Token status_colour(Status state) {
  switch (state) {
    case Status::good: return Token::ok;
    case Status::due: return Token::due;
    case Status::bad: return Token::bad;
    case Status::info: return Token::act;
    case Status::none:
    case Status::not_yet: break;
  }
  return Token::ink2;
}

void status_mark(Ui& ui, Status state, std::string_view words, const char* id) {
  const float side = std::round(ui.em(15.0F));
  const float left = state == Status::none ? 0.0F : side + ui.px(8.0F);
  wrap_line(left + std::min(text_size(ui, words, Type::body).x, ui.em(120.0F)));
  const float wrap = std::max(width_left(ui) - left, 1.0F);
  const ImVec2 size = text_size(ui, words, Type::body, wrap);
  const Rect rect = at_cursor({left + size.x, size.y});
  const float line = ui.theme.line_px(Type::body);
  icon(current_draw(), status_icon(state), {rect.x, std::round(rect.y + (line - side) * 0.5F), side, side},
       ui.colour(status_colour(state)));
  text_at(ui, current_draw(), {rect.x + left, rect.y}, words, {.wrap = wrap});
  if (id != nullptr)
    register_item(ui, rect,
                  {.id = id, .kind = "text", .label = words, .value = std::string(words), .focusable = false},
                  0, false);
  advance(rect);
}

void progress_bar(Ui& ui, double share, std::string_view words, Token colour, const char* id) {
  const float height = ui.px(14.0F);
  const Rect rect = at_cursor({std::max(width_left(ui), 1.0F), height});
  const float filled = rect.w * static_cast<float>(std::clamp(share, 0.0, 1.0));
  const float corner = ui.px(3.0F);
  box(current_draw(), rect, ui.colour(Token::sunk), 0, corner, 0.0F);
  if (filled > 0.5F)
    box(current_draw(), {rect.x, rect.y, filled, rect.h}, ui.colour(colour), 0,
        std::min(corner, filled * 0.5F), 0.0F);
  if (id != nullptr) {
    const std::string value = plain_number(share * 100.0, 0);
    register_item(ui, rect,
                  {.id = id, .kind = "progress", .label = words, .value = value, .focusable = false}, 0,
                  false);
  }
  advance(rect);
  if (words.empty()) return;
  gap(ui, 4.0F);
  caption(ui, words);
}

void beads(Ui& ui, std::string_view id, const std::vector<std::string>& labels, int current, const Rect& rect,
           double within) {
  ImDrawList* draw = current_draw();
  const std::size_t count = labels.size();
  if (count == 0) return;
  const float step = rect.w / static_cast<float>(count);
  const float small = ui.px(6.0F);
  const float large = ui.px(9.0F);
  const float line_height = ui.theme.line_px(Type::caption);
  const float height = large * 2.0F + ui.px(2.0F) + line_height;
  const float y = std::round(rect.y + (rect.h - height) * 0.5F + large);
  const auto x_of = [&](std::size_t i) { return std::round(rect.x + step * (static_cast<float>(i) + 0.5F)); };
  const ImU32 act = ui.colour(Token::act);
  const float thick = ui.px(3.0F);
  // The thread first, done part over the rest, so that beads sit on it.
  if (count > 1) {
    draw->AddRectFilled({x_of(0), y - thick * 0.5F}, {x_of(count - 1), y + thick * 0.5F},
                        ui.colour(Token::line));
    const auto here = static_cast<std::size_t>(std::clamp(current, 0, static_cast<int>(count) - 1));
    float reached = x_of(here);
    if (here + 1 < count)
      reached += (x_of(here + 1) - reached) * static_cast<float>(std::clamp(within, 0.0, 1.0));
    if (current >= 0) draw->AddRectFilled({x_of(0), y - thick * 0.5F}, {reached, y + thick * 0.5F}, act);
  }
  for (std::size_t i = 0; i < count; ++i) {
    const ImVec2 at{x_of(i), y};
    const int order = static_cast<int>(i) - current;
    if (order < 0) {
      draw->AddCircleFilled(at, small + ui.px(1.0F), act);
    } else {
      const float radius = order == 0 ? large : small;
      draw->AddCircleFilled(at, radius + ui.px(1.0F), ui.colour(Token::panel));
      draw->AddCircle(at, radius, order == 0 ? act : ui.colour(Token::edge), 0,
                      ui.px(order == 0 ? 4.0F : 1.8F));
    }
    const Type type = order == 0 ? Type::caption_bold : Type::caption;
    const std::string label = fitted(ui, labels[i], type, step - ui.px(6.0F));
    text_at(ui, draw, {at.x, y + large + ui.px(1.0F)}, label,
            {.type = type, .colour = order == 0 ? Token::ink : Token::ink2}, Align::centre);
  }
  const int done = std::clamp(current, 0, static_cast<int>(count));
  const std::string value = std::to_string(done) + "/" + std::to_string(count);
  const std::string spoken = current >= 0 && current < static_cast<int>(count)
                                 ? labels[static_cast<std::size_t>(current)]
                                 : std::string();
  register_item(ui, rect, {.id = id, .kind = "beads", .label = spoken, .value = value, .focusable = false}, 0,
                false);
}

void caution_box(Ui& ui, std::string_view id, std::string_view words, SignId which) {
  const float pad = ui.px(12.0F);
  const float side = std::round(ui.em(40.0F));
  const float left = pad + side + ui.px(14.0F);
  const float width = std::max(width_left(ui), 1.0F);
  const float wrap = std::max(width - left - pad, 1.0F);
  const ImVec2 size = text_size(ui, words, Type::body, wrap);
  const Rect rect = at_cursor({width, std::max(size.y, side) + 2.0F * ui.px(9.0F)});
  box(current_draw(), rect, ui.colour(Token::caution), ui.colour(Token::due), ui.px(Measure::corner_control),
      ui.px(1.0F));
  draw_sign(current_draw(), which, {rect.x + pad, std::round(rect.y + (rect.h - side) * 0.5F), side, side});
  text_at(ui, current_draw(), {rect.x + left, std::round(rect.y + (rect.h - size.y) * 0.5F)}, words,
          {.wrap = wrap});
  register_item(ui, rect, {.id = id, .kind = "caution", .label = words, .value = {}, .focusable = false}, 0,
                false);
  advance(rect);
}

void notice(Ui& ui, std::string_view id, Status state, std::string_view words) {
  const float pad = ui.px(12.0F);
  const float side = std::round(ui.em(16.0F));
  const float left = pad + (state == Status::none ? 0.0F : side + ui.px(10.0F));
  const float width = std::max(width_left(ui), 1.0F);
  const float wrap = std::max(width - left - pad, 1.0F);
  const ImVec2 size = text_size(ui, words, Type::body, wrap);
  const Rect rect = at_cursor({width, size.y + 2.0F * ui.px(8.0F)});
  const Token ground = state == Status::info ? Token::act2 : Token::sunk;
  box(current_draw(), rect, ui.colour(ground), 0, ui.px(Measure::corner_control), 0.0F);
  // A bar in the state's colour; the shape beside it says the same without colour.
  const float bar = ui.px(4.0F);
  current_draw()->AddRectFilled(rect.min(), {rect.x + bar, rect.bottom()}, ui.colour(status_colour(state)),
                                ui.px(Measure::corner_control), ImDrawFlags_RoundCornersLeft);
  const float line = ui.theme.line_px(Type::body);
  const Rect mark{rect.x + pad, std::round(rect.y + ui.px(8.0F) + (line - side) * 0.5F), side, side};
  icon(current_draw(), status_icon(state), mark, ui.colour(status_colour(state)));
  text_at(ui, current_draw(), {rect.x + left, rect.y + ui.px(8.0F)}, words, {.wrap = wrap});
  register_item(ui, rect, {.id = id, .kind = "notice", .label = words, .value = {}, .focusable = false}, 0,
                false);
  advance(rect);
}

bool busy(Ui& ui, std::string_view id, std::string_view words, double share) {
  if (share >= 0.0) {
    progress_bar(ui, share, words, Token::act, std::string(id).c_str());
  } else {
    const float radius = ui.px(4.0F);
    const Rect rect = at_cursor({ui.px(40.0F), ui.px(14.0F)});
    // Three dots that light up in turn; all lit with reduced motion.
    const int lit = ui.reduced_motion ? -1 : static_cast<int>(ui.now_s * 3.0) % 3;
    for (int dot = 0; dot < 3; ++dot) {
      const Token colour = lit < 0 || dot == lit ? Token::act : Token::line;
      current_draw()->AddCircleFilled(
          {rect.x + radius + static_cast<float>(dot) * ui.px(13.0F), rect.y + rect.h * 0.5F}, radius,
          ui.colour(colour));
    }
    if (!ui.reduced_motion) ui.host.wake_at((std::floor(ui.now_s * 3.0) + 1.0) / 3.0);
    register_item(ui, rect, {.id = id, .kind = "progress", .label = words, .value = "…", .focusable = false},
                  0, false);
    advance(rect);
    caption(ui, words);
  }
  return button(ui, std::string(id) + ".cancel", tr("Cancel"));
}

}  // namespace stirbench::desk::kit
