#include "app/desk/views/trend/chart.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/spread.h"

namespace stirbench::desk::views::trend {

using kit::tr;

namespace {

constexpr float spread_share = 0.24F;  // of the line's colour

constexpr std::array<Curve, 6> all_curves{
    {{TrendChannel::wall, "well wall", kit::Token::ink2, 1.2F, false, false},
     {TrendChannel::well, "well", kit::Token::ink2, 2.0F, true, false},
     {TrendChannel::product, "probe", kit::Token::hot, 2.6F, false, false},
     {TrendChannel::drive, "drive", kit::Token::ink2, 1.2F, false, true},
     {TrendChannel::chiller, "chiller", kit::Token::cold, 2.0F, false, true},
     {TrendChannel::heaters, "heat", kit::Token::hot, 2.0F, false, true}}};

// Leaves out points that lie within an eighth of a pixel of the straight line between those that stay (the
// "swinging door": the slopes that would still pass all points since the last one kept narrow with each
// point; when none is left, a point is kept).
class Thinned {
 public:
  explicit Thinned(std::vector<ImVec2>& points) : points_(points) {}

  void add(ImVec2 point) {
    if (!started_) {
      keep(point);
      started_ = true;
      return;
    }
    const float dx = point.x - points_.back().x;
    if (dx <= 0.0F) {
      finish();
      keep(point);
      return;
    }
    const float dy = point.y - points_.back().y;
    const float low = std::max(low_, (dy - tolerance) / dx);
    const float high = std::min(high_, (dy + tolerance) / dx);
    // The line to this point itself has to pass within the door.
    if (waiting_ && (dy / dx < low_ || dy / dx > high_)) {
      keep(last_);
      add(point);
      return;
    }
    low_ = low;
    high_ = high;
    last_ = point;
    waiting_ = true;
  }

  void finish() {
    if (waiting_) keep(last_);
  }

 private:
  static constexpr float tolerance = 0.12F;

  void keep(ImVec2 point) {
    points_.push_back(point);
    low_ = -INFINITY;
    high_ = INFINITY;
    waiting_ = false;
  }

  std::vector<ImVec2>& points_;
  ImVec2 last_{0.0F, 0.0F};
  float low_ = -INFINITY;
  float high_ = INFINITY;
  bool started_ = false;
  bool waiting_ = false;
};

// Whole pixels: crisp, and a third of the triangles.
float line_width(const Chart& chart, float unscaled) {
  return std::max(1.0F, std::round(chart.ui.px(unscaled)));
}

void dashed(const Chart& chart, std::span<const ImVec2> points, ImU32 colour, float width) {
  const float on = chart.ui.px(6.0F);
  const float off = chart.ui.px(4.0F);
  std::vector<ImVec2> piece;
  float left = on;
  bool drawing = true;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    ImVec2 a = points[i];
    const ImVec2 b = points[i + 1];
    float length = std::hypot(b.x - a.x, b.y - a.y);
    if (drawing && piece.empty()) piece.push_back(a);
    while (length > left) {
      const float t = left / length;
      a = {a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t};
      length -= left;
      if (drawing) {
        piece.push_back(a);
        chart.draw->AddPolyline(piece.data(), static_cast<int>(piece.size()), colour, 0, width);
        piece.clear();
      } else {
        piece.assign(1, a);
      }
      drawing = !drawing;
      left = drawing ? on : off;
    }
    left -= length;
    if (drawing) piece.push_back(b);
  }
  if (drawing && piece.size() > 1)
    chart.draw->AddPolyline(piece.data(), static_cast<int>(piece.size()), colour, 0, width);
}

// What the area is, with its ends at a time; without them where they have no room.
void draw_key(const Chart& chart, ImU32 area, const TrendSpread& now, const std::string& id) {
  kit::Ui& ui = chart.ui;
  const kit::Rect& key = chart.key;
  const float side = std::round(key.h * 0.6F);
  const float top = std::round(key.y + (key.h - side) * 0.5F);
  chart.draw->AddRectFilled({key.x, top}, {key.x + 2.0F * side, top + side}, area);
  const float left = key.x + 2.0F * side + ui.px(6.0F);
  std::string words = tr("what the model leaves open: {low} to {high}",
                         {{"low", show(kit::Quantity::temperature, now.low_degC, ui.units).number},
                          {"high", ui.shown(kit::Quantity::temperature, now.high_degC)}});
  if (text_size(ui, words, kit::Type::caption).x > key.right() - left)
    words = fitted(ui, tr("what the model leaves open"), kit::Type::caption, key.right() - left);
  text_at(ui, chart.draw, {left, key.y}, words,
          {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = id.c_str()});
}

std::string value_words(const Chart& chart, const Curve& curve, float value) {
  return chart.ui.shown(curve.is_power ? kit::Quantity::power : kit::Quantity::temperature,
                        static_cast<double>(value));
}

}  // namespace

