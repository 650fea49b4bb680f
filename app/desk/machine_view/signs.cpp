#include <algorithm>
#include <array>
#include <cmath>

#include "app/desk/machine_view/stage.h"

// Warning signs with the meanings of ISO 7010 in the triangle of ISO 3864-1: yellow ground (more than half of
// the area), black border and symbol. Proportions are ours; symbols are drawn to stay readable at 24 px.
namespace stirbench::desk::machine_view {

namespace {

struct Sheet {
  ImDrawList* draw;
  ImVec2 origin;
  float side;
  ImU32 black;

  ImVec2 at(float x, float y) const { return {origin.x + x * side, origin.y + y * side}; }
  void line(float x0, float y0, float x1, float y1, float width) const {
    draw->AddLine(at(x0, y0), at(x1, y1), black, std::max(1.0F, std::round(width * side)));
  }
  template <std::size_t N>
  void polygon(const std::array<ImVec2, N>& points) const {
    for (const ImVec2& p : points) draw->PathLineTo(at(p.x, p.y));
    draw->PathFillConvex(black);
  }
};

void bolt(const Sheet& s) {
  s.polygon(std::array<ImVec2, 4>{{{0.535F, 0.33F}, {0.575F, 0.345F}, {0.50F, 0.565F}, {0.41F, 0.565F}}});
  s.polygon(std::array<ImVec2, 4>{{{0.425F, 0.535F}, {0.595F, 0.535F}, {0.52F, 0.72F}, {0.475F, 0.705F}}});
  s.polygon(std::array<ImVec2, 3>{{{0.425F, 0.665F}, {0.575F, 0.715F}, {0.455F, 0.835F}}});
}

void hot(const Sheet& s) {
  s.line(0.30F, 0.765F, 0.70F, 0.765F, 0.06F);
  for (const float x : {0.385F, 0.50F, 0.615F}) {
    s.draw->AddBezierCubic(s.at(x, 0.70F), s.at(x - 0.11F, 0.63F), s.at(x + 0.11F, 0.55F), s.at(x, 0.475F),
                           s.black, std::max(1.0F, std::round(0.055F * s.side)), 6);
  }
}

// A toothed wheel with an arrow that goes round it by itself.
void starts(const Sheet& s) {
  const ImVec2 c = s.at(0.5F, 0.625F);
  s.draw->AddCircleFilled(c, 0.075F * s.side, s.black, 16);
  for (int tooth = 0; tooth < 8; ++tooth) {
    const float a = static_cast<float>(tooth) * 0.7854F;
    s.draw->AddLine(c, {c.x + 0.105F * s.side * std::cos(a), c.y + 0.105F * s.side * std::sin(a)}, s.black,
                    0.04F * s.side);
  }
  s.draw->PathArcTo(c, 0.165F * s.side, -2.6F, 0.7F, 22);
  s.draw->PathStroke(s.black, 0, 0.045F * s.side);
  s.polygon(std::array<ImVec2, 3>{{{0.565F, 0.74F}, {0.71F, 0.725F}, {0.64F, 0.83F}}});
}

// A hand between two closing jaws.
void hand(const Sheet& s) {
  s.polygon(std::array<ImVec2, 4>{{{0.40F, 0.42F}, {0.60F, 0.42F}, {0.60F, 0.475F}, {0.40F, 0.475F}}});
  s.polygon(std::array<ImVec2, 3>{{{0.45F, 0.475F}, {0.55F, 0.475F}, {0.50F, 0.535F}}});
  s.line(0.28F, 0.79F, 0.72F, 0.79F, 0.055F);
  // Palm and four fingers from the left, lying flat.
  s.polygon(std::array<ImVec2, 4>{{{0.28F, 0.66F}, {0.44F, 0.615F}, {0.46F, 0.73F}, {0.30F, 0.755F}}});
  for (int finger = 0; finger < 3; ++finger) {
    const float y = 0.635F + 0.042F * static_cast<float>(finger);
    s.line(0.42F, y, 0.66F - 0.02F * static_cast<float>(std::abs(finger - 1)), y, 0.034F);
  }
}

}  // namespace

void safety_sign(ImDrawList* draw, SafetySign which, const Rect& box) {
  const float side = std::min(box.w, box.h);
  if (side < 6.0F) return;
  const ImU32 yellow = token_colour(ThemeKind::light, Token::sign_yellow).u32();
  const ImU32 black = token_colour(ThemeKind::light, Token::sign_black).u32();
  const Sheet sheet{draw, {box.x + (box.w - side) * 0.5F, box.y + (box.h - side) * 0.5F}, side, black};
  // A black triangle with cut corners, a yellow one in it: two fills instead of thick strokes.
  sheet.polygon(std::array<ImVec2, 6>{{{0.465F, 0.065F},
                                       {0.535F, 0.065F},
                                       {0.985F, 0.855F},
                                       {0.95F, 0.915F},
                                       {0.05F, 0.915F},
                                       {0.015F, 0.855F}}});
  draw->AddTriangleFilled(sheet.at(0.5F, 0.175F), sheet.at(0.885F, 0.838F), sheet.at(0.115F, 0.838F), yellow);
  switch (which) {
    case SafetySign::electricity:
      bolt(sheet);
      break;
    case SafetySign::hot_surface:
      hot(sheet);
      break;
    case SafetySign::starts_by_itself:
      starts(sheet);
      break;
    case SafetySign::crushed_hand:
      hand(sheet);
      break;
  }
}

}  // namespace stirbench::desk::machine_view
