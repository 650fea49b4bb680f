#include <algorithm>
#include <cmath>
#include <numbers>

#include "app/desk/views/body/effects.h"
#include "app/desk/views/body/paint.h"
#include "app/desk/views/body/solids.h"
#include "app/desk/views/machine_view/stage.h"
#include "sim_core/plant/freezer/freezer.h"

// What moves: circulation, draw, steam; and what stands in the freezer.
namespace stirbench::desk::views::body {

namespace {

using machine_view::scatter;
using std::numbers::pi;

void marks_along(const std::vector<Vec3>& line, int count, double phase, double radius,
                 const std::array<float, 4>& colour, Effect& effect) {
  for (int i = 0; i < count; ++i) {
    const double share = std::fmod((i + phase) / count, 1.0);
    const double fade = std::min({1.0, share * 8.0, (1.0 - share) * 8.0});
    add_grain(effect, along(line, share), radius * (0.35 + 0.65 * fade), colour);
  }
}

// A round of the vat: up near the shaft, outwards under the surface, down the wall, back over the shoulder.
std::vector<Vec3> vat_round(const EffectInput& in, double level, double angle) {
  const double R = in.vessel.vat_radius_m();
  const double c = std::cos(angle);
  const double s = std::sin(angle);
  const auto at = [&](double r, double z) { return Vec3{r * c, r * s, z}; };
  const double top = level - 0.12 * R;
  const double low = std::max(0.8 * in.vessel.shoulder_m(), 0.1 * R);
  return rounded_line({at(0.30 * R, low), at(0.80 * R, low * 1.05), at(0.88 * R, 0.5 * (low + top)),
                       at(0.78 * R, top), at(0.34 * R, top)},
                      5);
}

// A puff that always faces the eye.
void puff(const EffectInput& in, Effect& effect, const Vec3& at, double radius, float alpha) {
  constexpr int pieces = 10;
  const Vec3 right = in.camera.right();
  const Vec3 up = in.camera.up();
  // Grey enough to show on a light ground, light enough on a dark one.
  const std::array<float, 4> white{0.70F, 0.74F, 0.78F, alpha};
  const std::array<float, 4> clear{0.70F, 0.74F, 0.78F, 0.0F};
  const auto first = static_cast<std::uint32_t>(effect.corners.size());
  effect.corners.push_back({narrow(at), {0, 0, 1}, white});
  for (int i = 0; i < pieces; ++i) {
    const double a = 2.0 * pi * i / pieces;
    effect.corners.push_back(
        {narrow(at + right * (radius * std::cos(a)) + up * (radius * std::sin(a))), {0, 0, 1}, clear});
  }
  for (std::uint32_t i = 0; i < pieces; ++i)
    for (const std::uint32_t c : {first, first + 1 + i, first + 1 + (i + 1) % pieces})
      effect.triangles.push_back(c);
}

}  // namespace

void add_flow(const EffectInput& in, Effects& out) {
  const plant::Flows& flows = in.state.plant.flows;
  const library::MachineBody& body = in.model.body;
  const bool inside = in.choice.look == Look::cutaway || in.choice.look == Look::see_through;
  const double phase = in.reduced_motion ? 0.5 : in.motion.flow_m;
  const std::array<float, 4> light = mixed(product_rgba(in, -0.05), {1, 1, 1, 1}, 0.45);
  if (inside && flows.circulation_L_per_min > 0.5) {
    marks_along(body.loop, 12, phase, 0.0065, light, out.whole);
    const double level = in.vessel.level_m(in.state.plant.coefficients.volume_L);
    if (level > in.vessel.shoulder_m() + 0.05)
      for (const double angle : {0.0, 0.55, 1.1, 1.65, 2.2, 2.75, pi})
        marks_along(vat_round(in, level, angle), 5, phase, 0.0045, light, out.whole);
  }
  if (flows.draw_L_per_min > 0.02) {
    const double drawn = in.reduced_motion ? 0.5 : in.motion.draw_m;
    if (inside) marks_along(body.draw_line, 9, drawn, 0.006, light, out.whole);
    if (in.moment.hose == plant::HoseEnd::freezer)
      marks_along(body.hose_line, 16, drawn, in.machine.plant.draw.hose_bore_m * 0.75,
                  mixed(light, {0.3F, 0.2F, 0.1F, 1}, 0.35), out.whole);
  }
}

void add_freezer(const EffectInput& in, Effects& out) {
  if (!in.moment.freezer && !in.choice.freezer) return;
  const int barrel = in.model.index("freezer_barrel");
  const int tub = in.model.index("freezer_tub");
  if (barrel < 0) return;
  const plant::FreezerState& f = in.state.plant.freezer;
  const PartModel& part = in.model.parts[static_cast<std::size_t>(barrel)];
  const double kg = f.product.total_kg();
  const double length = part.bounds.high[2] - part.bounds.low[2] - 0.004;
  const double r = part.bounds.high[0] - 0.006;
  const double share = std::clamp((kg / 1.05 + f.air_L) * 1e-3 / (pi * r * r * length), 0.0, 1.0);
  const double white = kg > 0.0 ? std::clamp(0.25 + 2.0 * f.ice_kg / kg, 0.0, 0.85) : 0.0;
  const std::array<float, 4> colour =
      mixed(rgba(kit::product_colour(std::max(f.degC, 0.0))), {0.99F, 0.98F, 0.95F, 1.0F}, white);
  if (share > 0.01) {
    // A lying cylinder filled from below; whipped and frozen it clings all round.
    std::vector<Vec2> outline;
    double low = -pi;
    double high = pi;
    for (int i = 0; i < 40; ++i) {  // half angle a of the filled segment: a - sin a cos a = pi share
      const double a = 0.5 * (low + high);
      (a - std::sin(a) * std::cos(a) < pi * share ? low : high) = a;
    }
    const double half = std::clamp(0.5 * (low + high), 0.05, pi - 0.02);
    constexpr int pieces = 28;
    // In the barrel's frame its x points down.
    for (int i = 0; i <= pieces; ++i) {
      const double a = -half + 2.0 * half * i / pieces;
      outline.push_back({r * std::cos(a), r * std::sin(a)});
    }
    add_mesh(out.solid, extruded(outline, 0.002, length).moved(part.rest), colour);
  }
  const double tub_kg = f.tub.total_kg();
  if (tub >= 0 && tub_kg > 0.01) {
    const PartModel& bowl = in.model.parts[static_cast<std::size_t>(tub)];
    const Vec3 place = (bowl.bounds.low + bowl.bounds.high) * 0.5;
    const double high = std::clamp((tub_kg + f.tub_air_L) * 1e-3 / (pi * 0.078 * 0.078), 0.004, 0.16);
    const std::vector<Vec2> heap = {
        {0, 0.003}, {0.072, 0.003}, {0.082, 0.8 * high}, {0.060, 1.1 * high}, {0.0, 1.3 * high}};
    add_mesh(out.solid, revolved(heap, 28).moved(moved_by({place[0], place[1], bowl.bounds.low[2]})),
             {0.98F, 0.96F, 0.90F, 1.0F});
  }
}

void add_steam(const EffectInput& in, Effects& out) {
  const double steam = in.state.plant.flows.steam_kg_per_h;
  if (steam < 0.02) return;
  const bool open = in.state.plant.fittings.lid_open;
  const double R = in.vessel.vat_radius_m();
  const int count = std::clamp(static_cast<int>(10.0 + 16.0 * std::sqrt(steam)), 10, 44);
  const double clock = in.reduced_motion ? 0.0 : in.motion.steam_s;
  for (int i = 0; i < count; ++i) {
    const auto n = static_cast<std::uint32_t>(i);
    const double life = 2.6;
    const double age = std::fmod(clock + life * static_cast<double>(scatter(n, 70)), life) / life;
    const double a = 2.0 * pi * static_cast<double>(scatter(n, 71));
    const double r = open ? 0.85 * R * std::sqrt(static_cast<double>(scatter(n, 72))) : 1.08 * R;
    const double foot = open ? std::max(in.vessel.level_m(in.state.plant.coefficients.volume_L), 0.0) + 0.02
                             : in.vessel.rim_m() + 0.035;
    const double sway = 0.03 * std::sin(5.0 * age + 6.28 * static_cast<double>(scatter(n, 73)));
    const Vec3 at{r * std::cos(a) * (1.0 + 0.15 * age) + sway, r * std::sin(a) * (1.0 + 0.15 * age),
                  foot + (open ? 0.62 : 0.26) * age};
    const double thick =
        std::min(1.0, 5.0 * age) * (1.0 - age) * std::clamp(0.36 + 0.14 * std::sqrt(steam), 0.0, 0.7);
    puff(in, out.veil, at, 0.035 + 0.085 * age, static_cast<float>(open ? thick : 0.8 * thick));
  }
}

}  // namespace stirbench::desk::views::body
