#pragma once

#include "app/desk/kit/theme/geometry.h"
#include "app/desk/kit/theme/theme.h"

namespace stirbench::desk::kit {

// Fills a large rounded rectangle with an opaque colour. Looks like ImDrawList::AddRectFilled, but the middle
// is filled by clearing rather than by blending textured triangles, which costs the software renderer a
// multiple. Small or translucent ones are drawn the usual way.
void fill_ground(ImDrawList* draw, const Rect& rect, Colour colour, float corner);

}  // namespace stirbench::desk::kit
