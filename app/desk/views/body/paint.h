#pragma once

#include <array>
#include <vector>

#include "app/desk/kit/theme/theme.h"
#include "app/desk/views/body/scene.h"

// What the parts look like: one table of materials, and what the state changes in it (frost, glow, product in
// a clear hose).
namespace stirbench::desk::views::body {

struct Paint {
  std::array<float, 4> colour{};  // red, green, blue, alpha
  float metal = 0.0F;             // share of mirrored surroundings
  float gloss = 0.0F;             // strength of the highlight
  float glow = 0.0F;              // light of its own
  bool operator==(const Paint&) const = default;
};

Paint material_paint(library::Material material);

// One for each part of the model.
std::vector<Paint> paint_parts(const BodyModel& model, const machine::Machine& machine,
                               const machine::State& state);

// 0 bare .. 1 white: frost on the evaporator, from what ice the wall carries and how cold the coil is.
double frost_norm(const plant::PlantState& plant);
// 0 dark .. 1 bright: what an element looks like at its temperature. For the eye: sheathed elements do not
// shine at these temperatures.
double glow_norm(const plant::PlantState& plant);

std::array<float, 4> rgba(kit::Colour colour, float alpha = 1.0F);

}  // namespace stirbench::desk::views::body
