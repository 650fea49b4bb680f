#pragma once

#include <cstdint>

#include "app/desk/ui/theme.h"
#include "app/desk/ui/geometry.h"

namespace stirbench::desk {

enum class Icon : std::uint8_t {
  none,
  arrow_left, arrow_right, arrow_up, arrow_down,
  chevron_down, chevron_right, chevron_up, chevron_left,
  check, cross, dot, ring, half_ring, square,
  plus, minus,
  play, pause, step_forward, rewind,
  warning,        // outlined triangle with a bar
  info, question,
  lock, clock, person, search, eye, pencil, bin, gear
};

// Draws inside `box` (kept square, centred), stroke from the box's size.
void icon(ImDrawList* draw, Icon which, const Rect& box, ImU32 colour);

// Warning signs in the shape and colours of ISO 3864 (yellow triangle, black border and symbol).
enum class Sign : std::uint8_t { general, hot_surface, electricity, rotating, crush, slippery, chemical, pressure, cold };
void sign(ImDrawList* draw, Sign which, const Rect& box);

}  // namespace stirbench::desk
