#pragma once

#include <span>
#include <string>
#include <vector>

#include "app/desk/kit/widgets/text_block.h"
#include "app/desk/views/trend/trend.h"

// Places and pieces of the chart. Internal to trend.
namespace stirbench::desk::views::trend {

struct Chart {
  kit::Ui& ui;
  ImDrawList* draw;
  const TrendLog& log;
  double from_s = 0.0;
  double to_s = 1.0;
  double low_degC = 0.0;
  double high_degC = 100.0;
  double step_shown = 20.0;  // between temperature lines, in the person's unit
  double most_W = 1000.0;
  kit::Rect key{};  // of the spread; empty: there is none, or no room
  kit::Rect phases{};
  kit::Rect temperature{};
  kit::Rect marks{};
  kit::Rect power{};  // empty: not shown
  kit::Rect time_axis{};
  kit::Rect labels{};
  bool display_only = false;  // TrendInput::display_only

  float x(double time_s) const {
    return temperature.x + temperature.w * static_cast<float>((time_s - from_s) / (to_s - from_s));
  }
  double time_at(float px) const {
    return from_s + static_cast<double>((px - temperature.x) / temperature.w) * (to_s - from_s);
  }
  float y(double degC) const {
    return temperature.bottom() -
           temperature.h * static_cast<float>((degC - low_degC) / (high_degC - low_degC));
  }
  float y_power(double watt) const {
    return power.bottom() - (power.h - ui.px(6.0F)) * static_cast<float>(watt / most_W);
  }
  float y_of(TrendChannel channel, float value) const {
    const bool is_power = channel == TrendChannel::heaters || channel == TrendChannel::chiller ||
                          channel == TrendChannel::drive;
    return is_power ? y_power(static_cast<double>(value)) : y(static_cast<double>(value));
  }
};

struct Curve {
  TrendChannel channel;
  const char* name;  // English, for tr()
  kit::Token colour;
  float width;
  bool dashed;
  bool is_power;
};
std::span<const Curve> curves();
// Whether this chart draws the curve.
bool shows(const Chart& chart, const Curve& curve);

// One to a few points for each pixel column: where a column holds many samples, its least and its greatest.
std::vector<ImVec2> curve_points(const Chart& chart, TrendChannel channel);
void draw_curves(const Chart& chart);
// A translucent area; in `key`, what it is and its ends at a time. The spread holds a point or more.
void draw_spread(const Chart& chart, std::span<const TrendSpread> spread, double time_s,
                 const std::string& id);
void draw_end_labels(const Chart& chart, double time_s);
float label_width(const kit::Ui& ui);
// Shapes of what happened; returns the words of the marks under the pointer.
std::string draw_marks(const Chart& chart, ImVec2 pointer);

// 1, 2, 5 times a power of ten, not below `least`.
double nice_step(double least);
// A step of whole seconds, minutes or hours, not below `least`.
double time_step(double least_s);

}  // namespace stirbench::desk::views::trend
