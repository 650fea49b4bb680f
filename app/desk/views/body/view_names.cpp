#include <algorithm>
#include <cmath>

#include "app/desk/kit/signs/signs.h"
#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/spread.h"
#include "app/desk/kit/widgets/text_block.h"
#include "app/desk/views/body/view_internal.h"

// Names on leader lines, and cautions.
namespace stirbench::desk::views::body {

using kit::tr;

namespace {

constexpr int looks_at_a_part = 14;  // points of a part that are tried before it counts as hidden

// How near the edge or the eye does not matter; the first point that is not hidden is taken, those near the
// part's middle first.
std::optional<Vec2> visible_point(const ViewCore& core, std::size_t i, const PartPositions& moment,
                                  double aspect, const Covered& covered) {
  const PartModel& part = core.model->parts[i];
  const Pose pose = pose_of(part, moment, core.choice);
  const Vec3 eye = core.camera.eye();
  const std::size_t count = part.mesh.triangles.size();
  const std::size_t step = std::max<std::size_t>(count / looks_at_a_part, 1);
  for (std::size_t k = step / 2; k < count; k += step) {
    const auto& t = part.mesh.triangles[k];
    const Vec3 middle =
        (part.mesh.points[t[0]] + part.mesh.points[t[1]] + part.mesh.points[t[2]]) * (1.0 / 3.0);
    const Vec3 at = pose.apply(middle);
    if (is_cut(*part.part, core.choice) && at[1] < core.choice.cut_m) continue;
    const auto place = core.camera.project(at, aspect);
    if (!place || (*place)[0] < 0.03 || (*place)[0] > 0.97 || (*place)[1] < 0.03 || (*place)[1] > 0.97 ||
        covered.covers(*place))
      continue;
    const Vec3 way = unit(at - eye);
    const Hit hit = pick(*core.model, moment, core.choice, {eye, way});
    if (hit.part == static_cast<int>(i) || hit.part < 0) return place;
  }
  return std::nullopt;
}

std::string value_of(const kit::Ui& ui, const std::string& part, const machine::State& state) {
  const plant::PlantState& p = state.plant;
  if (part == "vat") return ui.shown(kit::Quantity::temperature, p.vat_degC);
  if (part == "well") return ui.shown(kit::Quantity::temperature, p.well_degC);
  if (part == "evaporator") return ui.shown(kit::Quantity::temperature, p.evaporator_degC);
  if (part == "elements" && p.flows.heaters_W > 1.0) return ui.shown(kit::Quantity::power, p.flows.heaters_W);
  if (part == "freezer_barrel") return ui.shown(kit::Quantity::temperature, p.freezer.degC);
  return {};
}

struct Entry {
  Named name;
  std::string words;
  std::string value;
  float width = 0.0F;
  float y = 0.0F;
};

void draw_column(kit::Ui& ui, std::vector<Entry> entries, const kit::Rect& picture, const kit::Rect& room,
                 bool left) {
  std::sort(entries.begin(), entries.end(),
            [](const Entry& a, const Entry& b) { return a.name.anchor[1] < b.name.anchor[1]; });
  const float line = ui.theme.line_px(kit::Type::caption);
  std::vector<kit::Wanted> boxes;
  boxes.reserve(entries.size());
  for (const Entry& e : entries)
    boxes.push_back({picture.y + static_cast<float>(e.name.anchor[1]) * picture.h - line * 0.5F, line});
  if (!kit::spread(boxes, room.y, room.bottom(), ui.px(2.0F))) return;
  ImDrawList* draw = kit::current_draw();
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const Entry& e = entries[i];
    const float y = boxes[i].top;
    const float x = left ? room.x : room.right();
    const float edge = left ? x + e.width + ui.px(5.0F) : x - e.width - ui.px(5.0F);
    const ImVec2 anchor{picture.x + static_cast<float>(e.name.anchor[0]) * picture.w,
                        picture.y + static_cast<float>(e.name.anchor[1]) * picture.h};
    const kit::Rect chip{left ? x - ui.px(4.0F) : x - e.width - ui.px(4.0F), y - ui.px(1.0F),
                         e.width + ui.px(8.0F), line + ui.px(2.0F)};
    draw->AddLine({edge, y + line * 0.5F}, anchor, ui.theme.colour(kit::Token::ink2).faded(0.75F).u32(),
                  ui.px(1.0F));
    draw->AddCircleFilled(anchor, ui.px(2.5F), ui.colour(kit::Token::ink));
    draw->AddRectFilled(chip.min(), chip.max(), ui.theme.colour(kit::Token::stage).faded(0.86F).u32(),
                        ui.px(3.0F));
    const std::string text = e.value.empty() ? e.words : e.words + "  " + e.value;
    text_at(ui, draw, {left ? x : x - e.width, y}, text,
            {.type = kit::Type::caption, .colour = kit::Token::ink});
  }
}

}  // namespace

