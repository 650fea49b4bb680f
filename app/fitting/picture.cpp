#include "app/fitting/picture.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <utility>
#include <vector>

namespace stirbench::fitting {

namespace {

using identification::Fit;
using identification::LogSample;

constexpr double left = 64.0, width = 640.0;
constexpr const char* ink = "#222";
constexpr const char* measured_colour = "#1f5f8b";
constexpr const char* simulated_colour = "#b3541e";

// A rectangle of the page with its own scale.
struct Frame {
  double top, height;
  double low, high;
  double end_s;
  double x(double t_s) const { return left + width * t_s / end_s; }
  double y(double value) const { return top + height * (high - value) / (high - low); }
};

template <typename... Values>
std::string shaped(const char* format, Values... values) {
  char buffer[320];
  std::snprintf(buffer, sizeof buffer, format, values...);
  return buffer;
}

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else {
      out += c;
    }
  }
  return out;
}

std::string word(double x, double y, const char* anchor, const std::string& text, const char* colour = ink) {
  return shaped("<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\" fill=\"%s\">", x, y, anchor, colour) +
         escaped(text) + "</text>\n";
}

std::string rule(double x1, double y1, double x2, double y2, const char* colour) {
  return shaped("<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"%s\"/>\n", x1, y1, x2, y2,
                colour);
}

// A step of 1, 2 or 5 times a power of ten that gives at most `most` marks.
double mark_step(double span, double most) {
  const double rough = span / most;
  const double ten = std::pow(10.0, std::floor(std::log10(rough)));
  for (const double factor : {1.0, 2.0, 5.0})
    if (factor * ten >= rough) return factor * ten;
  return 10.0 * ten;
}

std::string grid(const Frame& frame, const char* title) {
  std::string out = word(left, frame.top - 8.0, "start", title);
  const double step = mark_step(frame.high - frame.low, 6.0);
  for (double mark = std::ceil(frame.low / step) * step; mark <= frame.high + 1e-9; mark += step) {
    out += rule(left, frame.y(mark), left + width, frame.y(mark), "#ddd");
    out += word(left - 8.0, frame.y(mark) + 4.0, "end", shaped("%g", std::abs(mark) < 1e-9 ? 0.0 : mark));
  }
  const double step_min = mark_step(frame.end_s / 60.0, 10.0);
  for (double mark = 0.0; 60.0 * mark <= frame.end_s; mark += step_min) {
    out += rule(frame.x(60.0 * mark), frame.top, frame.x(60.0 * mark), frame.top + frame.height, "#ddd");
    out += word(frame.x(60.0 * mark), frame.top + frame.height + 18.0, "middle", shaped("%g", mark));
  }
  return out;
}

std::string line_of(const Frame& frame, const std::vector<LogSample>& samples,
                    const std::vector<double>& values, const char* colour) {
  std::string out =
      "<polyline fill=\"none\" stroke-width=\"1.5\" stroke=\"" + std::string(colour) + "\" points=\"";
  for (std::size_t i = 0; i < samples.size(); ++i)
    out += shaped("%.1f,%.1f ", frame.x(samples[i].t_s), frame.y(values[i]));
  return out + "\"/>\n";
}

}  // namespace

std::string picture_of(const Fit& fit, const std::string& title) {
  const std::vector<LogSample>& samples = fit.log.samples;
  std::vector<double> measured;
  measured.reserve(samples.size());
  for (const LogSample& one : samples) measured.push_back(one.product_degC);
  const double end_s = std::max(60.0, fit.log.end_s());
  double low = 0.0, high = 10.0, most_K = 1.5 * identification::model_error_K;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    low = std::min({low, measured[i], fit.simulated_degC[i]});
    high = std::max({high, measured[i] + 2.0, fit.simulated_degC[i] + 2.0});
    most_K = std::max(most_K, 1.05 * std::abs(fit.residuals_K[i]));
  }
  const Frame curves{56.0, 260.0, low, high, end_s};
  const Frame rest{376.0, 110.0, -most_K, most_K, end_s};
  std::string out =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 760 540\" font-family=\"sans-serif\" "
      "font-size=\"13\">\n<rect width=\"760\" height=\"540\" fill=\"#fff\"/>\n";
  out += word(left, 22.0, "start", title);
  const double band = identification::model_error_K;
  out += shaped("<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"#eef3e6\"/>\n", left,
                rest.y(band), width, rest.y(-band) - rest.y(band));
  out += grid(curves, "Product, degC") +
         grid(rest, "Simulated less measured, K; band: what the model may be off");
  out += line_of(curves, samples, measured, measured_colour);
  out += line_of(curves, samples, fit.simulated_degC, simulated_colour);
  out += line_of(rest, samples, fit.residuals_K, ink);
  out += word(left + width, 22.0, "end", "measured", measured_colour);
  out += word(left + width - 70.0, 22.0, "end", "simulated", simulated_colour);
  out += word(left + 0.5 * width, rest.top + rest.height + 40.0, "middle", "min");
  return out + "</svg>\n";
}

}  // namespace stirbench::fitting
