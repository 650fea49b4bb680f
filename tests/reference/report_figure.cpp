#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>

#include "tests/reference/report_text.h"
#include "tests/support/figure.h"

// A part's figure: above, each row's difference over its source's uncertainty, one mark a row, coloured by
// class; below, the part's longest series, ours as a line, the source as bars of k times its uncertainty.
namespace stirbench::tests {
namespace {

using figure::line;
using figure::text_at;

constexpr double strip_left = 64, strip_top = 48, strip_width = 640, strip_height = 150;
constexpr double panel_width = 200, panel_height = 120, panel_step_x = 232, panel_step_y = 178;
constexpr double most_shown = 4.0;  // differences beyond are drawn at the edge
constexpr std::size_t most_panels = 6, least_points = 5, longest_name = 40;
constexpr const char* line_colour = "#1f5fa8";
constexpr const char* source_colour = "#b3541e";

const char* colour_of(const ReferenceRow& row) {
  if (row.differs) return "#c01010";
  switch (row.source.worth) {
    case Worth::measured: return source_colour;
    case Worth::worked_example: return line_colour;
    default: return "#999999";
  }
}

std::string mark(double x, double y, const char* colour) {
  char text[120];
  std::snprintf(text, sizeof text, "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"2.6\" fill=\"%s\"/>\n", x, y, colour);
  return text;
}

std::string stroke(double x1, double y1, double x2, double y2, const char* colour) {
  char text[160];
  std::snprintf(text, sizeof text,
                "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"%s\" stroke-width=\"2\"/>\n",
                x1, y1, x2, y2, colour);
  return text;
}

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text)
    out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '>' ? "&gt;" : std::string(1, c);
  return out;
}

double in_uncertainties(const ReferenceRow& row) {
  const double unit = row.tolerance.uncertainty * (row.tolerance.is_relative ? std::abs(row.reference) : 1.0);
  return unit > 0.0 ? std::clamp((row.ours - row.reference) / unit, -most_shown, most_shown) : 0.0;
}

std::string strip(const std::vector<const ReferenceRow*>& rows) {
  const auto py = [](double u) { return strip_top + strip_height * (0.5 - 0.5 * u / most_shown); };
  std::string svg;
  for (int u = -3; u <= 3; ++u) {
    svg += line(strip_left, py(u), strip_left + strip_width, py(u));
    svg += text_at(strip_left - 8, py(u) + 4, "end", figure::number(u));
  }
  const double step = strip_width / static_cast<double>(rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i)
    svg += mark(strip_left + step * (static_cast<double>(i) + 0.5), py(in_uncertainties(*rows[i])),
                colour_of(*rows[i]));
  svg += text_at(strip_left, strip_top - 8, "start",
                 "Difference over the source's uncertainty, a mark each row in the report's order");
  const double below = strip_top + strip_height + 26;
  svg += text_at(strip_left, below, "start", "measured", source_colour);
  svg += text_at(strip_left + 80, below, "start", "worked example", line_colour);
  svg += text_at(strip_left + 200, below, "start", "own arithmetic", "#777777");
  return svg + text_at(strip_left + 320, below, "start", "differs", "#c01010");
}

struct Point {
  double x;
  const ReferenceRow* row;
};
using SeriesOfPart = std::map<std::string, std::vector<Point>>;

// "what at a, b": the last argument that is a number is the abscissa, the others belong to the name.
bool split(const std::string& what, std::string& name, double& x) {
  const std::size_t joint = what.rfind(" at ");
  if (joint == std::string::npos) return false;
  std::vector<std::string> arguments;
  for (std::size_t from = joint + 4; from <= what.size();) {
    const std::size_t comma = std::min(what.find(", ", from), what.size());
    arguments.push_back(what.substr(from, comma - from));
    from = comma + 2;
  }
  for (std::size_t i = arguments.size(); i-- > 0;) {
    char* end = nullptr;
    x = std::strtod(arguments[i].c_str(), &end);
    if (end == arguments[i].c_str() || *end != '\0') continue;
    std::string others;
    for (std::size_t k = 0; k < arguments.size(); ++k)
      if (k != i) others += ", " + arguments[k];
    name = what.substr(0, joint);
    if (name.size() + others.size() > longest_name) {
      name.resize(longest_name - std::min(others.size(), longest_name));
      name.resize(std::min(name.rfind(' '), name.size()));
    }
    while (!name.empty() && (name.back() == ',' || name.back() == ' ')) name.pop_back();
    name += others;
    return true;
  }
  return false;
}

