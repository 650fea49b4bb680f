#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "app/desk/views/machine_view/stage.h"

// Drive, shaft, sleeve with its cap, agitator on its two bushings, and the shaft cover.
namespace stirbench::desk::views::machine_view {

namespace {

using std::numbers::pi;
constexpr int blades = 3;
constexpr int strips = 7;

// A blade is an arched plate: highest at the hub, its tip low at the wall.
struct BladeEdge {
  double r;
  double top;
  double bottom;
};

std::array<BladeEdge, strips + 1> blade_shape(const Plan& p) {
  std::array<BladeEdge, strips + 1> edge{};
  const double h = p.blade_top - p.blade_bottom;
  for (std::size_t i = 0; i <= strips; ++i) {
    const double t = static_cast<double>(i) / strips;
    edge[i] = {p.hub_r * 0.9 + (p.blade_r - p.hub_r * 0.9) * t, p.blade_top - 0.80 * h * t * t,
               p.blade_top - h * (0.42 + 0.58 * std::pow(t, 1.4))};
  }
  return edge;
}

void draw_blade(const Stage& s, double angle, bool front) {
  const auto shape = blade_shape(s.plan);
  const double c = std::cos(angle);
  const double lean =
      0.10 * s.plan.blade_r * std::sin(angle);  // the plate is pitched: seen edge-on it still has a width
  const float facing = static_cast<float>(std::abs(c));
  kit::Colour face =
      mix(s.colour(kit::Token::metal), s.colour(kit::Token::metal_dark), 0.10F + 0.35F * (1.0F - facing));
  if (!front)
    face = mix(face, s.has_product() ? colour_at(s, s.plan.blade_top) : s.colour(kit::Token::metal_light),
               0.40F);
  const ImU32 fill = face.u32();
  std::array<ImVec2, 2 * (strips + 1)> outline;
  for (std::size_t i = 0; i <= strips; ++i) {
    const double grow = static_cast<double>(i) / strips;
    outline[i] = s.at(shape[i].r * c - lean * grow * 0.4, shape[i].top);
    outline[outline.size() - 1 - i] = s.at(shape[i].r * c + lean * (0.4 + 0.6 * grow), shape[i].bottom);
  }
  for (std::size_t i = 0; i < strips; ++i) {
    const ImVec2 corner[4] = {outline[i], outline[i + 1], outline[outline.size() - 2 - i],
                              outline[outline.size() - 1 - i]};
    shaded_quad(s.draw, corner, {fill, fill, fill, fill});
  }
  chain(s, outline, front ? s.colour(kit::Token::metal_dark) : s.colour(kit::Token::metal_dark).faded(0.55F),
        s.stroke(front ? 2.0F : 1.4F), true);
}

// Bushing in section: two blocks beside the shaft. Nylon is pale, bronze amber; a hot one glows towards
// orange-red, a worn one shows its gap.
void draw_bushing(const Stage& s, const plant::BushingSpec& spec, const plant::BushingState& state,
                  double z_top, double z_bottom, double inner, double outer) {
  const kit::Colour plain = spec.material == "bronze" ? mix(s.colour(kit::Token::sign_yellow),
                                                            s.colour(kit::Token::metal_dark), 0.35F)
                                                      : kit::Colour{244, 240, 226, 255};
  const double softening = spec.softening_degC > 40.0 ? spec.softening_degC : 90.0;
  const auto glow = static_cast<float>(
      std::clamp((state.temperature_degC - 0.75 * softening) / (0.4 * softening), 0.0, 1.0));
  const kit::Colour body = mix(plain, s.colour(kit::Token::element), glow);
  const double worn = spec.limit_mm > 0.0 ? std::clamp(state.play_mm / spec.limit_mm, 0.0, 1.5) : 0.0;
  const double gap = (outer - inner) * 0.4 * std::min(worn, 1.0);
  for (const double side : {-1.0, 1.0}) {
    const kit::Rect block =
        side > 0 ? s.box(inner + gap, z_top, outer, z_bottom) : s.box(-outer, z_top, -inner - gap, z_bottom);
    plate(s, block, body, s.colour(kit::Token::metal_dark), 0.0F, s.stroke(1.2F));
  }
}

void draw_motor(const Stage& s) {
  const Plan& p = s.plan;
  const double R = s.vessel.vat_radius_m();
  const double top = -s.vessel.well_depth_m() - 0.36 * R;
  const kit::Rect motor = s.box(-0.24 * R, top, 0.24 * R, p.floor + 0.10 * R);
  const kit::Colour body = mix(s.colour(kit::Token::metal), s.colour(kit::Token::metal_dark), 0.16F);
  plate(s, motor, body, s.colour(kit::Token::metal_dark), s.stroke(5.0F), s.stroke(2.0F));
  for (int rib = 1; rib < 5; ++rib) {
    const float y = motor.y + motor.h * static_cast<float>(rib) / 5.0F;
    s.draw->AddLine({motor.x + s.stroke(6.0F), y}, {motor.right() - s.stroke(6.0F), y},
                    s.colour(kit::Token::metal_dark).faded(0.45F).u32(), Stage::whole(s.stroke(1.5F)));
  }
  // Coupling between motor and shaft: its pins travel while it turns.
  const kit::Rect coupling = s.box(-0.10 * R, -s.vessel.well_depth_m() - 0.27 * R, 0.10 * R, top);
  plate(s, coupling, s.colour(kit::Token::metal), s.colour(kit::Token::metal_dark), s.stroke(2.0F),
        s.stroke(1.5F));
  for (int pin = 0; pin < 4; ++pin) {
    const double angle = s.motion.agitator_rad + pin * pi / 2.0;
    if (std::sin(angle) < 0.0) continue;
    const ImVec2 c = s.at(0.085 * R * std::cos(angle), top + 0.045 * R);
    s.draw->AddCircleFilled(c, s.stroke(2.0F), s.colour(kit::Token::metal_dark).u32(), 8);
  }
}

}  // namespace

bool is_worn(const plant::BushingSpec& spec, const plant::BushingState& bushing,
             const plant::PlantState& plant) {
  return (spec.limit_mm > 0.0 && bushing.play_mm > 0.5 * spec.limit_mm) || is_running_hot(bushing, plant);
}

// Hotter than what surrounds it: the heat is its own friction, not the product's.
bool is_running_hot(const plant::BushingState& bushing, const plant::PlantState& plant) {
  constexpr double friction_K = 4.0;
  return bushing.temperature_degC >
         std::max({plant.vat_degC, plant.well_degC, plant.environment.ambient_degC}) + friction_K;
}

void draw_drive(const Stage& s) {
  draw_motor(s);
  const Plan& p = s.plan;
  const double depth = s.vessel.well_depth_m();
  const double R = s.vessel.vat_radius_m();
  // Shaft below the well, then the sleeve that stands on the well's floor round it.
  const kit::Colour steel = s.colour(kit::Token::metal);
  plate(s, s.box(-p.shaft_r, -depth, p.shaft_r, -depth - 0.28 * R),
        mix(steel, s.colour(kit::Token::metal_dark), 0.30F), s.colour(kit::Token::metal_dark), 0.0F,
        s.stroke(1.3F));
  plate(s, s.box(-p.sleeve_r, p.blade_bottom + 0.16 * R, p.sleeve_r, -depth),
        mix(steel, s.colour(kit::Token::metal_light), 0.45F), s.colour(kit::Token::metal_dark), 0.0F,
        s.stroke(1.6F));
  // Cut open: the shaft shows inside the sleeve.
  plate(s, s.box(-p.shaft_r, p.blade_bottom + 0.16 * R, p.shaft_r, -depth),
        mix(steel, s.colour(kit::Token::metal_dark), 0.30F), s.colour(kit::Token::metal_dark), 0.0F,
        s.stroke(1.0F));
}

void draw_agitator(const Stage& s) {
  const Plan& p = s.plan;
  const double R = s.vessel.vat_radius_m();
  std::array<double, blades> angle{};
  for (std::size_t i = 0; i < blades; ++i)
    angle[i] = s.motion.agitator_rad + 2.0 * pi * static_cast<double>(i) / blades + 0.35;
  for (const double a : angle) {
    if (std::sin(a) < 0.0) draw_blade(s, a, false);
  }
  for (const double a : angle) {
    if (std::sin(a) >= 0.0) draw_blade(s, a, true);
  }
  // Hub in section, before the blades as in any cutaway: the outer body, the bore with the shaft's end, the
  // cap that closes the sleeve, and the two bushings.
  const double top = p.blade_top + 0.10 * R;
  const double foot = p.blade_bottom + 0.02 * R;
  const double cap = p.blade_bottom + 0.16 * R;
  const kit::Colour steel = s.colour(kit::Token::metal);
  const kit::Colour dark = s.colour(kit::Token::metal_dark);
  plate(s, s.box(-p.hub_r, top, p.hub_r, foot), mix(steel, dark, 0.12F), dark, s.stroke(3.0F),
        s.stroke(2.0F));
  const double end = top - 0.05 * R;
  plate(s, s.box(-p.shaft_r * 1.15, end, p.shaft_r * 1.15, cap), mix(steel, dark, 0.38F), dark,
        s.stroke(2.0F), s.stroke(1.2F));
  const kit::Rect sleeve = s.box(-p.sleeve_r, cap, p.sleeve_r, foot - 0.005 * R);
  plate(s, sleeve, mix(steel, s.colour(kit::Token::metal_light), 0.45F), dark, 0.0F, s.stroke(1.2F));
  plate(s, s.box(-p.sleeve_r * 1.12, cap + 0.035 * R, p.sleeve_r * 1.12, cap - 0.015 * R),
        mix(steel, dark, 0.62F), dark, s.stroke(1.5F), s.stroke(1.2F));
  const plant::PlantState& plant = s.plant();
  draw_bushing(s, s.machine.plant.shaft_end_bushing, plant.shaft_end_bushing, end - 0.02 * R, end - 0.11 * R,
               p.shaft_r * 1.15, p.hub_r * 0.86);
  draw_bushing(s, s.machine.plant.agitator_bushing, plant.agitator_bushing, foot + 0.085 * R,
               foot + 0.005 * R, p.sleeve_r, p.hub_r * 0.97);
  // Still arrow where motion must not explain.
  if (s.ui.reduced_motion && plant.flows.agitator_rpm > 0.5) {
    std::array<ImVec2, 12> arc;
    for (std::size_t i = 0; i < arc.size(); ++i) {
      const double a = pi * (0.15 + 0.75 * static_cast<double>(i) / 11.0);
      arc[i] = s.at(0.30 * R * std::cos(a), top + 0.06 * R + 0.09 * R * std::sin(a));
    }
    const kit::Colour ink = s.colour(kit::Token::sign_black).faded(0.8F);
    chain(s, arc, ink, s.stroke(2.2F));
    arrow_head(s, s.at(0.30 * R * std::cos(pi * 0.97), top + 0.06 * R), arc[9], ink, s.stroke(9.0F));
  }
}

kit::Rect cover_rect(const Stage& s) {
  const double R = s.vessel.vat_radius_m();
  const double top = -s.vessel.well_depth_m() - 0.33 * R;
  return s.box(-s.plan.housing_half - 0.02 * R, top, -s.plan.housing_half + 0.34 * R,
               s.plan.floor + 0.10 * R);
}

// The door to the turning shaft: a plate at the side of the drive room, hinged at its lower edge, with a
// roller switch at its upper one.
void draw_shaft_cover(const Stage& s) {
  const double R = s.vessel.vat_radius_m();
  const double x = -s.plan.housing_half;
  const double bottom = s.plan.floor + 0.12 * R;
  const double height = -s.vessel.well_depth_m() - 0.36 * R - bottom;
  const float open = smooth(static_cast<float>(s.motion.cover_norm));
  // The opening behind the plate.
  const kit::Rect hole = s.box(x - 0.012 * R, bottom + height, x + 0.03 * R, bottom);
  s.draw->AddRectFilled(
      hole.min(), hole.max(),
      mix(s.colour(kit::Token::metal_light), s.colour(kit::Token::metal_dark), 0.55F * open + 0.1F).u32());
  const double angle = 0.95 * static_cast<double>(open);
  const ImVec2 hinge = s.at(x - 0.01 * R, bottom);
  const ImVec2 tip = s.at(x - 0.01 * R - std::sin(angle) * height, bottom + std::cos(angle) * height);
  const bool is_open = s.plant().fittings.shaft_cover_open;
  s.draw->AddLine(hinge, tip, s.colour(kit::Token::metal_dark).u32(), Stage::whole(s.stroke(6.0F)));
  s.draw->AddLine(hinge, tip, (is_open ? s.colour(kit::Token::bad) : s.colour(kit::Token::metal)).u32(),
                  Stage::whole(s.stroke(2.6F)));
  s.draw->AddCircleFilled(hinge, s.stroke(3.4F), s.colour(kit::Token::metal_dark).u32(), 10);
  // Switch: its plunger is in while the plate presses on it, out when not.
  const kit::Rect body = s.box(x + 0.05 * R, bottom + height, x + 0.15 * R, bottom + height - 0.11 * R);
  plate(s, body, is_open ? s.colour(kit::Token::panel) : s.colour(kit::Token::metal_dark),
        is_open ? s.colour(kit::Token::bad) : s.colour(kit::Token::metal_dark), s.stroke(2.0F),
        s.stroke(1.6F));
  const float reach = s.len(is_open ? 0.065 * R : 0.035 * R);
  s.draw->AddRectFilled({body.x - reach, body.centre().y - s.stroke(2.0F)},
                        {body.x, body.centre().y + s.stroke(2.0F)}, s.colour(kit::Token::metal_dark).u32());
}

}  // namespace stirbench::desk::views::machine_view
