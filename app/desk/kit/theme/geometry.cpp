#include "app/desk/kit/theme/geometry.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <utility>

namespace stirbench::desk::kit {

Rect Rect::overlap(const Rect& other) const {
  const float left = std::max(x, other.x);
  const float top = std::max(y, other.y);
  const float wide = std::min(right(), other.right()) - left;
  const float high = std::min(bottom(), other.bottom()) - top;
  return {left, top, std::max(wide, 0.0F), std::max(high, 0.0F)};
}

Rect Rect::take_top(float height, float gap) {
  const float taken = std::clamp(height, 0.0F, h);
  const Rect strip{x, y, w, taken};
  const float used = std::min(taken + gap, h);
  y += used;
  h -= used;
  return strip;
}

Rect Rect::take_bottom(float height, float gap) {
  const float taken = std::clamp(height, 0.0F, h);
  const Rect strip{x, y + h - taken, w, taken};
  h -= std::min(taken + gap, h);
  return strip;
}

Rect Rect::take_left(float width, float gap) {
  const float taken = std::clamp(width, 0.0F, w);
  const Rect strip{x, y, taken, h};
  const float used = std::min(taken + gap, w);
  x += used;
  w -= used;
  return strip;
}

Rect Rect::take_right(float width, float gap) {
  const float taken = std::clamp(width, 0.0F, w);
  const Rect strip{x + w - taken, y, taken, h};
  w -= std::min(taken + gap, w);
  return strip;
}

namespace {

// Whole-pixel cuts of a length into weighted parts: edges are rounded, so parts differ by at most a pixel and
// none is lost.
std::vector<std::pair<float, float>> cut(float start, float length, const std::vector<float>& weights,
                                         float gap) {
  std::vector<std::pair<float, float>> parts;
  const float sum = std::accumulate(weights.begin(), weights.end(), 0.0F);
  const float room = length - gap * static_cast<float>(weights.size() - 1);
  if (weights.empty() || sum <= 0.0F) return parts;
  float passed = 0.0F;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const float offset = start + gap * static_cast<float>(i);
    const float from = std::round(offset + room * passed / sum);
    passed += weights[i];
    const float to = std::round(offset + room * passed / sum);
    parts.emplace_back(from, std::max(to - from, 0.0F));
  }
  return parts;
}

}  // namespace

std::vector<Rect> Rect::columns(const std::vector<float>& weights, float gap) const {
  std::vector<Rect> parts;
  for (const auto& [from, length] : cut(x, w, weights, gap)) parts.push_back({from, y, length, h});
  return parts;
}

std::vector<Rect> Rect::rows(const std::vector<float>& weights, float gap) const {
  std::vector<Rect> parts;
  for (const auto& [from, length] : cut(y, h, weights, gap)) parts.push_back({x, from, w, length});
  return parts;
}

std::vector<Rect> Rect::columns(int count, float gap) const {
  return columns(std::vector<float>(static_cast<std::size_t>(std::max(count, 1)), 1.0F), gap);
}

std::vector<Rect> Rect::rows(int count, float gap) const {
  return rows(std::vector<float>(static_cast<std::size_t>(std::max(count, 1)), 1.0F), gap);
}

}  // namespace stirbench::desk::kit
