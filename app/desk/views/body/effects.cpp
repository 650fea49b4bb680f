#include "app/desk/views/body/effects.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "app/desk/views/body/paint.h"
#include "app/desk/views/body/solids.h"

// Helpers, the floor, and what lies outside: stream, pail, spill.
namespace stirbench::desk::views::body {

namespace {

using std::numbers::pi;

std::uint32_t corner(Effect& effect, const Vec3& point, const Vec3& normal,
                     const std::array<float, 4>& colour) {
  effect.corners.push_back({narrow(point), narrow(normal), colour});
  return static_cast<std::uint32_t>(effect.corners.size() - 1);
}

// A flat disc with a soft edge, lying at a height.
void soft_disc(Effect& effect, const Vec3& centre, double rx, double ry, double core,
               const std::array<float, 4>& colour) {
  constexpr int pieces = 40;
  const Vec3 up{0, 0, 1};
  std::array<float, 4> clear = colour;
  clear[3] = 0.0F;
  const std::uint32_t middle = corner(effect, centre, up, colour);
  for (int i = 0; i < pieces; ++i) {
    const double a = 2.0 * pi * i / pieces;
    corner(effect, centre + Vec3{core * rx * std::cos(a), core * ry * std::sin(a), 0}, up, colour);
    corner(effect, centre + Vec3{rx * std::cos(a), ry * std::sin(a), 0}, up, clear);
  }
  for (std::uint32_t i = 0; i < pieces; ++i) {
    const std::uint32_t now = middle + 1 + 2 * i;
    const std::uint32_t next = middle + 1 + 2 * ((i + 1) % pieces);
    for (const std::uint32_t c : {middle, now, next, now, now + 1, next + 1, now, next + 1, next})
      effect.triangles.push_back(c);
  }
}

// Stream that falls from the spout, thinner as it speeds up: A v = Q, v = sqrt(v0^2 + 2 g s).
void add_stream(const EffectInput& in, Effects& out, const Vec3& from, double to_z) {
  const double flow = in.state.plant.flows.draw_L_per_min / 60000.0;
  const double bore = std::max(in.machine.plant.draw.valve_bore_m, 0.005);
  const double v0 = std::max(flow / (pi * bore * bore / 4.0), 0.15);
  std::vector<Vec2> outline{{0.0, to_z}};
  constexpr int pieces = 8;
  for (int i = pieces; i >= 0; --i) {
    const double s = (from[2] - to_z) * i / pieces;
    const double v = std::sqrt(v0 * v0 + 2.0 * 9.80665 * s);
    outline.push_back({std::clamp(std::sqrt(flow / (pi * v)), 0.0015, 0.5 * bore), from[2] - s});
  }
  outline.push_back({0.0, from[2]});
  add_mesh(out.whole, revolved(outline, 12).moved(moved_by({from[0], from[1], 0.0})), product_rgba(in, 0.0));
}

void add_pail(const EffectInput& in, Effects& out) {
  const plant::PlantState& p = in.state.plant;
  const library::MachineBody& body = in.model.body;
  const double litres = p.pail.total_kg() / 1.05;
  const double level = std::clamp(litres * 1e-3 / (pi * body.pail_radius_m * body.pail_radius_m), 0.0,
                                  body.pail_height_m * 0.97);
  const bool hose = p.fittings.hose == plant::HoseEnd::pail;
  const double top = body.pail[2] + 0.003 + level;
  if (litres > 0.02) {
    // The pail is a tenth wider than its mean at the top, a tenth narrower at the bottom.
    const double r0 = body.pail_radius_m * 0.90 - 0.002;
    const double r1 = r0 + 0.20 * body.pail_radius_m * level / body.pail_height_m;
    const std::vector<Vec2> outline = {{0.0, 0.003}, {r0, 0.003}, {r1, 0.003 + level}, {0.0, 0.003 + level}};
    add_mesh(out.solid, revolved(outline, 36).moved(moved_by(body.pail)),
             rgba(kit::product_colour(p.pail_degC)));
  }
  if (p.flows.draw_L_per_min > 0.02 && !hose) add_stream(in, out, body.draw_line.back(), top);
}

void add_spill(const EffectInput& in, Effects& out) {
  const plant::PlantState& p = in.state.plant;
  const double R = in.vessel.vat_radius_m();
  const std::array<float, 4> colour = product_rgba(in, 0.1);
  if (p.floor_kg > 0.005) {
    const double half = std::clamp(0.16 + 0.32 * std::sqrt(p.floor_kg), 0.16, 1.6) * 0.8 * R;
    std::vector<Vec2> outline;
    constexpr int pieces = 40;
    for (int i = 0; i < pieces; ++i) {
      const double a = 2.0 * pi * i / pieces;
      const double uneven = 1.0 + 0.08 * std::sin(3.0 * a + 1.0) + 0.05 * std::sin(5.0 * a);
      outline.push_back({half * uneven * std::cos(a), 0.8 * half * uneven * std::sin(a)});
    }
    const double z = in.model.body.floor_m + 0.001;
    add_mesh(out.whole,
             extruded(outline, z, z + 0.004).moved(moved_by({in.model.body.pail[0] * 0.6, -1.9 * R, 0.0})),
             colour);
  }
  if (p.flows.spill_L_per_min <= 0.0) return;
  // Over the rim and down the jacket.
  const double rim = in.vessel.rim_m() + 0.02;
  const double reach = R + 0.068 * R / 0.19;
  for (int i = 0; i < 7; ++i) {
    const double a = -2.6 + 0.62 * i;
    const double end =
        rim - (0.16 + 0.11 * std::sin(4.0 * i + 1.0)) - 0.02 * std::sin(2.0 * in.motion.steam_s + i);
    const Vec3 way{std::cos(a), std::sin(a), 0.0};
    const std::vector<Vec3> line = {way * (R - 0.01) + Vec3{0, 0, rim},
                                    way * (reach - 0.004) + Vec3{0, 0, rim + 0.002},
                                    way * reach + Vec3{0, 0, rim - 0.03}, way * reach + Vec3{0, 0, end}};
    add_mesh(out.whole, swept(rounded_line(line, 3), 0.007, 8), colour);
  }
}

}  // namespace

std::array<float, 4> mixed(const std::array<float, 4>& a, const std::array<float, 4>& b, double share) {
  std::array<float, 4> out{};
  for (std::size_t i = 0; i < 4; ++i) out[i] = a[i] + (b[i] - a[i]) * static_cast<float>(share);
  return out;
}

std::array<float, 4> product_rgba(const EffectInput& in, double z_m) {
  const plant::PlantState& p = in.state.plant;
  const double reach = std::max(0.75 * in.vessel.well_depth_m(), 1e-3);
  const double s = std::clamp(-z_m / reach, 0.0, 1.0);
  return rgba(kit::product_colour(p.vat_degC + (p.well_degC - p.vat_degC) * s * s * (3.0 - 2.0 * s)));
}

void add_mesh(Effect& effect, const Mesh& mesh, const std::array<float, 4>& colour) {
  const ShadedMesh shade = shaded(mesh, 38.0, false);
  const auto first = static_cast<std::uint32_t>(effect.corners.size());
  for (const auto& c : shade.corners) effect.corners.push_back({c.point, c.normal, colour});
  for (const std::uint32_t t : shade.triangles) effect.triangles.push_back(first + t);
}

void add_grain(Effect& effect, const Vec3& at, double r, const std::array<float, 4>& colour) {
  const auto first = static_cast<std::uint32_t>(effect.corners.size());
  for (const Vec3& d :
       {Vec3{1, 0, 0}, Vec3{-1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, -1, 0}, Vec3{0, 0, 1}, Vec3{0, 0, -1}})
    corner(effect, at + d * r, d, colour);
  constexpr std::array<std::uint32_t, 24> faces = {0, 2, 4, 2, 1, 4, 1, 3, 4, 3, 0, 4,
                                                   2, 0, 5, 1, 2, 5, 3, 1, 5, 0, 3, 5};
  for (const std::uint32_t f : faces) effect.triangles.push_back(first + f);
}

void make_ground(const EffectInput& in, Effect& ground) {
  const double z = in.model.body.floor_m;
  // The floor runs out into the ground of the picture.
  soft_disc(ground, {0.2, 0.0, z - 0.002}, 2.6, 2.6, 0.35, in.floor);
  const std::array<float, 4> shadow{0.10F, 0.10F, 0.12F, 0.42F};
  const double half = in.vessel.vat_radius_m() + 0.10;
  soft_disc(ground, {0.0, 0.0, z - 0.0015}, half * 1.75, half * 1.55, 0.45, shadow);
  const std::array<float, 4> light_shadow{0.10F, 0.10F, 0.12F, 0.30F};
  const Vec3 pail = in.model.body.pail;
  if (in.moment.hose != plant::HoseEnd::freezer)
    soft_disc(ground, {pail[0], pail[1], z - 0.001}, 0.20, 0.20, 0.5, light_shadow);
  if (in.moment.freezer || in.choice.freezer) {
    const Vec3 inlet = in.model.body.hose_line.back();
    soft_disc(ground, {inlet[0] + 0.16, 0.03, z - 0.001}, 0.46, 0.36, 0.45, shadow);
  }
}

void add_outside(const EffectInput& in, Effects& out) {
  const int pail = in.model.index("pail");
  if (pail >= 0 && is_shown(*in.model.parts[static_cast<std::size_t>(pail)].part, in.moment, in.choice))
    add_pail(in, out);
  add_spill(in, out);
}

void make_effects(const EffectInput& in, Effects& out) {
  out.solid.clear();
  out.whole.clear();
  out.veil.clear();
  if (in.choice.look == Look::apart) return;  // parts on a bench: nothing flows
  add_product(in, out);
  add_grains(in, out);
  add_flow(in, out);
  add_outside(in, out);
  add_freezer(in, out);
  add_steam(in, out);
}

}  // namespace stirbench::desk::views::body