std::span<const Curve> curves() { return all_curves; }

bool shows(const Chart& chart, const Curve& curve) {
  if (curve.is_power && chart.power.empty()) return false;
  return !chart.display_only || curve.channel == TrendChannel::product;
}

std::vector<ImVec2> curve_points(const Chart& chart, TrendChannel channel) {
  std::vector<ImVec2> points;
  const double from = std::max(chart.from_s, chart.log.start_s());
  const double to = std::min(chart.to_s, chart.log.end_s());
  if (to < from) return points;
  const double s_per_px = (chart.to_s - chart.from_s) / static_cast<double>(chart.temperature.w);
  Thinned thinned(points);
  const auto add = [&](float x, float y) { thinned.add({x, y}); };
  if (s_per_px <= 1.0) {
    for (double t = std::floor(from); t <= to; t += 1.0)
      add(chart.x(t), chart.y_of(channel, chart.log.at(t)[channel]));
    thinned.finish();
    return points;
  }
  // Columns stand on whole multiples of their width in time, so that the line does not tremble while it
  // grows.
  float before = chart.y_of(channel, chart.log.at(from)[channel]);
  for (double column = std::floor(from / s_per_px); column * s_per_px <= to; column += 1.0) {
    const double begin = std::max(column * s_per_px, from);
    const double end = std::min((column + 1.0) * s_per_px, to);
    const TrendRange range = chart.log.range(channel, std::ceil(begin), end);
    if (!range.any) continue;
    const float low = chart.y_of(channel, range.low);
    const float high = chart.y_of(channel, range.high);
    const float x = chart.x((begin + end) * 0.5);
    if (std::abs(low - high) < 0.75F) {
      add(x, (low + high) * 0.5F);
      before = (low + high) * 0.5F;
    } else {
      // The end nearer to where the line comes from goes first.
      const bool low_first = std::abs(low - before) <= std::abs(high - before);
      add(x, low_first ? low : high);
      add(x, low_first ? high : low);
      before = low_first ? high : low;
    }
  }
  thinned.finish();
  return points;
}

void draw_curves(const Chart& chart) {
  chart.draw->PushClipRect(
      {chart.temperature.x, chart.phases.y},
      {chart.temperature.right() + chart.ui.px(2.0F), chart.time_axis.y + chart.ui.px(1.0F)}, true);
  for (const Curve& curve : curves()) {
    if (!shows(chart, curve)) continue;
    const std::vector<ImVec2> points = curve_points(chart, curve.channel);
    if (points.size() < 2) continue;
    const bool faint = curve.channel == TrendChannel::wall || curve.channel == TrendChannel::drive;
    const ImU32 colour = chart.ui.theme.colour(curve.colour).faded(faint ? 0.75F : 1.0F).u32();
    if (curve.is_power && !faint) {
      // A light area under the line: energy is area.
      const ImU32 area = chart.ui.theme.colour(curve.colour).faded(0.13F).u32();
      for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        const float top = std::min(points[i].y, points[i + 1].y);
        if (points[i + 1].x - points[i].x > 0.0F && top < chart.power.bottom() - 0.5F) {
          chart.draw->AddQuadFilled(points[i], points[i + 1], {points[i + 1].x, chart.power.bottom()},
                                    {points[i].x, chart.power.bottom()}, area);
        }
      }
    }
    if (curve.dashed) {
      dashed(chart, points, colour, line_width(chart, curve.width));
    } else {
      chart.draw->AddPolyline(points.data(), static_cast<int>(points.size()), colour, 0,
                              line_width(chart, curve.width));
    }
  }
  chart.draw->PopClipRect();
}

