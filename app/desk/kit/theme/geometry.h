#pragma once

#include <imgui.h>

#include <vector>

namespace stirbench::desk::kit {

// A rectangle in window pixels, y down.
struct Rect {
  float x = 0.0F;
  float y = 0.0F;
  float w = 0.0F;
  float h = 0.0F;

  float right() const { return x + w; }
  float bottom() const { return y + h; }
  ImVec2 min() const { return {x, y}; }
  ImVec2 max() const { return {x + w, y + h}; }
  ImVec2 size() const { return {w, h}; }
  ImVec2 centre() const { return {x + w * 0.5F, y + h * 0.5F}; }
  bool contains(ImVec2 point) const {
    return point.x >= x && point.x < x + w && point.y >= y && point.y < y + h;
  }
  bool empty() const { return w <= 0.0F || h <= 0.0F; }

  Rect inset(float by) const { return {x + by, y + by, w - 2.0F * by, h - 2.0F * by}; }
  Rect inset(float by_x, float by_y) const { return {x + by_x, y + by_y, w - 2.0F * by_x, h - 2.0F * by_y}; }
  Rect moved(float by_x, float by_y) const { return {x + by_x, y + by_y, w, h}; }
  // Overlap of the two; empty (w or h 0) when there is none.
  Rect overlap(const Rect& other) const;

  // Cuts a strip off this rectangle and returns it; `gap` is left free between the strip and the rest.
  Rect take_top(float height, float gap = 0.0F);
  Rect take_bottom(float height, float gap = 0.0F);
  Rect take_left(float width, float gap = 0.0F);
  Rect take_right(float width, float gap = 0.0F);

  // Equal or weighted columns and rows with `gap` between them.
  std::vector<Rect> columns(int count, float gap) const;
  std::vector<Rect> columns(const std::vector<float>& weights, float gap) const;
  std::vector<Rect> rows(int count, float gap) const;
  std::vector<Rect> rows(const std::vector<float>& weights, float gap) const;
};

}  // namespace stirbench::desk::kit
