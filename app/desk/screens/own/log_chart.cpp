#include "app/desk/screens/own/log_chart.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

// A picture with its own scale.
struct Frame {
  kit::Rect rect;
  double begin_s = 0.0, end_s = 1.0, low = 0.0, high = 1.0;
  ImVec2 at(double t_s, double value) const {
    return {rect.x + rect.w * static_cast<float>((t_s - begin_s) / (end_s - begin_s)),
            rect.bottom() - rect.h * static_cast<float>((std::clamp(value, low, high) - low) / (high - low))};
  }
};

void draw_ground(kit::Ui& ui, ImDrawList* draw, const Frame& frame, kit::Quantity quantity) {
  draw->AddRectFilled(frame.rect.min(), frame.rect.max(), ui.colour(kit::Token::panel));
  draw->AddRect(frame.rect.min(), frame.rect.max(), ui.colour(kit::Token::line));
  const float line = ui.theme.line_px(kit::Type::caption);
  const kit::TextStyle quiet{.type = kit::Type::caption, .colour = kit::Token::ink2, .wrap = -1.0F};
  text_at(ui, draw, {frame.rect.x - ui.px(6.0F), frame.rect.y}, ui.shown(quantity, frame.high), quiet,
          kit::Align::right);
  text_at(ui, draw, {frame.rect.x - ui.px(6.0F), frame.rect.bottom() - line}, ui.shown(quantity, frame.low),
          quiet, kit::Align::right);
}

void draw_line(ImDrawList* draw, const std::vector<ImVec2>& points, ImU32 colour, float width) {
  if (points.size() > 1) draw->AddPolyline(points.data(), static_cast<int>(points.size()), colour, 0, width);
}

void draw_legend(kit::Ui& ui, ImDrawList* draw, ImVec2 at) {
  const float half = ui.theme.line_px(kit::Type::caption) * 0.5F;
  const kit::TextStyle words{.type = kit::Type::caption, .wrap = -1.0F};
  draw->AddCircleFilled({at.x + ui.px(6.0F), at.y + half}, ui.px(3.0F), ui.colour(kit::Token::cold));
  const std::string measured = tr("measured");
  text_at(ui, draw, {at.x + ui.px(16.0F), at.y}, measured, words);
  const float x = at.x + ui.px(36.0F) + text_size(ui, measured, kit::Type::caption).x;
  draw->AddLine({x, at.y + half}, {x + ui.px(18.0F), at.y + half}, ui.colour(kit::Token::hot), ui.px(2.5F));
  text_at(ui, draw, {x + ui.px(24.0F), at.y}, tr("simulated"), words);
}

}  // namespace

void draw_log_chart(kit::Ui& ui, const identification::Fit& fit, const kit::Rect& rect) {
  ImDrawList* draw = kit::current_draw();
  kit::Rect area = rect;
  const float line = ui.theme.line_px(kit::Type::caption);
  draw_legend(ui, draw, area.take_top(line, ui.px(4.0F)).min());
  area.take_left(text_size(ui, ui.shown(kit::Quantity::temperature, 100.0), kit::Type::caption).x +
                 ui.px(8.0F));
  const kit::Rect words = area.take_bottom(line);
  kit::Rect lower = area.take_bottom(area.h * 0.3F, ui.px(8.0F));
  const auto& samples = fit.log.samples;
  Frame above{area, samples.front().t_s, std::max(samples.back().t_s, samples.front().t_s + 1.0)};
  Frame below{lower, above.begin_s, above.end_s};
  double low = 1.0e9, high = -1.0e9, most = 2.0 * identification::model_error_K;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    low = std::min({low, samples[i].product_degC, fit.simulated_degC[i]});
    high = std::max({high, samples[i].product_degC, fit.simulated_degC[i]});
    most = std::max(most, std::abs(fit.residuals_K[i]));
  }
  above.low = low - 1.0;
  above.high = high + 1.0;
  below.high = std::ceil(most);
  below.low = -below.high;
  draw_ground(ui, draw, above, kit::Quantity::temperature);
  draw_ground(ui, draw, below, kit::Quantity::temperature_difference);
  draw->AddRectFilled(below.at(below.begin_s, identification::model_error_K),
                      below.at(below.end_s, -identification::model_error_K), ui.colour(kit::Token::act2));
  // As many dots as there is room for.
  const std::size_t every = std::max<std::size_t>(1, samples.size() / 400);
  std::vector<ImVec2> simulated, difference;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    simulated.push_back(above.at(samples[i].t_s, fit.simulated_degC[i]));
    difference.push_back(below.at(samples[i].t_s, fit.residuals_K[i]));
    if (i % every == 0)
      draw->AddCircleFilled(above.at(samples[i].t_s, samples[i].product_degC), ui.px(2.5F),
                            ui.colour(kit::Token::cold), 8);
  }
  draw_line(draw, simulated, ui.colour(kit::Token::hot), ui.px(2.0F));
  draw_line(draw, difference, ui.colour(kit::Token::ink2), ui.px(1.0F));
  text_at(ui, draw, {lower.x, words.y},
          tr("Below: the difference; the band is what the model itself may be off"),
          {.type = kit::Type::caption, .colour = kit::Token::ink2, .wrap = lower.w});
}

}  // namespace stirbench::desk::screens
