#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "app/desk/views/machine_view/stage.h"

// Housing, evaporator coils, the vat's wall and level marks.
namespace stirbench::desk::views::machine_view {

namespace {

// Outline of vat and well in pixels, from the left rim round to the right one, moved outwards by `out`
// metres.
std::vector<ImVec2> wall_outline(const Stage& s, double out) {
  const auto& profile = s.vessel.profile();
  std::vector<ImVec2> points;
  points.reserve(2 * profile.size() + 2);
  points.push_back(s.at(-profile.back().r_m - out, s.plan.rim));
  for (std::size_t i = profile.size(); i-- > 1;)
    points.push_back(s.at(-profile[i].r_m - out, profile[i].z_m));
  for (std::size_t i = 1; i < profile.size(); ++i)
    points.push_back(s.at(profile[i].r_m + out, profile[i].z_m));
  points.push_back(s.at(profile.back().r_m + out, s.plan.rim));
  return points;
}

int coil_count(const Stage& s) {
  const double room = s.plan.housing_top - s.vessel.shoulder_m() * 0.5;
  return std::clamp(static_cast<int>(room / (0.17 * s.vessel.vat_radius_m())), 2, 7);
}

ImVec2 coil_centre(const Stage& s, int index, int side) {
  const double R = s.vessel.vat_radius_m();
  const double top = s.plan.housing_top - 0.12 * R;
  const double bottom = s.vessel.shoulder_m() * 0.55;
  const double z = top + (bottom - top) * index / std::max(coil_count(s) - 1, 1);
  return s.at(side * (s.vessel.radius_m(std::max(z, 0.02 * R)) + 0.125 * R), z);
}

}  // namespace

void draw_housing(const Stage& s) {
  const Plan& p = s.plan;
  const double R = s.vessel.vat_radius_m();
  const kit::Colour edge = mix(s.colour(kit::Token::metal_dark), s.colour(kit::Token::metal_light), 0.25F);
  // Feet first, so that the housing stands on them.
  for (const double x : {-0.80, 0.68}) {
    const kit::Rect foot =
        s.box(x * p.housing_half, p.floor + 0.05 * R, (x + 0.12) * p.housing_half, p.floor);
    s.draw->AddRectFilled(foot.min(), foot.max(), s.colour(kit::Token::metal_dark).u32(), s.stroke(2.0F));
  }
  plate(s, s.box(-p.housing_half, p.housing_top, p.housing_half, p.floor + 0.045 * R),
        s.colour(kit::Token::metal_light), edge, s.stroke(9.0F), s.stroke(2.0F));
  // A quiet line divides the cold part of the housing from the drive's.
  const double shelf = -s.vessel.well_depth_m() - 0.30 * R;
  s.draw->AddLine(s.at(-p.housing_half, shelf), s.at(p.housing_half, shelf), edge.faded(0.35F).u32(),
                  Stage::whole(s.stroke(1.0F)));
}

void draw_coils(const Stage& s) {
  const plant::PlantState& plant = s.plant();
  const float radius = s.len(0.058 * s.vessel.vat_radius_m());
  const double below_room =
      std::clamp((plant.environment.ambient_degC - plant.evaporator_degC) / 25.0, 0.0, 1.0);
  const kit::Colour cold = kit::product_colour(0.0);
  const kit::Colour inside =
      mix(s.colour(kit::Token::panel), cold,
          static_cast<float>(plant.compressor_on ? std::max(below_room, 0.25) : 0.35 * below_room));
  const kit::Colour edge =
      mix(s.colour(kit::Token::metal_dark), s.colour(kit::Token::cold), plant.compressor_on ? 0.6F : 0.15F);
  const double frost = std::clamp(plant.wall_ice_kg / 0.4, 0.0, 1.0);
  for (const int side : {-1, 1}) {
    for (int i = 0; i < coil_count(s); ++i) {
      const ImVec2 centre = coil_centre(s, i, side);
      if (frost > 0.02) {
        // Rime: short needles all round, in ice colour with an outline so that it shows on white, too.
        const float reach = radius * static_cast<float>(1.35 + 0.35 * frost);
        for (int needle = 0; needle < 10; ++needle) {
          const float angle = static_cast<float>(needle) * 0.6283F + static_cast<float>(i);
          const ImVec2 tip{centre.x + reach * std::cos(angle), centre.y + reach * std::sin(angle)};
          s.draw->AddLine(centre, tip, mix(cold, s.colour(kit::Token::cold), 0.45F).u32(),
                          Stage::whole(s.stroke(1.6F)));
        }
      }
      s.draw->AddCircleFilled(centre, radius, inside.u32(), 12);
      s.draw->AddCircle(centre, radius, edge.u32(), 12, Stage::whole(s.stroke(2.0F)));
      // Refrigerant on its way: a dot in every coil while the compressor runs.
      if (plant.compressor_on) s.draw->AddCircleFilled(centre, radius * 0.32F, edge.u32(), 8);
    }
  }
}

void draw_vat_inside(const Stage& s) {
  // The empty room above the product: bright steel, so that product of any colour stands out in every theme.
  const auto& profile = s.vessel.profile();
  const kit::Colour inside = mix(s.colour(kit::Token::panel), s.colour(kit::Token::metal_light), 0.35F);
  for (std::size_t i = 1; i < profile.size(); ++i) {
    const ImVec2 corner[4] = {s.at(-profile[i].r_m, profile[i].z_m), s.at(profile[i].r_m, profile[i].z_m),
                              s.at(profile[i - 1].r_m, profile[i - 1].z_m),
                              s.at(-profile[i - 1].r_m, profile[i - 1].z_m)};
    const ImU32 colour = inside.u32();
    shaded_quad(s.draw, corner, {colour, colour, colour, colour});
  }
  const kit::Rect lip =
      s.box(-s.vessel.vat_radius_m(), s.plan.rim, s.vessel.vat_radius_m(), profile.back().z_m);
  s.draw->AddRectFilled(lip.min(), lip.max(), inside.u32());
}

void draw_vat_wall(const Stage& s) {
  const plant::PlantState& plant = s.plant();
  const double ice = std::clamp(plant.wall_ice_kg / 0.4, 0.0, 1.0);
  if (ice > 0.02) {
    // Ice on the inside of the cold wall, as high as the product stands.
    const double R = s.vessel.vat_radius_m();
    const double thick = (0.012 + 0.035 * ice) * R;
    const double top = std::min(s.level_m(), s.plan.housing_top);
    const double bottom = s.vessel.shoulder_m() * 0.7;
    if (top > bottom) {
      for (const double side : {-1.0, 1.0}) {
        const kit::Rect layer = s.box(side > 0 ? R - thick : -R, top, side > 0 ? R : thick - R, bottom);
        s.draw->AddRectFilled(layer.min(), layer.max(),
                              mix(kit::product_colour(0.0), {255, 255, 255}, 0.75F).u32());
        const float x = side > 0 ? layer.x : layer.right();
        s.draw->AddLine({x, layer.y}, {x, layer.bottom()}, s.colour(kit::Token::cold).faded(0.7F).u32(),
                        Stage::whole(s.stroke(1.0F)));
      }
    }
  }
  const std::vector<ImVec2> wall = wall_outline(s, 0.0025);
  chain(s, wall, s.colour(kit::Token::metal_dark), s.stroke(4.0F));
  // The rolled rim.
  for (const ImVec2& end : {wall.front(), wall.back()})
    s.draw->AddCircleFilled(end, s.stroke(3.6F), s.colour(kit::Token::metal_dark).u32(), 10);
}

void draw_levels(const Stage& s) {
  const double R = s.vessel.vat_radius_m();
  const auto mark = [&](double volume_L) {
    const double z = s.vessel.level_m(volume_L);
    const double r = s.vessel.radius_m(z);
    const bool under = z < s.level_m();
    const kit::Colour ink =
        under ? s.colour(kit::Token::sign_black).faded(0.65F) : s.colour(kit::Token::ink2);
    for (const double side : {-1.0, 1.0}) {
      s.draw->AddLine(s.at(side * r, z), s.at(side * (r - 0.10 * R), z), ink.u32(),
                      Stage::whole(s.stroke(2.0F)));
    }
    // Dashes across show where the surface should stand.
    constexpr int dashes = 24;
    for (int i = 2; i < dashes - 2; ++i) {
      const double from = -r + 2.0 * r * i / dashes;
      s.draw->AddLine(s.at(from, z), s.at(from + r / dashes, z), ink.faded(0.45F).u32(),
                      Stage::whole(s.stroke(1.0F)));
    }
  };
  if (s.machine.plant.vat.working_L > 0.0) mark(s.machine.plant.vat.working_L);
  if (s.machine.plant.vat.minimum_L > 0.0) mark(s.machine.plant.vat.minimum_L);
}

}  // namespace stirbench::desk::views::machine_view
