#include "app/desk/views/body/camera.h"

#include <algorithm>
#include <cmath>

namespace stirbench::desk::views::body {

namespace {

constexpr double nearest_m = 0.15;
constexpr double farthest_m = 12.0;

double half_height() { return std::tan(0.5 * Camera::view_deg * rad_per_deg); }

Vec3 back_way(const Camera& c) {
  const double a = c.azimuth_deg * rad_per_deg;
  const double h = c.height_deg * rad_per_deg;
  return {std::sin(a) * std::cos(h), -std::cos(a) * std::cos(h), std::sin(h)};
}

}  // namespace

Vec3 Camera::eye() const { return target + back_way(*this) * distance_m; }
Vec3 Camera::right() const {
  const double a = azimuth_deg * rad_per_deg;
  return {std::cos(a), std::sin(a), 0.0};
}
Vec3 Camera::up() const { return cross(back_way(*this), right()); }

void Camera::orbit(double by_azimuth_deg, double by_height_deg) {
  azimuth_deg = std::remainder(azimuth_deg + by_azimuth_deg, 360.0);
  height_deg = std::clamp(height_deg + by_height_deg, -20.0, 88.0);
}

void Camera::zoom(double factor) { distance_m = std::clamp(distance_m * factor, nearest_m, farthest_m); }

void Camera::pan(double right_px, double up_px, double height_px) {
  const double metres = 2.0 * distance_m * half_height() / std::max(height_px, 1.0);
  target = target + right() * (right_px * metres) + up() * (up_px * metres);
}

void Camera::fit(const Bounds& bounds, double aspect) {
  if (bounds.empty()) return;
  target = bounds.centre();
  // Each corner of the box asks for a distance at which it stays inside; the farthest is taken, then the box
  // is centred.
  const Vec3 back = back_way(*this);
  for (int round = 0; round < 2; ++round) {
    std::array<Vec3, 8> seen;  // to the right, up, nearer
    double needed = nearest_m;
    for (unsigned corner = 0; corner < 8; ++corner) {
      const Vec3 p =
          Vec3{corner & 1U ? bounds.high[0] : bounds.low[0], corner & 2U ? bounds.high[1] : bounds.low[1],
               corner & 4U ? bounds.high[2] : bounds.low[2]} -
          target;
      const double x = dot(p, right());
      const double y = dot(p, up());
      const double near = dot(p, back);
      seen[corner] = {x, y, near};
      needed = std::max(
          {needed, near + std::abs(y) / half_height(), near + std::abs(x) / (half_height() * aspect)});
    }
    distance_m = std::clamp(needed * 1.04, nearest_m, farthest_m);
    if (round == 1) break;
    double top = -1e9;
    double bottom = 1e9;
    double left = 1e9;
    double far_right = -1e9;
    for (const auto& [x, y, near] : seen) {
      const double scale = 1.0 / std::max(distance_m - near, 0.1);
      top = std::max(top, y * scale);
      bottom = std::min(bottom, y * scale);
      left = std::min(left, x * scale);
      far_right = std::max(far_right, x * scale);
    }
    target = target + up() * (0.5 * (top + bottom) * distance_m) +
             right() * (0.5 * (left + far_right) * distance_m);
  }
}

Matrix Camera::view_projection(double aspect) const {
  // Into the eye's axes: right, up, back.
  Eigen::Isometry3d view = Eigen::Isometry3d::Identity();
  view.linear().row(0) = to_eigen(right());
  view.linear().row(1) = to_eigen(up());
  view.linear().row(2) = to_eigen(back_way(*this));
  view.translation() = -(view.linear() * to_eigen(eye()));
  // OpenGL's clip space: depth from `near` to `far` becomes -1 to 1.
  const double near = std::max(0.02, distance_m - 4.0);
  const double far = distance_m + 6.0;
  Eigen::Matrix4d projection = Eigen::Matrix4d::Zero();
  projection(0, 0) = 1.0 / (half_height() * aspect);
  projection(1, 1) = 1.0 / half_height();
  projection(2, 2) = (far + near) / (near - far);
  projection(2, 3) = 2.0 * far * near / (near - far);
  projection(3, 2) = -1.0;
  Matrix m{};
  Eigen::Map<Eigen::Matrix4f>(m.data()) = (projection * view.matrix()).cast<float>();
  return m;
}

std::optional<Vec2> Camera::project(const Vec3& point, double aspect) const {
  const Vec3 p = point - eye();
  const double depth = -dot(p, back_way(*this));
  if (depth <= 0.02) return std::nullopt;
  const double scale = 1.0 / (depth * half_height());
  return Vec2{0.5 + 0.5 * dot(p, right()) * scale / aspect, 0.5 - 0.5 * dot(p, up()) * scale};
}

Ray Camera::ray(double x_norm, double y_norm, double aspect) const {
  const Vec3 way = right() * ((2.0 * x_norm - 1.0) * half_height() * aspect) +
                   up() * ((1.0 - 2.0 * y_norm) * half_height()) - back_way(*this);
  return {eye(), unit(way)};
}

}  // namespace stirbench::desk::views::body
