#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "app/desk/views/machine_view/stage.h"

// The product: body with its colours, surface with the dip, what floats in it and lies under it, foam and
// flow.
namespace stirbench::desk::views::machine_view {

namespace {

using std::numbers::pi;
constexpr int ramp_steps = 6;

struct Ramp {
  std::array<double, ramp_steps + 1> z{};
  std::array<ImU32, ramp_steps + 1> colour{};
};

// Heights and colours from the mouth of the well down to its bottom.
Ramp well_ramp(const Stage& s) {
  Ramp ramp;
  for (std::size_t i = 0; i <= ramp_steps; ++i) {
    ramp.z[i] = -s.vessel.well_depth_m() * static_cast<double>(i) / ramp_steps;
    ramp.colour[i] = colour_at(s, ramp.z[i]).u32();
  }
  return ramp;
}

void column_over_well(const Stage& s, const Ramp& ramp, double x0, double x1) {
  const double top0 = s.surface_m(x0);
  const double top1 = s.surface_m(x1);
  const double floor0 = s.vessel.floor_m(std::abs(x0));
  const double floor1 = s.vessel.floor_m(std::abs(x1));
  const double top = std::min(top0, top1);
  if (top <= std::max(floor0, floor1)) return;
  const ImU32 first = top > 0.0 ? ramp.colour[0] : colour_at(s, top).u32();
  double z0 = top0;
  double z1 = top1;
  ImU32 above = first;
  for (std::size_t i = top > 0.0 ? 0 : 1; i <= ramp_steps; ++i) {
    const double next0 = std::max(ramp.z[i], floor0);
    const double next1 = std::max(ramp.z[i], floor1);
    if (next0 >= z0 || next1 >= z1) continue;
    const ImVec2 corner[4] = {s.at(x0, z0), s.at(x1, z1), s.at(x1, next1), s.at(x0, next0)};
    shaded_quad(s.draw, corner, {above, above, ramp.colour[i], ramp.colour[i]});
    z0 = next0;
    z1 = next1;
    above = ramp.colour[i];
  }
}

// Vat beside the mouth of the well, over the shoulder.
void columns_over_shoulder(const Stage& s, ImU32 colour, double side) {
  const double inner = s.vessel.well_radius_m();
  const double outer = s.vessel.radius_m(s.level_m());
  constexpr int columns = 12;
  for (int i = 0; i < columns && outer > inner; ++i) {
    // Narrow columns at the wall, where the shoulder is steep.
    const auto place = [&](int k) { return inner + (outer - inner) * std::sin(pi / 2.0 * k / columns); };
    const double r0 = place(i);
    const double r1 = place(i + 1);
    const double floor0 = i == 0 ? 0.0 : s.vessel.floor_m(r0);
    const double floor1 =
        i + 1 == columns ? std::min(s.vessel.floor_m(r1), s.surface_m(r1)) : s.vessel.floor_m(r1);
    const ImVec2 corner[4] = {s.at(side * r0, std::max(s.surface_m(r0), floor0)),
                              s.at(side * r1, std::max(s.surface_m(r1), floor1)), s.at(side * r1, floor1),
                              s.at(side * r0, floor0)};
    shaded_quad(s.draw, corner, {colour, colour, colour, colour});
  }
}

// A point of the vat's circulation: up near the shaft, outwards under the surface, down the wall, back over
// the shoulder.
std::vector<ImVec2> vat_round(const Stage& s, double side) {
  const double R = s.vessel.vat_radius_m();
  const double top = s.level_m() - 0.14 * R;
  const double bottom = std::max(s.vessel.shoulder_m() * 0.75, 0.10 * R);
  const double in = s.plan.blade_r + 0.02 * R;
  const double out = std::max(R - 0.09 * R, in);
  std::vector<ImVec2> points;
  const ImVec2 a = s.at(side * in * 0.62, bottom * 0.6);
  const ImVec2 b = s.at(side * out, bottom * 0.9);
  const ImVec2 c = s.at(side * out, top);
  const ImVec2 d = s.at(side * R * 0.34, top);
  constexpr int pieces = 24;
  for (int i = 0; i <= pieces; ++i) {
    const float t = static_cast<float>(i) / pieces;
    const float u = 1.0F - t;
    points.emplace_back(u * u * u * a.x + 3 * u * u * t * b.x + 3 * u * t * t * c.x + t * t * t * d.x,
                        u * u * u * a.y + 3 * u * u * t * b.y + 3 * u * t * t * c.y + t * t * t * d.y);
  }
  return points;
}

// What has sunk: a heap of grains on the floor of the well, higher with its mass and never too low to be
// seen.
void draw_heap(const Stage& s, double sunk_kg) {
  if (sunk_kg < 0.01) return;
  const Vessel& v = s.vessel;
  const double R = v.vat_radius_m();
  const double height = std::clamp(0.025 + 0.018 * sunk_kg, 0.025, 0.14) * R;
  const double reach = v.well_radius_m() * 0.93;
  constexpr int pieces = 26;
  std::array<ImVec2, pieces + 1> crest;
  const kit::Colour dark = s.colour(kit::Token::sign_black);
  const ImU32 grain = mix({255, 255, 255}, dark, 0.06F).u32();
  const auto crest_z = [&](int i) {
    const double x = 2.0 * i / pieces - 1.0;
    const double uneven = 0.12 * std::sin(9.0 * x + 1.0) + 0.08 * std::sin(23.0 * x);
    const double floor = v.floor_m(reach * x);
    return std::max(-v.well_depth_m() + height * (1.0 - 0.35 * x * x + uneven), floor);
  };
  for (int i = 0; i <= pieces; ++i)
    crest[static_cast<std::size_t>(i)] = s.at(reach * (2.0 * i / pieces - 1.0), crest_z(i));
  for (int i = 0; i < pieces; ++i) {
    const double x0 = reach * (2.0 * i / pieces - 1.0);
    const double x1 = reach * (2.0 * (i + 1) / pieces - 1.0);
    const ImVec2 corner[4] = {crest[static_cast<std::size_t>(i)], crest[static_cast<std::size_t>(i) + 1],
                              s.at(x1, v.floor_m(x1)), s.at(x0, v.floor_m(x0))};
    shaded_quad(s.draw, corner, {grain, grain, grain, grain});
  }
  chain(s, crest, dark.faded(0.55F), s.stroke(1.3F));
  const auto dots = static_cast<std::uint32_t>(20.0 + 60.0 * height / R / 0.14);
  for (std::uint32_t i = 0; i < dots; ++i) {
    const double x = reach * 0.9 * (2.0 * scatter(i, 11) - 1.0);
    const double z = -v.well_depth_m() + height * 0.62 * scatter(i, 12) + 0.006 * R;
    if (z < v.floor_m(x) + 0.005 * R) continue;
    const ImVec2 c = s.at(x, z);
    const float half = s.stroke(0.9F);
    s.draw->AddRectFilled({c.x - half, c.y - half}, {c.x + half, c.y + half}, dark.faded(0.38F).u32());
  }
}

}  // namespace

void draw_product(const Stage& s) {
  if (!s.has_product()) return;
  const Ramp ramp = well_ramp(s);
  const double level = s.level_m();
  const double reach = std::min(s.vessel.radius_m(level), s.vessel.well_radius_m());
  constexpr int columns = 20;
  for (int i = 0; i < columns; ++i) {
    const double from = reach * std::sin(pi / 2.0 * (2.0 * i / columns - 1.0));
    const double to = reach * std::sin(pi / 2.0 * (2.0 * (i + 1) / columns - 1.0));
    column_over_well(s, ramp, from, to);
  }
  if (level > 0.0) {
    for (const double side : {-1.0, 1.0}) columns_over_shoulder(s, ramp.colour[0], side);
  }
  // Surface: a darker skin line.
  std::array<ImVec2, 33> skin;
  const double R = s.vessel.radius_m(level);
  for (std::size_t i = 0; i < skin.size(); ++i) {
    const double x = R * (2.0 * static_cast<double>(i) / static_cast<double>(skin.size() - 1) - 1.0);
    skin[i] = s.at(x, s.surface_m(x));
  }
  chain(s, skin, mix(colour_at(s, level), s.colour(kit::Token::sign_black), 0.38F), s.stroke(2.0F));
}

void draw_vat_flow(const Stage& s) {
  const plant::Flows& flows = s.plant().flows;
  const double R = s.vessel.vat_radius_m();
  if (flows.circulation_L_per_min < 0.5 || s.level_m() < s.vessel.shoulder_m() + 0.25 * R) return;
  const kit::Colour ink = mix(colour_at(s, 0.1), s.colour(kit::Token::sign_black), 0.42F);
  for (const double side : {-1.0, 1.0}) {
    const std::vector<ImVec2> path = vat_round(s, side);
    if (s.ui.reduced_motion) {
      chain(s, path, ink, s.stroke(2.0F));
      arrow_head(s, path.back(), path[path.size() - 3], ink, s.stroke(9.0F));
      continue;
    }
    arrow_head(s, path.back(), path[path.size() - 4], ink, s.stroke(8.0F));
    const float length = chain_length(path) - s.stroke(4.0F);
    constexpr int dashes = 5;
    for (int i = 0; i < dashes; ++i) {
      const float share = (static_cast<float>(i) + static_cast<float>(s.motion.flow_m)) / dashes;
      const float way = share * length;
      const float dash = std::min(s.stroke(17.0F), length - way);
      const std::array<ImVec2, 3> piece{along(path, way), along(path, way + dash * 0.5F),
                                        along(path, way + dash)};
      // Dashes come and go softly at the ends of their way.
      const float fade = std::min({1.0F, share * 6.0F, (1.0F - share) * 6.0F});
      chain(s, piece, ink.faded(fade * 0.9F), s.stroke(2.2F));
    }
  }
}

void draw_solids(const Stage& s) {
  const product::Product& product = s.plant().product;
  const Vessel& v = s.vessel;
  const double level = s.level_m();
  const double R = v.vat_radius_m();
  const auto turn = static_cast<float>(s.motion.agitator_rad);
  // Crystals: small bright squares carried round by the flow.
  const int crystals = std::min(static_cast<int>(std::ceil(product.undissolved_sugar_kg * 14.0)), 70);
  const kit::Colour crystal = mix(colour_at(s, 0.0), {255, 255, 255}, 0.85F);
  const kit::Colour dark = s.colour(kit::Token::sign_black);
  for (int i = 0; i < crystals; ++i) {
    const auto n = static_cast<std::uint32_t>(i);
    const double z = (level > 0.0 ? 0.02 * R : -v.well_depth_m() * 0.9) + (level - 0.03 * R) * scatter(n, 1);
    const double r = (v.radius_m(z) - 0.05 * R) * (0.25F + 0.75F * scatter(n, 2));
    const double x = r * std::cos(6.2832F * scatter(n, 3) + turn);
    if (z > s.surface_m(x) - 0.02 * R || z < v.floor_m(x) + 0.02 * R) continue;
    const ImVec2 c = s.at(x, z);
    const float half = s.stroke(1.8F);
    s.draw->AddRectFilled({c.x - half, c.y - half}, {c.x + half, c.y + half}, crystal.u32());
    s.draw->AddRect({c.x - half, c.y - half}, {c.x + half, c.y + half}, dark.faded(0.4F).u32());
  }
  // Dry powder: flat heaps on the surface.
  const int heaps = std::min(static_cast<int>(std::ceil(product.dry_powder_kg * 9.0)), 14);
  for (int i = 0; i < heaps; ++i) {
    const auto n = static_cast<std::uint32_t>(i);
    const double x = v.radius_m(level) * 0.88 * (2.0 * scatter(n, 4) - 1.0);
    const ImVec2 c = s.at(x, s.surface_m(x));
    const float half = s.stroke(5.0F + 5.0F * scatter(n, 5));
    s.draw->PathArcTo(c, half, static_cast<float>(pi), static_cast<float>(2.0 * pi), 8);
    s.draw->PathFillConvex(mix(kit::product_colour(40.0), {255, 255, 255}, 0.55F).u32());
    s.draw->PathArcTo(c, half, static_cast<float>(pi), static_cast<float>(2.0 * pi), 8);
    s.draw->PathStroke(dark.faded(0.45F).u32(), 0, Stage::whole(s.stroke(1.0F)));
  }
  // Lumps of stabiliser: round, with an outline, just under the surface.
  const int lumps =
      product.gum_lumps_kg > 1e-4 ? std::min(3 + static_cast<int>(product.gum_lumps_kg * 150.0), 16) : 0;
  for (int i = 0; i < lumps; ++i) {
    const auto n = static_cast<std::uint32_t>(i);
    const double r = v.radius_m(level) * (0.3 + 0.6 * scatter(n, 6));
    const double x = r * std::cos(6.2832F * scatter(n, 7) + 0.5F * turn);
    const ImVec2 c = s.at(x, s.surface_m(x) - 0.035 * R - 0.10 * R * scatter(n, 8));
    s.draw->AddCircleFilled(c, s.stroke(4.5F),
                            mix(kit::product_colour(40.0), kit::product_colour(95.0), 0.3F).u32(), 12);
    s.draw->AddCircle(c, s.stroke(4.5F), dark.faded(0.7F).u32(), 12, Stage::whole(s.stroke(1.3F)));
  }
  // Burnt flakes.
  const int flakes = std::min(static_cast<int>(std::ceil(product.scorched_kg * 600.0)), 30);
  for (int i = 0; i < flakes; ++i) {
    const auto n = static_cast<std::uint32_t>(i);
    const double z = level * scatter(n, 9);
    const double x = (v.radius_m(z) - 0.04 * R) * std::cos(6.2832F * scatter(n, 10) + 0.8F * turn);
    if (level <= 0.0 || z > s.surface_m(x) - 0.02 * R || z < v.floor_m(x) + 0.02 * R) continue;
    const ImVec2 c = s.at(x, z);
    s.draw->AddTriangleFilled({c.x - s.stroke(2.5F), c.y}, {c.x + s.stroke(2.5F), c.y - s.stroke(1.5F)},
                              {c.x + s.stroke(1.0F), c.y + s.stroke(2.0F)},
                              mix(kit::product_colour(95.0), dark, 0.7F).u32());
  }
  draw_heap(s, product.sunk_sugar_kg + product.sunk_powder_kg);
}

void draw_foam(const Stage& s) {
  const double air = s.plant().product.air_norm;
  const bool boiling = s.plant().flows.spill_L_per_min > 0.0 && s.plant().well_degC > 90.0;
  if ((air < 0.004 && !boiling) || !s.has_product()) return;
  const double R = s.vessel.radius_m(s.level_m());
  const double layer =
      std::clamp(air * 0.6 * std::max(s.level_m(), 0.05), 0.0, 0.10 * R) + (boiling ? 0.10 * R : 0.0);
  const int bubbles = boiling ? 70 : 20 + std::min(static_cast<int>(air * 500.0), 50);
  const kit::Colour skin = mix(colour_at(s, s.level_m()), {255, 255, 255}, 0.65F);
  const kit::Colour edge = mix(colour_at(s, s.level_m()), s.colour(kit::Token::sign_black), 0.40F);
  for (int i = 0; i < bubbles; ++i) {
    const auto n = static_cast<std::uint32_t>(i);
    const double x = 0.97 * R * (2.0 * (i + 0.5) / bubbles - 1.0);
    const double swell = boiling ? 0.02 * R * std::sin(3.0 * s.motion.steam_s + 6.28 * scatter(n, 20)) : 0.0;
    const ImVec2 c = s.at(x, s.surface_m(x) + layer * scatter(n, 21) + swell);
    const float r = s.stroke(2.0F + 3.5F * scatter(n, 22)) * (boiling ? 1.4F : 1.0F);
    s.draw->AddCircleFilled(c, r, skin.u32(), 10);
    s.draw->AddCircle(c, r, edge.faded(0.6F).u32(), 10, Stage::whole(s.stroke(1.0F)));
  }
}

}  // namespace stirbench::desk::views::machine_view
