#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

// Pages as PDF (Cairo, Pango): lines of text, rules, tables, marks, a QR symbol. Lengths in points (1/72
// inch), from the top left.
namespace stirbench::reports {

struct PaperStyle {
  double size_pt = 10.0;
  bool bold = false;
  double grey = 0.1;  // 0 black .. 1 white
};

// What papers of several kinds are set in.
namespace styles {
inline constexpr PaperStyle body{10.0, false, 0.1};
inline constexpr PaperStyle small{8.0, false, 0.3};
inline constexpr PaperStyle small_bold{8.0, true, 0.1};
}  // namespace styles

// "85 %" of 0.85.
std::string whole_percent(double norm);

// ISO 216 A4, and US Letter (ANSI/ASME Y14.1 size A: 8.5 x 11 in).
enum class Sheet : unsigned char { a4, letter };

enum class PaperMark : unsigned char {
  full,
  half,
  ring,
  cross
};  // valid, due, not yet, lapsed: shape before colour

class Paper {
 public:
  // ISO A4, upright or on its side.
  explicit Paper(bool landscape, const std::string& title) : Paper(Sheet::a4, landscape, title) {}
  Paper(Sheet sheet, bool landscape, const std::string& title);
  ~Paper();
  Paper(const Paper&) = delete;
  Paper& operator=(const Paper&) = delete;

  double width() const;
  double height() const;
  static constexpr double margin_pt = 48.0;

  // Words with their top left corner at x, y, wrapped at `wrap_pt` (0: one line). Returns their height.
  double text(double x, double y, const std::string& words, const PaperStyle& style = {},
              double wrap_pt = 0.0);
  double text_height(const std::string& words, const PaperStyle& style, double wrap_pt);
  double text_width(const std::string& words, const PaperStyle& style);
  // Turned by 90 degrees, reading upwards; x, y is where it begins.
  void text_upwards(double x, double y, const std::string& words, const PaperStyle& style = {});
  void line(double x0, double y0, double x1, double y1, double width_pt = 0.5, double grey = 0.6);
  void frame(double x, double y, double w, double h, double width_pt = 0.7, double grey = 0.4);
  // Straight pieces from point to point; `dash_pt` 0: unbroken, else pieces of this length.
  void polyline(const std::vector<std::pair<double, double>>& points, double width_pt, double dash_pt = 0.0,
                double grey = 0.1);
  void mark(double x, double y, double size_pt, PaperMark mark);  // centre
  // A QR symbol (ISO/IEC 18004, level M) of `size_pt`, quiet zone included. False when the text is too long.
  bool qr(double x, double y, double size_pt, const std::string& text);
  void next_page();

  // The finished document.
  std::string bytes();

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

// The modules of a QR symbol, row by row; empty when the text is too long.
std::vector<std::vector<bool>> qr_modules(const std::string& text);

}  // namespace stirbench::reports
