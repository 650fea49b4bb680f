#include "app/desk/kit/widgets/list.h"

#include <algorithm>
#include <cmath>

#include "app/desk/kit/widgets/item.h"

namespace stirbench::desk::kit {

namespace {

// Ground of a pressable row: selected by shape too (a bar at its left).
void row_ground(Ui& ui, const Rect& rect, const Item& item, bool selected, bool enabled) {
  ImDrawList* draw = current_draw();
  if (selected) {
    box(draw, rect, ui.colour(Token::act2), 0, ui.px(4.0F), 0.0F);
    box(draw, {rect.x, rect.y, ui.px(4.0F), rect.h}, ui.colour(Token::act), 0, ui.px(2.0F), 0.0F);
  } else if (enabled && (item.hovered || item.held)) {
    box(draw, rect,
        mix(ui.theme.colour(Token::panel), ui.theme.colour(Token::sunk), item.held ? 1.0F : 0.6F).u32(), 0,
        ui.px(4.0F), 0.0F);
  }
}

void hairline(Ui& ui, const Rect& rect) {
  current_draw()->AddRectFilled({rect.x, rect.bottom() - ui.px(1.0F)}, rect.max(), ui.colour(Token::line));
}

}  // namespace

bool list_row(Ui& ui, std::string_view id, const RowStyle& style) {
  const float pad = ui.px(10.0F);
  const float line = ui.theme.line_px(Type::body);
  const float small = ui.theme.line_px(Type::caption);
  const float width = std::max(width_left(ui), 1.0F);
  const float side = std::round(ui.em(16.0F));
  const float left = pad + (style.icon == Icon::none ? 0.0F : side + ui.px(10.0F));
  const float right_words =
      style.right.empty() ? 0.0F : text_size(ui, style.right, Type::body).x + ui.px(12.0F);
  const float right = pad + right_words + (style.chevron ? side + ui.px(4.0F) : 0.0F);
  const float room = std::max(width - left - right, ui.em(40.0F));
  const float detail = style.detail.empty() ? 0.0F : text_size(ui, style.detail, Type::caption, room).y;
  const float title_height = text_size(ui, style.title, Type::body, room).y;
  const float height = std::max(title_height + detail + ui.px(12.0F), ui.theme.control_height());
  const Rect rect = at_cursor({width, height});
  advance(rect);
  const Item item = add_item(ui, rect,
                             {.id = id,
                              .kind = "row",
                              .label = style.title,
                              .value = style.selected ? "selected" : style.right,
                              .enabled = style.enabled,
                              .reason = style.reason});
  if (!item.drawn) return item.pressed;
  ImDrawList* draw = current_draw();
  row_ground(ui, rect, item, style.selected, style.enabled);
  const float top = std::round(rect.y + (rect.h - title_height - detail) * 0.5F);
  const float middle = rect.y + rect.h * 0.5F;
  icon(draw, style.icon, {rect.x + pad, std::round(top + (line - side) * 0.5F), side, side},
       ui.colour(style.icon_colour));
  text_at(ui, draw, {rect.x + left, top}, style.title,
          {.colour = style.enabled ? Token::ink : Token::ink2, .wrap = room});
  if (detail > 0.0F) {
    text_at(ui, draw, {rect.x + left, top + title_height}, style.detail,
            {.type = Type::caption, .colour = Token::ink2, .wrap = room});
  }
  float x = rect.right() - pad;
  if (style.chevron) {
    icon(draw, Icon::chevron_right, {x - side, std::round(middle - side * 0.5F), side, side},
         ui.colour(Token::ink2));
    x -= side + ui.px(4.0F);
  }
  text_at(ui, draw, {x, std::round(middle - line * 0.5F)}, style.right, {.colour = Token::ink2},
          Align::right);
  if (style.line && !style.selected) hairline(ui, rect);
  if (item.focused) focus_ring(ui, rect.inset(ui.px(5.0F), ui.px(2.0F)), ui.px(4.0F));
  (void)small;
  return item.pressed;
}

TableScope::TableScope(Ui& ui, std::string_view id, std::vector<Column> columns, bool pressable)
    : ui_(ui), id_(id), columns_(std::move(columns)), pressable_(pressable) {
  const float space = ui.px(12.0F);
  const float width = std::max(width_left(ui), 1.0F);
  float fixed = 0.0F;
  float weights = 0.0F;
  for (const Column& column : columns_) {
    if (column.weight < 0.0F) {
      fixed += ui.em(-column.weight);
    } else {
      weights += column.weight;
    }
  }
  const float gaps = space * static_cast<float>(columns_.empty() ? 0 : columns_.size() - 1);
  const float room = std::max(width - fixed - gaps - 2.0F * ui.px(10.0F), 0.0F);
  float x = ui.px(10.0F);
  for (const Column& column : columns_) {
    const float wide =
        column.weight < 0.0F ? ui.em(-column.weight) : room * column.weight / std::max(weights, 0.001F);
    lefts_.push_back(std::round(x));
    widths_.push_back(std::floor(wide));
    x += wide + space;
  }
}

void TableScope::header() {
  Ui& ui = ui_;
  float height = ui.theme.line_px(Type::caption);
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    height = std::max(height, text_size(ui, columns_[i].heading, Type::caption, widths_[i]).y);
  }
  const Rect rect = at_cursor({std::max(width_left(ui), 1.0F), height + ui.px(6.0F)});
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    const Align align = columns_[i].align;
    const float shift = align == Align::left ? 0.0F : align == Align::centre ? widths_[i] * 0.5F : widths_[i];
    text_at(ui, current_draw(), {rect.x + lefts_[i] + shift, rect.y}, columns_[i].heading,
            {.type = Type::caption, .colour = Token::ink2, .wrap = widths_[i]}, align);
  }
  hairline(ui, rect);
  advance(rect);
  gap(ui, 0.0F);
}

