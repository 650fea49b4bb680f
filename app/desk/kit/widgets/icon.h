#pragma once

#include <cstdint>

#include "app/desk/kit/theme/geometry.h"
#include "app/desk/kit/theme/theme.h"

namespace stirbench::desk::kit {

enum class Icon : std::uint8_t {
  none,
  arrow_left,
  arrow_right,
  arrow_up,
  arrow_down,
  chevron_down,
  chevron_right,
  chevron_up,
  chevron_left,
  check,
  cross,
  dot,
  ring,
  half_ring,
  square,
  plus,
  minus,
  play,
  pause,
  step_forward,
  rewind,
  warning,  // outlined triangle with a bar
  info,
  question,
  lock,
  clock,
  person,
  search,
  eye,
  pencil,
  bin,
  gear
};

// Draws inside `box` (kept square, centred), stroke from the box's size.
void icon(ImDrawList* draw, Icon which, const Rect& box, ImU32 colour);

}  // namespace stirbench::desk::kit
