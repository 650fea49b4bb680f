#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/desk/kit/widgets/ui.h"

namespace stirbench::desk::kit {

struct TextStyle {
  Type type = Type::body;
  Token colour = Token::ink;
  float wrap = 0.0F;  // 0 = wrap at the right edge of the region, < 0 = one line, > 0 = that width in pixels
  const char* id = nullptr;  // registers the text under this id (for tests and for pointing)
};

enum class Align : std::uint8_t { left, centre, right };

// Words at the cursor.
void text(Ui& ui, std::string_view words, const TextStyle& style = {});
void caption(Ui& ui, std::string_view words);  // small secondary line above a group
void title(Ui& ui, std::string_view words);
void step_text(Ui& ui, std::string_view words);  // the next step, said large
// A number with its unit, the unit smaller; `type` of the number. Digits are tabular.
void value_text(Ui& ui, const Shown& shown, Type type = Type::display, Token colour = Token::ink,
                const char* id = nullptr);

// In drawings: no cursor, no wrap unless wrap > 0. `at` is the top left, top centre or top right.
void text_at(Ui& ui, ImDrawList* draw, ImVec2 at, std::string_view words, const TextStyle& style = {},
             Align align = Align::left);
void value_at(Ui& ui, ImDrawList* draw, ImVec2 at, const Shown& shown, Type type, Token colour,
              Align align = Align::left);
// Lines of at most `width` pixels of the font's own size; 0: only at line ends. Breaks at spaces; a word
// wider than the line is cut.
std::vector<std::string_view> text_lines(const ImFont& font, std::string_view words, float width);
ImVec2 text_size(const Ui& ui, std::string_view words, Type type, float wrap = 0.0F);
ImVec2 value_size(const Ui& ui, const Shown& shown, Type type);
// Shortens with "…" to fit `width`.
std::string fitted(const Ui& ui, std::string_view words, Type type, float width);

// A leader line from `anchor` (a small dot on the thing named) to a label with an optional second, quieter
// line. The label stands to the right of label_at (Align::left) or ends there (Align::right).
void label_line(Ui& ui, ImDrawList* draw, ImVec2 anchor, ImVec2 label_at, std::string_view words,
                std::string_view words2 = {}, Align align = Align::left);

// Cursor.
void same_line(Ui& ui, float spacing = -1.0F);  // -1 = the usual gap of 8
void gap(Ui& ui, float unscaled);               // vertical
void separator(Ui& ui);                         // hairline
void at(Ui& ui, float x, float y);              // moves the cursor (window pixels)
float width_left(Ui& ui);
float height_left(Ui& ui);

}  // namespace stirbench::desk::kit
