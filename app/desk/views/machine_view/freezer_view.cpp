#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "app/desk/views/machine_view/stage.h"
#include "sim_core/plant/freezer/freezer.h"

// The batch freezer beside the machine, its cylinder seen end-on: level, temperature, ice, air, the dasher
// that turns, inlet and outlet gate.
namespace stirbench::desk::views::machine_view {

namespace {

constexpr float pi_f = std::numbers::pi_v<float>;

// The body and its cylinder [m].
struct Body {
  double x0, x1, top, bottom, cx, cz, r;
};

Body body(const Stage& s) {
  const Plan& p = s.plan;
  // A little larger than the pail it stands in for, so that its inside can be read.
  const double x0 = p.valve_x - p.pail_top_r;
  const double x1 = p.valve_x + std::max(p.pail_top_r, p.lever);
  const double top = p.floor + 1.08 * p.pail_h;
  const double r = std::min(0.42 * p.pail_h, 0.45 * (x1 - x0));
  return {x0, x1, top, p.floor + 0.01, 0.5 * (x0 + x1), top - r - 0.05 * p.pail_h, r};
}

// Height in a unit circle (-1 .. 1) under which `share` of its area lies.
float level_of(double share) {
  double low = -1.0;
  double high = 1.0;
  for (int i = 0; i < 20; ++i) {
    const double h = 0.5 * (low + high);
    const double area = std::acos(-h) + h * std::sqrt(1.0 - h * h);
    (area < share * std::numbers::pi ? low : high) = h;
  }
  return static_cast<float>(low);
}

// The part of a circle below a height, as a fan.
void fill_circle(const Stage& s, ImVec2 c, float r, float level, kit::Colour colour) {
  std::array<ImVec2, 33> rim{};
  const float half = std::acos(std::clamp(-level, -1.0F, 1.0F));
  for (std::size_t i = 0; i < rim.size(); ++i) {
    const float a =
        0.5F * pi_f - half + 2.0F * half * static_cast<float>(i) / static_cast<float>(rim.size() - 1);
    rim[i] = {c.x + r * std::cos(a), c.y + r * std::sin(a)};
  }
  s.draw->AddConvexPolyFilled(rim.data(), static_cast<int>(rim.size()), colour.u32());
}

// A place in the filled part of the circle, the same in every frame.
ImVec2 inside(ImVec2 c, float r, float level, std::uint32_t index, std::uint32_t salt) {
  const float a = 2.0F * pi_f * scatter(index, salt);
  const float way = 0.9F * r * std::sqrt(scatter(index, salt + 1));
  ImVec2 at{c.x + way * std::cos(a), c.y + way * std::sin(a)};
  const float surface = c.y - level * r;
  if (at.y < surface + 2.0F) at.y = std::min(c.y + 0.9F * r, 2.0F * surface + 4.0F - at.y);
  return at;
}

void draw_contents(const Stage& s, ImVec2 c, float r) {
  const plant::FreezerState& f = s.plant().freezer;
  const double free_L = std::max(1.0, s.machine.plant.freezer.free_L);
  const double mix_L = plant::mix_L(f);
  if (!(mix_L > 0.0)) return;
  const double ice = plant::frozen_water_norm(f);
  const kit::Colour content = mix(kit::product_colour(f.degC), s.colour(kit::Token::panel),
                                  static_cast<float>(std::min(0.45, 0.8 * ice)));
  const float level = level_of(std::clamp((mix_L + f.air_L) / free_L, 0.0, 1.0));
  fill_circle(s, c, r, level, content);
  const kit::Colour ink = mix(content, s.colour(kit::Token::sign_black), 0.4F);
  // Bubbles for the air, small crosses for the ice.
  const auto bubbles = static_cast<std::uint32_t>(40.0 * std::min(1.0, plant::overrun_norm(f)));
  for (std::uint32_t i = 0; i < bubbles; ++i)
    s.draw->AddCircle(inside(c, r, level, i, 31), s.stroke(2.2F), ink.faded(0.7F).u32(), 8,
                      Stage::whole(s.stroke(1.0F)));
  const auto crystals = static_cast<std::uint32_t>(40.0 * ice);
  const float arm = s.stroke(2.4F);
  for (std::uint32_t i = 0; i < crystals; ++i) {
    const ImVec2 at = inside(c, r, level, i, 57);
    s.draw->AddLine({at.x - arm, at.y}, {at.x + arm, at.y}, s.colour(kit::Token::cold).u32(), 1.0F);
    s.draw->AddLine({at.x, at.y - arm}, {at.x, at.y + arm}, s.colour(kit::Token::cold).u32(), 1.0F);
  }
}

void draw_dasher(const Stage& s, ImVec2 c, float r) {
  const int blades = std::max(2, s.machine.plant.freezer.blades);
  const kit::Colour dark = s.colour(kit::Token::metal_dark);
  for (int i = 0; i < blades; ++i) {
    const float a = static_cast<float>(s.motion.dasher_rad) +
                    2.0F * pi_f * static_cast<float>(i) / static_cast<float>(blades);
    const ImVec2 tip{c.x + 0.93F * r * std::cos(a), c.y + 0.93F * r * std::sin(a)};
    s.draw->AddLine(c, tip, dark.u32(), Stage::whole(s.stroke(2.6F)));
    // The blade trails along the wall.
    const ImVec2 heel{c.x + 0.82F * r * std::cos(a - 0.38F), c.y + 0.82F * r * std::sin(a - 0.38F)};
    s.draw->AddLine(tip, heel, dark.u32(), Stage::whole(s.stroke(4.0F)));
  }
  s.draw->AddCircleFilled(c, 0.13F * r, dark.u32(), 14);
}

// The gate under the cylinder and the tub it opens into.
void draw_gate(const Stage& s, const Body& b) {
  const plant::FreezerState& f = s.plant().freezer;
  const kit::Colour dark = s.colour(kit::Token::metal_dark);
  const double gate_z = b.cz - b.r - 0.02 * s.plan.pail_h;
  const double half = 0.30 * b.r;
  const double slide = half * 2.0 * std::clamp(f.gate_norm, 0.0, 1.0);
  const double tub_top = b.bottom + 0.7 * (gate_z - b.bottom);
  if (f.outflow_L_per_min > 0.01) {
    const kit::Rect stream = s.box(b.cx - 0.6 * half, gate_z, b.cx + 0.6 * half, b.bottom + 0.02);
    s.draw->AddRectFilled(stream.min(), stream.max(),
                          mix(kit::product_colour(f.degC), s.colour(kit::Token::panel), 0.4F).u32());
  }
  const double thick = 0.02 * b.r;
  const kit::Rect gate = s.box(b.cx - half + slide, gate_z + thick, b.cx + half + slide, gate_z - thick);
  s.draw->AddRectFilled(gate.min(), gate.max(), dark.u32());
  const kit::Rect tub = s.box(b.cx - 0.9 * b.r, tub_top, b.cx + 0.9 * b.r, b.bottom);
  const double held_L = 1.0e-3 * f.tub.total_kg() * 1.0e3 / 1.09 + f.tub_air_L;
  const double share = std::clamp(held_L / std::max(1.0, s.machine.plant.freezer.free_L), 0.0, 1.0);
  if (share > 0.0) {
    const kit::Rect fill{tub.x, tub.bottom() - tub.h * static_cast<float>(share), tub.w,
                         tub.h * static_cast<float>(share)};
    s.draw->AddRectFilled(fill.min(), fill.max(),
                          mix(kit::product_colour(f.tub_degC), s.colour(kit::Token::panel), 0.4F).u32());
  }
  s.draw->AddRect(tub.min(), tub.max(), dark.u32(), s.stroke(2.0F), 0, Stage::whole(s.stroke(1.8F)));
}

// The drain at the lowest point, its plug across it or beside it, what runs away; the lid as a rim that
// swings out at its hinge.
void draw_drain_and_lid(const Stage& s, const Body& b) {
  const plant::FreezerState& f = s.plant().freezer;
  const kit::Colour dark = s.colour(kit::Token::metal_dark);
  const double x = b.cx - 0.62 * b.r;
  const double z = b.cz - 0.80 * b.r;
  const double w = 0.07 * b.r;
  const double end = z - 0.30 * b.r;
  plate(s, s.box(x - w, z, x + w, end), s.colour(kit::Token::metal), dark, 0.0F, s.stroke(1.4F));
  if (f.drain_L_per_min > 0.0) {
    const kit::Rect stream = s.box(x - 0.6 * w, end, x + 0.6 * w, b.bottom);
    s.draw->AddRectFilled(stream.min(), stream.max(), kit::product_colour(f.degC).u32());
  }
  const double plug = f.drain_open ? x + 3.0 * w : x;
  s.draw->AddLine(s.at(plug - 1.6 * w, end), s.at(plug + 1.6 * w, end), dark.u32(),
                  Stage::whole(s.stroke(4.0F)));
  const ImVec2 hinge = s.at(b.cx - 1.06 * b.r, b.cz);
  const float r = s.len(b.r);
  if (f.lid_open) {
    std::array<ImVec2, 32> rim{};
    for (std::size_t i = 0; i < rim.size(); ++i) {
      const float a = 2.0F * pi_f * static_cast<float>(i) / static_cast<float>(rim.size());
      rim[i] = {hinge.x - 0.16F * r + 0.16F * r * std::cos(a), hinge.y + r * std::sin(a)};
    }
    s.draw->AddConvexPolyFilled(rim.data(), static_cast<int>(rim.size()),
                                s.colour(kit::Token::metal_light).u32());
    s.draw->AddPolyline(rim.data(), static_cast<int>(rim.size()), dark.u32(), ImDrawFlags_Closed,
                        Stage::whole(s.stroke(2.2F)));
  } else {
    // Shut: of clear plastic, so only its rim, its hinge and its latch show.
    s.draw->AddCircle(s.at(b.cx, b.cz), 1.06F * r, dark.u32(), 40, Stage::whole(s.stroke(1.2F)));
    s.draw->AddLine(s.at(b.cx + 1.02 * b.r, b.cz), s.at(b.cx + 1.16 * b.r, b.cz), dark.u32(),
                    Stage::whole(s.stroke(4.0F)));
  }
  s.draw->AddCircleFilled(hinge, s.stroke(3.0F), dark.u32(), 10);
}

}  // namespace

bool freezer_in_view(const machine::State& state) {
  const plant::PlantState& plant = state.plant;
  if (plant.fittings.hose == plant::HoseEnd::freezer) return true;
  // Without a hose it stays in view while it works on its charge, unless something is being drawn into the
  // pail.
  const bool works = plant.freezer.product.total_kg() > 0.0 || plant.freezer.running ||
                     plant.freezer.lid_open || plant.freezer.drain_open;
  return plant.fittings.hose == plant::HoseEnd::none && works && plant.flows.draw_L_per_min <= 0.0 &&
         plant.fittings.draw_opening_norm <= 0.0;
}

ImVec2 freezer_inlet_point(const Stage& s) {
  const Body b = body(s);
  return s.at(b.cx + 0.45 * b.r, b.top + 0.05 * s.plan.pail_h);
}

void draw_freezer(const Stage& s) {
  const Body b = body(s);
  const kit::Colour dark = s.colour(kit::Token::metal_dark);
  plate(s, s.box(b.x0, b.top, b.x1, b.bottom), s.colour(kit::Token::metal_light), dark, s.stroke(4.0F),
        s.stroke(2.2F));
  const ImVec2 c = s.at(b.cx, b.cz);
  const float r = s.len(b.r);
  // Refrigerant round the wall while the unit runs.
  if (s.plant().freezer.refrigeration_W > 1.0)
    s.draw->AddCircle(c, r + s.stroke(4.0F), s.colour(kit::Token::cold).u32(), 40,
                      Stage::whole(s.stroke(4.0F)));
  s.draw->AddCircleFilled(
      c, r, mix(s.colour(kit::Token::panel), s.colour(kit::Token::metal_light), 0.3F).u32(), 40);
  draw_contents(s, c, r);
  draw_dasher(s, c, r);
  s.draw->AddCircle(c, r, dark.u32(), 40, Stage::whole(s.stroke(2.6F)));
  draw_drain_and_lid(s, b);
  draw_gate(s, b);
  // Inlet: a stub on the top, its flap across it when shut, upright when open.
  const double x = b.cx + 0.45 * b.r;
  const double w = 0.16 * b.r;
  plate(s, s.box(x - w, b.top + 0.06 * s.plan.pail_h, x + w, b.top), s.colour(kit::Token::metal), dark, 0.0F,
        s.stroke(1.8F));
  const bool open = s.plant().freezer.inlet_open;
  const ImVec2 hinge = s.at(x + w, b.top + 0.06 * s.plan.pail_h);
  const ImVec2 end =
      open ? s.at(x + w, b.top + 0.06 * s.plan.pail_h + 2.0 * w) : s.at(x - w, b.top + 0.06 * s.plan.pail_h);
  s.draw->AddLine(hinge, end, dark.u32(), Stage::whole(s.stroke(4.0F)));
}

}  // namespace stirbench::desk::views::machine_view
