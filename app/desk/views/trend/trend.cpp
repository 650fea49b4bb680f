#include "app/desk/views/trend/trend.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/dialog.h"
#include "app/desk/kit/widgets/item.h"
#include "app/desk/kit/widgets/spot.h"
#include "app/desk/views/trend/chart.h"

namespace stirbench::desk::views {

using kit::tr;

namespace trend {

namespace {

constexpr double least_span_s = 600.0;

struct Scale {
  double low = 0.0;
  double high = 100.0;
  double step = 20.0;
};

// Limits and steps that are whole numbers in the person's unit.
Scale temperature_scale(const kit::Ui& ui, const TrendInput& input, double from_s, double to_s,
                        float height) {
  double low = 0.0;
  double high = 40.0;
  for (const TrendChannel channel : {TrendChannel::product, TrendChannel::well, TrendChannel::wall}) {
    if (input.display_only && channel != TrendChannel::product) continue;
    const TrendRange range = input.log.range(channel, from_s, to_s);
    if (!range.any) continue;
    low = std::min(low, static_cast<double>(range.low));
    high = std::max(high, static_cast<double>(range.high));
  }
  for (const TrendSpread& one : input.spread) {
    if (one.time_s < from_s || one.time_s > to_s) continue;
    low = std::min(low, one.low_degC);
    high = std::max(high, one.high_degC);
  }
  // A little air above and below; lines at whole steps in between.
  const double air = 0.04 * (high - low);
  const double from = to_shown(kit::Quantity::temperature, low - (low < 0.0 ? air : 0.0), ui.units);
  const double to = to_shown(kit::Quantity::temperature, high + air, ui.units);
  const int lines =
      std::clamp(static_cast<int>(height / (ui.theme.line_px(kit::Type::caption) * 1.25F)), 2, 6);
  return {low - (low < 0.0 ? air : 0.0), high + air, nice_step((to - from) / lines)};
}

Chart lay_out(kit::Ui& ui, const TrendInput& input, const kit::Rect& rect) {
  Chart chart{.ui = ui, .draw = kit::current_draw(), .log = input.log};
  chart.from_s = input.from_s;
  chart.to_s = input.to_s > input.from_s ? input.to_s
                                         : std::max(input.log.end_s() * 1.04, input.from_s + least_span_s);
  const float line = ui.theme.line_px(kit::Type::caption);
  kit::Rect plot = rect;
  // The chart itself goes first where there is little room.
  if (!input.spread.empty() && plot.h > 8.0F * line) chart.key = plot.take_top(line);
  chart.time_axis = plot.take_bottom(line);
  const float left =
      text_size(ui, ui.shown(kit::Quantity::temperature, 100.0, 0), kit::Type::caption).x + ui.px(8.0F);
  const float right = std::min(label_width(ui), plot.w * 0.4F);
  plot.take_left(left);
  chart.labels = plot.take_right(right, ui.px(10.0F));
  chart.phases = plot.take_top(line);
  chart.display_only = input.display_only;
  if (input.powers && !input.display_only && plot.h > 3.0F * line)
    chart.power = plot.take_bottom(std::round(plot.h * 0.24F));
  chart.marks = plot.take_bottom(std::round(ui.em(14.0F)));
  chart.temperature = plot;
  const Scale scale = temperature_scale(ui, input, chart.from_s, chart.to_s, plot.h);
  chart.low_degC = scale.low;
  chart.high_degC = scale.high;
  chart.step_shown = scale.step;
  for (const TrendChannel channel : {TrendChannel::heaters, TrendChannel::chiller, TrendChannel::drive}) {
    const TrendRange range = input.log.range(channel, chart.from_s, chart.to_s);
    if (range.any) chart.most_W = std::max(chart.most_W, static_cast<double>(range.high));
  }
  return chart;
}

void draw_bands(const Chart& chart) {
  const auto& bands = chart.log.bands();
  const kit::Rect whole{chart.temperature.x, chart.phases.y, chart.temperature.w,
                        chart.time_axis.y - chart.phases.y};
  for (std::size_t i = 0; i < bands.size(); ++i) {
    const double to = i + 1 < bands.size() ? bands[i + 1].from_s : chart.log.end_s();
    const float x0 = std::clamp(chart.x(bands[i].from_s), whole.x, whole.right());
    const float x1 = std::clamp(chart.x(to), whole.x, whole.right());
    if (bands[i].label.empty() || x1 <= x0) continue;
    if (i % 2 == 0)
      chart.draw->AddRectFilled({x0, whole.y}, {x1, whole.bottom()},
                                chart.ui.theme.colour(kit::Token::sunk).faded(0.62F).u32());
    chart.draw->AddLine({x0, whole.y}, {x0, whole.bottom()}, chart.ui.theme.colour(kit::Token::line).u32(),
                        chart.ui.px(1.0F));
    const float room = x1 - x0 - chart.ui.px(8.0F);
    const std::string words = tr(bands[i].label);
    if (text_size(chart.ui, words, kit::Type::caption).x <= room) {
      text_at(chart.ui, chart.draw, {x0 + chart.ui.px(5.0F), chart.phases.y}, words,
              {.type = kit::Type::caption, .colour = kit::Token::ink2});
    }
  }
}

void draw_axes(const Chart& chart) {
  kit::Ui& ui = chart.ui;
  const float line = ui.theme.line_px(kit::Type::caption);
  const ImU32 hair = ui.theme.colour(kit::Token::line).u32();
  const double low = to_shown(kit::Quantity::temperature, chart.low_degC, ui.units);
  const double high = to_shown(kit::Quantity::temperature, chart.high_degC, ui.units);
  float last_y = chart.time_axis.bottom() + line;
  for (double value = std::ceil(low / chart.step_shown - 1e-9) * chart.step_shown;
       value <= high + 1e-6 * chart.step_shown; value += chart.step_shown) {
    const double degC = from_shown(kit::Quantity::temperature, value, ui.units);
    const float y = std::round(chart.y(degC)) + 0.5F;
    chart.draw->AddLine({chart.temperature.x, y}, {chart.temperature.right(), y}, hair, ui.px(1.0F));
    if (last_y - y < line * 0.95F) continue;
    const bool top = value + chart.step_shown > high + 1e-6 * chart.step_shown;
    const std::string words = top ? ui.shown(kit::Quantity::temperature, degC, 0)
                                  : show(kit::Quantity::temperature, degC, ui.units, 0).number;
    text_at(ui, chart.draw, {chart.temperature.x - ui.px(6.0F), y - line * 0.5F}, words,
            {.type = kit::Type::caption, .colour = kit::Token::ink2}, kit::Align::right);
    last_y = y;
  }
  if (!chart.power.empty()) {
    const float y = chart.power.bottom();
    chart.draw->AddLine({chart.power.x, y}, {chart.power.right(), y}, hair, ui.px(1.0F));
    const float top = chart.y_power(chart.most_W);
    chart.draw->AddLine({chart.power.x, top}, {chart.power.right(), top},
                        ui.theme.colour(kit::Token::line).faded(0.6F).u32(), ui.px(1.0F));
    if (chart.power.h > line) {
      text_at(ui, chart.draw, {chart.power.x - ui.px(6.0F), top - line * 0.2F},
              ui.shown(kit::Quantity::power, chart.most_W,
                       ui.units.power == kit::PowerUnit::kilowatt && chart.most_W >= 1000.0 ? 0 : -1),
              {.type = kit::Type::caption, .colour = kit::Token::ink2}, kit::Align::right);
    }
  }
  // Time: as many marks as have room.
  const double step = time_step((chart.to_s - chart.from_s) *
                                static_cast<double>(ui.em(74.0F) / std::max(chart.temperature.w, 1.0F)));
  for (double t = std::ceil(chart.from_s / step) * step; t <= chart.to_s; t += step) {
    const float x = chart.x(t);
    chart.draw->AddLine({x, chart.time_axis.y}, {x, chart.time_axis.y + ui.px(4.0F)},
                        ui.theme.colour(kit::Token::ink2).u32(), ui.px(1.0F));
    const std::string words = kit::show_duration(t);
    const float half = text_size(ui, words, kit::Type::caption).x * 0.5F;
    if (x + half > chart.labels.x - ui.px(4.0F)) continue;
    text_at(ui, chart.draw, {x, chart.time_axis.y + ui.px(2.0F)}, words,
            {.type = kit::Type::caption, .colour = kit::Token::ink2}, kit::Align::centre);
  }
}

void draw_cursor(const Chart& chart, double time_s) {
  kit::Ui& ui = chart.ui;
  const float x = std::round(chart.x(time_s)) + 0.5F;
  if (x < chart.temperature.x || x > chart.temperature.right()) return;
  chart.draw->AddLine({x, chart.phases.y}, {x, chart.time_axis.y}, ui.theme.colour(kit::Token::ink).u32(),
                      ui.px(1.5F));
  const TrendSample& sample = chart.log.at(time_s);
  for (const Curve& curve : curves()) {
    const float y = chart.y_of(curve.channel, sample[curve.channel]);
    if (!shows(chart, curve)) continue;
    chart.draw->AddCircleFilled({x, y}, ui.px(3.6F), ui.colour(kit::Token::panel), 12);
    chart.draw->AddCircleFilled({x, y}, ui.px(2.6F), ui.colour(curve.colour), 12);
  }
  const std::string words = kit::show_duration(time_s);
  const float line = ui.theme.line_px(kit::Type::caption);
  const float w = text_size(ui, words, kit::Type::caption).x + ui.px(10.0F);
  const float left = std::clamp(x - w * 0.5F, chart.temperature.x, chart.temperature.right() - w);
  chart.draw->AddRectFilled({left, chart.time_axis.y}, {left + w, chart.time_axis.y + line + ui.px(2.0F)},
                            ui.colour(kit::Token::ink), ui.px(3.0F));
  text_at(ui, chart.draw, {left + w * 0.5F, chart.time_axis.y + ui.px(1.0F)}, words,
          {.type = kit::Type::caption, .colour = kit::Token::panel}, kit::Align::centre);
}

}  // namespace

}  // namespace trend

TrendRequests draw_trend(kit::Ui& ui, const TrendInput& input, const kit::Rect& rect) {
  using namespace trend;
  TrendRequests wants;
  const Chart chart = lay_out(ui, input, rect);
  if (chart.temperature.w < ui.px(40.0F) || chart.temperature.h < ui.px(20.0F)) return wants;
  draw_bands(chart);
  draw_axes(chart);
  const kit::Rect hot{chart.temperature.x, chart.phases.y, chart.temperature.w,
                      chart.time_axis.y - chart.phases.y};
  const double shown_s = input.cursor_s >= 0.0 ? input.cursor_s : input.log.end_s();
  kit::SpotStyle style;
  style.draggable = input.scrub;
  style.draw_hover = false;
  style.value = kit::show_duration(shown_s);
  style.hint = "";
  const kit::SpotState state = spot(ui, input.id + ".chart", tr("Trend"), hot, style);
  if (input.log.empty()) {
    text_at(ui, chart.draw, {hot.centre().x, hot.centre().y - ui.theme.line_px(kit::Type::caption)},
            tr("Nothing recorded yet"), {.type = kit::Type::caption, .colour = kit::Token::ink2},
            kit::Align::centre);
    return wants;
  }
  const double under_mouse_s =
      std::clamp(chart.time_at(state.mouse.x), chart.log.start_s(), chart.log.end_s());
  double cursor_s = input.cursor_s;
  if (input.scrub && state.held) wants.cursor_s = cursor_s = std::round(under_mouse_s);
  if (input.scrub && state.key_x != 0.0F) {
    const double step = std::max(1.0, std::round((chart.to_s - chart.from_s) / 100.0));
    wants.cursor_s = cursor_s =
        std::clamp((cursor_s < 0.0 ? chart.log.end_s() : cursor_s) + step * static_cast<double>(state.key_x),
                   chart.log.start_s(), chart.log.end_s());
  }
  if (!input.scrub && state.hovered) cursor_s = under_mouse_s;
  const double read_s = cursor_s >= 0.0 ? cursor_s : input.log.end_s();
  if (!input.spread.empty()) draw_spread(chart, input.spread, read_s, input.id + ".spread");
  draw_curves(chart);
  const std::string words = draw_marks(chart, state.hovered ? state.mouse : ImVec2{-1.0F, -1.0F});
  if (cursor_s >= 0.0) draw_cursor(chart, cursor_s);
  draw_end_labels(chart, read_s);
  if (!words.empty()) tooltip(ui, words);
  return wants;
}

}  // namespace stirbench::desk::views
