#include "app/desk/kit/widgets/toggle.h"

#include <GLFW/glfw3.h>

#include <algorithm>
#include <cmath>

#include "app/desk/kit/widgets/item.h"
#include "app/desk/kit/widgets/popup.h"

namespace stirbench::desk::kit {

namespace {

// A mark, words, and a quieter second line; the whole row is the target.
struct MarkRow {
  Item item;
  Rect mark;
};

MarkRow mark_row(Ui& ui, std::string_view id, const char* kind, std::string_view label, bool on,
                 const ToggleStyle& style) {
  const float side = std::round(ui.em(18.0F));
  const float indent = side + ui.px(10.0F);
  const float room = std::max(width_left(ui) - indent, 1.0F);
  const ImVec2 words = text_size(ui, label, Type::body, room);
  const ImVec2 detail =
      style.detail.empty() ? ImVec2{0.0F, 0.0F} : text_size(ui, style.detail, Type::caption, room);
  const float text_height = words.y + detail.y;
  const float height = std::max(text_height, ui.theme.control_height());
  const Rect rect = at_cursor({indent + std::max(words.x, detail.x), height});
  advance(rect);
  MarkRow row;
  row.item = add_item(ui, rect,
                      {.id = id,
                       .kind = kind,
                       .label = label,
                       .value = on ? "on" : "off",
                       .enabled = style.enabled,
                       .reason = style.reason});
  const float top = std::round(rect.y + (height - text_height) * 0.5F);
  const float first = ui.theme.line_px(Type::body);
  row.mark = {rect.x, std::round(top + (first - side) * 0.5F), side, side};
  if (!row.item.drawn) return row;
  const Token ink = style.enabled ? Token::ink : Token::ink2;
  text_at(ui, current_draw(), {rect.x + indent, top}, label, {.colour = ink, .wrap = room});
  if (!style.detail.empty()) {
    text_at(ui, current_draw(), {rect.x + indent, top + words.y}, style.detail,
            {.type = Type::caption, .colour = Token::ink2, .wrap = room});
  }
  return row;
}

}  // namespace

bool checkbox(Ui& ui, std::string_view id, std::string_view label, bool& on, const ToggleStyle& style) {
  const MarkRow row = mark_row(ui, id, "checkbox", label, on, style);
  if (row.item.pressed) on = !on;
  if (row.item.drawn) {
    const Token strong = style.enabled ? Token::act : Token::ink2;
    const float corner = ui.px(4.0F);
    const Colour ground = on ? ui.theme.colour(strong) : ui.theme.colour(Token::panel);
    const float share = row.item.hovered && style.enabled ? 0.12F : 0.0F;
    const Colour towards = ui.theme.colour(on ? Token::on_act : Token::act);
    box(current_draw(), row.mark, mix(ground, towards, share).u32(), ui.colour(on ? strong : Token::edge),
        corner, ui.px(1.5F));
    if (on)
      icon(current_draw(), Icon::check, row.mark.inset(row.mark.w * 0.18F),
           ui.colour(style.enabled ? Token::on_act : Token::panel));
    if (row.item.focused) focus_ring(ui, row.item.rect, corner);
  }
  return row.item.pressed;
}

bool radio_list(Ui& ui, std::string_view id, const std::vector<std::string>& labels, int& chosen) {
  bool changed = false;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const bool on = static_cast<int>(i) == chosen;
    const MarkRow row = mark_row(ui, std::string(id) + "." + std::to_string(i), "radio", labels[i], on, {});
    if (row.item.pressed && !on) {
      chosen = static_cast<int>(i);
      changed = true;
    }
    if (!row.item.drawn) continue;
    const ImVec2 centre = row.mark.centre();
    const float radius = row.mark.w * 0.5F;
    const Token ground = row.item.hovered ? Token::sunk : Token::panel;
    current_draw()->AddCircleFilled(centre, radius, ui.colour(ground));
    current_draw()->AddCircle(centre, radius - ui.px(1.0F), ui.colour(on ? Token::act : Token::edge), 0,
                              ui.px(on ? 2.0F : 1.5F));
    if (on) current_draw()->AddCircleFilled(centre, radius * 0.52F, ui.colour(Token::act));
    if (row.item.focused) focus_ring(ui, row.item.rect, ui.px(4.0F));
  }
  return changed;
}

bool radio_row(Ui& ui, std::string_view id, const std::vector<std::string>& labels, int& chosen) {
  bool changed = false;
  const float height = ui.theme.control_height();
  const float room = width_left(ui);
  float used = 0.0F;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const bool on = static_cast<int>(i) == chosen;
    const ButtonStyle as_button{};
    const float width = button_width(ui, labels[i], as_button);
    const float spacing = ui.px(4.0F);
    if (i > 0 && used + spacing + width <= room) {
      same_line(ui, spacing);
      used += spacing + width;
    } else {
      used = width;
    }
    const Rect rect = at_cursor({std::min(width, std::max(room, 1.0F)), height});
    advance(rect);
    const Item item = add_item(ui, rect,
                               {.id = std::string(id) + "." + std::to_string(i),
                                .kind = "radio",
                                .label = labels[i],
                                .value = on ? "on" : "off"});
    if (item.pressed && !on) {
      chosen = static_cast<int>(i);
      changed = true;
    }
    if (!item.drawn) continue;
    const Colour ground = ui.theme.colour(on ? Token::act : Token::panel);
    const Colour towards = ui.theme.colour(on ? Token::on_act : Token::act);
    const float corner = ui.px(Measure::corner_control);
    box(current_draw(), rect,
        mix(ground, towards,
            item.held      ? 0.22F
            : item.hovered ? 0.10F
                           : 0.0F)
            .u32(),
        ui.colour(on ? Token::act : Token::edge), corner, ui.px(1.0F));
    const float line = ui.theme.line_px(Type::body);
    text_at(ui, current_draw(), {rect.x + rect.w * 0.5F, std::round(rect.y + (rect.h - line) * 0.5F)},
            fitted(ui, labels[i], Type::body, rect.w - ui.px(12.0F)),
            {.colour = on ? Token::on_act : Token::ink}, Align::centre);
    if (item.focused) focus_ring(ui, rect, corner);
  }
  return changed;
}

bool choice(Ui& ui, std::string_view id, std::string_view label, const std::vector<std::string>& labels,
            int& chosen, const ButtonStyle& style) {
  if (!label.empty()) {
    text(ui, label, {.type = Type::caption, .colour = Token::ink2, .wrap = -1.0F});
    gap(ui, 4.0F);
  }
  const bool known = chosen >= 0 && chosen < static_cast<int>(labels.size());
  const std::string shown = known ? labels[static_cast<std::size_t>(chosen)] : std::string("–");
  ButtonStyle look = style;
  look.align = Align::left;
  look.icon_after = Icon::chevron_down;
  look.value = shown;
  look.place.w = placed_width(style.place.w, ui.em(260.0F));
  const Rect rect = at_cursor({look.place.w, ui.theme.control_height()});
  if (button(ui, id, shown, look)) open_popup(ui, id);
  const int picked = popup_list(ui, id, rect, labels, chosen);
  if (picked < 0 || picked == chosen) return false;
  chosen = picked;
  return true;
}

}  // namespace stirbench::desk::kit
