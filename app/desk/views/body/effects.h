#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "app/desk/views/body/camera.h"
#include "app/desk/views/machine_view/vessel.h"

// Everything in and around the machine that is not a part: product with its level, colour and swirl, foam,
// grains, deposit and ice, flow through pump, valve and hose, stream and pail, what stands in the freezer,
// steam, spill, the floor with its shadow. Made from the state alone. No OpenGL.
namespace stirbench::desk::views::body {

struct Speck {  // a corner with its own colour
  std::array<float, 3> point;
  std::array<float, 3> normal;
  std::array<float, 4> colour;
};

struct Effect {
  std::vector<Speck> corners;
  std::vector<std::uint32_t> triangles;
  void clear() {
    corners.clear();
    triangles.clear();
  }
};

struct Effects {
  Effect ground;  // floor and shadow; see-through where it fades
  Effect solid;   // opened by the cutaway
  Effect whole;   // not opened: grains, marks of the flow, stream
  Effect veil;    // see-through, drawn last
};

struct EffectInput {
  const BodyModel& model;
  const machine::Machine& machine;
  const machine::State& state;
  const MachineMotion& motion;
  const PartPositions& moment;
  const Choice& choice;
  const Camera& camera;
  const Vessel& vessel;
  bool reduced_motion = false;
  std::array<float, 4> floor{};  // its colour
  std::array<float, 4> stage{};  // what it fades into
};

void make_ground(const EffectInput& in, Effect& ground);
void make_effects(const EffectInput& in, Effects& out);

// Pieces of make_effects.
void add_product(const EffectInput& in, Effects& out);
void add_grains(const EffectInput& in, Effects& out);
void add_flow(const EffectInput& in, Effects& out);
void add_outside(const EffectInput& in, Effects& out);
void add_freezer(const EffectInput& in, Effects& out);
void add_steam(const EffectInput& in, Effects& out);

// A mesh in one colour, its corners with smooth normals.
void add_mesh(Effect& effect, const Mesh& mesh, const std::array<float, 4>& colour);
// An eight-sided grain of that radius.
void add_grain(Effect& effect, const Vec3& at, double radius_m, const std::array<float, 4>& colour);
std::array<float, 4> mixed(const std::array<float, 4>& a, const std::array<float, 4>& b, double share);
// Colour of the product at a height: the vat's above the mouth of the well, running over to the well's below.
std::array<float, 4> product_rgba(const EffectInput& in, double z_m);

}  // namespace stirbench::desk::views::body
