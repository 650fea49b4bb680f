#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/desk/kit/widgets/feedback.h"
#include "app/desk/kit/widgets/icon.h"
#include "app/desk/kit/widgets/text_block.h"
#include "app/desk/kit/widgets/ui.h"

namespace stirbench::desk::kit {

struct RowStyle {
  std::string title{};
  std::string detail{};  // second line, quieter
  std::string right{};   // at the right edge
  Icon icon = Icon::none;
  Token icon_colour = Token::ink2;
  bool selected = false;
  bool enabled = true;
  std::string reason{};
  bool chevron = false;  // "opens something"
  bool line = true;      // hairline under it
};

// Full-width row of a list; true when pressed.
bool list_row(Ui& ui, std::string_view id, const RowStyle& style);

struct Column {
  std::string heading{};
  float weight =
      1.0F;  // share of the width; < 0 = fixed width of that many unscaled pixels (grows with the text)
  Align align = Align::left;
};

struct Cell {
  std::string words{};
  Icon icon = Icon::none;  // drawn before the words (alone when words are empty: then `words` goes to spoken)
  Token colour = Token::ink;
  std::string spoken{};  // what the icon means, for the registry and the tooltip
};

// A table drawn at the cursor over the region's width. Rows are pressable when `pressable`.
class TableScope {
 public:
  TableScope(Ui& ui, std::string_view id, std::vector<Column> columns, bool pressable = true);
  void header();
  // True when pressed. `row_id` is used as the widget id as it is.
  bool row(std::string_view row_id, const std::vector<Cell>& cells, bool selected = false);

 private:
  Ui& ui_;
  std::string id_{};
  std::vector<Column> columns_;
  std::vector<float> lefts_;
  std::vector<float> widths_;
  bool pressable_;
};

}  // namespace stirbench::desk::kit