void draw_spread(const Chart& chart, std::span<const TrendSpread> spread, double time_s,
                 const std::string& id) {
  const kit::Rect& plot = chart.temperature;
  chart.draw->PushClipRect(plot.min(), plot.max(), true);
  const ImU32 area = chart.ui.theme.colour(kit::Token::hot).faded(spread_share).u32();
  // Smoothed edges of neighbours would lie on each other and show as lines.
  const ImDrawListFlags flags = chart.draw->Flags;
  chart.draw->Flags &= ~ImDrawListFlags_AntiAliasedFill;
  for (std::size_t i = 0; i + 1 < spread.size(); ++i) {
    const TrendSpread& a = spread[i];
    const TrendSpread& b = spread[i + 1];
    if (b.time_s < chart.from_s || a.time_s > chart.to_s) continue;
    const float left = chart.x(a.time_s);
    const float right = chart.x(b.time_s);
    chart.draw->AddQuadFilled({left, chart.y(a.high_degC)}, {right, chart.y(b.high_degC)},
                              {right, chart.y(b.low_degC)}, {left, chart.y(a.low_degC)}, area);
  }
  chart.draw->Flags = flags;
  chart.draw->PopClipRect();
  const auto after = std::upper_bound(spread.begin(), spread.end(), time_s,
                                      [](double t, const TrendSpread& one) { return t < one.time_s; });
  if (!chart.key.empty()) draw_key(chart, area, after == spread.begin() ? *after : *(after - 1), id);
}

float label_width(const kit::Ui& ui) {
  float width = 0.0F;
  for (const Curve& curve : curves()) {
    const std::string value = ui.shown(curve.is_power ? kit::Quantity::power : kit::Quantity::temperature,
                                       curve.is_power ? 8888.0 : 188.8);
    width = std::max(width, text_size(ui, tr(curve.name) + " " + value, kit::Type::caption).x);
  }
  return width + ui.px(22.0F);
}

void draw_end_labels(const Chart& chart, double time_s) {
  kit::Ui& ui = chart.ui;
  const float line = ui.theme.line_px(kit::Type::caption);
  const TrendSample& sample = chart.log.at(time_s);
  struct Row {
    const Curve* curve;
    float y;
  };
  std::vector<Row> rows;
  for (const Curve& curve : curves()) {
    if (!shows(chart, curve)) continue;
    rows.push_back({&curve, chart.y_of(curve.channel, sample[curve.channel])});
  }
  std::stable_sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) { return a.y < b.y; });
  std::vector<kit::Wanted> boxes;
  const float top = chart.phases.y;
  const float bottom = chart.time_axis.bottom();
  // The least told go first when there is no room: drive, wall, then the rest.
  for (const TrendChannel spare : {TrendChannel::count, TrendChannel::drive, TrendChannel::wall,
                                   TrendChannel::chiller, TrendChannel::heaters, TrendChannel::well}) {
    std::erase_if(rows, [&](const Row& row) { return row.curve->channel == spare; });
    boxes.clear();
    for (const Row& row : rows) boxes.push_back({row.y - line * 0.5F, line});
    if (kit::spread(boxes, top, bottom, 0.0F)) break;
  }
  const float x = chart.labels.x + ui.px(20.0F);
  for (std::size_t i = 0; i < rows.size() && i < boxes.size(); ++i) {
    const Curve& curve = *rows[i].curve;
    const float y = boxes[i].top + line * 0.5F;
    const ImU32 colour = ui.colour(curve.colour);
    const std::array<ImVec2, 2> stub{ImVec2{chart.labels.x, y}, ImVec2{x - ui.px(6.0F), y}};
    if (curve.dashed) {
      dashed(chart, stub, colour, line_width(chart, curve.width));
    } else {
      chart.draw->AddLine(stub[0], stub[1], colour, line_width(chart, curve.width));
    }
    const kit::Token words = curve.colour == kit::Token::ink2 ? kit::Token::ink2 : curve.colour;
    text_at(ui, chart.draw, {x, std::round(boxes[i].top)},
            tr(curve.name) + " " + value_words(chart, curve, sample[curve.channel]),
            {.type = kit::Type::caption, .colour = words});
  }
}

