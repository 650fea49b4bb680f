#include "app/desk/kit/widgets/icon.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace stirbench::desk::kit {

namespace {

constexpr float pi = std::numbers::pi_v<float>;

// Draws in a unit square (0..1) mapped onto a box, so that shapes read as coordinates.
class Pen {
 public:
  Pen(ImDrawList* draw, const Rect& box, ImU32 colour) : draw_(draw), colour_(colour) {
    side_ = std::min(box.w, box.h);
    origin_ = {box.x + (box.w - side_) * 0.5F, box.y + (box.h - side_) * 0.5F};
    stroke_ = std::max(side_ * 0.11F, 1.4F);
  }
  ImVec2 point(float x, float y) const { return {origin_.x + x * side_, origin_.y + y * side_}; }
  void line(float x0, float y0, float x1, float y1) const {
    draw_->AddLine(point(x0, y0), point(x1, y1), colour_, stroke_);
  }
  void path(std::initializer_list<ImVec2> points, bool closed = false) const {
    for (const ImVec2& p : points) draw_->PathLineTo(point(p.x, p.y));
    draw_->PathStroke(colour_, closed ? ImDrawFlags_Closed : 0, stroke_);
  }
  void fill(std::initializer_list<ImVec2> points) const {
    for (const ImVec2& p : points) draw_->PathLineTo(point(p.x, p.y));
    draw_->PathFillConvex(colour_);
  }
  void circle(float x, float y, float r) const {
    draw_->AddCircle(point(x, y), r * side_, colour_, 0, stroke_);
  }
  void disc(float x, float y, float r) const { draw_->AddCircleFilled(point(x, y), r * side_, colour_); }
  void arc(float x, float y, float r, float from, float to) const {
    draw_->PathArcTo(point(x, y), r * side_, from * pi, to * pi, 24);
    draw_->PathStroke(colour_, 0, stroke_);
  }
  void half_disc(float x, float y, float r, float from, float to) const {
    draw_->PathArcTo(point(x, y), r * side_, from * pi, to * pi, 24);
    draw_->PathFillConvex(colour_);
  }
  void rect(float x0, float y0, float x1, float y1, float corner) const {
    draw_->AddRect(point(x0, y0), point(x1, y1), colour_, corner * side_, 0, stroke_);
  }
  void bar(float x0, float y0, float x1, float y1) const {
    draw_->AddRectFilled(point(x0, y0), point(x1, y1), colour_, stroke_ * 0.3F);
  }

