#include "app/reports/paper.h"

#include <cairo-pdf.h>
#include <pango/pangocairo.h>
#include <qrencode.h>

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace stirbench::reports {

namespace {

constexpr double a4_short_pt = 595.276;
constexpr double a4_long_pt = 841.890;
constexpr double letter_short_pt = 612.0;
constexpr double letter_long_pt = 792.0;
using std::numbers::pi;

cairo_status_t gather(void* to, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

struct Paper::Impl {
  std::string out;
  double width = 0.0;
  double height = 0.0;
  cairo_surface_t* surface = nullptr;
  cairo_t* pen = nullptr;
  PangoLayout* layout = nullptr;

  void set(const std::string& words, const PaperStyle& style, double wrap_pt) const {
    PangoFontDescription* font = pango_font_description_from_string("B612, DejaVu Sans, Sans");
    pango_font_description_set_absolute_size(font, style.size_pt * PANGO_SCALE);
    pango_font_description_set_weight(font, style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(layout, font);
    pango_font_description_free(font);
    pango_layout_set_width(layout, wrap_pt > 0.0 ? static_cast<int>(wrap_pt * PANGO_SCALE) : -1);
    pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    pango_layout_set_text(layout, words.c_str(), static_cast<int>(words.size()));
  }
};

std::string whole_percent(double norm) { return std::to_string(std::lround(100.0 * norm)) + " %"; }

Paper::Paper(Sheet sheet, bool landscape, const std::string& title) : impl_(std::make_unique<Impl>()) {
  Impl& p = *impl_;
  const double across = sheet == Sheet::a4 ? a4_short_pt : letter_short_pt;
  const double along = sheet == Sheet::a4 ? a4_long_pt : letter_long_pt;
  p.width = landscape ? along : across;
  p.height = landscape ? across : along;
  p.surface = cairo_pdf_surface_create_for_stream(gather, &p.out, p.width, p.height);
  cairo_pdf_surface_set_metadata(p.surface, CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(p.surface, CAIRO_PDF_METADATA_CREATOR, "Stirbench");
  p.pen = cairo_create(p.surface);
  p.layout = pango_cairo_create_layout(p.pen);
}

Paper::~Paper() {
  if (impl_->layout != nullptr) g_object_unref(impl_->layout);
  if (impl_->pen != nullptr) cairo_destroy(impl_->pen);
  if (impl_->surface != nullptr) cairo_surface_destroy(impl_->surface);
}

double Paper::width() const { return impl_->width; }
double Paper::height() const { return impl_->height; }

double Paper::text_height(const std::string& words, const PaperStyle& style, double wrap_pt) {
  impl_->set(words, style, wrap_pt);
  int w = 0;
  int h = 0;
  pango_layout_get_size(impl_->layout, &w, &h);
  return static_cast<double>(h) / PANGO_SCALE;
}

double Paper::text_width(const std::string& words, const PaperStyle& style) {
  impl_->set(words, style, 0.0);
  int w = 0;
  int h = 0;
  pango_layout_get_size(impl_->layout, &w, &h);
  return static_cast<double>(w) / PANGO_SCALE;
}

double Paper::text(double x, double y, const std::string& words, const PaperStyle& style, double wrap_pt) {
  const double height = text_height(words, style, wrap_pt);
  cairo_set_source_rgb(impl_->pen, style.grey, style.grey, style.grey);
  cairo_move_to(impl_->pen, x, y);
  pango_cairo_show_layout(impl_->pen, impl_->layout);
  return height;
}

void Paper::text_upwards(double x, double y, const std::string& words, const PaperStyle& style) {
  cairo_save(impl_->pen);
  cairo_translate(impl_->pen, x, y);
  cairo_rotate(impl_->pen, -pi / 2.0);
  text(0.0, 0.0, words, style);
  cairo_restore(impl_->pen);
}

void Paper::line(double x0, double y0, double x1, double y1, double width_pt, double grey) {
  cairo_set_source_rgb(impl_->pen, grey, grey, grey);
  cairo_set_line_width(impl_->pen, width_pt);
  cairo_move_to(impl_->pen, x0, y0);
  cairo_line_to(impl_->pen, x1, y1);
  cairo_stroke(impl_->pen);
}

void Paper::frame(double x, double y, double w, double h, double width_pt, double grey) {
  cairo_set_source_rgb(impl_->pen, grey, grey, grey);
  cairo_set_line_width(impl_->pen, width_pt);
  cairo_rectangle(impl_->pen, x, y, w, h);
  cairo_stroke(impl_->pen);
}

void Paper::polyline(const std::vector<std::pair<double, double>>& points, double width_pt, double dash_pt,
                     double grey) {
  cairo_set_source_rgb(impl_->pen, grey, grey, grey);
  cairo_set_line_width(impl_->pen, width_pt);
  if (dash_pt > 0.0) cairo_set_dash(impl_->pen, &dash_pt, 1, 0.0);
  cairo_new_path(impl_->pen);
  for (const auto& [x, y] : points) cairo_line_to(impl_->pen, x, y);
  cairo_stroke(impl_->pen);
  cairo_set_dash(impl_->pen, nullptr, 0, 0.0);
}

void Paper::mark(double x, double y, double size_pt, PaperMark mark) {
  cairo_t* pen = impl_->pen;
  const double r = 0.5 * size_pt;
  cairo_set_source_rgb(pen, 0.1, 0.1, 0.1);
  cairo_set_line_width(pen, 0.14 * size_pt);
  cairo_new_path(pen);
  if (mark == PaperMark::cross) {
    cairo_move_to(pen, x - 0.8 * r, y - 0.8 * r);
    cairo_line_to(pen, x + 0.8 * r, y + 0.8 * r);
    cairo_move_to(pen, x + 0.8 * r, y - 0.8 * r);
    cairo_line_to(pen, x - 0.8 * r, y + 0.8 * r);
    cairo_stroke(pen);
    return;
  }
  cairo_arc(pen, x, y, 0.9 * r, 0.0, 2.0 * pi);
  if (mark == PaperMark::full) cairo_fill_preserve(pen);
  cairo_stroke(pen);
  if (mark != PaperMark::half) return;
  cairo_arc(pen, x, y, 0.9 * r, 0.5 * pi, 1.5 * pi);
  cairo_fill(pen);
}

std::vector<std::vector<bool>> qr_modules(const std::string& text) {
  QRcode* code = QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M);
  if (code == nullptr) return {};
  const auto side = static_cast<std::size_t>(code->width);
  std::vector<std::vector<bool>> rows(side, std::vector<bool>(side));
  for (std::size_t y = 0; y < side; ++y) {
    for (std::size_t x = 0; x < side; ++x) rows[y][x] = (code->data[y * side + x] & 1U) != 0;
  }
  QRcode_free(code);
  return rows;
}

bool Paper::qr(double x, double y, double size_pt, const std::string& text) {
  const auto rows = qr_modules(text);
  if (rows.empty()) return false;
  constexpr double quiet = 4.0;  // modules, ISO/IEC 18004
  const double module = size_pt / (static_cast<double>(rows.size()) + 2.0 * quiet);
  cairo_set_source_rgb(impl_->pen, 0.0, 0.0, 0.0);
  for (std::size_t r = 0; r < rows.size(); ++r) {
    for (std::size_t c = 0; c < rows[r].size(); ++c) {
      if (rows[r][c])
        cairo_rectangle(impl_->pen, x + (quiet + static_cast<double>(c)) * module,
                        y + (quiet + static_cast<double>(r)) * module, module, module);
    }
  }
  cairo_fill(impl_->pen);
  return true;
}

void Paper::next_page() { cairo_show_page(impl_->pen); }

std::string Paper::bytes() {
  cairo_show_page(impl_->pen);
  cairo_surface_finish(impl_->surface);
  if (cairo_surface_status(impl_->surface) != CAIRO_STATUS_SUCCESS)
    throw std::runtime_error(std::string("The PDF cannot be made: ") +
                             cairo_status_to_string(cairo_surface_status(impl_->surface)));
  return impl_->out;
}

}  // namespace stirbench::reports
