#pragma once

#include <Eigen/Geometry>
#include <array>
#include <cmath>
#include <numbers>

#include "app/library/body.h"

// Vectors and motions of the body: the content's plain arrays, with Eigen's arithmetic. Double for geometry;
// the renderer narrows to float.
namespace stirbench::desk::views::body {

using library::Vec2;
using library::Vec3;

inline constexpr double rad_per_deg = std::numbers::pi / 180.0;

// A view of `a`: it must not outlive it.
inline Eigen::Map<const Eigen::Vector3d> to_eigen(const Vec3& a) {
  return Eigen::Map<const Eigen::Vector3d>(a.data());
}
inline Vec3 to_vec(const Eigen::Vector3d& a) { return {a.x(), a.y(), a.z()}; }
// As the renderer takes it.
inline std::array<float, 3> narrow(const Vec3& v) {
  return {static_cast<float>(v[0]), static_cast<float>(v[1]), static_cast<float>(v[2])};
}

inline Vec3 operator+(const Vec3& a, const Vec3& b) { return to_vec(to_eigen(a) + to_eigen(b)); }
inline Vec3 operator-(const Vec3& a, const Vec3& b) { return to_vec(to_eigen(a) - to_eigen(b)); }
inline Vec3 operator*(const Vec3& a, double f) { return to_vec(to_eigen(a) * f); }
inline double dot(const Vec3& a, const Vec3& b) { return to_eigen(a).dot(to_eigen(b)); }
inline Vec3 cross(const Vec3& a, const Vec3& b) { return to_vec(to_eigen(a).cross(to_eigen(b))); }
inline double length(const Vec3& a) { return to_eigen(a).norm(); }
// (0, 0, 1) for a vector of no length.
inline Vec3 unit(const Vec3& a) {
  const double l = length(a);
  return l > 1e-15 ? a * (1.0 / l) : Vec3{0.0, 0.0, 1.0};
}
inline Vec3 between(const Vec3& a, const Vec3& b, double share) { return a + (b - a) * share; }
// Any direction at a right angle to `a`.
inline Vec3 any_perpendicular(const Vec3& a) {
  return unit(cross(a, std::abs(a[2]) < 0.9 * length(a) ? Vec3{0.0, 0.0, 1.0} : Vec3{1.0, 0.0, 0.0}));
}

// A rigid motion: p -> R p + t. The identity unless set.
struct Pose {
  Eigen::Isometry3d motion = Eigen::Isometry3d::Identity();

  // A direction: turned, not moved.
  Vec3 turned(const Vec3& v) const { return to_vec(motion.linear() * to_eigen(v)); }
  Vec3 apply(const Vec3& p) const { return to_vec(motion * to_eigen(p)); }
  Pose inverse() const { return {motion.inverse()}; }
};
// First b, then a.
inline Pose operator*(const Pose& a, const Pose& b) { return {a.motion * b.motion}; }
inline Pose moved_by(const Vec3& t) { return {Eigen::Isometry3d(Eigen::Translation3d(to_eigen(t)))}; }
// About an axis through `at`, right-handed.
inline Pose turned_about(const Vec3& at, const Vec3& axis, double rad) {
  const Eigen::Translation3d there(to_eigen(at));
  return {there * Eigen::AngleAxisd(rad, to_eigen(unit(axis))) * there.inverse()};
}
// Turned about x, then y, then z [deg], then moved to `at`.
inline Pose placed(const Vec3& at, const Vec3& turn_deg) {
  const Eigen::Vector3d rad = to_eigen(turn_deg) * rad_per_deg;
  return {Eigen::Translation3d(to_eigen(at)) * Eigen::AngleAxisd(rad.z(), Eigen::Vector3d::UnitZ()) *
          Eigen::AngleAxisd(rad.y(), Eigen::Vector3d::UnitY()) *
          Eigen::AngleAxisd(rad.x(), Eigen::Vector3d::UnitX())};
}

}  // namespace stirbench::desk::views::body