std::string panel(double left, double top, const std::string& name, std::vector<Point> points) {
  std::sort(points.begin(), points.end(), [](const Point& a, const Point& b) { return a.x < b.x; });
  const auto half = [](const ReferenceRow& r) {
    return r.tolerance.size() * (r.tolerance.is_relative ? std::abs(r.reference) : 1.0);
  };
  double low = points[0].row->ours, high = low;
  for (const Point& p : points) {
    low = std::min({low, p.row->ours, p.row->reference - half(*p.row)});
    high = std::max({high, p.row->ours, p.row->reference + half(*p.row)});
  }
  const bool logarithmic = low > 0.0 && high > 20.0 * low;
  const double x0 = points.front().x, x1 = points.back().x;
  const auto px = [&](double x) { return left + panel_width * (x1 > x0 ? (x - x0) / (x1 - x0) : 0.5); };
  const auto py = [&](double y) {
    if (!(high > low)) return top + 0.5 * panel_height;
    const double share = logarithmic ? std::log(y / low) / std::log(high / low) : (y - low) / (high - low);
    return top + panel_height * (1.0 - share);
  };
  std::string svg = line(left, top, left, top + panel_height) +
                    line(left, top + panel_height, left + panel_width, top + panel_height);
  svg += "<g font-size=\"10\">\n" + text_at(left, top - 8, "start", escaped(name)) + "</g>\n";
  svg += text_at(left, top + panel_height + 15, "start", figure::number(x0));
  svg += text_at(left + panel_width, top + panel_height + 15, "end", figure::number(x1));
  char range[80];
  std::snprintf(range, sizeof range, "%.3g to %.3g%s", low, high, logarithmic ? " (log)" : "");
  svg += text_at(left + panel_width / 2, top + panel_height + 15, "middle", range, "#777777");
  for (const Point& p : points) {
    const double size = half(*p.row);
    svg += stroke(px(p.x), py(std::max(p.row->reference - size, low)), px(p.x), py(p.row->reference + size),
                  p.row->differs ? "#c01010" : source_colour);
    svg += mark(px(p.x), py(p.row->reference), p.row->differs ? "#c01010" : source_colour);
  }
  std::string path;
  for (const Point& p : points) {
    char text[48];
    std::snprintf(text, sizeof text, "%.1f,%.1f ", px(p.x), py(p.row->ours));
    path += text;
  }
  return svg + "<polyline fill=\"none\" stroke-width=\"1.5\" stroke=\"" + line_colour + "\" points=\"" +
         path + "\"/>\n";
}

}  // namespace

std::string part_figure(const std::string& part, const std::vector<ReferenceRow>& all) {
  std::vector<const ReferenceRow*> rows;
  SeriesOfPart series;
  const std::vector<ReferenceRow> sorted = in_groups(all);
  for (const ReferenceRow& row : sorted) {
    if (row.part != part || row.source.worth == Worth::look_up) continue;
    rows.push_back(&row);
    std::string name;
    double x = 0.0;
    if (split(row.what, name, x)) series[name].push_back({x, &row});
  }
  std::vector<std::pair<std::string, std::vector<Point>>> longest;
  for (const auto& [name, points] : series)
    if (points.size() >= least_points) longest.emplace_back(name, points);
  // Those with a row that differs first, then the longest.
  const auto key = [](const std::vector<Point>& points) {
    const bool differs =
        std::any_of(points.begin(), points.end(), [](const Point& p) { return p.row->differs; });
    return std::pair(differs, points.size());
  };
  std::stable_sort(longest.begin(), longest.end(),
                   [&](const auto& a, const auto& b) { return key(a.second) > key(b.second); });
  if (longest.size() > most_panels) longest.resize(most_panels);
  const int lines = static_cast<int>((longest.size() + 2) / 3);
  const int height = 250 + static_cast<int>(panel_step_y) * lines;
  std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 760 " + std::to_string(height) +
                    "\" font-family=\"sans-serif\" font-size=\"12\">\n<rect width=\"760\" height=\"" +
                    std::to_string(height) + "\" fill=\"#fff\"/>\n";
  svg += text_at(strip_left, 20, "start", escaped(part)) + strip(rows);
  for (std::size_t i = 0; i < longest.size(); ++i) {
    const double left = 48 + panel_step_x * static_cast<double>(i % 3);
    const double top = 274 + panel_step_y * static_cast<double>(i / 3);
    svg += panel(left, top, longest[i].first, longest[i].second);
  }
  return svg + "</svg>\n";
}

}  // namespace stirbench::tests
