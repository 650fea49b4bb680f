#include "app/desk/shell/window_icon.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "app/desk/kit/theme/theme.h"

namespace stirbench::desk::shell {

namespace {

// Signed distance to a rounded box around (cx, cy): negative inside. All in units of the icon's side.
float box_distance(float x, float y, float cx, float cy, float half_w, float half_h, float corner) {
  const float dx = std::abs(x - cx) - half_w + corner;
  const float dy = std::abs(y - cy) - half_h + corner;
  return std::hypot(std::max(dx, 0.0F), std::max(dy, 0.0F)) + std::min(std::max(dx, dy), 0.0F) - corner;
}

float coverage(float distance, float pixel) { return std::clamp(0.5F - distance / pixel, 0.0F, 1.0F); }

kit::Colour over(kit::Colour below, kit::Colour above, float share) {
  if (share <= 0.0F) return below;
  if (below.a == 0) return above.faded(share);
  return mix(below, above, share);
}

}  // namespace

IconPicture draw_window_icon(int side) {
  IconPicture picture;
  picture.side = std::max(side, 16);
  const auto count = static_cast<std::size_t>(picture.side);
  picture.rgba.resize(count * count * 4);
  const kit::Colour ground = token_colour(kit::ThemeKind::light, kit::Token::act);
  const kit::Colour steel = token_colour(kit::ThemeKind::light, kit::Token::panel);
  const kit::Colour product = kit::product_colour(70.0);
  const float pixel = 1.0F / static_cast<float>(picture.side);
  for (std::size_t row = 0; row < count; ++row) {
    for (std::size_t column = 0; column < count; ++column) {
      const float x = (static_cast<float>(column) + 0.5F) * pixel;
      const float y = (static_cast<float>(row) + 0.5F) * pixel;
      kit::Colour colour{0, 0, 0, 0};
      colour = over(colour, ground, coverage(box_distance(x, y, 0.5F, 0.5F, 0.5F, 0.5F, 0.2F), pixel));
      const float vat = box_distance(x, y, 0.5F, 0.40F, 0.30F, 0.22F, 0.10F);
      const float well = box_distance(x, y, 0.5F, 0.66F, 0.15F, 0.18F, 0.05F);
      const float body = std::min(vat, well);
      colour = over(colour, steel, coverage(body, pixel));
      colour = over(colour, product, y > 0.30F ? coverage(body + 0.055F, pixel) : 0.0F);
      colour = over(colour, ground, coverage(box_distance(x, y, 0.5F, 0.52F, 0.025F, 0.22F, 0.02F), pixel));
      colour = over(colour, ground, coverage(box_distance(x, y, 0.5F, 0.46F, 0.17F, 0.028F, 0.028F), pixel));
      const std::size_t at = (row * count + column) * 4;
      picture.rgba[at] = colour.r;
      picture.rgba[at + 1] = colour.g;
      picture.rgba[at + 2] = colour.b;
      picture.rgba[at + 3] = colour.a;
    }
  }
  return picture;
}

}  // namespace stirbench::desk::shell
