#pragma once

#include <array>
#include <optional>

#include "app/desk/views/body/scene.h"

// An eye that goes round the machine.
namespace stirbench::desk::views::body {

using Matrix = std::array<float, 16>;  // column by column, as OpenGL takes it

struct Camera {
  double azimuth_deg = 24.0;  // 0 from the front (from -y), positive from the side of the draw valve
  double height_deg = 20.0;   // above the horizon
  double distance_m = 3.0;
  Vec3 target{};

  static constexpr double view_deg = 26.0;  // of the height of the picture

  Vec3 eye() const;
  Vec3 right() const;
  Vec3 up() const;

  void orbit(double by_azimuth_deg, double by_height_deg);
  void zoom(double factor);  // below 1: nearer
  void pan(double right_px, double up_px, double height_px);
  // The whole of the bounds in a picture of that aspect (width over height).
  void fit(const Bounds& bounds, double aspect);

  Matrix view_projection(double aspect) const;
  // Place in the picture, 0..1 from its top left corner; nothing behind the eye.
  std::optional<Vec2> project(const Vec3& point, double aspect) const;
  Ray ray(double x_norm, double y_norm, double aspect) const;
  bool operator==(const Camera&) const = default;
};

}  // namespace stirbench::desk::views::body
