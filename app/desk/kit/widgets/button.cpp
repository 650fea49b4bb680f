#include "app/desk/kit/widgets/button.h"

#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

#include "app/desk/kit/widgets/item.h"
#include "app/desk/kit/widgets/popup.h"

namespace stirbench::desk::kit {

namespace {

struct Paint {
  ImU32 ground;
  ImU32 border;
  Token words;
  float border_width;
};

Paint paint_of(const Ui& ui, const ButtonStyle& style, const Item& item) {
  const float thin = ui.px(1.0F);
  const auto tinted = [&](Token ground, Token towards) {
    const float share = item.held ? 0.22F : item.hovered ? 0.10F : 0.0F;
    return mix(ui.theme.colour(ground), ui.theme.colour(towards), style.enabled ? share : 0.0F).u32();
  };
  if (!style.enabled) return {ui.colour(Token::sunk), ui.colour(Token::line), Token::ink2, thin};
  if (style.selected)
    return {tinted(Token::act2, Token::act), ui.colour(Token::act), Token::ink, ui.px(2.5F)};
  switch (style.kind) {
    case ButtonKind::primary:
      return {tinted(Token::act, Token::on_act), ui.colour(Token::act), Token::on_act, 0.0F};
    case ButtonKind::stop:
      return {tinted(Token::stop, Token::on_stop), ui.colour(Token::stop), Token::on_stop, 0.0F};
    case ButtonKind::quiet:
      return {item.hovered || item.held ? tinted(Token::sunk, Token::ink) : IM_COL32(0, 0, 0, 0), 0,
              Token::ink, 0.0F};
    case ButtonKind::key:
      if (style.lit)
        return {tinted(Token::panel, Token::act), ui.colour(Token::act), Token::ink, ui.px(2.5F)};
      [[fallthrough]];
    case ButtonKind::normal: break;
  }
  return {tinted(Token::panel, Token::act), ui.colour(Token::edge), Token::ink, thin};
}

float icon_side(const Ui& ui) { return std::round(ui.em(13.0F)); }
float side_padding(const Ui& ui) { return ui.px(12.0F); }

float content_width(const Ui& ui, std::string_view label, const ButtonStyle& style) {
  float width = label.empty() ? 0.0F : text_size(ui, label, Type::body).x;
  const float space = label.empty() ? 0.0F : ui.px(7.0F);
  if (style.icon != Icon::none) width += icon_side(ui) + space;
  if (style.icon_after != Icon::none) width += icon_side(ui) + space;
  if (style.lit) width += ui.px(16.0F);
  return width;
}

void draw_content(Ui& ui, const Rect& rect, std::string_view label, const ButtonStyle& style, Token words) {
  ImDrawList* draw = current_draw();
  const float natural = content_width(ui, label, style);
  const float room = rect.w - 2.0F * ui.px(6.0F);
  const float width = std::min(natural, room);
  float x = rect.x + side_padding(ui);
  if (style.align == Align::centre || natural > rect.w - 2.0F * side_padding(ui))
    x = rect.x + (rect.w - width) * 0.5F;
  if (style.align == Align::right) x = rect.right() - side_padding(ui) - width;
  x = std::round(x);
  const float side = icon_side(ui);
  const float space = ui.px(7.0F);
  const float middle = rect.y + rect.h * 0.5F;
  const ImU32 colour = ui.colour(words);
  if (style.icon != Icon::none) {
    icon(draw, style.icon, {x, std::round(middle - side * 0.5F), side, side}, colour);
    x += side + space;
  }
  const float others = natural - (label.empty() ? 0.0F : text_size(ui, label, Type::body).x);
  const std::string shown =
      natural > room ? fitted(ui, label, Type::body, room - others) : std::string(label);
  const float line = ui.theme.line_px(Type::body);
  text_at(ui, draw, {x, std::round(middle - line * 0.5F)}, shown, {.colour = words});
  x += text_size(ui, shown, Type::body).x;
  if (style.lit) draw->AddCircleFilled({x + ui.px(10.0F), middle}, ui.px(3.5F), colour);
  if (style.icon_after != Icon::none) {
    const float after = style.align == Align::left ? rect.right() - side_padding(ui) - side : x + space;
    icon(draw, style.icon_after, {after, std::round(middle - side * 0.5F), side, side}, colour);
  }
}

float button_height(const Ui& ui, const ButtonStyle& style) {
  if (style.place.h > 0.0F) return style.place.h;
  const float grown = style.kind == ButtonKind::key ? ui.px(8.0F) : 0.0F;
  return ui.theme.control_height() + grown;
}

std::string value_of(const ButtonStyle& style) {
  if (!style.value.empty()) return style.value;
  if (style.lit) return "lit";
  return style.selected ? "selected" : std::string();
}

bool is_cut(const Ui& ui, std::string_view label, const ButtonStyle& style, const Rect& rect) {
  return content_width(ui, label, style) > rect.w - 2.0F * ui.px(6.0F);
}

}  // namespace

float button_width(const Ui& ui, std::string_view label, const ButtonStyle& style) {
  return std::ceil(content_width(ui, label, style) + 2.0F * side_padding(ui));
}

bool button_at(Ui& ui, std::string_view id, std::string_view label, const Rect& rect,
               const ButtonStyle& style) {
  ItemSpec spec{.id = id,
                .label = label,
                .value = value_of(style),
                .enabled = style.enabled,
                .reason = style.reason,
                .hint = style.hint};
  // Words that do not fit are shown whole when hovered.
  spec.tooltip_label = is_cut(ui, label, style, rect);
  const Item item = add_item(ui, rect, spec);
  if (item.drawn) {
    const Paint paint = paint_of(ui, style, item);
    const float corner = ui.px(Measure::corner_control);
    box(current_draw(), rect, paint.ground, paint.border, corner, paint.border_width);
    draw_content(ui, rect, label, style, paint.words);
    if (item.focused) focus_ring(ui, rect, corner);
  }
  return item.pressed;
}

bool button(Ui& ui, std::string_view id, std::string_view label, const ButtonStyle& style) {
  const float width = placed_width(style.place.w, button_width(ui, label, style));
  const Rect rect = at_cursor({width, button_height(ui, style)});
  advance(rect);
  return button_at(ui, id, label, rect, style);
}

bool chip(Ui& ui, std::string_view id, std::string_view label, bool selected, const ButtonStyle& style) {
  const float height = std::round(
      std::max(ui.px(26.0F) + ui.theme.text_px(Type::body) - ui.px(16.0F), ui.px(Measure::target_min)));
  const float width = placed_width(style.place.w, text_size(ui, label, Type::body).x + 2.0F * ui.px(10.0F));
  // The pressable part is as high as other controls, the pill is drawn inside it.
  const Rect target = at_cursor({width, ui.theme.control_height()});
  advance(target);
  const Item item = add_item(ui, target,
                             {.id = id,
                              .kind = "chip",
                              .label = label,
                              .value = selected ? "selected" : "",
                              .enabled = style.enabled,
                              .reason = style.reason,
                              .hint = style.hint});
  if (item.drawn) {
    const Rect pill{target.x, std::round(target.y + (target.h - height) * 0.5F), target.w, height};
    const Token ground = selected && style.enabled ? Token::act : Token::sunk;
    const Token words = !style.enabled ? Token::ink2 : selected ? Token::on_act : Token::ink;
    const float share = item.held ? 0.22F : item.hovered && style.enabled ? 0.10F : 0.0F;
    const Colour fill = mix(ui.theme.colour(ground), ui.theme.colour(words), share);
    box(current_draw(), pill, fill.u32(), 0, height * 0.5F, 0.0F);
    const float line = ui.theme.line_px(Type::body);
    text_at(ui, current_draw(), {pill.x + pill.w * 0.5F, std::round(pill.y + (pill.h - line) * 0.5F)}, label,
            {.colour = words}, Align::centre);
    if (item.focused) focus_ring(ui, pill, height * 0.5F);
  }
  return item.pressed;
}

bool link(Ui& ui, std::string_view id, std::string_view label) {
  const ImVec2 size = text_size(ui, label, Type::body);
  wrap_line(size.x);
  const Rect words = at_cursor(size);
  advance(words);
  // The target is higher than the line of words, so that links inside a sentence keep its baseline.
  const Rect rect = words.inset(0.0F, -std::max(ui.px(Measure::target_min) - size.y, 0.0F) * 0.5F);
  const Item item = add_item(ui, rect, {.id = id, .kind = "link", .label = label, .value = {}});
  if (item.drawn) {
    const Token colour = item.hovered ? Token::act : Token::ink;
    const float top = words.y;
    text_at(ui, current_draw(), {rect.x, top}, label, {.colour = colour});
    const float under = std::round(top + size.y - ui.px(2.0F));
    current_draw()->AddRectFilled({rect.x, under}, {rect.right(), under + ui.px(item.hovered ? 2.0F : 1.0F)},
                                  ui.colour(colour));
    if (item.focused) focus_ring(ui, rect, ui.px(3.0F));
  }
  return item.pressed;
}

bool icon_button(Ui& ui, std::string_view id, Icon which, std::string_view label, const ButtonStyle& style) {
  const float side = ui.theme.control_height();
  const Rect rect = at_cursor({placed_width(style.place.w, side), side});
  advance(rect);
  const Item item = add_item(ui, rect,
                             {.id = id,
                              .label = label,
                              .value = value_of(style),
                              .enabled = style.enabled,
                              .reason = style.reason,
                              .hint = style.hint,
                              .tooltip_label = style.hint.empty()});
  if (item.drawn) {
    const Paint paint = paint_of(ui, style, item);
    const float corner = ui.px(Measure::corner_control);
    box(current_draw(), rect, paint.ground, paint.border, corner, paint.border_width);
    const float size = std::round(ui.em(14.0F));
    icon(current_draw(), which,
         {std::round(rect.x + (rect.w - size) * 0.5F), std::round(rect.y + (rect.h - size) * 0.5F), size,
          size},
         ui.colour(paint.words));
    if (item.focused) focus_ring(ui, rect, corner);
  }
  return item.pressed;
}

int menu_button(Ui& ui, std::string_view id, std::string_view label, const std::vector<std::string>& items,
                const ButtonStyle& style) {
  ButtonStyle with_mark = style;
  if (with_mark.icon_after == Icon::none) with_mark.icon_after = Icon::chevron_down;
  const float width = placed_width(style.place.w, button_width(ui, label, with_mark));
  const Rect rect = at_cursor({width, button_height(ui, with_mark)});
  if (button(ui, id, label, with_mark)) open_popup(ui, id);
  return popup_list(ui, id, rect, items, -1);
}

}  // namespace stirbench::desk::kit
