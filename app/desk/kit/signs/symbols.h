#pragma once

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <numbers>

#include "app/desk/kit/signs/signs.h"

namespace stirbench::desk::kit {

// A square of side 1 on which a symbol is drawn, y down.
struct SignPaper {
  ImDrawList* draw;
  ImVec2 origin;
  float side;
  ImU32 ink;     // the symbol
  ImU32 ground;  // what it is drawn on, for parts that are cut out

  ImVec2 at(float x, float y) const { return {origin.x + x * side, origin.y + y * side}; }
  float thick(float width) const { return std::max(1.0F, width * side); }
  void line(float x0, float y0, float x1, float y1, float width, bool cut = false) const {
    draw->AddLine(at(x0, y0), at(x1, y1), cut ? ground : ink, thick(width));
  }
  // A line with round ends, for arms and fingers.
  void limb(float x0, float y0, float x1, float y1, float width, bool cut = false) const {
    line(x0, y0, x1, y1, width, cut);
    disc(x0, y0, width * 0.5F, cut);
    disc(x1, y1, width * 0.5F, cut);
  }
  void polygon(std::initializer_list<ImVec2> points, bool cut = false) const {
    for (const ImVec2& p : points) draw->PathLineTo(at(p.x, p.y));
    draw->PathFillConvex(cut ? ground : ink);
  }
  void box(float x0, float y0, float x1, float y1, float corner = 0.0F, bool cut = false) const {
    draw->AddRectFilled(at(x0, y0), at(x1, y1), cut ? ground : ink, corner * side);
  }
  void disc(float x, float y, float r, bool cut = false) const {
    draw->AddCircleFilled(at(x, y), r * side, cut ? ground : ink, 24);
  }
  void ring(float x, float y, float r, float width) const {
    draw->AddCircle(at(x, y), r * side, ink, 32, thick(width));
  }
  // Angles in halves of a turn: 0 right, 0.5 down, 1 left.
  void arc(float x, float y, float r, float from, float to, float width) const {
    constexpr float pi = std::numbers::pi_v<float>;
    draw->PathArcTo(at(x, y), r * side, from * pi, to * pi, 20);
    draw->PathStroke(ink, 0, thick(width));
  }
  void curve(ImVec2 a, ImVec2 b, ImVec2 c, ImVec2 d, float width) const {
    draw->AddBezierCubic(at(a.x, a.y), at(b.x, b.y), at(c.x, c.y), at(d.x, d.y), ink, thick(width), 12);
  }
};

void draw_warning_symbol(const SignPaper& paper, SignId which);
void draw_mandatory_symbol(const SignPaper& paper, SignId which);
void draw_prohibition_symbol(const SignPaper& paper, SignId which);

}  // namespace stirbench::desk::kit
