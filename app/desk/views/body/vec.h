#pragma once

#include <array>
#include <cmath>

#include "app/library/body.h"

// The little of vectors and matrices that the body needs. Double for geometry; the renderer narrows to float.
namespace stirbench::desk::views::body {

using library::Vec2;
using library::Vec3;

inline Vec3 operator+(const Vec3& a, const Vec3& b) { return {a[0] + b[0], a[1] + b[1], a[2] + b[2]}; }
inline Vec3 operator-(const Vec3& a, const Vec3& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
inline Vec3 operator*(const Vec3& a, double f) { return {a[0] * f, a[1] * f, a[2] * f}; }
inline double dot(const Vec3& a, const Vec3& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
inline Vec3 cross(const Vec3& a, const Vec3& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}
inline double length(const Vec3& a) { return std::sqrt(dot(a, a)); }
// (0, 0, 1) for a vector of no length.
inline Vec3 unit(const Vec3& a) {
  const double l = length(a);
  return l > 1e-15 ? a * (1.0 / l) : Vec3{0.0, 0.0, 1.0};
}
inline Vec3 between(const Vec3& a, const Vec3& b, double share) { return a + (b - a) * share; }
// Any direction at a right angle to `a`.
inline Vec3 beside(const Vec3& a) {
  return unit(cross(a, std::abs(a[2]) < 0.9 * length(a) ? Vec3{0.0, 0.0, 1.0} : Vec3{1.0, 0.0, 0.0}));
}

// A rigid motion: p -> R p + t. Rows of R in m[0..2].
struct Pose {
  std::array<Vec3, 3> m{Vec3{1, 0, 0}, Vec3{0, 1, 0}, Vec3{0, 0, 1}};
  Vec3 t{};

  Vec3 turned(const Vec3& v) const { return {dot(m[0], v), dot(m[1], v), dot(m[2], v)}; }
  Vec3 apply(const Vec3& p) const { return turned(p) + t; }
  Pose inverse() const {
    Pose out;
    for (std::size_t i = 0; i < 3; ++i)
      for (std::size_t j = 0; j < 3; ++j) out.m[i][j] = m[j][i];
    out.t = out.turned(t) * -1.0;
    return out;
  }
};
// First b, then a.
inline Pose operator*(const Pose& a, const Pose& b) {
  Pose out;
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j) out.m[i][j] = a.m[i][0] * b.m[0][j] + a.m[i][1] * b.m[1][j] + a.m[i][2] * b.m[2][j];
  out.t = a.apply(b.t);
  return out;
}
inline Pose moved_by(const Vec3& t) { return {Pose{}.m, t}; }
// About an axis through `at` (Rodrigues).
inline Pose turned_about(const Vec3& at, const Vec3& axis, double rad) {
  const Vec3 k = unit(axis);
  const double c = std::cos(rad);
  const double s = std::sin(rad);
  Pose out;
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j) out.m[i][j] = (i == j ? c : 0.0) + (1.0 - c) * k[i] * k[j];
  out.m[0][1] -= s * k[2];
  out.m[0][2] += s * k[1];
  out.m[1][0] += s * k[2];
  out.m[1][2] -= s * k[0];
  out.m[2][0] -= s * k[1];
  out.m[2][1] += s * k[0];
  out.t = at - out.turned(at);
  return out;
}
// Turned about x, then y, then z [deg], then moved to `at`.
inline Pose placed(const Vec3& at, const Vec3& turn_deg) {
  constexpr double rad = 3.14159265358979323846 / 180.0;
  Pose out = turned_about({}, {0, 0, 1}, turn_deg[2] * rad) * turned_about({}, {0, 1, 0}, turn_deg[1] * rad) *
             turned_about({}, {1, 0, 0}, turn_deg[0] * rad);
  out.t = at;
  return out;
}

}  // namespace stirbench::desk::views::body
