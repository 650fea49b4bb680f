#include "app/desk/views/machine_view/labels.h"

#include <algorithm>
#include <cmath>

#include "app/desk/kit/widgets/text_block.h"

namespace stirbench::desk::views::machine_view {

namespace {

std::string first_line(const Label& label, bool stacked) {
  if (stacked || label.value.empty()) return label.name;
  return label.name + " " + label.value;
}

std::string second_line(const Label& label, bool stacked) { return stacked ? label.value : std::string(); }

kit::Type type_of(const Label& label) { return label.quiet ? kit::Type::caption : kit::Type::body; }

float mark_room(const kit::Ui& ui, const Label& label) {
  return label.sign || label.icon != kit::Icon::none ? std::round(ui.em(20.0F)) + ui.px(5.0F) : 0.0F;
}

ImVec2 label_size(const kit::Ui& ui, const Label& label, bool stacked) {
  const kit::Type type = type_of(label);
  float w = text_size(ui, first_line(label, stacked), type).x;
  float h = ui.theme.line_px(type);
  if (const std::string second = second_line(label, stacked); !second.empty()) {
    w = std::max(w, text_size(ui, second, type).x);
    h += ui.theme.line_px(type);
  }
  if (!label.detail.empty()) {
    w = std::max(w, text_size(ui, label.detail, kit::Type::caption).x);
    h += ui.theme.line_px(kit::Type::caption);
  }
  return {w + mark_room(ui, label), h};
}

float column_width(const kit::Ui& ui, const std::vector<Label>& labels, bool left, bool stacked) {
  float width = 0.0F;
  for (const Label& label : labels) {
    if (label.left == left) width = std::max(width, label_size(ui, label, stacked).x);
  }
  return width;
}

// Labels of one side that fit under each other, in the order of their anchors.
std::vector<PlacedLabel> place_side(const Stage& s, std::vector<Label> labels, bool left, bool stacked,
                                    const kit::Rect& room) {
  std::erase_if(labels, [&](const Label& label) { return label.left != left; });
  std::stable_sort(labels.begin(), labels.end(), [&](const Label& a, const Label& b) {
    return height_of(s, a.what) < height_of(s, b.what);
  });
  const float gap = s.ui.px(5.0F);
  std::vector<kit::Wanted> boxes;
  for (;;) {
    boxes.clear();
    for (const Label& label : labels) {
      const ImVec2 size = label_size(s.ui, label, stacked);
      boxes.push_back({height_of(s, label.what) - s.ui.theme.line_px(type_of(label)) * 0.5F, size.y});
    }
    if (labels.empty() || kit::spread(boxes, room.y, room.bottom(), gap)) break;
    const auto last = std::max_element(labels.begin(), labels.end(), [](const Label& a, const Label& b) {
      return a.importance < b.importance;
    });
    labels.erase(last);
  }
  std::vector<PlacedLabel> placed;
  for (std::size_t i = 0; i < labels.size(); ++i) {
    const ImVec2 size = label_size(s.ui, labels[i], stacked);
    placed.push_back({labels[i],
                      {std::round(room.x), std::round(boxes[i].top), size.x, size.y},
                      anchor_of(s, labels[i].what)});
  }
  return placed;
}

void draw_one(const Stage& s, const PlacedLabel& placed, bool stacked) {
  const Label& label = placed.label;
  const kit::Type type = type_of(label);
  const float line = s.ui.theme.line_px(type);
  const kit::Colour ink = s.colour(kit::Token::ink2);
  const float y = placed.rect.y + line * 0.5F;
  const float away = s.ui.px(7.0F);
  // Leader: a short level piece beside the words, then straight to the thing. Ends in a dot with a light
  // ring, so that it shows on any ground. A block of two lines is passed at its full width, or the leader
  // would cut through the second line.
  const float first_w =
      stacked ? placed.rect.w : mark_room(s.ui, label) + text_size(s.ui, first_line(label, stacked), type).x;
  const float start_x = label.left ? placed.rect.x + first_w + away : placed.rect.x - away;
  const float knee_x = start_x + (label.left ? s.ui.px(10.0F) : -s.ui.px(10.0F));
  const ImVec2 points[3] = {{start_x, y}, {knee_x, y}, placed.anchor};
  s.draw->AddPolyline(points, 3, ink.faded(label.quiet ? 0.6F : 0.9F).u32(), 0, s.ui.px(1.0F));
  s.draw->AddCircleFilled(placed.anchor, s.ui.px(3.6F), s.colour(kit::Token::panel).u32(), 8);
  s.draw->AddCircleFilled(placed.anchor, s.ui.px(2.5F),
                          label.colour == kit::Token::bad ? s.colour(kit::Token::bad).u32() : ink.u32(), 8);

  float x = placed.rect.x;
  const float side = std::round(s.ui.em(20.0F));
  const kit::Rect mark{x, std::round(y - side * 0.52F), side, side};
  if (label.sign) {
    kit::draw_sign(s.draw, *label.sign, mark);
  } else if (label.icon != kit::Icon::none) {
    kit::icon(s.draw, label.icon, mark.inset(side * 0.1F), s.ui.colour(label.colour));
  }
  x += mark_room(s.ui, label);
  const kit::Token words = label.quiet ? kit::Token::ink2 : label.colour;
  float top = placed.rect.y;
  text_at(s.ui, s.draw, {x, top}, first_line(label, stacked), {.type = type, .colour = words});
  top += line;
  if (const std::string second = second_line(label, stacked); !second.empty()) {
    text_at(s.ui, s.draw, {x, top}, second, {.type = type, .colour = words});
    top += line;
  }
  if (!label.detail.empty())
    text_at(s.ui, s.draw, {x, top}, label.detail, {.type = kit::Type::caption, .colour = kit::Token::ink2});
}

}  // namespace

LabelPlan plan_labels(const kit::Ui& ui, const std::vector<Label>& labels, const kit::Rect& rect,
                      float machine_aspect) {
  LabelPlan plan;
  const float wanted = rect.h * machine_aspect;
  for (const bool stacked : {false, true}) {
    plan.stacked = stacked;
    plan.left_w = column_width(ui, labels, true, stacked);
    plan.right_w = column_width(ui, labels, false, stacked);
    const float left = rect.w - plan.left_w - plan.right_w - 4.0F * ui.px(16.0F);
    if (left >= (stacked ? 0.44F : 0.84F) * wanted) {
      plan.shown = true;
      return plan;
    }
  }
  return {};
}

std::vector<PlacedLabel> place_labels(const Stage& stage, std::vector<Label> labels, const LabelPlan& plan,
                                      const kit::Rect& room) {
  if (!plan.shown) return {};
  const float margin = stage.ui.px(16.0F);
  const kit::Rect left{room.x + margin, room.y, plan.left_w, room.h};
  const kit::Rect right{room.right() - margin - plan.right_w, room.y, plan.right_w, room.h};
  std::vector<PlacedLabel> placed = place_side(stage, labels, true, plan.stacked, left);
  for (PlacedLabel& label : place_side(stage, std::move(labels), false, plan.stacked, right))
    placed.push_back(std::move(label));
  return placed;
}

void draw_labels(const Stage& stage, const std::vector<PlacedLabel>& placed, bool stacked) {
  for (const PlacedLabel& label : placed) draw_one(stage, label, stacked);
}

float height_of(const Stage& s, Named what) {
  const double R = s.vessel.vat_radius_m();
  // Below the valve's spout; the valve's own label above it.
  if (what == Named::pump)
    return s.at(0.0, std::min(s.plan.valve_z - 0.24 * R, s.plan.pump_z - s.plan.pump_r)).y;
  if (what == Named::draw_valve) return s.at(0.0, s.plan.valve_z + 0.08 * R).y;
  return anchor_of(s, what).y;
}

ImVec2 anchor_of(const Stage& s, Named what) {
  const Plan& p = s.plan;
  const Vessel& v = s.vessel;
  const double R = v.vat_radius_m();
  const auto wall = [&](double volume_L) {
    const double z = v.level_m(volume_L);
    return s.at(-v.radius_m(z) + 0.05 * R, z);
  };
  switch (what) {
    case Named::lid_guard: return s.at(1.155 * R, p.rim - 0.12 * R);
    case Named::working_level: return wall(s.machine.plant.vat.working_L);
    case Named::minimum_level: return wall(s.machine.plant.vat.minimum_L);
    case Named::vat: {
      const double level = s.has_product() ? std::max(s.level_m(), 0.0) : p.rim * 0.6;
      return s.at(-0.80 * R, std::clamp(0.62 * level, v.shoulder_m() * 0.8, p.rim));
    }
    case Named::chiller: return s.at(-(R + 0.125 * R + 0.04 * R), p.housing_top - 0.12 * R);
    case Named::well: {
      const double in_product = s.has_product() ? s.level_m() - 0.06 * v.well_depth_m() : 0.0;
      return s.at(-0.62 * v.well_radius_m(),
                  std::max(std::min(-0.45 * v.well_depth_m(), in_product), -0.9 * v.well_depth_m()));
    }
    case Named::elements: return s.at(-0.86 * v.well_radius_m(), p.element_z - 0.03 * R);
    case Named::shaft_cover:
      return s.at(-p.housing_half - 0.01 * R, (p.floor + 0.12 * R - v.well_depth_m() - 0.36 * R) / 2.0);
    case Named::agitator: return s.at(0.55 * p.hub_r, p.blade_top + 0.03 * R);
    case Named::bushing:
      return s.at(0.8 * p.hub_r,
                  is_worn(s.machine.plant.agitator_bushing, s.plant().agitator_bushing, s.plant())
                      ? p.blade_bottom + 0.06 * R
                      : p.blade_top);
    case Named::pump: return s.at(p.pump_x + 0.45 * p.pump_r, p.pump_z - 0.75 * p.pump_r);
    case Named::draw_valve: return s.at(p.valve_x + 0.07 * R, p.valve_z);
    case Named::pail: return s.at(p.valve_x + 0.8 * p.pail_bottom_r, p.floor + 0.30 * p.pail_h);
    case Named::sunk: return s.at(-0.55 * v.well_radius_m(), -v.well_depth_m() + 0.05 * R);
    case Named::floating: return s.at(0.72 * R, s.surface_m(0.72 * R) - 0.04 * R);
    case Named::deposit: return s.at(-v.well_radius_m() + 0.012, -0.72 * v.well_depth_m());
  }
  return s.at(0.0, 0.0);
}

}  // namespace stirbench::desk::views::machine_view
