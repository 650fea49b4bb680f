#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/desk/kit/widgets/icon.h"
#include "app/desk/kit/widgets/spread.h"
#include "app/desk/views/machine_view/stage.h"

// Words on leader lines beside the machine.
namespace stirbench::desk::views::machine_view {

enum class Named : std::uint8_t {
  lid_guard,
  working_level,
  vat,
  minimum_level,
  chiller,
  well,
  elements,
  shaft_cover,
  agitator,
  bushing,
  pump,
  draw_valve,
  pail,
  sunk,
  floating,
  deposit
};

struct Label {
  Named what = Named::vat;
  bool left = true;
  int importance = 1;  // 0 stays as long as there is any room; the highest goes first
  std::string name;    // "Vat"
  std::string value;   // "85.2 °C"; may be empty
  std::string detail;  // "fill 41.3 L"; may be empty
  kit::Token colour = kit::Token::ink;
  kit::Icon icon = kit::Icon::none;
  std::optional<kit::SignId> sign{};
  bool quiet = false;  // caption size and secondary ink
};

std::vector<Label> make_labels(const kit::Ui& ui, const machine::Machine& machine,
                               const machine::State& state);
// Leaves out what no eye beside the machine sees: elements, chiller, bushings, pump, zones of the product.
void keep_what_is_seen(std::vector<Label>& labels);
// Labels of a state in which most is said and the numbers are long: the columns are as wide as these, so that
// the machine keeps its place.
std::vector<Label> widest_labels(const kit::Ui& ui, const machine::Machine& machine);

// How labels stand: on one line, on two, or not at all; and the widths of the two columns.
struct LabelPlan {
  bool shown = false;
  bool stacked = false;
  float left_w = 0.0F;
  float right_w = 0.0F;
};
LabelPlan plan_labels(const kit::Ui& ui, const std::vector<Label>& labels, const kit::Rect& rect,
                      float machine_aspect);

struct PlacedLabel {
  Label label;
  kit::Rect rect;  // words
  ImVec2 anchor;
};
// Places what fits; drops the least important ones until the rest does.
std::vector<PlacedLabel> place_labels(const Stage& stage, std::vector<Label> labels, const LabelPlan& plan,
                                      const kit::Rect& room);
void draw_labels(const Stage& stage, const std::vector<PlacedLabel>& placed, bool stacked);

ImVec2 anchor_of(const Stage& stage, Named what);
// Height at which the label would like to stand, so that its leader passes clear of what is in between.
float height_of(const Stage& stage, Named what);

}  // namespace stirbench::desk::views::machine_view
