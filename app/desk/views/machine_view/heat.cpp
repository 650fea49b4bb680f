#include <algorithm>
#include <cmath>
#include <vector>

#include "app/desk/views/machine_view/stage.h"
#include "sim_core/plant/scorch.h"
#include "sim_core/plant/zones.h"

// Heating elements under the well and the deposit they burn on.
namespace stirbench::desk::views::machine_view {

void draw_elements(const Stage& s) {
  const plant::PlantState& plant = s.plant();
  const double R = s.vessel.vat_radius_m();
  const int count = std::clamp(s.machine.plant.elements.count, 1, 6);
  const double half = s.vessel.well_radius_m() * 0.95;
  const double pitch = std::min(0.075 * R, 0.20 * R / count);
  const auto heat = static_cast<float>(std::clamp((plant.element_degC - 60.0) / 200.0, 0.0, 1.0));
  const bool on = plant.flows.heaters_W > 1.0;
  const kit::Colour cold_body = mix(s.colour(kit::Token::metal), s.colour(kit::Token::metal_dark), 0.35F);
  const kit::Colour body = mix(cold_body, s.colour(kit::Token::element), std::max(heat, on ? 0.45F : 0.0F));
  for (int i = 0; i < count; ++i) {
    const double top = s.plan.element_z - pitch * i;
    const kit::Rect bar = s.box(-half, top, half, top - 0.66 * pitch);
    if (heat > 0.1F) {
      const kit::Rect glow = bar.inset(-s.stroke(2.5F));
      s.draw->AddRectFilled(glow.min(), glow.max(), s.colour(kit::Token::element).faded(0.16F * heat).u32(),
                            glow.h * 0.5F);
    }
    plate(s, bar, body, mix(body, s.colour(kit::Token::metal_dark), 0.6F), bar.h * 0.5F, s.stroke(1.5F));
    // Current flows: a bright core, so that "on" is a shape and not only a colour.
    if (on) {
      const kit::Rect core = bar.inset(bar.h * 0.6F, bar.h * 0.36F);
      s.draw->AddRectFilled(
          core.min(), core.max(),
          mix(s.colour(kit::Token::element), s.colour(kit::Token::sign_yellow), 0.75F).u32(), core.h * 0.5F);
    }
  }
}

void draw_deposit(const Stage& s) {
  const double deposit = s.plant().deposit_kg_per_m2;
  const bool stone = deposit < 0.003;
  if (stone && (s.plant().product.total_kg() > plant::least_kg || !plant::shows_bloom(s.plant()))) return;
  // A brown, uneven layer on the heated wall, or a white-grey bloom: bottom and lower half of the well.
  const double thick = std::clamp(0.006 + 0.05 * deposit, 0.006, 0.03);
  const auto& profile = s.vessel.profile();
  std::vector<ImVec2> line;
  const double limit = -0.25 * s.vessel.well_depth_m();
  for (const double side : {-1.0, 1.0}) {
    line.clear();
    for (std::size_t i = 0; i < profile.size(); ++i) {
      if (profile[i].z_m > limit) break;
      line.push_back(s.at(side * std::max(profile[i].r_m - 0.4 * thick, 0.0), profile[i].z_m + 0.4 * thick));
    }
    const ImVec2 top = s.at(side * (s.vessel.well_radius_m() - 0.4 * thick), limit);
    line.push_back(top);
    const kit::Colour burnt = mix(kit::product_colour(95.0), s.colour(kit::Token::sign_black), 0.68F);
    const kit::Colour pale = mix(s.colour(kit::Token::sign_white), s.colour(kit::Token::sign_black), 0.15F);
    const kit::Colour layer = stone ? pale : burnt;
    chain(s, line, layer, std::max(s.len(thick), s.stroke(3.0F)));
    for (std::uint32_t i = 0; i < 14; ++i) {
      const ImVec2 c = along(line, chain_length(line) * scatter(i, side > 0 ? 31U : 32U));
      s.draw->AddCircleFilled(c, s.len(thick) * (0.5F + 0.35F * scatter(i, 33)), layer.u32(), 8);
    }
  }
}

}  // namespace stirbench::desk::views::machine_view
