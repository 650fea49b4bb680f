#include "app/desk/views/panel/emergency_stop.h"

#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/item.h"
#include "app/desk/kit/widgets/widgets.h"
#include "sim_core/hands/handles.h"

namespace stirbench::desk::views {

using kit::tr;

namespace {

constexpr int arc_segments = 20;

// A button seen from the front: a ring of shade under it while it stands out, turning arrows on it while it
// is in.
void draw_head(kit::Ui& ui, ImVec2 centre, float radius, bool in, bool hovered) {
  ImDrawList* draw = kit::current_draw();
  const kit::Colour red = ui.theme.colour(kit::Token::sign_red);
  const kit::Colour head = in        ? mix(red, ui.theme.colour(kit::Token::sign_black), 0.25F)
                           : hovered ? mix(red, ui.theme.colour(kit::Token::sign_white), 0.12F)
                                     : red;
  if (!in)
    draw->AddCircleFilled({centre.x, centre.y + ui.px(3.0F)}, radius,
                          ui.theme.colour(kit::Token::sign_black).faded(0.35F).u32());
  const ImVec2 top{centre.x, in ? centre.y + ui.px(2.0F) : centre.y};
  draw->AddCircleFilled(top, radius, head.u32());
  draw->AddCircle(top, radius, ui.colour(kit::Token::sign_black), 0, ui.px(in ? 3.0F : 1.0F));
  if (!in) {
    draw->AddCircle(top, radius * 0.72F, ui.theme.colour(kit::Token::sign_white).faded(0.45F).u32(), 0,
                    ui.px(1.5F));
    return;
  }
  // Two bent arrows: turn it to set it free.
  for (int side = 0; side < 2; ++side) {
    const float from = static_cast<float>(side) * 3.1416F - 0.6F;
    const float to = from + 1.9F;
    const float r = radius * 0.62F;
    draw->PathArcTo(top, r, from, to, arc_segments);
    draw->PathStroke(ui.colour(kit::Token::sign_white), 0, ui.px(2.5F));
    const ImVec2 tip{top.x + r * std::cos(to), top.y + r * std::sin(to)};
    const ImVec2 along{-std::sin(to), std::cos(to)};
    const ImVec2 across{std::cos(to), std::sin(to)};
    const float size = radius * 0.26F;
    draw->AddTriangleFilled(
        {tip.x + along.x * size, tip.y + along.y * size}, {tip.x + across.x * size, tip.y + across.y * size},
        {tip.x - across.x * size, tip.y - across.y * size}, ui.colour(kit::Token::sign_white));
  }
}

}  // namespace

std::optional<hands::Action> draw_emergency_stop(kit::Ui& ui, const machine::State& state,
                                                 const kit::Rect& rect) {
  const bool in = state.plant.safety.emergency_stop_in;
  const std::string label = in ? tr("Emergency stop: turn to set free") : tr("Emergency stop");
  at(ui, rect.x, rect.y);
  kit::ItemSpec spec;
  spec.id = "panel.emergency_stop";
  spec.label = label;
  spec.value = in ? "in" : "";
  const std::string hint = in ? tr("Turning it free starts nothing and clears nothing")
                              : tr("Takes the power from drive, heat and chiller at once");
  spec.hint = hint;
  // It acts as soon as it is pushed; turning it free is a push of its own, never the letting go of the first
  // one.
  spec.on_press = true;
  const kit::Item item = add_item(ui, rect, spec);
  ImDrawList* draw = kit::current_draw();
  kit::box(draw, rect, ui.colour(kit::Token::sign_yellow), ui.colour(kit::Token::sign_black),
           ui.px(kit::Measure::corner_control), ui.px(1.0F));
  const float line = ui.theme.line_px(kit::Type::caption);
  const float radius = std::min(rect.w * 0.5F - ui.px(6.0F), (rect.h - line) * 0.5F - ui.px(6.0F));
  draw_head(ui, {rect.x + rect.w * 0.5F, rect.y + (rect.h - line) * 0.5F}, radius, in,
            item.hovered || item.held);
  const std::string words =
      fitted(ui, in ? tr("IN: turn") : tr("Emergency"), kit::Type::caption, rect.w - ui.px(4.0F));
  text_at(ui, draw, {rect.x + rect.w * 0.5F, rect.bottom() - line - ui.px(2.0F)}, words,
          {.type = kit::Type::caption, .colour = kit::Token::sign_black}, kit::Align::centre);
  if (item.focused) focus_ring(ui, rect, ui.px(kit::Measure::corner_control));
  if (!item.pressed) return {};
  return in ? hands::release_emergency_stop() : hands::press_emergency_stop();
}

}  // namespace stirbench::desk::views