bool TableScope::row(std::string_view row_id, const std::vector<Cell>& cells, bool selected) {
  Ui& ui = ui_;
  const std::size_t count = std::min(cells.size(), columns_.size());
  const float side = std::round(ui.em(15.0F));
  float height = ui.theme.line_px(Type::body);
  std::string spoken;
  for (std::size_t i = 0; i < count; ++i) {
    const float lead = cells[i].icon == Icon::none ? 0.0F : side + ui.px(6.0F);
    height = std::max(height, text_size(ui, cells[i].words, Type::body, std::max(widths_[i] - lead, 1.0F)).y);
    const std::string& said = cells[i].words.empty() ? cells[i].spoken : cells[i].words;
    if (i > 0) spoken += (spoken.empty() ? "" : " · ") + said;
  }
  const Rect rect =
      at_cursor({std::max(width_left(ui), 1.0F), std::max(height + ui.px(12.0F), ui.theme.control_height())});
  advance(rect);
  gap(ui, 0.0F);
  const std::string label = count > 0 ? cells[0].words : std::string();
  const Item item = add_item(
      ui, rect, {.id = row_id, .kind = "row", .label = label, .value = spoken, .focusable = pressable_});
  if (!item.drawn) return pressable_ && item.pressed;
  if (pressable_) row_ground(ui, rect, item, selected, true);
  ImDrawList* draw = current_draw();
  for (std::size_t i = 0; i < count; ++i) {
    const Cell& cell = cells[i];
    const Align align = columns_[i].align;
    const bool alone = cell.words.empty();
    const float lead = cell.icon == Icon::none ? 0.0F : side + (alone ? 0.0F : ui.px(6.0F));
    const float room = std::max(widths_[i] - lead, 1.0F);
    const ImVec2 size = alone ? ImVec2{0.0F, 0.0F} : text_size(ui, cell.words, Type::body, room);
    const float free = std::max(widths_[i] - lead - size.x, 0.0F);
    const float x = rect.x + lefts_[i] +
                    (align == Align::left     ? 0.0F
                     : align == Align::centre ? free * 0.5F
                                              : free);
    const float middle = rect.y + rect.h * 0.5F;
    icon(draw, cell.icon, {std::round(x), std::round(middle - side * 0.5F), side, side},
         ui.colour(cell.colour));
    if (!alone)
      text_at(ui, draw, {x + lead, std::round(middle - size.y * 0.5F)}, cell.words,
              {.colour = cell.icon == Icon::none ? cell.colour : Token::ink, .wrap = room});
  }
  if (!selected) hairline(ui, rect);
  if (item.focused) focus_ring(ui, rect.inset(ui.px(5.0F), ui.px(2.0F)), ui.px(4.0F));
  return pressable_ && item.pressed;
}

}  // namespace stirbench::desk::kit
