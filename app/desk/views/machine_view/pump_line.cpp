#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "app/desk/views/machine_view/stage.h"

// Circulation loop with its pump, the draw line with its valve, and what stands under it.
namespace stirbench::desk::views::machine_view {

namespace {

using std::numbers::pi;
constexpr double handle_span_rad = 1.30;  // handle from shut (upright) to fully pulled
constexpr double pail_volume_L = 10.0;    // a usual kitchen pail; it is drawn smaller than to scale

double pipe_m(const Stage& s) { return 0.055 * s.vessel.vat_radius_m(); }

// A pipe: dark outline, then its content (product or air).
void pipe(const Stage& s, std::span<const ImVec2> points, kit::Colour content, double width_m) {
  chain(s, points, s.colour(kit::Token::metal_dark), s.len(width_m) + s.stroke(4.0F));
  chain(s, points, content, s.len(width_m));
}

std::vector<ImVec2> suction(const Stage& s) {
  return {s.at(s.vessel.well_radius_m() - 0.01, s.plan.pump_z), s.at(s.plan.pump_x, s.plan.pump_z)};
}

std::vector<ImVec2> riser(const Stage& s) {
  return {s.at(s.plan.pump_x, s.plan.pump_z), s.at(s.plan.pump_x, s.plan.return_z + 0.008)};
}

std::vector<ImVec2> draw_line(const Stage& s) {
  const double elbow = s.plan.housing_half - 0.14 * s.vessel.vat_radius_m();
  return {s.at(s.plan.pump_x, s.plan.pump_z), s.at(elbow, s.plan.pump_z), s.at(elbow, s.plan.valve_z),
          s.at(s.plan.valve_x, s.plan.valve_z)};
}

void particles(const Stage& s, std::span<const ImVec2> path, double phase, float spacing,
               kit::Colour colour) {
  const float length = chain_length(path);
  const int count = std::max(static_cast<int>(length / spacing), 1);
  for (int i = 0; i < count; ++i) {
    const float way =
        (static_cast<float>(i) + static_cast<float>(phase)) / static_cast<float>(count) * length;
    s.draw->AddCircleFilled(along(path, way), s.stroke(2.1F), colour.u32(), 6);
  }
}

bool product_in_loop(const Stage& s) { return s.has_product() && s.level_m() > s.plan.pump_z; }

void draw_pump(const Stage& s) {
  const ImVec2 c = s.at(s.plan.pump_x, s.plan.pump_z);
  const float r = s.len(s.plan.pump_r);
  s.draw->AddCircleFilled(
      c, r, mix(s.colour(kit::Token::metal_light), s.colour(kit::Token::panel), 0.4F).u32(), 24);
  s.draw->AddCircle(c, r, s.colour(kit::Token::metal_dark).u32(), 24, Stage::whole(s.stroke(2.6F)));
  // Rotor: three lobes that turn with the agitator's shaft.
  for (int lobe = 0; lobe < 3; ++lobe) {
    const auto angle = static_cast<float>(-s.motion.agitator_rad + lobe * 2.0 * pi / 3.0);
    const ImVec2 tip{c.x + 0.62F * r * std::cos(angle), c.y + 0.62F * r * std::sin(angle)};
    s.draw->AddLine(c, tip, s.colour(kit::Token::metal_dark).u32(), Stage::whole(s.stroke(4.0F)));
  }
  s.draw->AddCircleFilled(c, r * 0.2F, s.colour(kit::Token::metal_dark).u32(), 10);
  if (s.ui.reduced_motion && s.plant().flows.circulation_L_per_min > 0.5) {
    arrow_head(s, {c.x + r * 0.95F, c.y}, {c.x, c.y}, s.colour(kit::Token::metal_dark), r * 0.7F);
  }
}

// Half width of the jet [m]: as wide as the flow is strong.
double jet_half_m(const Stage& s) {
  return std::clamp(0.008 + 0.035 * s.plant().flows.draw_L_per_min / 20.0, 0.008, 0.04) *
         s.vessel.vat_radius_m();
}

void draw_jet(const Stage& s, double down_to_m) {
  const kit::Colour content = kit::product_colour(s.plant().well_degC);
  const double half = jet_half_m(s);
  const kit::Rect jet = s.box(s.plan.valve_x - half, s.plan.valve_z - 0.13 * s.vessel.vat_radius_m(),
                              s.plan.valve_x + half, down_to_m);
  s.draw->AddRectFilled(jet.min(), jet.max(), content.u32());
  s.draw->AddRect(jet.min(), jet.max(), mix(content, s.colour(kit::Token::sign_black), 0.35F).u32(), 0.0F, 0,
                  Stage::whole(s.stroke(1.0F)));
}

void draw_pail(const Stage& s, bool jet) {
  const Plan& p = s.plan;
  const double x = p.valve_x;
  const double floor = p.floor;
  const double held_L =
      s.plant().pail.total_kg() / std::max(s.plant().coefficients.density_kg_per_m3, 500.0) * 1000.0;
  const double share = std::clamp(held_L / pail_volume_L, 0.0, 1.0);
  const auto radius = [&](double up) { return p.pail_bottom_r + (p.pail_top_r - p.pail_bottom_r) * up; };
  // Height for a share of a frustum's volume; few halvings are enough for a drawing.
  const auto volume = [&](double up) {
    const double a = p.pail_bottom_r;
    const double b = radius(up);
    return up * (a * a + a * b + b * b);
  };
  double low = 0.0;
  double high = 1.0;
  for (int i = 0; i < 16; ++i)
    (volume((low + high) / 2.0) < share * volume(1.0) ? low : high) = (low + high) / 2.0;
  const std::array<ImVec2, 4> body{
      s.at(x - p.pail_top_r, floor + p.pail_h), s.at(x - p.pail_bottom_r, floor + 0.01),
      s.at(x + p.pail_bottom_r, floor + 0.01), s.at(x + p.pail_top_r, floor + p.pail_h)};
  s.draw->AddConvexPolyFilled(body.data(), 4, s.colour(kit::Token::panel).u32());
  if (jet) draw_jet(s, floor + std::max(p.pail_h * low, 0.01));
  if (share > 0.0) {
    const kit::Colour content = kit::product_colour(s.plant().pail_degC);
    const double r = radius(low);
    const std::array<ImVec2, 4> fill{
        s.at(x - r, floor + p.pail_h * low), s.at(x - p.pail_bottom_r, floor + 0.01),
        s.at(x + p.pail_bottom_r, floor + 0.01), s.at(x + r, floor + p.pail_h * low)};
    s.draw->AddConvexPolyFilled(fill.data(), 4, content.u32());
    s.draw->AddLine(fill[0], fill[3], mix(content, s.colour(kit::Token::sign_black), 0.38F).u32(),
                    Stage::whole(s.stroke(2.0F)));
  }
  chain(s, body, s.colour(kit::Token::metal_dark), s.stroke(2.6F));
  s.draw->AddLine(s.at(x - p.pail_top_r - 0.008, floor + p.pail_h),
                  s.at(x - p.pail_top_r + 0.008, floor + p.pail_h), s.colour(kit::Token::metal_dark).u32(),
                  Stage::whole(s.stroke(4.0F)));
  s.draw->AddLine(s.at(x + p.pail_top_r - 0.008, floor + p.pail_h),
                  s.at(x + p.pail_top_r + 0.008, floor + p.pail_h), s.colour(kit::Token::metal_dark).u32(),
                  Stage::whole(s.stroke(4.0F)));
}

// Drops that jump over the pail's rim: more of them for a stronger splash.
void draw_splash(const Stage& s) {
  const Plan& p = s.plan;
  const double share = std::clamp(s.plant().flows.splash_L_per_min / 0.3, 0.05, 1.0);
  const int drops = 3 + static_cast<int>(9.0 * share);
  const double clock = s.ui.reduced_motion ? 0.4 : s.motion.draw_m;
  for (int i = 0; i < drops; ++i) {
    const auto n = static_cast<std::uint32_t>(i);
    const double t = std::fmod(clock + static_cast<double>(scatter(n, 7)), 1.0);
    const double side = i % 2 == 0 ? 1.0 : -1.0;
    const double out = p.pail_top_r * (0.3 + (0.5 + 0.7 * static_cast<double>(scatter(n, 9))) * t);
    const double up = p.pail_h * (1.0 + (0.5 + 0.5 * share) * 4.0 * t * (1.0 - t) * 0.35);
    s.draw->AddCircleFilled(s.at(p.valve_x + side * out, p.floor + up), s.stroke(2.0F),
                            kit::product_colour(s.plant().well_degC).u32(), 6);
  }
}

// From the valve's spout down.
std::vector<ImVec2> hose_path(const Stage& s) {
  const Plan& p = s.plan;
  const bool freezer = s.plant().fittings.hose == plant::HoseEnd::freezer;
  const ImVec2 a = s.at(p.valve_x, p.valve_z - 0.10 * s.vessel.vat_radius_m());
  const ImVec2 d =
      freezer ? freezer_inlet_point(s) : s.at(p.valve_x + 0.2 * p.pail_bottom_r, p.floor + 0.35 * p.pail_h);
  const float sag = s.len(0.22 * s.vessel.vat_radius_m());
  const ImVec2 b{a.x - sag * 0.2F, a.y + sag};
  const ImVec2 e{d.x + sag * (freezer ? 0.4F : 0.1F), d.y - sag};
  std::vector<ImVec2> points;
  constexpr int pieces = 18;
  for (int i = 0; i <= pieces; ++i) {
    const float t = static_cast<float>(i) / pieces;
    const float u = 1.0F - t;
    points.emplace_back(u * u * u * a.x + 3 * u * u * t * b.x + 3 * u * t * t * e.x + t * t * t * d.x,
                        u * u * u * a.y + 3 * u * u * t * b.y + 3 * u * t * t * e.y + t * t * t * d.y);
  }
  return points;
}

}  // namespace

void draw_loop(const Stage& s) {
  const bool wet = product_in_loop(s);
  const plant::Flows& flows = s.plant().flows;
  const kit::Colour content = wet ? kit::product_colour(s.plant().well_degC)
                                  : mix(s.colour(kit::Token::panel), s.colour(kit::Token::metal_light), 0.5F);
  const kit::Colour dot = s.colour(kit::Token::sign_black).faded(0.62F);
  const double width = pipe_m(s);
  const auto line = draw_line(s);
  const auto up = riser(s);
  const auto in = suction(s);
  pipe(s, line, content, width);
  pipe(s, up, content, width);
  pipe(s, in, content, width);
  if (wet && flows.circulation_L_per_min > 0.5) {
    if (s.ui.reduced_motion) {
      arrow_head(s, s.at(s.plan.pump_x, s.plan.return_z - 0.01), s.at(s.plan.pump_x, s.plan.pump_z), dot,
                 s.len(width));
    } else {
      particles(s, up, s.motion.flow_m, s.stroke(13.0F), dot);
      particles(s, in, s.motion.flow_m, s.stroke(13.0F), dot);
    }
  }
  // Air in the pump: bubbles in the suction line that say why nothing flows.
  if (s.plant().prime_norm < 0.9) {
    for (std::uint32_t i = 0; i < 4; ++i) {
      const ImVec2 c = along(in, chain_length(in) * (0.15F + 0.25F * static_cast<float>(i)));
      s.draw->AddCircle(c, s.stroke(2.2F), s.colour(kit::Token::metal_dark).u32(), 8,
                        Stage::whole(s.stroke(1.2F)));
    }
  }
  if (wet && flows.draw_L_per_min > 0.05 && !s.ui.reduced_motion)
    particles(s, line, s.motion.draw_m, s.stroke(13.0F), dot);
  draw_pump(s);
}

ImVec2 valve_pivot(const Stage& s) {
  return s.at(s.plan.valve_x, s.plan.valve_z + 0.14 * s.vessel.vat_radius_m());
}

double opening_of_handle(const Stage& s, ImVec2 mouse) {
  const ImVec2 pivot = valve_pivot(s);
  const double angle =
      std::atan2(static_cast<double>(mouse.x - pivot.x), static_cast<double>(pivot.y - mouse.y));
  // Hundredths are finer than a hand, and short in the journal.
  return std::round(std::clamp(angle / handle_span_rad, 0.0, 1.0) * 100.0) / 100.0;
}

namespace {

ImVec2 handle_end(const Stage& s) {
  const ImVec2 pivot = valve_pivot(s);
  const double angle = handle_span_rad * std::clamp(s.plant().fittings.draw_opening_norm, 0.0, 1.0);
  const float reach = s.len(s.plan.lever);
  return {pivot.x + reach * static_cast<float>(std::sin(angle)),
          pivot.y - reach * static_cast<float>(std::cos(angle))};
}

}  // namespace

kit::Rect valve_rect(const Stage& s) {
  const double R = s.vessel.vat_radius_m();
  const kit::Rect body = s.box(s.plan.valve_x - 0.10 * R, s.plan.valve_z + 0.14 * R,
                               s.plan.valve_x + 0.10 * R, s.plan.valve_z - 0.14 * R);
  const ImVec2 end = handle_end(s);
  const float pad = s.stroke(7.0F);
  const float x0 = std::min(body.x, end.x - pad);
  const float y0 = std::min(body.y, end.y - pad);
  return {x0, y0, std::max(body.right(), end.x + pad) - x0, body.bottom() - y0};
}

kit::Rect pail_rect(const Stage& s) {
  const Plan& p = s.plan;
  return s.box(p.valve_x - p.pail_top_r, p.floor + p.pail_h, p.valve_x + p.pail_top_r, p.floor);
}

void draw_valve(const Stage& s) {
  const double R = s.vessel.vat_radius_m();
  const Plan& p = s.plan;
  const kit::Colour dark = s.colour(kit::Token::metal_dark);
  const kit::Colour body = mix(s.colour(kit::Token::metal), s.colour(kit::Token::metal_light), 0.2F);
  // Spout, body, then the handle whose angle is the opening.
  plate(s, s.box(p.valve_x - 0.045 * R, p.valve_z - 0.06 * R, p.valve_x + 0.045 * R, p.valve_z - 0.14 * R),
        body, dark, 0.0F, s.stroke(1.8F));
  plate(s, s.box(p.valve_x - 0.085 * R, p.valve_z + 0.11 * R, p.valve_x + 0.085 * R, p.valve_z - 0.09 * R),
        body, dark, s.stroke(4.0F), s.stroke(2.4F));
  // Plunger in the body: lifted by the opening.
  const double lift = 0.07 * R * std::clamp(s.plant().fittings.draw_opening_norm, 0.0, 1.0);
  const kit::Rect plunger = s.box(p.valve_x - 0.05 * R, p.valve_z + 0.0 * R + lift, p.valve_x + 0.05 * R,
                                  p.valve_z - 0.06 * R + lift);
  s.draw->AddRectFilled(plunger.min(), plunger.max(), dark.u32(), s.stroke(1.5F));
  const ImVec2 pivot = valve_pivot(s);
  const ImVec2 end = handle_end(s);
  s.draw->AddLine(pivot, end, dark.u32(), Stage::whole(s.stroke(6.0F)));
  s.draw->AddCircleFilled(pivot, s.stroke(5.0F), dark.u32(), 14);
  s.draw->AddCircleFilled(end, s.stroke(7.0F), s.colour(kit::Token::act).u32(), 18);
  s.draw->AddCircle(end, s.stroke(7.0F), dark.u32(), 18, Stage::whole(s.stroke(1.6F)));
}

void draw_outlet(const Stage& s) {
  const plant::HoseEnd hose = s.plant().fittings.hose;
  const bool runs = s.plant().flows.draw_L_per_min > 0.02;
  if (freezer_in_view(s.state)) {
    draw_freezer(s);
  } else {
    draw_pail(s, runs && hose == plant::HoseEnd::none);
    if (s.plant().flows.splash_L_per_min > 0.0) draw_splash(s);
  }
  if (hose == plant::HoseEnd::none) return;
  const auto path = hose_path(s);
  const float width = s.len(0.075 * s.vessel.vat_radius_m());
  chain(s, path, s.colour(kit::Token::metal_dark), width + s.stroke(3.5F));
  chain(s, path,
        runs ? kit::product_colour(s.plant().well_degC)
             : mix(s.colour(kit::Token::metal_light), s.colour(kit::Token::panel), 0.5F),
        width);
  if (runs && !s.ui.reduced_motion)
    particles(s, path, s.motion.draw_m, s.stroke(13.0F), s.colour(kit::Token::sign_black).faded(0.62F));
}

}  // namespace stirbench::desk::views::machine_view
