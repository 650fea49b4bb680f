#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <utility>

#include "app/desk/views/body/mesh.h"
#include "app/desk/views/body/solids.h"

// Bodies of revolution, prisms and boxes.
namespace stirbench::desk::views::body {

namespace {

using library::ShapeKind;
using std::numbers::pi;

double signed_area(const std::vector<Vec2>& points) {
  double twice = 0.0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Vec2& a = points[i];
    const Vec2& b = points[(i + 1) % points.size()];
    twice += a[0] * b[1] - b[0] * a[1];
  }
  return 0.5 * twice;
}

// Counter-clockwise, without points that repeat.
std::vector<Vec2> tidy(std::vector<Vec2> points) {
  points.erase(std::unique(points.begin(), points.end()), points.end());
  while (points.size() > 1 && points.front() == points.back()) points.pop_back();
  if (signed_area(points) < 0.0) std::reverse(points.begin(), points.end());
  return points;
}

double turn_of(const Vec2& a, const Vec2& b, const Vec2& c) {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

bool inside(const Vec2& p, const Vec2& a, const Vec2& b, const Vec2& c) {
  return turn_of(a, b, p) >= 0.0 && turn_of(b, c, p) >= 0.0 && turn_of(c, a, p) >= 0.0;
}

std::vector<Vec2> circle_outline(double radius, double cx, double cy, int pieces) {
  std::vector<Vec2> out;
  for (int i = 0; i < pieces; ++i) {
    const double a = 2.0 * pi * i / pieces;
    out.push_back({cx + radius * std::cos(a), cy + radius * std::sin(a)});
  }
  return out;
}

std::vector<Vec2> rounded_box(double x, double y, double round) {
  const double r = std::min({round, 0.5 * x, 0.5 * y});
  if (r < 1e-6) return {{-x / 2, -y / 2}, {x / 2, -y / 2}, {x / 2, y / 2}, {-x / 2, y / 2}};
  std::vector<Vec2> out;
  constexpr int pieces = 5;
  const std::array<Vec2, 4> centre = {Vec2{x / 2 - r, -y / 2 + r}, Vec2{x / 2 - r, y / 2 - r},
                                      Vec2{-x / 2 + r, y / 2 - r}, Vec2{-x / 2 + r, -y / 2 + r}};
  for (std::size_t corner = 0; corner < 4; ++corner)
    for (int i = 0; i <= pieces; ++i) {
      const double a = pi / 2.0 * (static_cast<double>(corner) - 1.0 + static_cast<double>(i) / pieces);
      out.push_back({centre[corner][0] + r * std::cos(a), centre[corner][1] + r * std::sin(a)});
    }
  return out;
}

Mesh ball(double radius, double height) {
  std::vector<Vec2> outline;
  const int pieces = std::max(circle_pieces(radius) / 2, 6);
  const double half = height > 0.0 ? height / 2.0 : radius;
  for (int i = 0; i <= pieces; ++i) {
    const double a = pi * (static_cast<double>(i) / pieces - 0.5);
    const bool pole = i == 0 || i == pieces;
    outline.push_back({pole ? 0.0 : radius * std::cos(a), half * std::sin(a)});
  }
  return revolved(outline, circle_pieces(radius));
}

}  // namespace

int circle_pieces(double radius_m) {
  // Sagitta r (1 - cos(pi / n)) = 0.4 mm.
  const double share = std::clamp(1.0 - 0.0004 / std::max(radius_m, 1e-6), -1.0, 1.0);
  const double n = pi / std::max(std::acos(share), 0.01);
  return std::clamp(2 * static_cast<int>(std::ceil(n / 2.0)), 10, 64);
}

Mesh revolved(const std::vector<Vec2>& profile, int pieces) {
  const std::vector<Vec2> outline = tidy(profile);
  constexpr double on_axis = 1e-9;
  Mesh mesh;
  // One point on the axis, a ring elsewhere.
  std::vector<std::uint32_t> first;
  for (const Vec2& p : outline) {
    first.push_back(static_cast<std::uint32_t>(mesh.points.size()));
    const int count = p[0] <= on_axis ? 1 : pieces;
    for (int k = 0; k < count; ++k) {
      const double a = 2.0 * pi * k / pieces;
      mesh.points.push_back({p[0] * std::cos(a), p[0] * std::sin(a), p[1]});
    }
  }
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const std::size_t j = (i + 1) % outline.size();
    const bool from_axis = outline[i][0] <= on_axis;
    const bool to_axis = outline[j][0] <= on_axis;
    if (from_axis && to_axis) continue;
    for (int k = 0; k < pieces; ++k) {
      const auto now = static_cast<std::uint32_t>(k);
      const auto next = static_cast<std::uint32_t>((k + 1) % pieces);
      const std::uint32_t a0 = first[i] + (from_axis ? 0U : now);
      const std::uint32_t a1 = first[i] + (from_axis ? 0U : next);
      const std::uint32_t b0 = first[j] + (to_axis ? 0U : now);
      const std::uint32_t b1 = first[j] + (to_axis ? 0U : next);
      if (!from_axis) mesh.triangles.push_back({a0, a1, b0});
      if (!to_axis) mesh.triangles.push_back({a1, b1, b0});
      if (from_axis) mesh.triangles.back() = {a0, b1, b0};
    }
  }
  return mesh;
}

