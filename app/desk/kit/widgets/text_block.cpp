#include "app/desk/kit/widgets/text_block.h"

#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

#include "app/desk/kit/widgets/item.h"

namespace stirbench::desk::kit {

namespace {

// ImGui also ends a line after a point or comma, even in "0.05": back to the space before, where the line has
// one.
const char* at_space(const char* line, const char* stop, const char* end) {
  if (stop >= end || *stop == ' ' || stop[-1] == ' ') return stop;
  const char* space = stop;
  while (space > line && space[-1] != ' ') --space;
  while (space > line && space[-1] == ' ') --space;
  return space > line ? space : stop;
}

float line_width(const ImFont& font, std::string_view line) {
  return font.CalcTextSizeA(font.FontSize, FLT_MAX, 0.0F, line.data(), line.data() + line.size()).x;
}

// Distance from the top of a glyph's line to the middle of its capitals.
float capital_middle(const ImFont& font) {
  const ImFontGlyph* glyph = font.FindGlyph('H');
  return glyph == nullptr ? font.FontSize * 0.5F : (glyph->Y0 + glyph->Y1) * 0.5F;
}

void draw_line(ImDrawList* draw, const ImFont& font, float x, float top, float line_height, ImU32 colour,
               std::string_view line) {
  if (line.empty()) return;
  const float y = std::round(top + line_height * 0.5F - capital_middle(font));
  draw->AddText(&font, font.FontSize, {std::round(x), y}, colour, line.data(), line.data() + line.size());
}

float shift(Align align, float width) {
  switch (align) {
    case Align::left: return 0.0F;
    case Align::centre: return -width * 0.5F;
    case Align::right: return -width;
  }
  return 0.0F;
}

// Unit beside a number: body for display sizes, the number's own size otherwise.
Type unit_type(Type number) {
  switch (number) {
    case Type::display_large:
    case Type::display: return Type::step;
    case Type::title: return Type::body;
    default: return number;
  }
}

}  // namespace

std::vector<std::string_view> text_lines(const ImFont& font, std::string_view words, float width) {
  std::vector<std::string_view> lines;
  const char* at = words.data();
  const char* end = at + words.size();
  if (at == end) return {words};
  while (at < end) {
    const char* newline = std::find(at, end, '\n');
    const char* stop = newline;
    if (width > 0.0F) {
      stop = font.CalcWordWrapPositionA(1.0F, at, newline, width);
      // At least one character a line, or a narrow region would never end.
      if (stop == at && at < newline) {
        ++stop;
        while (stop < newline && (static_cast<unsigned char>(*stop) & 0xC0U) == 0x80U) ++stop;
      }
      stop = at_space(at, stop, newline);
    }
    lines.emplace_back(at, static_cast<std::size_t>(stop - at));
    at = stop;
    if (at == newline) {
      ++at;
      if (at == end) lines.emplace_back(end, 0);
    } else {
      while (at < end && *at == ' ') ++at;
    }
  }
  return lines;
}

ImVec2 text_size(const Ui& ui, std::string_view words, Type type, float wrap) {
  const ImFont& font = *ui.theme.font(type);
  float widest = 0.0F;
  const auto lines = text_lines(font, words, wrap);
  for (const std::string_view line : lines) widest = std::max(widest, line_width(font, line));
  return {std::ceil(widest), ui.theme.line_px(type) * static_cast<float>(lines.size())};
}

std::string fitted(const Ui& ui, std::string_view words, Type type, float width) {
  const ImFont& font = *ui.theme.font(type);
  if (line_width(font, words) <= width) return std::string(words);
  const float room = std::max(width - line_width(font, "…"), 0.0F);
  const char* stop = nullptr;
  font.CalcTextSizeA(font.FontSize, room, 0.0F, words.data(), words.data() + words.size(), &stop);
  std::string cut(words.data(), stop);
  while (!cut.empty() && cut.back() == ' ') cut.pop_back();
  return cut + "…";
}

void text_at(Ui& ui, ImDrawList* draw, ImVec2 at, std::string_view words, const TextStyle& style,
             Align align) {
  const ImFont& font = *ui.theme.font(style.type);
  const float line_height = ui.theme.line_px(style.type);
  const ImU32 colour = ui.colour(style.colour);
  float y = at.y;
  for (const std::string_view line : text_lines(font, words, std::max(style.wrap, 0.0F))) {
    draw_line(draw, font, at.x + shift(align, line_width(font, line)), y, line_height, colour, line);
    y += line_height;
  }
  if (style.id != nullptr) {
    const ImVec2 size = text_size(ui, words, style.type, std::max(style.wrap, 0.0F));
    register_item(ui, {at.x + shift(align, size.x), at.y, size.x, size.y},
                  {.id = style.id,
                   .kind = "text",
                   .label = words,
                   .value = std::string(words),
                   .reason = {},
                   .hint = {},
                   .focusable = false},
                  0, false);
  }
}

void text(Ui& ui, std::string_view words, const TextStyle& style) {
  wrap_line(std::min(text_size(ui, words, style.type).x, ui.em(120.0F)));
  const float wrap = style.wrap < 0.0F   ? 0.0F
                     : style.wrap > 0.0F ? style.wrap
                                         : std::max(ImGui::GetContentRegionAvail().x, 1.0F);
  const Rect rect = at_cursor(text_size(ui, words, style.type, wrap));
  TextStyle placed = style;
  placed.wrap = wrap;
  text_at(ui, current_draw(), rect.min(), words, placed);
  advance(rect);
}

void caption(Ui& ui, std::string_view words) {
  text(ui, words, {.type = Type::caption, .colour = Token::ink2});
}

void title(Ui& ui, std::string_view words) { text(ui, words, {.type = Type::title}); }

void step_text(Ui& ui, std::string_view words) { text(ui, words, {.type = Type::step}); }

ImVec2 value_size(const Ui& ui, const Shown& shown, Type type) {
  const float number = line_width(*ui.theme.font(type), shown.number);
  const float unit = shown.unit.empty() ? 0.0F
                                        : line_width(*ui.theme.font(unit_type(type)), shown.unit) +
                                              std::round(ui.theme.text_px(type) * 0.2F);
  return {std::ceil(number + unit), ui.theme.line_px(type)};
}

void value_at(Ui& ui, ImDrawList* draw, ImVec2 at, const Shown& shown, Type type, Token colour, Align align) {
  const ImFont& font = *ui.theme.font(type);
  const ImFont& small = *ui.theme.font(unit_type(type));
  const float height = ui.theme.line_px(type);
  const float x = at.x + shift(align, value_size(ui, shown, type).x);
  draw_line(draw, font, x, at.y, height, ui.colour(colour), shown.number);
  if (shown.unit.empty()) return;
  // Both stand on the same baseline.
  const float baseline = std::round(at.y + height * 0.5F - capital_middle(font)) + font.Ascent;
  const float unit_x = std::round(x + line_width(font, shown.number) + ui.theme.text_px(type) * 0.2F);
  draw->AddText(&small, small.FontSize, {unit_x, std::round(baseline - small.Ascent)}, ui.colour(colour),
                shown.unit.c_str());
}

void value_text(Ui& ui, const Shown& shown, Type type, Token colour, const char* id) {
  const Rect rect = at_cursor(value_size(ui, shown, type));
  value_at(ui, current_draw(), rect.min(), shown, type, colour);
  if (id != nullptr) {
    register_item(ui, rect,
                  {.id = id,
                   .kind = "text",
                   .label = {},
                   .value = shown.text(),
                   .reason = {},
                   .hint = {},
                   .focusable = false},
                  0, false);
  }
  advance(rect);
}

void label_line(Ui& ui, ImDrawList* draw, ImVec2 anchor, ImVec2 label_at, std::string_view words,
                std::string_view words2, Align align) {
  const float line = ui.theme.line_px(Type::body);
  const float away = ui.px(6.0F);
  const ImU32 ink = ui.colour(Token::ink2);
  const ImVec2 end{label_at.x + (align == Align::right ? away : -away), label_at.y + line * 0.5F};
  draw->AddLine(anchor, end, ink, ui.px(1.0F));
  draw->AddCircleFilled(anchor, ui.px(2.5F), ink);
  text_at(ui, draw, label_at, words, {}, align);
  if (!words2.empty()) {
    text_at(ui, draw, {label_at.x, label_at.y + line}, words2, {.type = Type::caption, .colour = Token::ink2},
            align);
  }
}

void same_line(Ui& ui, float spacing) {
  ImGui::SameLine(0.0F, spacing < 0.0F ? ui.px(Measure::gap_small) : spacing);
}

void gap(Ui& ui, float unscaled) {
  // The layout adds its own spacing after each item, so a gap is that much smaller; a gap below it moves the
  // cursor back up.
  const float spacing = ImGui::GetStyle().ItemSpacing.y;
  ImVec2 cursor = ImGui::GetCursorScreenPos();
  cursor.y += ui.px(unscaled) - spacing;
  ImGui::SetCursorScreenPos(cursor);
}

void separator(Ui& ui) {
  const Rect rect = at_cursor({std::max(ImGui::GetContentRegionAvail().x, 1.0F), ui.px(1.0F)});
  current_draw()->AddRectFilled(rect.min(), rect.max(), ui.colour(Token::line));
  advance(rect);
}

void at(Ui&, float x, float y) { ImGui::SetCursorScreenPos({x, y}); }

float width_left(Ui&) { return std::max(ImGui::GetContentRegionAvail().x, 0.0F); }

float height_left(Ui&) { return std::max(ImGui::GetContentRegionAvail().y, 0.0F); }

}  // namespace stirbench::desk::kit
