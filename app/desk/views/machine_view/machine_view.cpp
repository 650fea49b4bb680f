#include "app/desk/views/machine_view/machine_view.h"

#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/icon.h"
#include "app/desk/kit/widgets/spot.h"
#include "app/desk/kit/widgets/text_block.h"
#include "app/desk/views/machine_view/labels.h"
#include "app/desk/views/machine_view/stage.h"
#include "sim_core/hands/handles.h"

namespace stirbench::desk::views {

using kit::tr;

namespace machine_view {

namespace {

struct Ground {
  kit::Rect room;  // above the floor
  kit::Rect floor;
};

Ground draw_ground(kit::Ui& ui, ImDrawList* draw, const kit::Rect& rect) {
  const float height = std::round(
      std::min(std::max(ui.px(40.0F), ui.theme.line_px(kit::Type::caption) + ui.px(14.0F)), rect.h * 0.16F));
  Ground ground{rect, {}};
  ground.floor = ground.room.take_bottom(height);
  const float corner = ui.px(kit::Measure::corner_panel) - 1.0F;
  draw->AddRectFilled(ground.room.min(), ground.room.max(), ui.colour(kit::Token::stage), corner,
                      ImDrawFlags_RoundCornersTop);
  draw->AddRectFilled(ground.floor.min(), ground.floor.max(), ui.colour(kit::Token::floor), corner,
                      ImDrawFlags_RoundCornersBottom);
  return ground;
}

// Scale and place of the machine between the label columns, standing on the floor.
void fit(Stage& s, const Ground& ground, const LabelPlan& labels) {
  const Plan& p = s.plan;
  const float margin = s.ui.px(16.0F);
  const auto high = static_cast<float>(p.rim + p.above - p.floor);
  const auto wide = static_cast<float>(p.left + p.right);
  const float left = labels.shown ? labels.left_w + 2.0F * margin : s.ui.px(6.0F);
  const float right = labels.shown ? labels.right_w + 2.0F * margin : s.ui.px(6.0F);
  const float room_w = std::max(ground.room.w - left - right, 20.0F);
  const float foot =
      ground.floor.h * (labels.shown ? 0.30F : 0.10F);  // it stands in the floor, not on its edge
  s.scale = std::min((ground.room.h + foot - s.ui.px(6.0F)) / high, room_w / wide);
  s.fine = std::clamp(s.scale / s.ui.px(500.0F), 0.45F, 1.5F);
  const float x =
      ground.room.x + left + (room_w - wide * s.scale) * 0.5F + static_cast<float>(p.left) * s.scale;
  s.origin = {std::round(x), std::round(ground.floor.y + foot + static_cast<float>(p.floor) * s.scale)};
}

void draw_parts(const Stage& s) {
  draw_housing(s);
  draw_elements(s);
  draw_coils(s);
  draw_vat_inside(s);
  draw_product(s);
  draw_levels(s);
  draw_vat_flow(s);
  draw_drive(s);
  draw_agitator(s);
  draw_solids(s);
  draw_foam(s);
  draw_deposit(s);
  draw_vat_wall(s);
  draw_loop(s);
  draw_shaft_cover(s);
  draw_outlet(s);
  draw_valve(s);
  draw_spill(s);
  draw_lid(s);
  draw_guard(s);
  draw_steam(s);
  // Electricity: on the cover of the elements, always.
  const float side = std::max(s.len(0.20 * s.vessel.vat_radius_m()), s.ui.px(14.0F));
  const ImVec2 c = s.at(0.80 * s.vessel.vat_radius_m(), s.plan.element_z - 0.10 * s.vessel.vat_radius_m());
  kit::draw_sign(s.draw, kit::SignId::w012, {c.x - side * 0.5F, c.y - side * 0.5F, side, side});
}

bool is_hot(const Stage& s) {
  constexpr double hot_degC = 60.0;
  const plant::PlantState& p = s.plant();
  return std::max({p.vat_wall_degC, p.well_wall_degC, s.has_product() ? p.vat_degC : 0.0}) > hot_degC;
}

// Signs with their words in the floor strip, from the left.
void draw_cautions(const Stage& s, const kit::Rect& floor) {
  const plant::PlantState& p = s.plant();
  const float side = floor.h - s.ui.px(8.0F);
  const float line = s.ui.theme.line_px(kit::Type::caption);
  float x = floor.x + s.ui.px(14.0F);
  const auto words = [&](const std::string& text) {
    x += side + s.ui.px(6.0F);
    text_at(s.ui, s.draw, {x, std::round(floor.y + (floor.h - line) * 0.5F)}, text,
            {.type = kit::Type::caption, .colour = kit::Token::ink});
    x += text_size(s.ui, text, kit::Type::caption).x + s.ui.px(18.0F);
  };
  if (is_hot(s)) {
    kit::draw_sign(s.draw, kit::SignId::w017, {x, floor.y + s.ui.px(3.0F), side, side});
    words(tr("hot surface, hot product"));
  }
  if (p.floor_kg > 0.05) {
    kit::draw_sign(s.draw, kit::SignId::w011, {x, floor.y + s.ui.px(3.0F), side, side});
    words(tr("slippery floor"));
  }
}

// Where there is no room for labels: the two numbers that matter, in the floor strip.
void draw_short_words(const Stage& s, const kit::Rect& whole_floor) {
  const plant::PlantState& p = s.plant();
  kit::Rect floor = whole_floor;
  if (is_hot(s)) {
    const kit::Rect place = floor.take_left(floor.h + s.ui.px(4.0F));
    kit::draw_sign(s.draw, kit::SignId::w017, place.inset(s.ui.px(4.0F)));
  }
  std::string words = s.has_product() ? s.ui.shown(kit::Quantity::temperature, p.vat_degC) + " · " +
                                            s.ui.shown(kit::Quantity::volume, p.coefficients.volume_L * 1e-3)
                                      : tr("empty");
  if (p.fittings.lid_open) words += " · " + tr("lid OPEN");
  const float line = s.ui.theme.line_px(kit::Type::caption);
  if (floor.h < line) return;
  text_at(s.ui, s.draw, {floor.centre().x, std::round(floor.y + (floor.h - line) * 0.5F)},
          fitted(s.ui, words, kit::Type::caption, floor.w - s.ui.px(8.0F)),
          {.type = kit::Type::caption, .colour = p.fittings.lid_open ? kit::Token::bad : kit::Token::ink},
          kit::Align::centre);
}

void draw_room_words(const Stage& s, const kit::Rect& rect) {
  text_at(s.ui, s.draw, {rect.x + s.ui.px(16.0F), rect.y + s.ui.px(10.0F)},
          tr("Room {degC}",
             {{"degC", s.ui.shown(kit::Quantity::temperature, s.plant().environment.ambient_degC)}}),
          {.type = kit::Type::caption, .colour = kit::Token::ink2});
}

// What the handle was last asked for in this drag: asked once a value, also while time stands still.
double& last_asked() {
  static double value = -1.0;
  return value;
}

void valve_spot(const Stage& s, const MachineViewInput& input, MachineRequests& wants) {
  const double now = input.draw_opening_norm.value_or(s.plant().fittings.draw_opening_norm);
  const kit::SpotState state = spot(s.ui, input.id + ".draw_valve", tr("Draw valve handle"), valve_rect(s),
                                    {.value = kit::plain_number(now, 2),
                                     .hint = tr("Drag the handle, or hold Shift and press the arrow keys."),
                                     .draggable = true});
  if (state.dragging || state.dropped) {
    const double wanted = opening_of_handle(s, state.mouse);
    if (std::abs(wanted - now) >= 0.01 && wanted != last_asked())
      wants.draw_opening_norm = last_asked() = wanted;
  } else {
    last_asked() = -1.0;
    const double step = state.key_x != 0.0F ? state.key_x : state.key_y;
    if (step != 0.0)
      wants.draw_opening_norm = std::round(std::clamp(now + 0.1 * step, 0.0, 1.0) * 100.0) / 100.0;
    if (state.pressed) wants.draw_opening_norm = now > 0.0 ? 0.0 : 0.5;
  }
}

void vat_spot(const Stage& s, const MachineViewInput& input, MachineRequests& wants) {
  const double R = s.vessel.vat_radius_m();
  const kit::Rect place = s.box(-0.97 * R, s.plan.rim - 0.03 * R, 0.97 * R, 0.3 * s.vessel.shoulder_m());
  const bool pouring = !input.pouring.empty();
  const std::string hint =
      pouring ? tr("Pour {ingredient} in", {{"ingredient", input.pouring}}) : tr("Look in and take a sample");
  const kit::SpotState state =
      spot(s.ui, input.id + ".vat", tr("Vat"), place,
           {.value = kit::plain_number(s.plant().coefficients.volume_L, 1), .hint = hint});
  const bool dropped =
      pouring && !state.pressed && ImGui::IsMouseReleased(0) && place.contains(ImGui::GetIO().MousePos);
  if (pouring && (state.pressed || dropped)) {
    wants.pour = true;
  } else if (state.pressed) {
    wants.vat = true;
  }
}

MachineRequests take_spots(const Stage& s, const MachineViewInput& input) {
  MachineRequests wants;
  const plant::Fittings& f = s.plant().fittings;
  const auto state_word = [](bool open) { return std::string(open ? "open" : "closed"); };
  wants.toggle_lid =
      spot(s.ui, input.id + ".lid", tr("Lid"), lid_rect(s),
           {.value = state_word(f.lid_open), .hint = f.lid_open ? tr("Close the lid") : tr("Open the lid")})
          .pressed;
  vat_spot(s, input, wants);
  wants.toggle_shaft_cover =
      spot(s.ui, input.id + ".shaft_cover", tr("Shaft cover"), cover_rect(s),
           {.value = state_word(f.shaft_cover_open),
            .hint = f.shaft_cover_open ? tr("Close the shaft cover") : tr("Open the shaft cover")})
          .pressed;
  valve_spot(s, input, wants);
  wants.pail = spot(s.ui, input.id + ".pail", tr("Pail"), pail_rect(s),
                    {.value = kit::plain_number(s.plant().pail.total_kg(), 2)})
                   .pressed;
  return wants;
}

}  // namespace

}  // namespace machine_view

MachineRequests draw_machine(kit::Ui& ui, const MachineViewInput& input, const kit::Rect& rect) {
  using namespace machine_view;
  ImDrawList* draw = kit::current_draw();
  draw->PushClipRect(rect.min(), rect.max(), true);
  const Ground ground = draw_ground(ui, draw, rect);
  const Vessel vessel(input.machine.plant);
  Stage stage{.ui = ui,
              .draw = draw,
              .machine = input.machine,
              .state = input.state,
              .motion = input.motion,
              .vessel = vessel,
              .plan = make_plan(input.machine, vessel),
              .rect = rect};
  std::vector<Label> labels;
  LabelPlan label_plan;
  if (input.labels && rect.h > ui.em(230.0F)) {
    labels = make_labels(ui, input.machine, input.state);
    if (input.senses_only) keep_what_is_seen(labels);
    const auto aspect = static_cast<float>((stage.plan.left + stage.plan.right) /
                                           (stage.plan.rim + stage.plan.above - stage.plan.floor));
    std::vector<Label> widest = widest_labels(ui, input.machine);
    widest.insert(widest.end(), labels.begin(), labels.end());
    label_plan = plan_labels(ui, widest, ground.room, aspect);
  }
  fit(stage, ground, label_plan);
  draw_parts(stage);
  MachineRequests wants;
  if (label_plan.shown) {
    kit::Rect room = ground.room.inset(0.0F, ui.px(8.0F));
    room.take_top(ui.theme.line_px(kit::Type::caption) + ui.px(6.0F));
    draw_room_words(stage, rect);
    draw_labels(stage, place_labels(stage, labels, label_plan, room), label_plan.stacked);
    draw_cautions(stage, ground.floor);
  } else {
    draw_short_words(stage, ground.floor);
  }
  draw->PopClipRect();
  if (input.interactive) wants = take_spots(stage, input);
  return wants;
}

std::vector<hands::Action> hands_of(const MachineRequests& wants, const machine::State& state) {
  std::vector<hands::Action> actions;
  const plant::Fittings& f = state.plant.fittings;
  if (wants.toggle_lid) actions.push_back(f.lid_open ? hands::close_lid() : hands::open_lid());
  if (wants.toggle_shaft_cover)
    actions.push_back(f.shaft_cover_open ? hands::close_shaft_cover() : hands::open_shaft_cover());
  if (wants.draw_opening_norm) actions.push_back(hands::turn_draw_valve(*wants.draw_opening_norm));
  actions.insert(actions.end(), wants.part_work.begin(), wants.part_work.end());
  return actions;
}

}  // namespace stirbench::desk::views
