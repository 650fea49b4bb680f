#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "app/desk/views/machine_view/stage.h"

// The lid on its hinge, and its guard: magnet in the lid, reed switch at the vat's rim.
namespace stirbench::desk::views::machine_view {

namespace {

constexpr double open_rad = 0.37;  // tilt when open, 21 degrees

struct LidFrame {
  double hinge_x;
  double hinge_z;
  double c;
  double sine;
  double lift;

  // Point of the closed lid where it is now.
  ImVec2 at(const Stage& s, double x, double z) const {
    const double dx = x - hinge_x;
    const double dz = z - hinge_z;
    return s.at(hinge_x + dx * c - dz * sine, hinge_z + lift + dx * sine + dz * c);
  }
};

LidFrame lid_frame(const Stage& s) {
  const double R = s.vessel.vat_radius_m();
  const double share = static_cast<double>(smooth(static_cast<float>(s.motion.lid_norm)));
  const double angle = open_rad * share;
  return {-1.04 * R, s.plan.rim + 0.02 * R, std::cos(angle), std::sin(angle), 0.03 * R * share};
}

}  // namespace

kit::Rect lid_rect(const Stage& s) {
  const double R = s.vessel.vat_radius_m();
  const LidFrame f = lid_frame(s);
  const ImVec2 a = f.at(s, -1.05 * R, s.plan.rim);
  const ImVec2 b = f.at(s, 1.05 * R, s.plan.rim);
  const ImVec2 top = f.at(s, 0.1 * R, s.plan.rim + 0.36 * R);
  const ImVec2 corner = f.at(s, 1.0 * R, s.plan.rim + 0.10 * R);
  const float y0 = std::min(top.y, corner.y);
  return {std::min(a.x, b.x), y0, std::abs(b.x - a.x), std::max(a.y, b.y) - y0};
}

void draw_lid(const Stage& s) {
  const double R = s.vessel.vat_radius_m();
  const LidFrame f = lid_frame(s);
  const double base = s.plan.rim + 0.015 * R;
  const double flange = 0.055 * R;
  const double edge_x = 1.045 * R;
  std::vector<ImVec2> outline;
  outline.push_back(f.at(s, -edge_x, base));
  outline.push_back(f.at(s, -edge_x, base + flange));
  constexpr int pieces = 22;
  for (int i = 0; i <= pieces; ++i) {
    const double t = -1.0 + 2.0 * i / pieces;
    outline.push_back(f.at(s, t * 0.985 * R, base + flange + 0.20 * R * (1.0 - t * t)));
  }
  outline.push_back(f.at(s, edge_x, base + flange));
  outline.push_back(f.at(s, edge_x, base));
  const kit::Colour dark = s.colour(kit::Token::metal_dark);
  const kit::Colour body = mix(s.colour(kit::Token::metal), s.colour(kit::Token::metal_light), 0.45F);
  // The knob stands on the dome: behind it.
  const std::array<ImVec2, 4> knob{f.at(s, -0.13 * R, base + 0.335 * R), f.at(s, 0.13 * R, base + 0.335 * R),
                                   f.at(s, 0.13 * R, base + 0.27 * R), f.at(s, -0.13 * R, base + 0.27 * R)};
  for (const double x : {-0.08, 0.08})
    s.draw->AddLine(f.at(s, x * R, base + 0.22 * R), f.at(s, x * R, base + 0.28 * R), dark.u32(),
                    Stage::whole(s.stroke(4.0F)));
  s.draw->AddConvexPolyFilled(knob.data(), static_cast<int>(knob.size()), dark.u32());
  s.draw->AddConvexPolyFilled(outline.data(), static_cast<int>(outline.size()), body.u32());
  // Soft light along the dome.
  std::array<ImVec2, 12> light;
  for (std::size_t i = 0; i < light.size(); ++i) {
    const double t = -0.72 + 0.95 * static_cast<double>(i) / static_cast<double>(light.size() - 1);
    light[i] = f.at(s, t * 0.985 * R, base + flange + 0.20 * R * (1.0 - t * t) - 0.045 * R);
  }
  chain(s, light, s.colour(kit::Token::panel).faded(0.85F), s.stroke(3.0F));
  chain(s, std::array<ImVec2, 2>{f.at(s, -edge_x, base + flange), f.at(s, edge_x, base + flange)},
        dark.faded(0.45F), s.stroke(1.2F));
  chain(s, outline, dark, s.stroke(2.8F), true);
  // Hinge.
  const ImVec2 hinge = s.at(-1.06 * R, s.plan.rim + 0.02 * R);
  s.draw->AddCircleFilled(hinge, s.stroke(5.5F), dark.u32(), 14);
  s.draw->AddCircleFilled(hinge, s.stroke(2.0F), s.colour(kit::Token::metal_light).u32(), 8);
}

void draw_guard(const Stage& s) {
  const double R = s.vessel.vat_radius_m();
  const LidFrame f = lid_frame(s);
  const bool open = s.plant().fittings.lid_open;
  const kit::Colour dark = s.colour(kit::Token::metal_dark);
  const kit::Colour state = open ? s.colour(kit::Token::bad) : s.colour(kit::Token::ok);
  // Magnet: hangs from the lid's edge, two poles.
  const double x0 = 1.03 * R;
  const double x1 = 1.13 * R;
  const double top = s.plan.rim + 0.065 * R;
  const auto block = [&](double left, double right, kit::Colour colour) {
    const std::array<ImVec2, 4> corner{f.at(s, left, top), f.at(s, right, top),
                                       f.at(s, right, top - 0.09 * R), f.at(s, left, top - 0.09 * R)};
    s.draw->AddConvexPolyFilled(corner.data(), 4, colour.u32());
    chain(s, corner, dark, s.stroke(1.3F), true);
  };
  block(x0, (x0 + x1) / 2.0, dark);
  block((x0 + x1) / 2.0, x1, s.colour(kit::Token::metal_light));
  // Reed switch: two tongues in a body at the rim; they touch while the magnet is near.
  const kit::Rect body = s.box(1.03 * R, s.plan.rim - 0.05 * R, 1.155 * R, s.plan.rim - 0.20 * R);
  plate(s, body, s.colour(kit::Token::panel), state, s.stroke(2.5F), s.stroke(2.2F));
  const float mid = body.x + body.w * 0.5F;
  const float gap = open ? body.w * 0.20F : 0.0F;
  s.draw->AddLine({mid - gap, body.y + body.h * 0.18F}, {mid, body.y + body.h * 0.56F}, state.u32(),
                  Stage::whole(s.stroke(2.0F)));
  s.draw->AddLine({mid + gap, body.y + body.h * 0.44F}, {mid, body.y + body.h * 0.82F}, state.u32(),
                  Stage::whole(s.stroke(2.0F)));
}

}  // namespace stirbench::desk::views::machine_view
