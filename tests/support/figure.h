#pragma once

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>
#include <utility>
#include <vector>

// Curves over one axis as SVG, for the figures beside MODELS.md.
namespace stirbench::figure {

struct Series {
  std::string name, colour;
  std::vector<std::pair<double, double>> points;
};

struct Axis {
  std::string title;
  double low, high;
  std::vector<double> marks;
  bool logarithmic = false;
  double place(double value) const {
    return logarithmic ? std::log(value / low) / std::log(high / low) : (value - low) / (high - low);
  }
};

inline constexpr double left = 64, top = 56, width = 500, height = 280;

inline std::string text_at(double x, double y, const char* anchor, const std::string& text,
                           const std::string& colour = "#222") {
  char head[160];
  std::snprintf(head, sizeof head, "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\" fill=\"%s\">", x, y,
                anchor, colour.c_str());
  return head + text + "</text>\n";
}

inline std::string line(double x1, double y1, double x2, double y2) {
  char text[160];
  std::snprintf(text, sizeof text,
                "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"#ccc\"/>\n", x1, y1, x2, y2);
  return text;
}

inline std::string number(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%g", value);
  return text;
}

inline std::string drawn(const std::string& title, const Axis& x, const Axis& y,
                         const std::vector<Series>& all) {
  const auto px = [&](double v) { return left + width * x.place(v); };
  const auto py = [&](double v) { return top + height * (1.0 - y.place(v)); };
  std::string svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 760 392\" font-family=\"sans-serif\" "
      "font-size=\"13\">\n"
      "<rect width=\"760\" height=\"392\" fill=\"#fff\"/>\n";
  svg += text_at(left, 22, "start", title);
  for (const double mark : x.marks) {
    svg += line(px(mark), top, px(mark), top + height);
    svg += text_at(px(mark), top + height + 18, "middle", number(mark));
  }
  for (const double mark : y.marks) {
    svg += line(left, py(mark), left + width, py(mark));
    svg += text_at(left - 8, py(mark) + 4, "end", number(mark));
  }
  svg += text_at(left + width / 2, top + height + 40, "middle", x.title);
  svg += text_at(left, top - 8, "start", y.title);
  // Names stand at the curves' ends; those at one end are moved apart where they lie close together.
  std::vector<std::pair<double, const Series*>> names;
  for (const Series& s : all) {
    svg += "<polyline fill=\"none\" stroke-width=\"2\" stroke=\"" + s.colour + "\" points=\"";
    for (const auto& [a, b] : s.points) {
      char point[48];
      std::snprintf(point, sizeof point, "%.1f,%.1f ", px(a), py(b));
      svg += point;
    }
    svg += "\"/>\n";
    names.emplace_back(py(s.points.back().second), &s);
  }
  std::sort(names.begin(), names.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  for (std::size_t i = 0; i < names.size(); ++i) {
    const double end = px(names[i].second->points.back().first);
    for (std::size_t k = 0; k < i; ++k) {
      const bool same_end = std::abs(px(names[k].second->points.back().first) - end) < 100.0;
      if (same_end) names[i].first = std::max(names[i].first, names[k].first + 17.0);
    }
    svg += text_at(end + 8, names[i].first + 4, "start", names[i].second->name, names[i].second->colour);
  }
  return svg + "</svg>\n";
}

}  // namespace stirbench::figure
