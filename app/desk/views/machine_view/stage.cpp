#include "app/desk/views/machine_view/stage.h"

#include <algorithm>
#include <cmath>

namespace stirbench::desk::views::machine_view {

namespace {

// Free height above the brim [m], so that the surface does not stand at the very edge when it is full.
constexpr double freeboard_m = 0.02;

}  // namespace

Plan make_plan(const machine::Machine& machine, const Vessel& vessel) {
  const double R = vessel.vat_radius_m();
  const double well = vessel.well_radius_m();
  const double depth = vessel.well_depth_m();
  Plan p;
  p.rim = vessel.rim_m() + freeboard_m;
  p.housing_half = 1.27 * R;
  p.housing_top = p.rim - 0.22 * (p.rim + depth) * 0.75;
  p.floor = -depth - 0.84 * R;
  p.shaft_r = 0.042 * R;
  p.sleeve_r = 0.085 * R;
  p.hub_r = 0.13 * R;
  p.blade_r = std::clamp(machine.plant.agitator.diameter_m / 2.0, 0.3 * R, 0.86 * R);
  // The blades are covered from the fill that the specification names.
  p.blade_top = std::clamp(vessel.level_m(machine.plant.agitator.covered_L),
                           0.45 * vessel.shoulder_m() + 0.1 * R, 0.8 * vessel.rim_m());
  p.blade_bottom = std::max(0.06 * R, 0.22 * p.blade_top);
  p.element_z = -depth - 0.07 * R;
  p.pump_x = std::min(well + 0.30 * R, 0.86 * R);
  p.pump_r = 0.105 * R;
  p.pump_z = -0.62 * depth;
  p.return_z = vessel.floor_m(p.pump_x);
  p.pail_h = std::min(0.80 * R, 0.55 * -p.floor);
  p.pail_top_r = 0.42 * R;
  p.pail_bottom_r = 0.33 * R;
  p.valve_x = p.housing_half + 0.47 * R;
  p.valve_z = std::clamp(-machine.plant.draw.outlet_height_m, p.floor + p.pail_h + 0.36 * R, -0.02 * R);
  p.lever = 0.5 * R;
  p.left = p.housing_half + 0.34 * R;  // the shaft cover swings out
  p.right = p.valve_x + std::max(p.pail_top_r, p.lever) + 0.06 * R;
  p.above = 0.92 * R;
  return p;
}

double Stage::level_m() const { return vessel.level_m(state.plant.coefficients.volume_L); }

bool Stage::has_product() const { return state.plant.product.total_kg() > 1e-3; }

double Stage::surface_m(double x_m) const {
  return stirred_surface_m(vessel, level_m(), state.plant.flows.agitator_rpm, plan.blade_r, x_m);
}

kit::Colour colour_at(const Stage& stage, double z_m) {
  const plant::PlantState& plant = stage.plant();
  const double reach = 0.75 * stage.vessel.well_depth_m();
  const double share = smooth(static_cast<float>(std::clamp(-z_m / reach, 0.0, 1.0)));
  return kit::product_colour(plant.vat_degC + (plant.well_degC - plant.vat_degC) * share);
}

void shaded_quad(ImDrawList* draw, const ImVec2 (&corner)[4], const ImU32 (&colour)[4]) {
  draw->PrimReserve(6, 4);
  const ImVec2 white = ImGui::GetFontTexUvWhitePixel();
  const auto first = static_cast<ImDrawIdx>(draw->_VtxCurrentIdx);
  for (const int i : {0, 1, 2, 0, 2, 3}) draw->PrimWriteIdx(static_cast<ImDrawIdx>(first + i));
  for (int i = 0; i < 4; ++i) draw->PrimWriteVtx(corner[i], white, colour[i]);
}

void plate(const Stage& stage, const kit::Rect& rect, kit::Colour ground, kit::Colour edge, float corner,
           float width) {
  stage.draw->AddRectFilled(rect.min(), rect.max(), ground.u32(), corner);
  if (width > 0.0F) stage.draw->AddRect(rect.min(), rect.max(), edge.u32(), corner, 0, Stage::whole(width));
}

void chain(const Stage& stage, std::span<const ImVec2> points, kit::Colour colour, float width, bool closed) {
  stage.draw->AddPolyline(points.data(), static_cast<int>(points.size()), colour.u32(),
                          closed ? ImDrawFlags_Closed : 0, Stage::whole(width));
}

void arrow_head(const Stage& stage, ImVec2 tip, ImVec2 from, kit::Colour colour, float size) {
  const float length = std::max(std::hypot(tip.x - from.x, tip.y - from.y), 1e-3F);
  const float dx = (tip.x - from.x) / length * size;
  const float dy = (tip.y - from.y) / length * size;
  stage.draw->AddTriangleFilled(tip, {tip.x - dx - 0.6F * dy, tip.y - dy + 0.6F * dx},
                                {tip.x - dx + 0.6F * dy, tip.y - dy - 0.6F * dx}, colour.u32());
}

float chain_length(std::span<const ImVec2> points) {
  float sum = 0.0F;
  for (std::size_t i = 1; i < points.size(); ++i)
    sum += std::hypot(points[i].x - points[i - 1].x, points[i].y - points[i - 1].y);
  return sum;
}

ImVec2 along(std::span<const ImVec2> points, float way) {
  float left = way;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const ImVec2 a = points[i - 1];
    const ImVec2 b = points[i];
    const float piece = std::hypot(b.x - a.x, b.y - a.y);
    if (left <= piece && piece > 0.0F)
      return {a.x + (b.x - a.x) * left / piece, a.y + (b.y - a.y) * left / piece};
    left -= piece;
  }
  return points.back();
}

float scatter(std::uint32_t index, std::uint32_t salt) {
  std::uint32_t h = index * 2654435761U + salt * 2246822519U + 374761393U;
  h = (h ^ (h >> 15U)) * 2246822519U;
  h = (h ^ (h >> 13U)) * 3266489917U;
  return static_cast<float>((h ^ (h >> 16U)) & 0xFFFFU) / 65536.0F;
}

float smooth(float share) {
  const float s = std::clamp(share, 0.0F, 1.0F);
  return s * s * (3.0F - 2.0F * s);
}

}  // namespace stirbench::desk::views::machine_view
