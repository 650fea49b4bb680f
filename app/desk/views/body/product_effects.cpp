#include <algorithm>
#include <cmath>
#include <numbers>

#include "app/desk/views/body/effects.h"
#include "app/desk/views/body/paint.h"
#include "app/desk/views/body/solids.h"
#include "app/desk/views/machine_view/stage.h"
#include "sim_core/plant/scorch.h"

// What is in the vat: the product's body with its surface, foam, grains and lumps, what has sunk, deposit and
// ice on the walls.
namespace stirbench::desk::views::body {

namespace {

using machine_view::scatter;
using std::numbers::pi;

bool has_product(const EffectInput& in) { return in.state.plant.product.total_kg() > 1e-3; }
double level_of(const EffectInput& in) { return in.vessel.level_m(in.state.plant.coefficients.volume_L); }

// The shaft may turn without an agitator on it.
double stirring_rpm(const EffectInput& in) {
  return plant::in_place(in.state.plant.assembly, plant::PartId::agitator) ? in.state.plant.flows.agitator_rpm
                                                                           : 0.0;
}

double surface(const EffectInput& in, double r) {
  const double blade = in.machine.plant.agitator.diameter_m / 2.0;
  return stirred_surface_m(in.vessel, level_of(in), stirring_rpm(in), blade, r);
}

// The wall's outline from the bottom to a height, a hair inside.
std::vector<Vec2> wall_to(const Vessel& vessel, double level, double inside_m) {
  std::vector<Vec2> out;
  for (const ProfilePoint& p : vessel.profile()) {
    if (p.z_m >= level - 1e-6) break;
    out.push_back({std::max(p.r_m - inside_m, 0.0), p.z_m + (p.z_m < 0.0 ? inside_m : 0.0)});
  }
  out.push_back({std::max(vessel.radius_m(level) - inside_m, 0.0), level});
  return out;
}

// Rings of corners, coloured by height and, on the surface, by the swirl.
void add_rings(const EffectInput& in, Effect& effect, const std::vector<Vec2>& outline,
               std::size_t surface_from) {
  constexpr int pieces = 48;
  const Mesh mesh = revolved(outline, pieces);
  const ShadedMesh shade = shaded(mesh, 50.0, false);
  const auto first = static_cast<std::uint32_t>(effect.corners.size());
  const double turn = in.motion.agitator_rad;
  const double speed = std::min(stirring_rpm(in) / 60.0, 1.5);
  const double surface_low = outline[surface_from][1] - 1e-4;
  const double R = in.vessel.vat_radius_m();
  double lowest_surface = surface_low;
  for (std::size_t i = surface_from; i < outline.size(); ++i)
    lowest_surface = std::min(lowest_surface, outline[i][1] - 1e-4);
  for (const auto& c : shade.corners) {
    std::array<float, 4> colour = product_rgba(in, c.point[2]);
    if (c.normal[2] > 0.55F && c.point[2] >= static_cast<float>(lowest_surface)) {
      // Three arms of lighter and darker product, wound by the flow.
      const double r = std::hypot(c.point[0], c.point[1]);
      const double a = std::atan2(c.point[1], c.point[0]);
      const double arm =
          std::sin(3.0 * (a - turn) + 9.0 * r / R) * std::min(speed, 1.0) * std::min(1.0, r / (0.2 * R));
      const std::array<float, 4> towards =
          arm > 0.0 ? std::array<float, 4>{1, 1, 1, 1} : std::array<float, 4>{0.35F, 0.25F, 0.15F, 1};
      colour = mixed(colour, towards, 0.13 * std::abs(arm));
    }
    effect.corners.push_back({c.point, c.normal, colour});
  }
  for (const std::uint32_t t : shade.triangles) effect.triangles.push_back(first + t);
}

// A layer on the wall between two heights.
void add_layer(const EffectInput& in, Effect& effect, double from, double to, double thickness,
               const std::array<float, 4>& colour) {
  std::vector<Vec2> wall;
  constexpr int pieces = 14;
  for (int i = 0; i <= pieces; ++i) {
    const double z = from + (to - from) * i / pieces;
    wall.push_back({in.vessel.radius_m(z) - 0.0003, z});
  }
  std::vector<Vec2> outline = wall;
  for (auto it = wall.rbegin(); it != wall.rend(); ++it) {
    const double ripple = 1.0 + 0.25 * std::sin(140.0 * (*it)[1]);
    outline.push_back({std::max((*it)[0] - thickness * ripple, 1e-3), (*it)[1]});
  }
  add_mesh(effect, revolved(outline, 40), colour);
}

void add_walls(const EffectInput& in, Effects& out) {
  const plant::PlantState& p = in.state.plant;
  const double depth = in.vessel.well_depth_m();
  if (p.deposit_kg_per_m2 > 0.002) {
    const double thick = std::clamp(0.0012 + 0.02 * p.deposit_kg_per_m2, 0.0012, 0.008);
    const double dark = std::clamp(p.deposit_kg_per_m2 / 0.25, 0.0, 1.0);
    const std::array<float, 4> brown = mixed({0.62F, 0.42F, 0.20F, 1.0F}, {0.20F, 0.11F, 0.06F, 1.0F}, dark);
    add_layer(in, out.solid, -0.97 * depth, -0.12 * depth, thick, brown);
  } else if (!has_product(in) && plant::shows_bloom(p)) {
    add_layer(in, out.solid, -0.97 * depth, -0.12 * depth, 0.0012, {0.86F, 0.86F, 0.84F, 1.0F});
  }
  if (p.wall_ice_kg > 0.002 && has_product(in) && level_of(in) > in.vessel.shoulder_m()) {
    const double thick = std::clamp(0.001 + 0.03 * p.wall_ice_kg, 0.001, 0.012);
    add_layer(in, out.solid, in.vessel.shoulder_m(), level_of(in), thick, {0.93F, 0.96F, 1.0F, 1.0F});
  }
}

void add_foam(const EffectInput& in, Effects& out) {
  const plant::PlantState& p = in.state.plant;
  const bool boiling = p.flows.spill_L_per_min > 0.0 && p.well_degC > 90.0;
  if (p.product.air_norm < 0.004 && !boiling) return;
  const double level = level_of(in);
  const double R = in.vessel.radius_m(level);
  const double layer = std::clamp(p.product.air_norm * 0.6 * std::max(level, 0.05), 0.0, 0.10 * R) +
                       (boiling ? 0.10 * R : 0.0);
  const int bubbles = boiling ? 260 : 60 + std::min(static_cast<int>(p.product.air_norm * 1500.0), 160);
  const std::array<float, 4> skin = mixed(product_rgba(in, level), {1, 1, 1, 1}, 0.6);
  for (int i = 0; i < bubbles; ++i) {
    const auto n = static_cast<std::uint32_t>(i);
    const double r = 0.96 * R * std::sqrt(static_cast<double>(scatter(n, 61)));
    const double a = 2.0 * pi * static_cast<double>(scatter(n, 62)) + 0.4 * in.motion.agitator_rad;
    const double swell =
        boiling ? 0.02 * R * std::sin(3.0 * in.motion.steam_s + 6.28 * static_cast<double>(scatter(n, 20)))
                : 0.0;
    const double z = surface(in, r) + layer * static_cast<double>(scatter(n, 21)) + swell;
    add_grain(out.solid, {r * std::cos(a), r * std::sin(a), z},
              (boiling ? 0.009 : 0.005) + 0.008 * static_cast<double>(scatter(n, 22)), skin);
  }
}

}  // namespace

void add_product(const EffectInput& in, Effects& out) {
  add_walls(in, out);
  if (!has_product(in)) return;
  constexpr double inside_m = 0.0006;
  const double level = level_of(in);
  const double R = in.vessel.radius_m(level);
  const double edge = surface(in, R);
  std::vector<Vec2> outline = wall_to(in.vessel, std::min(level, edge), inside_m);
  if (outline.size() < 2) return;
  const std::size_t surface_from = outline.size() - 1;
  outline.back()[1] = edge;
  constexpr int rings = 12;
  for (int i = 1; i <= rings; ++i) {
    const double r = (R - inside_m) * (1.0 - static_cast<double>(i) / rings);
    outline.push_back({r, std::max(surface(in, r), in.vessel.floor_m(r) + inside_m)});
  }
  add_rings(in, out.solid, outline, surface_from);
  add_foam(in, out);
}

void add_grains(const EffectInput& in, Effects& out) {
  if (!has_product(in)) return;
  const product::Product& product = in.state.plant.product;
  const double level = level_of(in);
  const double depth = in.vessel.well_depth_m();
  const double R = in.vessel.vat_radius_m();
  const double turn = in.motion.agitator_rad;
  const auto carried = [&](std::uint32_t n, double z, double share) {
    const double r = (in.vessel.radius_m(z) - 0.05 * R) * (0.25 + 0.75 * static_cast<double>(scatter(n, 2)));
    const double a = 2.0 * pi * static_cast<double>(scatter(n, 3)) + share * turn;
    return Vec3{r * std::cos(a), r * std::sin(a), z};
  };
  const double low = level > 0.0 ? 0.02 * R : -0.9 * depth;
  const int crystals = std::min(static_cast<int>(std::ceil(product.undissolved_sugar_kg * 20.0)), 110);
  for (int i = 0; i < crystals; ++i) {
    const auto n = static_cast<std::uint32_t>(i);
    const Vec3 at = carried(n, low + (level - low) * static_cast<double>(scatter(n, 1)), 1.0);
    if (at[2] < surface(in, std::hypot(at[0], at[1])) - 0.01)
      add_grain(out.whole, at, 0.0035, {0.99F, 0.99F, 0.97F, 1.0F});
  }
  const int flakes = std::min(static_cast<int>(std::ceil(product.scorched_kg * 600.0)), 40);
  for (int i = 0; i < flakes; ++i) {
    const auto n = static_cast<std::uint32_t>(i) + 900U;
    add_grain(out.whole, carried(n, low + (level - low) * static_cast<double>(scatter(n, 9)), 0.8), 0.004,
              {0.25F, 0.14F, 0.08F, 1.0F});
  }
  const int lumps =
      product.gum_lumps_kg > 1e-4 ? std::min(3 + static_cast<int>(product.gum_lumps_kg * 150.0), 16) : 0;
  const int heaps = std::min(static_cast<int>(std::ceil(product.dry_powder_kg * 12.0)), 20);
  for (int i = 0; i < lumps + heaps; ++i) {
    const auto n = static_cast<std::uint32_t>(i) + 300U;
    const double r = in.vessel.radius_m(level) * (0.25 + 0.65 * static_cast<double>(scatter(n, 6)));
    const double a = 2.0 * pi * static_cast<double>(scatter(n, 7)) + 0.5 * turn;
    const bool lump = i < lumps;
    add_grain(out.whole, {r * std::cos(a), r * std::sin(a), surface(in, r) + (lump ? -0.004 : 0.003)},
              lump ? 0.010 : 0.014,
              lump ? std::array<float, 4>{0.80F, 0.62F, 0.36F, 1.0F}
                   : std::array<float, 4>{0.98F, 0.95F, 0.88F, 1.0F});
  }
  const double sunk = product.sunk_sugar_kg + product.sunk_powder_kg;
  if (sunk > 0.01) {
    const double high = std::clamp(0.025 + 0.018 * sunk, 0.025, 0.14) * R;
    const double reach = 0.9 * in.vessel.well_radius_m();
    std::vector<Vec2> heap;
    for (int i = 0; i <= 8; ++i)
      heap.push_back({reach * i / 8.0, in.vessel.floor_m(reach * i / 8.0) + 0.001});
    for (int i = 7; i >= 0; --i) {
      const double x = i / 8.0;
      heap.push_back({reach * x, std::max(-depth + high * (1.0 - 0.4 * x * x + 0.10 * std::sin(9.0 * x)),
                                          in.vessel.floor_m(reach * x) + 0.002)});
    }
    add_mesh(out.solid, revolved(heap, 32), {0.97F, 0.95F, 0.90F, 1.0F});
  }
}

}  // namespace stirbench::desk::views::body
