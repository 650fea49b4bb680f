#include "app/desk/views/body/paint.h"

#include <algorithm>
#include <cmath>

namespace stirbench::desk::views::body {

namespace {

using library::Material;

Paint blended(Paint a, const Paint& b, float share) {
  for (std::size_t i = 0; i < 4; ++i) a.colour[i] += (b.colour[i] - a.colour[i]) * share;
  a.metal += (b.metal - a.metal) * share;
  a.gloss += (b.gloss - a.gloss) * share;
  a.glow += (b.glow - a.glow) * share;
  return a;
}

}  // namespace

std::array<float, 4> rgba(kit::Colour c, float alpha) {
  return {static_cast<float>(c.r) / 255.0F, static_cast<float>(c.g) / 255.0F,
          static_cast<float>(c.b) / 255.0F, alpha};
}

Paint material_paint(Material material) {
  static const std::array<Paint, static_cast<std::size_t>(Material::count)> table = {{
      {{0.80F, 0.82F, 0.84F, 1.0F}, 0.78F, 0.55F},  // steel
      {{0.80F, 0.81F, 0.82F, 1.0F}, 0.42F, 0.22F},  // steel_brushed
      {{0.40F, 0.43F, 0.46F, 1.0F}, 0.45F, 0.35F},  // steel_dark
      {{0.88F, 0.89F, 0.88F, 1.0F}, 0.05F, 0.25F},  // painted
      {{0.17F, 0.18F, 0.20F, 1.0F}, 0.08F, 0.45F},  // black_plastic
      {{0.93F, 0.92F, 0.88F, 1.0F}, 0.04F, 0.35F},  // white_plastic
      {{0.13F, 0.13F, 0.14F, 1.0F}, 0.02F, 0.15F},  // rubber
      {{0.95F, 0.91F, 0.80F, 1.0F}, 0.02F, 0.25F},  // nylon
      {{0.80F, 0.56F, 0.26F, 1.0F}, 0.62F, 0.55F},  // bronze
      {{0.83F, 0.49F, 0.33F, 1.0F}, 0.60F, 0.55F},  // copper
      {{0.95F, 0.88F, 0.70F, 1.0F}, 0.00F, 0.05F},  // insulation
      {{0.78F, 0.88F, 0.90F, 0.4F}, 0.30F, 0.80F},  // glass
      {{0.07F, 0.13F, 0.13F, 1.0F}, 0.10F, 0.70F},  // display
      {{0.97F, 0.97F, 0.95F, 1.0F}, 0.02F, 0.25F},  // key
      {{0.70F, 0.15F, 0.12F, 1.0F}, 0.03F, 0.40F},  // stop_key
      {{0.42F, 0.36F, 0.34F, 1.0F}, 0.30F, 0.25F},  // element
      {{0.84F, 0.87F, 0.87F, 1.0F}, 0.15F, 0.75F},  // clear_hose
      {{0.74F, 0.76F, 0.78F, 1.0F}, 0.50F, 0.30F},  // aluminium
      {{0.95F, 0.77F, 0.08F, 1.0F}, 0.02F, 0.25F},  // stop_ground
  }};
  return table[static_cast<std::size_t>(material)];
}

double frost_norm(const plant::PlantState& plant) {
  const double cold = std::clamp(-plant.evaporator_degC / 6.0, 0.0, 1.0);
  const double ice = std::clamp(plant.wall_ice_kg / 0.15, 0.0, 1.0);
  return std::max(cold, ice);
}

double glow_norm(const plant::PlantState& plant) {
  return std::clamp((plant.element_degC - 70.0) / 180.0, 0.0, 1.0);
}

std::vector<Paint> paint_parts(const BodyModel& model, const machine::Machine&, const machine::State& state) {
  const plant::PlantState& p = state.plant;
  const Paint frost{{0.95F, 0.97F, 1.0F, 1.0F}, 0.05F, 0.2F};
  const Paint hot{{0.90F, 0.30F, 0.10F, 1.0F}, 0.1F, 0.2F, 0.75F};
  // In steps, so that a slow change of a temperature does not ask for a new picture at every tick.
  const auto steps = [](double share) { return static_cast<float>(std::lround(share * 12.0)) / 12.0F; };
  std::vector<Paint> out;
  for (const PartModel& part : model.parts) {
    Paint paint = material_paint(part.part->material);
    if (part.part->material == Material::copper && part.part->id == "evaporator")
      paint = blended(paint, frost, steps(frost_norm(p)));
    if (part.part->material == Material::element) paint = blended(paint, hot, steps(glow_norm(p)));
    if (part.part->material == Material::clear_hose && p.flows.draw_L_per_min > 0.02) {
      const Paint filled{rgba(kit::product_colour(p.vat_degC)), 0.1F, 0.75F};
      paint = blended(paint, filled, 0.7F);
    }
    out.push_back(paint);
  }
  return out;
}

}  // namespace stirbench::desk::views::body
