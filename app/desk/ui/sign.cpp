#include <algorithm>
#include <cmath>

#include "app/desk/ui/icon.h"

// Warning signs: a yellow triangle with a black border and symbol (the shape and colours of ISO 3864-1). The symbols are drawn
// for this project.
namespace stirbench::desk {

namespace {

constexpr float pi = 3.14159265F;

struct Sheet {
  ImDrawList* draw;
  ImVec2 origin;
  float side;
  ImU32 black;

  ImVec2 at(float x, float y) const { return {origin.x + x * side, origin.y + y * side}; }
  void line(float x0, float y0, float x1, float y1, float width = 0.05F) const {
    draw->AddLine(at(x0, y0), at(x1, y1), black, width * side);
  }
  void polygon(std::initializer_list<ImVec2> points) const {
    for (const ImVec2& p : points) draw->PathLineTo(at(p.x, p.y));
    draw->PathFillConvex(black);
  }
  void arc(float x, float y, float r, float from, float to, float width = 0.05F) const {
    draw->PathArcTo(at(x, y), r * side, from * pi, to * pi, 20);
    draw->PathStroke(black, 0, width * side);
  }
};

// Three rising waves over a line.
void hot_surface(const Sheet& s) {
  s.line(0.28F, 0.77F, 0.72F, 0.77F, 0.055F);
  for (const float x : {0.38F, 0.50F, 0.62F}) {
    s.draw->AddBezierCubic(s.at(x, 0.70F), s.at(x - 0.09F, 0.62F), s.at(x + 0.09F, 0.56F), s.at(x, 0.47F), s.black, 0.045F * s.side);
  }
}

void electricity(const Sheet& s) {
  s.polygon({{0.545F, 0.36F}, {0.40F, 0.60F}, {0.50F, 0.60F}});
  s.polygon({{0.48F, 0.56F}, {0.60F, 0.56F}, {0.47F, 0.74F}});
  s.polygon({{0.425F, 0.67F}, {0.545F, 0.73F}, {0.44F, 0.80F}});
}

// Two arrows that turn around a shaft.
void rotating(const Sheet& s) {
  s.draw->AddCircleFilled(s.at(0.5F, 0.62F), 0.045F * s.side, s.black);
  s.arc(0.5F, 0.62F, 0.145F, 1.15F, 1.80F);
  s.arc(0.5F, 0.62F, 0.145F, 0.15F, 0.80F);
  s.polygon({{0.60F, 0.47F}, {0.69F, 0.57F}, {0.56F, 0.58F}});
  s.polygon({{0.40F, 0.77F}, {0.31F, 0.67F}, {0.44F, 0.66F}});
}

void crush(const Sheet& s) {
  s.polygon({{0.44F, 0.38F}, {0.56F, 0.38F}, {0.56F, 0.50F}, {0.44F, 0.50F}});
  s.polygon({{0.40F, 0.50F}, {0.60F, 0.50F}, {0.50F, 0.60F}});
  s.line(0.34F, 0.70F, 0.66F, 0.70F, 0.06F);
  s.line(0.28F, 0.79F, 0.72F, 0.79F, 0.05F);
}

void slippery(const Sheet& s) {
  s.draw->AddCircleFilled(s.at(0.56F, 0.41F), 0.045F * s.side, s.black);
  s.line(0.54F, 0.48F, 0.46F, 0.62F, 0.07F);
  s.line(0.46F, 0.62F, 0.60F, 0.70F, 0.05F);
  s.line(0.46F, 0.62F, 0.36F, 0.73F, 0.05F);
  s.line(0.53F, 0.50F, 0.64F, 0.55F, 0.04F);
  s.line(0.28F, 0.79F, 0.72F, 0.79F, 0.045F);
}

// A drop that falls on a surface and eats into it.
void chemical(const Sheet& s) {
  s.polygon({{0.5F, 0.38F}, {0.56F, 0.52F}, {0.5F, 0.57F}, {0.44F, 0.52F}});
  s.line(0.28F, 0.72F, 0.43F, 0.72F, 0.05F);
  s.line(0.57F, 0.72F, 0.72F, 0.72F, 0.05F);
  s.arc(0.5F, 0.71F, 0.075F, 0.0F, 1.0F, 0.045F);
}

// A round vessel with arrows that push outwards.
void pressure(const Sheet& s) {
  s.draw->AddCircle(s.at(0.5F, 0.62F), 0.10F * s.side, s.black, 0, 0.045F * s.side);
  s.line(0.5F, 0.52F, 0.5F, 0.40F, 0.045F);
  s.line(0.40F, 0.66F, 0.30F, 0.74F, 0.045F);
  s.line(0.60F, 0.66F, 0.70F, 0.74F, 0.045F);
}

// A six-armed crystal.
void cold(const Sheet& s) {
  for (int arm = 0; arm < 3; ++arm) {
    const float angle = static_cast<float>(arm) * pi / 3.0F + pi / 2.0F;
    const float c = std::cos(angle) * 0.17F;
    const float d = std::sin(angle) * 0.17F;
    s.line(0.5F - c, 0.62F - d, 0.5F + c, 0.62F + d, 0.045F);
  }
}

void general(const Sheet& s) {
  s.polygon({{0.46F, 0.40F}, {0.54F, 0.40F}, {0.525F, 0.66F}, {0.475F, 0.66F}});
  s.draw->AddCircleFilled(s.at(0.5F, 0.755F), 0.042F * s.side, s.black);
}

}  // namespace

void sign(ImDrawList* draw, Sign which, const Rect& box) {
  const float side = std::min(box.w, box.h);
  if (side <= 0.0F) return;
  const ImVec2 origin{box.x + (box.w - side) * 0.5F, box.y + (box.h - side) * 0.5F};
  const ImU32 yellow = token_colour(ThemeKind::light, Token::sign_yellow).u32();
  const ImU32 black = token_colour(ThemeKind::light, Token::sign_black).u32();
  const Sheet sheet{draw, origin, side, black};
  // The triangle with rounded corners: a thick black outline around a yellow fill.
  const ImVec2 top = sheet.at(0.5F, 0.10F);
  const ImVec2 right = sheet.at(0.95F, 0.88F);
  const ImVec2 left = sheet.at(0.05F, 0.88F);
  draw->AddTriangleFilled(top, right, left, yellow);
  for (const ImVec2& corner : {top, right, left}) draw->AddCircleFilled(corner, side * 0.035F, black);
  draw->AddTriangle(top, right, left, black, side * 0.07F);
  switch (which) {
    case Sign::general: general(sheet); break;
    case Sign::hot_surface: hot_surface(sheet); break;
    case Sign::electricity: electricity(sheet); break;
    case Sign::rotating: rotating(sheet); break;
    case Sign::crush: crush(sheet); break;
    case Sign::slippery: slippery(sheet); break;
    case Sign::chemical: chemical(sheet); break;
    case Sign::pressure: pressure(sheet); break;
    case Sign::cold: cold(sheet); break;
  }
}

}  // namespace stirbench::desk