std::string draw_marks(const Chart& chart, ImVec2 pointer) {
  kit::Ui& ui = chart.ui;
  std::string words;
  const float half = std::round(ui.em(5.0F));
  const float y = chart.marks.centre().y;
  float free_x = -1e9F;
  for (const TrendMark& mark : chart.log.marks()) {
    if (mark.time_s < chart.from_s || mark.time_s > chart.to_s) continue;
    // Marks that would cover each other stand side by side; a hair shows the true moment.
    const float true_x = chart.x(mark.time_s);
    const float x = std::max(true_x, free_x);
    if (x > chart.marks.right() + half) break;
    free_x = x + 2.0F * half + ui.px(2.0F);
    chart.draw->AddLine(
        {true_x, chart.temperature.y}, {true_x, chart.marks.y},
        ui.theme.colour(mark.kind == TrendMarkKind::alarm ? kit::Token::bad : kit::Token::ink2)
            .faded(0.35F)
            .u32(),
        ui.px(1.0F));
    switch (mark.kind) {
      case TrendMarkKind::alarm:
        chart.draw->AddTriangleFilled({x, y - half}, {x + half, y + half * 0.8F}, {x - half, y + half * 0.8F},
                                      ui.colour(kit::Token::bad));
        break;
      case TrendMarkKind::harm:
        chart.draw->AddLine({x - half * 0.8F, y - half * 0.8F}, {x + half * 0.8F, y + half * 0.8F},
                            ui.colour(kit::Token::bad), ui.px(2.5F));
        chart.draw->AddLine({x - half * 0.8F, y + half * 0.8F}, {x + half * 0.8F, y - half * 0.8F},
                            ui.colour(kit::Token::bad), ui.px(2.5F));
        break;
      case TrendMarkKind::pour:
        chart.draw->AddTriangleFilled({x - half, y - half * 0.8F}, {x + half, y - half * 0.8F}, {x, y + half},
                                      ui.colour(kit::Token::act));
        break;
      case TrendMarkKind::lid:
      case TrendMarkKind::cover:
        chart.draw->AddRect({x - half * 0.8F, y - half * 0.8F}, {x + half * 0.8F, y + half * 0.8F},
                            ui.colour(kit::Token::ink2), 0.0F, 0, ui.px(1.8F));
        break;
      case TrendMarkKind::draw:
        chart.draw->AddCircle({x, y}, half * 0.8F, ui.colour(kit::Token::act), 14, ui.px(1.8F));
        break;
      case TrendMarkKind::note:
        chart.draw->AddCircleFilled({x, y}, half * 0.55F, ui.colour(kit::Token::ink2), 10);
        break;
    }
    if (std::abs(pointer.x - x) <= half + 1.0F && std::abs(pointer.y - y) <= half * 2.0F) {
      words += (words.empty() ? "" : "\n") + kit::show_duration(mark.time_s) + "  " + tr(mark.words);
    }
  }
  return words;
}

double nice_step(double least) {
  const double power = std::pow(10.0, std::floor(std::log10(std::max(least, 1e-9))));
  for (const double factor : {1.0, 2.0, 2.5, 5.0}) {
    if (factor * power >= least * (1.0 - 1e-9)) return factor * power;
  }
  return 10.0 * power;
}

double time_step(double least_s) {
  for (const double step :
       {10.0, 20.0, 30.0, 60.0, 120.0, 300.0, 600.0, 900.0, 1800.0, 3600.0, 7200.0, 10800.0, 21600.0}) {
    if (step >= least_s) return step;
  }
  return 43200.0;
}

}  // namespace stirbench::desk::views::trend