std::vector<std::array<std::uint32_t, 3>> ears(const std::vector<Vec2>& outline) {
  std::vector<std::uint32_t> left;
  for (std::uint32_t i = 0; i < outline.size(); ++i) left.push_back(i);
  std::vector<std::array<std::uint32_t, 3>> out;
  while (left.size() > 3) {
    bool found = false;
    for (std::size_t i = 0; i < left.size() && !found; ++i) {
      const std::uint32_t a = left[(i + left.size() - 1) % left.size()];
      const std::uint32_t b = left[i];
      const std::uint32_t c = left[(i + 1) % left.size()];
      if (turn_of(outline[a], outline[b], outline[c]) <= 1e-14) continue;
      found = std::none_of(left.begin(), left.end(), [&](std::uint32_t p) {
        return p != a && p != b && p != c && inside(outline[p], outline[a], outline[b], outline[c]);
      });
      if (!found) continue;
      out.push_back({a, b, c});
      left.erase(left.begin() + static_cast<std::ptrdiff_t>(i));
    }
    // Only points in a line are left over: any cut does.
    if (!found) {
      out.push_back({left[0], left[1], left[2]});
      left.erase(left.begin() + 1);
    }
  }
  if (left.size() == 3) out.push_back({left[0], left[1], left[2]});
  return out;
}

Mesh extruded(const std::vector<Vec2>& outline, double from, double to) {
  const std::vector<Vec2> points = tidy(outline);
  const auto n = static_cast<std::uint32_t>(points.size());
  Mesh mesh;
  for (const double z : {from, to})
    for (const Vec2& p : points) mesh.points.push_back({p[0], p[1], z});
  for (const auto& t : ears(points)) {
    mesh.triangles.push_back({t[0], t[2], t[1]});
    mesh.triangles.push_back({t[0] + n, t[1] + n, t[2] + n});
  }
  for (std::uint32_t i = 0; i < n; ++i) {
    const std::uint32_t j = (i + 1) % n;
    mesh.triangles.push_back({i, j, j + n});
    mesh.triangles.push_back({i, j + n, i + n});
  }
  return mesh;
}

Mesh solid(const library::BodyShape& s) {
  switch (s.kind) {
    case ShapeKind::revolve: {
      double widest = 0.0;
      for (const Vec2& p : s.profile) widest = std::max(widest, p[0]);
      return revolved(s.profile, circle_pieces(widest));
    }
    case ShapeKind::tube: {
      const std::vector<Vec2> ring = {
          {s.inner_m, 0.0}, {s.radius_m, 0.0}, {s.radius_m, s.height_m}, {s.inner_m, s.height_m}};
      return revolved(ring, circle_pieces(s.radius_m));
    }
    case ShapeKind::ring:
      return revolved(circle_outline(s.wire_m, s.radius_m, 0.0, 10), circle_pieces(s.radius_m + s.wire_m));
    case ShapeKind::ball: return ball(s.radius_m, s.height_m);
    case ShapeKind::box:
      return extruded(rounded_box(s.size[0], s.size[1], s.round_m), -s.size[2] / 2.0, s.size[2] / 2.0);
    case ShapeKind::extrude: return extruded(s.outline, 0.0, s.height_m);
    case ShapeKind::mesh: {
      Mesh own{s.corners, s.triangles};
      if (volume_m3(own) < 0.0)  // inside out
        for (auto& t : own.triangles) std::swap(t[1], t[2]);
      return own;
    }
    default: return bent(s);
  }
}

}  // namespace stirbench::desk::views::body
