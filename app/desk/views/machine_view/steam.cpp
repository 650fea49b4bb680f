#include <algorithm>
#include <array>
#include <cmath>

#include "app/desk/views/machine_view/stage.h"

// Vapour above the machine, product over the rim and on the floor.
namespace stirbench::desk::views::machine_view {

namespace {

void wisp(const Stage& s, ImVec2 foot, float height, float alpha, std::uint32_t which) {
  constexpr std::size_t points = 14;
  std::array<ImVec2, points> line;
  const float clock = s.ui.reduced_motion ? 0.0F : static_cast<float>(s.motion.steam_s);
  const float phase = 6.2832F * scatter(which, 40);
  for (std::size_t i = 0; i < points; ++i) {
    const float t = static_cast<float>(i) / static_cast<float>(points - 1);
    const float sway = s.stroke(7.0F) * t * std::sin(5.5F * t + phase - 2.2F * clock) +
                       s.stroke(4.0F) * t * std::sin(1.3F * clock + phase);
    line[i] = {foot.x + sway, foot.y - height * t};
  }
  // A soft ribbon: full in its middle, nothing at its edges, thinner and fainter on its way up.
  const kit::Colour ink = s.colour(kit::Token::ink2);
  const float half = s.stroke(3.6F);
  for (std::size_t i = 0; i + 1 < points; ++i) {
    const auto at_point = [&](std::size_t k, float side, float& strength) {
      const float t = static_cast<float>(k) / static_cast<float>(points - 1);
      strength = alpha * std::min(1.0F, 5.0F * t + 0.15F) * (1.0F - t);
      return ImVec2{line[k].x + side * half * (0.7F + 0.6F * t), line[k].y};
    };
    float lower = 0.0F;
    float upper = 0.0F;
    for (const float side : {-1.0F, 1.0F}) {
      const ImVec2 a = at_point(i, side, lower);
      const ImVec2 b = at_point(i + 1, side, upper);
      const ImVec2 corner[4] = {line[i], a, b, line[i + 1]};
      const ImU32 clear = ink.faded(0.0F).u32();
      shaded_quad(s.draw, corner, {ink.faded(lower).u32(), clear, clear, ink.faded(upper).u32()});
    }
  }
}

}  // namespace

void draw_steam(const Stage& s) {
  const double steam = s.plant().flows.steam_kg_per_h;
  if (steam < 0.02) return;
  const double R = s.vessel.vat_radius_m();
  const float alpha = static_cast<float>(std::clamp(0.24 + 0.20 * std::sqrt(steam), 0.24, 0.62));
  const auto height = s.len(std::clamp(0.30 + 0.22 * std::sqrt(steam), 0.3, 0.85) * R);
  const bool open = s.plant().fittings.lid_open;
  const int count = std::clamp(1 + static_cast<int>(2.0 * std::sqrt(steam)), 1, 6);
  for (int i = 0; i < count; ++i) {
    const auto n = static_cast<std::uint32_t>(i);
    if (open) {
      const double x = R * (0.05 + 0.80 * (i + 0.5) / count);
      wisp(s, s.at(x, std::max(s.surface_m(x), 0.0) + 0.10 * R), height * (0.8F + 0.4F * scatter(n, 41)),
           alpha, n);
    } else {
      // Through the seam of the lid, at both edges.
      const double side = i % 2 == 0 ? 1.0 : -1.0;
      const int pair = i / 2;
      const double x = side * (1.12 + 0.05 * pair) * R;
      wisp(s, s.at(x, s.plan.rim + 0.09 * R), height * 0.62F, alpha * 0.85F, n);
    }
  }
}

void draw_spill(const Stage& s) {
  const double R = s.vessel.vat_radius_m();
  const plant::Flows& flows = s.plant().flows;
  const kit::Colour content =
      s.has_product() ? colour_at(s, s.level_m()) : kit::product_colour(s.plant().vat_degC);
  const kit::Colour edge = mix(content, s.colour(kit::Token::sign_black), 0.40F);
  if (flows.spill_L_per_min > 0.0) {
    // Over the rim and down the outside, both sides: streams with a thick lower end.
    for (const double side : {-1.0, 1.0}) {
      for (int i = 0; i < 2; ++i) {
        const auto n = static_cast<std::uint32_t>(i) + (side > 0 ? 50U : 60U);
        const double x = side * (1.045 * R + 0.055 * R * i);
        const double wave =
            s.ui.reduced_motion ? 0.0 : 0.06 * R * std::sin(2.0 * s.motion.steam_s + 6.28 * scatter(n, 51));
        const double end = s.plan.housing_top + 0.02 * R + (0.10 + 0.25 * scatter(n, 52)) * R + wave;
        const ImVec2 a = s.at(side * 1.0 * R, s.plan.rim + 0.01 * R);
        const ImVec2 b = s.at(x, s.plan.rim - 0.04 * R);
        const ImVec2 c = s.at(x, i == 0 ? s.plan.housing_top : end);
        const std::array<ImVec2, 3> line{a, b, c};
        chain(s, line, edge, s.stroke(8.0F));
        chain(s, line, content, s.stroke(5.5F));
        s.draw->AddCircleFilled(c, s.stroke(4.6F), content.u32(), 12);
      }
    }
  }
  const double floor_kg = s.plant().floor_kg;
  if (floor_kg > 0.005) {
    // A pool in front of the machine that grows with what lies there.
    const double half = std::clamp(0.16 + 0.32 * std::sqrt(floor_kg), 0.16, 1.0) * R;
    const ImVec2 c = s.at(0.75 * s.plan.housing_half, s.plan.floor - 0.055 * R);
    constexpr int pieces = 36;
    std::array<ImVec2, pieces> pool;
    for (std::size_t i = 0; i < pieces; ++i) {
      const double a = 6.283185307 * static_cast<double>(i) / pieces;
      const double uneven = 1.0 + 0.06 * std::sin(3.0 * a + 1.0) + 0.04 * std::sin(5.0 * a);
      pool[i] = {c.x + s.len(half * uneven) * static_cast<float>(std::cos(a)),
                 c.y + s.len(0.055 * R * uneven) * static_cast<float>(std::sin(a))};
    }
    s.draw->AddConvexPolyFilled(pool.data(), pieces, content.u32());
    chain(s, pool, edge, s.stroke(1.6F), true);
  }
}

}  // namespace stirbench::desk::views::machine_view
