#include "app/desk/views/panel/display.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/item.h"
#include "app/desk/kit/widgets/widgets.h"
#include "sim_core/control/controller.h"
#include "sim_core/plant/plant.h"

namespace stirbench::desk::views::panel {

using kit::tr;

namespace {

float pad(const kit::Ui& ui) { return ui.px(12.0F); }

// Numbers side by side, or the large one above the two others when the text is large.
bool numbers_in_one_row(const kit::Ui& ui, float width) { return width >= ui.em(320.0F); }

float numbers_height(const kit::Ui& ui, float width) {
  const float caption = ui.theme.line_px(kit::Type::caption);
  const float first = caption + ui.theme.line_px(kit::Type::display_large);
  return numbers_in_one_row(ui, width) ? first : first + caption + ui.theme.line_px(kit::Type::title);
}

// Room for an alarm's title and its way out in three lines.
float message_height(const kit::Ui& ui) {
  return ui.theme.line_px(kit::Type::body_bold) + 3.0F * ui.theme.line_px(kit::Type::caption) + ui.px(15.0F);
}

struct Figure {
  std::string caption;
  kit::Shown value;
};

void figure_at(kit::Ui& ui, ImVec2 at_point, const Figure& figure, kit::Type type, kit::Align align,
               float baseline_drop, const char* id) {
  ImDrawList* draw = kit::current_draw();
  const float caption = ui.theme.line_px(kit::Type::caption);
  text_at(ui, draw, {at_point.x, at_point.y + baseline_drop}, figure.caption,
          {.type = kit::Type::caption, .colour = kit::Token::on_display2}, align);
  value_at(ui, draw, {at_point.x, at_point.y + baseline_drop + caption}, figure.value, type,
           kit::Token::on_display, align);
  const ImVec2 size = value_size(ui, figure.value, type);
  const float left = align == kit::Align::right    ? at_point.x - size.x
                     : align == kit::Align::centre ? at_point.x - size.x * 0.5F
                                                   : at_point.x;
  register_item(ui, {left, at_point.y + baseline_drop + caption, size.x, size.y},
                {.id = id,
                 .kind = "text",
                 .label = figure.caption,
                 .value = figure.value.text(),
                 .reason = {},
                 .hint = {},
                 .focusable = false},
                0, false);
}

// The third number: what counts down, or the phase, or the mode.
Figure third_figure(const machine::Machine& machine, const machine::State& state) {
  const control::ControlState& c = state.control;
  const bool chosen = c.recipe >= 0 && static_cast<std::size_t>(c.recipe) < machine.recipes.size();
  const control::Recipe* recipe = chosen ? &machine.recipes[static_cast<std::size_t>(c.recipe)] : nullptr;
  const control::Phase* phase = control::current_phase(recipe, c);
  if (phase == nullptr || (c.mode != control::Mode::running && c.mode != control::Mode::paused))
    return {tr("mode"), {tr(control::mode_name(c.mode)), ""}};
  if (phase->kind == control::PhaseKind::hold || phase->kind == control::PhaseKind::age) {
    return {tr(phase->title), {kit::show_duration(control::hold_left_s(recipe, c, machine::tick_s)), ""}};
  }
  return {tr("phase"), {tr(phase->title), ""}};
}

void draw_numbers(kit::Ui& ui, const machine::Machine& machine, const machine::State& state,
                  const kit::Rect& rect) {
  const control::ControlState& c = state.control;
  const bool off = c.mode == control::Mode::off;
  const bool chosen = c.recipe >= 0 && static_cast<std::size_t>(c.recipe) < machine.recipes.size();
  const double target =
      control::aimed_degC(chosen ? &machine.recipes[static_cast<std::size_t>(c.recipe)] : nullptr, c);
  const auto degrees = [&](double degC) {
    kit::Shown shown = show(kit::Quantity::temperature, degC, ui.units);
    if (off) shown.number = "–";
    return shown;
  };
  const Figure product{tr("product"), degrees(plant::probe_reading_degC(state.plant))};
  const Figure aim{tr("target"), degrees(target)};
  Figure third = third_figure(machine, state);
  figure_at(ui, rect.min(), product, kit::Type::display_large, kit::Align::left, 0.0F,
            "panel.display.product");
  const kit::Type small = kit::Type::title;
  if (numbers_in_one_row(ui, rect.w + 2.0F * pad(ui))) {
    // The small numbers stand on the large one's line.
    const float drop = std::round(ui.theme.line_px(kit::Type::display_large) - ui.theme.line_px(small) -
                                  ui.theme.text_px(kit::Type::display_large) * 0.08F);
    const float product_w = value_size(ui, product.value, kit::Type::display_large).x;
    const float aim_w = value_size(ui, aim.value, small).x;
    const float room = rect.w - product_w - aim_w - ui.px(36.0F);
    third.value.number = fitted(ui, third.value.number, small, room);
    const float third_w =
        std::max(value_size(ui, third.value, small).x, text_size(ui, third.caption, kit::Type::caption).x);
    const float aim_x = rect.x + product_w + (rect.w - product_w - third_w - aim_w) * 0.5F;
    figure_at(ui, {std::round(aim_x), rect.y}, aim, small, kit::Align::left, drop, "panel.display.target");
    figure_at(ui, {rect.right(), rect.y}, third, small, kit::Align::right, drop, "panel.display.phase");
    return;
  }
  const float y = rect.y + ui.theme.line_px(kit::Type::caption) + ui.theme.line_px(kit::Type::display_large);
  third.value.number =
      fitted(ui, third.value.number, small, rect.w - value_size(ui, aim.value, small).x - ui.px(16.0F));
  figure_at(ui, {rect.x, y}, aim, small, kit::Align::left, 0.0F, "panel.display.target");
  figure_at(ui, {rect.right(), y}, third, small, kit::Align::right, 0.0F, "panel.display.phase");
}

void register_words(kit::Ui& ui, const char* id, const kit::Rect& rect, const std::string& words,
                    const std::string& value) {
  register_item(ui, rect,
                {.id = id,
                 .kind = "text",
                 .label = words,
                 .value = value,
                 .reason = {},
                 .hint = {},
                 .focusable = false},
                0, false);
}

// Acknowledge beside the alarms' names while one waits for it; what is left of the row is for the names.
bool acknowledge_button(kit::Ui& ui, const std::vector<ShownAlarm>& alarms, kit::Rect& row) {
  const bool waits =
      std::any_of(alarms.begin(), alarms.end(), [](const ShownAlarm& alarm) { return alarm.unacknowledged; });
  const std::string words = tr("Acknowledge");
  const float width = button_width(ui, words);
  // With large text the sheet behind the message has room for it.
  if (!waits || row.w - width < ui.em(60.0F)) return false;
  return button_at(ui, "panel.acknowledge", words, row.take_right(width, ui.px(6.0F)),
                   {.hint = tr("Says that you have seen it. It clears nothing.")});
}

// The way out, which opens the alarms' sheet when it is pressed.
bool way_out_button(kit::Ui& ui, const std::string& words, const kit::Rect& rect) {
  const std::string label = tr("Details");
  const std::string hint = tr("What stands, why, and what to do; the journal of alarms");
  at(ui, rect.x, rect.y);
  kit::ItemSpec spec;
  spec.id = "panel.alarms";
  spec.label = label;
  spec.hint = hint;
  const kit::Item item = add_item(ui, rect, spec);
  ImDrawList* draw = kit::current_draw();
  const float side = std::round(ui.em(14.0F));
  const kit::Rect mark{rect.right() - side, std::round(rect.y + (rect.h - side) * 0.5F), side, side};
  if (item.hovered || item.held)
    kit::box(draw, rect, ui.theme.colour(kit::Token::ink).faded(0.08F).u32(), 0, ui.px(4.0F));
  kit::icon(draw, kit::Icon::chevron_right, mark, ui.colour(kit::Token::ink));
  text_at(ui, draw, {rect.x, rect.y}, words,
          {.type = kit::Type::caption, .wrap = mark.x - rect.x - ui.px(4.0F)});
  if (item.focused) focus_ring(ui, rect, ui.px(kit::Measure::corner_control));
  return item.pressed;
}

// Amber ground, the alarm's name and the way out: the one thing on the screen that may claim the eye.
DisplayTouch draw_alarms(kit::Ui& ui, const std::vector<ShownAlarm>& alarms, const kit::Rect& rect) {
  ImDrawList* draw = kit::current_draw();
  const float corner = ui.px(kit::Measure::corner_control);
  draw->AddRectFilled(rect.min(), rect.max(), ui.colour(kit::Token::caution), corner,
                      ImDrawFlags_RoundCornersBottom);
  const float line = ui.theme.line_px(kit::Type::body_bold);
  const float side = std::round(ui.em(18.0F));
  const kit::Rect inner = rect.inset(pad(ui), ui.px(4.0F));
  kit::Rect row{inner.x, inner.y, inner.w, std::max(line, ui.px(28.0F))};
  DisplayTouch touch;
  touch.acknowledge = acknowledge_button(ui, alarms, row);
  kit::icon(draw, kit::Icon::warning, {inner.x, std::round(row.y + (row.h - side) * 0.5F), side, side},
            ui.colour(kit::Token::ink));
  const float x = inner.x + side + ui.px(8.0F);
  std::string titles;
  for (const ShownAlarm& alarm : alarms) titles += (titles.empty() ? "" : " · ") + alarm.title;
  text_at(ui, draw, {x, std::round(row.y + (row.h - line) * 0.5F)},
          fitted(ui, titles, kit::Type::body_bold, row.right() - x), {.type = kit::Type::body_bold});
  const float top = row.bottom() + ui.px(2.0F);
  touch.details =
      way_out_button(ui, alarms.front().way_out, {inner.x, top, inner.w, rect.bottom() - top - ui.px(2.0F)});
  for (std::size_t i = 0; i < alarms.size(); ++i) {
    const std::string value = std::string(alarms[i].active ? "active" : "") +
                              (alarms[i].latched ? alarms[i].active ? ",latched" : "latched" : "");
    register_words(ui, ("panel.alarm." + std::to_string(i)).c_str(), rect, alarms[i].title, value);
  }
  register_words(ui, "panel.message", rect, alarms.front().way_out, titles);
  return touch;
}

void draw_message(kit::Ui& ui, const DisplayMessage& message, const kit::Rect& rect) {
  ImDrawList* draw = kit::current_draw();
  const kit::Rect inner = rect.inset(pad(ui), ui.px(4.0F));
  draw->AddLine({inner.x, rect.y}, {inner.right(), rect.y},
                ui.theme.colour(kit::Token::on_display2).faded(0.35F).u32(), ui.px(1.0F));
  float x = inner.x;
  const kit::Type type = kit::Type::body;
  const float line = ui.theme.line_px(type);
  if (message.asks) {
    const float side = std::round(ui.em(14.0F));
    kit::icon(draw, kit::Icon::arrow_right, {x, std::round(inner.y + (line - side) * 0.5F), side, side},
              ui.colour(kit::Token::on_display));
    x += side + ui.px(8.0F);
  }
  draw->PushClipRect(rect.min(), rect.max(), true);
  text_at(ui, draw, {x, inner.y}, message.words,
          {.type = type,
           .colour = message.asks ? kit::Token::on_display : kit::Token::on_display2,
           .wrap = inner.right() - x});
  draw->PopClipRect();
  register_words(ui, "panel.message", rect, message.words, message.words);
}

}  // namespace

float display_height(const kit::Ui& ui, float width) {
  return std::round(ui.px(8.0F) + numbers_height(ui, width) + ui.px(4.0F) + message_height(ui));
}

DisplayTouch draw_display(kit::Ui& ui, const machine::Machine& machine, const machine::State& state,
                          const kit::Rect& rect) {
  ImDrawList* draw = kit::current_draw();
  draw->AddRectFilled(rect.min(), rect.max(), ui.colour(kit::Token::display),
                      ui.px(kit::Measure::corner_control));
  kit::Rect area = rect;
  const kit::Rect message = area.take_bottom(message_height(ui));
  area.take_top(ui.px(8.0F));
  draw_numbers(ui, machine, state, {area.x + pad(ui), area.y, area.w - 2.0F * pad(ui), area.h});
  // Without supply the display is dark; the alarms are there again when it comes back.
  const bool dark = state.control.mode == control::Mode::off;
  const std::vector<ShownAlarm> alarms = dark ? std::vector<ShownAlarm>{} : shown_alarms(state);
  DisplayTouch touch;
  if (!alarms.empty()) {
    touch = draw_alarms(ui, alarms, message);
  } else {
    draw_message(ui, display_message(machine, state), message);
  }
  register_words(ui, "panel.display", rect, tr("Display"),
                 std::string(control::mode_name(state.control.mode)));
  return touch;
}

}  // namespace stirbench::desk::views::panel
