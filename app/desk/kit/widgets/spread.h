#pragma once

#include <span>

namespace stirbench::desk::kit {

struct Wanted {
  float top = 0.0F;
  float height = 0.0F;
};

// Moves boxes that want to stand at `top`, in the given order, so that no two are nearer than `gap` and all
// stand within low..high. Boxes that have room stay where they want to be. False (nothing is promised about
// the tops) when they do not fit.
bool spread(std::span<Wanted> boxes, float low, float high, float gap);

}  // namespace stirbench::desk::kit