 private:
  ImDrawList* draw_;
  ImU32 colour_;
  ImVec2 origin_{0.0F, 0.0F};
  float side_ = 0.0F;
  float stroke_ = 1.0F;
};

void draw_arrow(const Pen& pen, Icon which) {
  switch (which) {
    case Icon::arrow_left:
      pen.line(0.15F, 0.5F, 0.88F, 0.5F);
      pen.path({{0.42F, 0.22F}, {0.14F, 0.5F}, {0.42F, 0.78F}});
      break;
    case Icon::arrow_right:
      pen.line(0.12F, 0.5F, 0.85F, 0.5F);
      pen.path({{0.58F, 0.22F}, {0.86F, 0.5F}, {0.58F, 0.78F}});
      break;
    case Icon::arrow_up:
      pen.line(0.5F, 0.15F, 0.5F, 0.88F);
      pen.path({{0.22F, 0.42F}, {0.5F, 0.14F}, {0.78F, 0.42F}});
      break;
    case Icon::arrow_down:
      pen.line(0.5F, 0.12F, 0.5F, 0.85F);
      pen.path({{0.22F, 0.58F}, {0.5F, 0.86F}, {0.78F, 0.58F}});
      break;
    case Icon::chevron_down: pen.path({{0.22F, 0.38F}, {0.5F, 0.66F}, {0.78F, 0.38F}}); break;
    case Icon::chevron_up: pen.path({{0.22F, 0.62F}, {0.5F, 0.34F}, {0.78F, 0.62F}}); break;
    case Icon::chevron_right: pen.path({{0.38F, 0.22F}, {0.66F, 0.5F}, {0.38F, 0.78F}}); break;
    case Icon::chevron_left: pen.path({{0.62F, 0.22F}, {0.34F, 0.5F}, {0.62F, 0.78F}}); break;
    default: break;
  }
}

void draw_mark(const Pen& pen, Icon which) {
  switch (which) {
    case Icon::check: pen.path({{0.14F, 0.54F}, {0.40F, 0.80F}, {0.88F, 0.24F}}); break;
    case Icon::cross:
      pen.line(0.2F, 0.2F, 0.8F, 0.8F);
      pen.line(0.8F, 0.2F, 0.2F, 0.8F);
      break;
    case Icon::dot: pen.disc(0.5F, 0.5F, 0.42F); break;
    case Icon::ring: pen.circle(0.5F, 0.5F, 0.38F); break;
    case Icon::half_ring:
      pen.circle(0.5F, 0.5F, 0.38F);
      pen.half_disc(0.5F, 0.5F, 0.38F, 0.5F, 1.5F);
      break;
    case Icon::square: pen.bar(0.2F, 0.2F, 0.8F, 0.8F); break;
    case Icon::plus:
      pen.line(0.5F, 0.16F, 0.5F, 0.84F);
      pen.line(0.16F, 0.5F, 0.84F, 0.5F);
      break;
    case Icon::minus: pen.line(0.16F, 0.5F, 0.84F, 0.5F); break;
    case Icon::play: pen.fill({{0.24F, 0.14F}, {0.86F, 0.5F}, {0.24F, 0.86F}}); break;
    case Icon::pause:
      pen.bar(0.22F, 0.14F, 0.42F, 0.86F);
      pen.bar(0.58F, 0.14F, 0.78F, 0.86F);
      break;
    case Icon::step_forward:
      pen.fill({{0.14F, 0.14F}, {0.66F, 0.5F}, {0.14F, 0.86F}});
      pen.bar(0.70F, 0.14F, 0.86F, 0.86F);
      break;
    case Icon::rewind:
      pen.fill({{0.86F, 0.14F}, {0.86F, 0.86F}, {0.34F, 0.5F}});
      pen.bar(0.14F, 0.14F, 0.30F, 0.86F);
      break;
    default: break;
  }
}

void draw_thing(const Pen& pen, Icon which) {
  switch (which) {
    case Icon::warning:
      pen.path({{0.5F, 0.12F}, {0.93F, 0.86F}, {0.07F, 0.86F}}, true);
      pen.line(0.5F, 0.40F, 0.5F, 0.60F);
      pen.disc(0.5F, 0.73F, 0.06F);
      break;
    case Icon::info:
      pen.circle(0.5F, 0.5F, 0.42F);
      pen.line(0.5F, 0.46F, 0.5F, 0.72F);
      pen.disc(0.5F, 0.31F, 0.065F);
      break;
    case Icon::question:
      pen.circle(0.5F, 0.5F, 0.42F);
      pen.arc(0.5F, 0.40F, 0.13F, 0.95F, 2.35F);
      pen.line(0.52F, 0.52F, 0.5F, 0.60F);
      pen.disc(0.5F, 0.73F, 0.06F);
      break;
    case Icon::lock:
      pen.rect(0.18F, 0.45F, 0.82F, 0.88F, 0.06F);
      pen.arc(0.5F, 0.42F, 0.20F, 1.0F, 2.0F);
      break;
    case Icon::clock:
      pen.circle(0.5F, 0.5F, 0.42F);
      pen.path({{0.5F, 0.26F}, {0.5F, 0.52F}, {0.68F, 0.62F}});
      break;
    case Icon::person:
      pen.circle(0.5F, 0.32F, 0.18F);
      pen.arc(0.5F, 0.92F, 0.34F, 1.0F, 2.0F);
      break;
    case Icon::search:
      pen.circle(0.43F, 0.43F, 0.28F);
      pen.line(0.64F, 0.64F, 0.90F, 0.90F);
      break;
    case Icon::eye:
      pen.arc(0.5F, 0.86F, 0.56F, 1.22F, 1.78F);
      pen.arc(0.5F, 0.14F, 0.56F, 0.22F, 0.78F);
      pen.disc(0.5F, 0.5F, 0.13F);
      break;
    case Icon::pencil:
      pen.path({{0.16F, 0.84F}, {0.22F, 0.62F}, {0.70F, 0.14F}, {0.86F, 0.30F}, {0.38F, 0.78F}}, true);
      break;
    case Icon::bin:
      pen.line(0.14F, 0.24F, 0.86F, 0.24F);
      pen.path({{0.24F, 0.26F}, {0.30F, 0.88F}, {0.70F, 0.88F}, {0.76F, 0.26F}});
      pen.path({{0.38F, 0.22F}, {0.40F, 0.12F}, {0.60F, 0.12F}, {0.62F, 0.22F}});
      break;
    case Icon::gear:
      pen.circle(0.5F, 0.5F, 0.22F);
      for (int tooth = 0; tooth < 8; ++tooth) {
        const float angle = static_cast<float>(tooth) * pi / 4.0F;
        const float c = std::cos(angle);
        const float s = std::sin(angle);
        pen.line(0.5F + c * 0.30F, 0.5F + s * 0.30F, 0.5F + c * 0.43F, 0.5F + s * 0.43F);
      }
      break;
    default: break;
  }
}

}  // namespace

void icon(ImDrawList* draw, Icon which, const Rect& box, ImU32 colour) {
  if (which == Icon::none || box.empty()) return;
  const Pen pen(draw, box, colour);
  if (which <= Icon::chevron_left) {
    draw_arrow(pen, which);
  } else if (which <= Icon::rewind) {
    draw_mark(pen, which);
  } else {
    draw_thing(pen, which);
  }
}

}  // namespace stirbench::desk::kit