std::vector<Named> find_names(const ViewCore& core, const PartPositions& moment, double aspect,
                              const Covered& covered) {
  std::vector<std::size_t> wanted;
  for (std::size_t i = 0; i < core.model->parts.size(); ++i) {
    const library::BodyPart& part = *core.model->parts[i].part;
    if (!is_shown(part, moment, core.choice) || is_veil(part, core.choice)) continue;
    if (part.label > 0 || static_cast<int>(i) == core.chosen) wanted.push_back(i);
  }
  std::stable_sort(wanted.begin(), wanted.end(), [&](std::size_t a, std::size_t b) {
    const auto rank = [&](std::size_t i) {
      return static_cast<int>(i) == core.chosen ? 0 : core.model->parts[i].part->label;
    };
    return rank(a) < rank(b);
  });
  std::vector<Named> out;
  for (const std::size_t i : wanted)
    if (const auto place = visible_point(core, i, moment, aspect, covered))
      out.push_back({static_cast<int>(i), *place});
  return out;
}

void draw_names(kit::Ui& ui, const ViewCore& core, const MachineViewInput& input, const kit::Rect& picture,
                const kit::Rect& room) {
  if (room.w < ui.em(330.0F)) return;
  const float line = ui.theme.line_px(kit::Type::caption) + ui.px(2.0F);
  const auto fits = static_cast<std::size_t>(std::max(room.h / line - 1.0F, 0.0F));
  std::vector<Entry> left;
  std::vector<Entry> right;
  for (const Named& name : core.names) {
    const library::BodyPart& part = *core.model->parts[static_cast<std::size_t>(name.part)].part;
    Entry entry{name, tr(part.title), value_of(ui, part.id, input.state)};
    entry.width = text_size(ui, entry.value.empty() ? entry.words : entry.words + "  " + entry.value,
                            kit::Type::caption)
                      .x;
    std::vector<Entry>& column = name.anchor[0] < 0.5 ? left : right;
    if (column.size() < std::min<std::size_t>(fits, 14)) column.push_back(std::move(entry));
  }
  draw_column(ui, std::move(left), picture, room, true);
  draw_column(ui, std::move(right), picture, room, false);
}

void draw_cautions(kit::Ui& ui, const MachineViewInput& input, const kit::Rect& rect) {
  constexpr double hot_degC = 60.0;
  const plant::PlantState& p = input.state.plant;
  const bool hot = std::max({p.vat_wall_degC, p.well_wall_degC,
                             p.product.total_kg() > 1e-3 ? p.vat_degC : 0.0}) > hot_degC;
  const float side = ui.px(30.0F);
  float x = rect.x + ui.px(12.0F);
  const float y = rect.y + ui.px(8.0F);
  const auto sign = [&](kit::SignId which, const std::string& words) {
    kit::draw_sign(kit::current_draw(), which, {x, y, side, side});
    x += side + ui.px(6.0F);
    text_at(ui, kit::current_draw(), {x, y + (side - ui.theme.line_px(kit::Type::caption)) * 0.5F}, words,
            {.type = kit::Type::caption, .colour = kit::Token::ink});
    x += text_size(ui, words, kit::Type::caption).x + ui.px(16.0F);
  };
  if (hot) sign(kit::SignId::w017, tr("hot surface, hot product"));
  if (p.floor_kg > 0.05) sign(kit::SignId::w011, tr("slippery floor"));
}

}  // namespace stirbench::desk::views::body
