#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <initializer_list>
#include <span>

#include "app/desk/kit/signs/signs.h"
#include "app/desk/views/machine_view/machine_view.h"
#include "app/desk/views/machine_view/vessel.h"

// Where everything stands in the picture, and the few strokes the parts are drawn with. Internal to
// machine_view.
namespace stirbench::desk::views::machine_view {

// Lengths in metres of the drawn machine; x = 0 is the shaft, z = 0 the mouth of the well.
struct Plan {
  double rim = 0.0;  // top edge of the vat (a little above the brim)
  double housing_half = 0.0;
  double housing_top = 0.0;
  double floor = 0.0;  // negative
  double sleeve_r = 0.0;
  double shaft_r = 0.0;
  double hub_r = 0.0;
  double blade_r = 0.0;
  double blade_top = 0.0;
  double blade_bottom = 0.0;
  double element_z = 0.0;  // top of the elements
  double pump_x = 0.0;
  double pump_z = 0.0;
  double pump_r = 0.0;
  double return_z = 0.0;  // where the loop enters the vat, at pump_x
  double valve_x = 0.0;
  double valve_z = 0.0;
  double lever = 0.0;
  double pail_top_r = 0.0;
  double pail_bottom_r = 0.0;
  double pail_h = 0.0;
  double left = 0.0;  // extent of the drawing, positive numbers
  double right = 0.0;
  double above = 0.0;  // above the rim, lid open
};
Plan make_plan(const machine::Machine& machine, const Vessel& vessel);

struct Stage {
  kit::Ui& ui;
  ImDrawList* draw;
  const machine::Machine& machine;
  const machine::State& state;
  const MachineMotion& motion;
  const Vessel& vessel;
  Plan plan;
  kit::Rect rect;
  ImVec2 origin{0.0F, 0.0F};  // pixel of x = 0, z = 0
  float scale = 1.0F;         // pixels a metre
  float fine = 1.0F;          // factor of line widths: 1 at the usual size

  const plant::PlantState& plant() const { return state.plant; }
  ImVec2 at(double x_m, double z_m) const {
    return {origin.x + static_cast<float>(x_m) * scale, origin.y - static_cast<float>(z_m) * scale};
  }
  float len(double m) const { return static_cast<float>(m) * scale; }
  float stroke(float unscaled) const { return ui.px(unscaled) * fine; }
  // Width of a line: whole pixels are crisp, and cost a third of the triangles (they come ready-made from the
  // font texture).
  static float whole(float width) { return std::max(1.0F, std::round(width)); }
  kit::Rect box(double x0_m, double z_top_m, double x1_m, double z_bottom_m) const {
    const ImVec2 a = at(x0_m, z_top_m);
    const ImVec2 b = at(x1_m, z_bottom_m);
    return {a.x, a.y, b.x - a.x, b.y - a.y};
  }
  kit::Colour colour(kit::Token token) const { return ui.theme.colour(token); }

  // Level of the product at rest, and whether there is any.
  double level_m() const;
  bool has_product() const;
  // Level with the dip that the turning agitator makes.
  double surface_m(double x_m) const;
};

// Colour of product in the vat (height >= 0) running over into that of the well below the mouth.
kit::Colour colour_at(const Stage& stage, double z_m);

// Four corners with their own colours, one after the other round the edge. No anti-aliasing: outlines cover
// the edges.
void shaded_quad(ImDrawList* draw, const ImVec2 (&corner)[4], const ImU32 (&colour)[4]);
void plate(const Stage& stage, const kit::Rect& rect, kit::Colour ground, kit::Colour edge, float corner,
           float width);
void chain(const Stage& stage, std::span<const ImVec2> points, kit::Colour colour, float width,
           bool closed = false);
void arrow_head(const Stage& stage, ImVec2 tip, ImVec2 from, kit::Colour colour, float size);

// Point at `way` (px) along a chain, and the chain's length.
float chain_length(std::span<const ImVec2> points);
ImVec2 along(std::span<const ImVec2> points, float way);

// The same numbers in every frame, evenly spread over 0..1, for things that lie about.
float scatter(std::uint32_t index, std::uint32_t salt);
float smooth(float share);  // 0..1 with flat ends

// Parts, from back to front.
void draw_housing(const Stage& stage);
void draw_coils(const Stage& stage);
void draw_vat_inside(const Stage& stage);
void draw_product(const Stage& stage);
void draw_solids(const Stage& stage);
void draw_foam(const Stage& stage);
void draw_vat_flow(const Stage& stage);
void draw_deposit(const Stage& stage);
void draw_vat_wall(const Stage& stage);
void draw_levels(const Stage& stage);
void draw_elements(const Stage& stage);
void draw_drive(const Stage& stage);
void draw_agitator(const Stage& stage);
void draw_shaft_cover(const Stage& stage);
void draw_loop(const Stage& stage);
void draw_valve(const Stage& stage);
void draw_outlet(const Stage& stage);  // pail or freezer, hose, stream
void draw_freezer(const Stage& stage);
bool freezer_in_view(const machine::State& state);  // stands where the pail stands otherwise
ImVec2 freezer_inlet_point(const Stage& stage);
void draw_lid(const Stage& stage);
void draw_guard(const Stage& stage);
void draw_steam(const Stage& stage);
void draw_spill(const Stage& stage);

// Places that labels and hot-spots need too.
kit::Rect lid_rect(const Stage& stage);
kit::Rect cover_rect(const Stage& stage);
kit::Rect valve_rect(const Stage& stage);
kit::Rect pail_rect(const Stage& stage);
ImVec2 valve_pivot(const Stage& stage);
double opening_of_handle(const Stage& stage, ImVec2 mouse);
// Worth a label: half worn, or heated by its own friction.
bool is_worn(const plant::BushingSpec& spec, const plant::BushingState& bushing,
             const plant::PlantState& plant);
bool is_running_hot(const plant::BushingState& bushing, const plant::PlantState& plant);

}  // namespace stirbench::desk::views::machine_view
