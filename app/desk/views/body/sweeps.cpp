#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

#include "app/desk/views/body/solids.h"

// Bars along lines: hoses, handles, blades, springs, threads.
namespace stirbench::desk::views::body {

namespace {

using library::BodyShape;
using library::ShapeKind;
using std::numbers::pi;

// Directions of a line's points, mean of the pieces that meet there.
std::vector<Vec3> directions(const std::vector<Vec3>& line) {
  std::vector<Vec3> out(line.size());
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Vec3 before = i > 0 ? unit(line[i] - line[i - 1]) : Vec3{};
    const Vec3 after = i + 1 < line.size() ? unit(line[i + 1] - line[i]) : Vec3{};
    out[i] = unit(before + after);
  }
  return out;
}

// Sections (each a closed outline in space, counter-clockwise seen against the direction of travel) joined to
// a bar with flat ends.
Mesh joined(const std::vector<std::vector<Vec3>>& sections) {
  Mesh mesh;
  const auto n = static_cast<std::uint32_t>(sections.front().size());
  for (const auto& section : sections) mesh.points.insert(mesh.points.end(), section.begin(), section.end());
  for (std::uint32_t s = 0; s + 1 < sections.size(); ++s)
    for (std::uint32_t i = 0; i < n; ++i) {
      const std::uint32_t j = (i + 1) % n;
      const std::uint32_t a = s * n;
      mesh.triangles.push_back({a + i, a + j, a + n + j});
      mesh.triangles.push_back({a + i, a + n + j, a + n + i});
    }
  const auto last = static_cast<std::uint32_t>((sections.size() - 1) * n);
  for (std::uint32_t i = 1; i + 1 < n; ++i) {
    mesh.triangles.push_back({0, i + 1, i});
    mesh.triangles.push_back({last, last + i, last + i + 1});
  }
  return mesh;
}

std::vector<Vec3> circle_section(const Vec3& centre, const Vec3& u, const Vec3& v, double radius, int sides) {
  std::vector<Vec3> out;
  for (int i = 0; i < sides; ++i) {
    const double a = 2.0 * pi * i / sides;
    out.push_back(centre + u * (radius * std::cos(a)) + v * (radius * std::sin(a)));
  }
  return out;
}

// Flat bar. The width lies level (across the direction of travel and up), turned by the tilt about the
// direction of travel.
Mesh strip(const BodyShape& s) {
  const std::vector<Vec3> line = rounded_line(s.points, s.smooth);
  const std::vector<Vec3> along_line = directions(line);
  std::vector<std::vector<Vec3>> sections;
  Vec3 level = unit(cross({0, 0, 1}, along_line.front()));
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Vec3 t = along_line[i];
    const Vec3 wanted = cross({0, 0, 1}, t);
    // Straight up there is no level direction: the last one goes on.
    level = length(wanted) > 1e-6 ? unit(wanted) : unit(level - t * dot(level, t));
    const Vec3 up = cross(t, level);
    const double share =
        line.size() > 1 ? static_cast<double>(i) / static_cast<double>(line.size() - 1) : 0.0;
    const double tilt = (s.tilt_from_deg + (s.tilt_to_deg - s.tilt_from_deg) * share) * pi / 180.0;
    const Vec3 w = (level * std::cos(tilt) + up * std::sin(tilt)) * (0.5 * s.width_m);
    const Vec3 h = (up * std::cos(tilt) - level * std::sin(tilt)) * (0.5 * s.thickness_m);
    sections.push_back({line[i] - w - h, line[i] + w - h, line[i] + w + h, line[i] - w + h});
  }
  return joined(sections);
}

std::vector<Vec3> helix(double radius, double pitch, double turns, bool left) {
  const int pieces = std::max(static_cast<int>(std::ceil(turns * std::min(circle_pieces(radius), 36))), 2);
  std::vector<Vec3> line;
  for (int i = 0; i <= pieces; ++i) {
    const double turn = turns * i / pieces;
    const double a = 2.0 * pi * turn * (left ? -1.0 : 1.0);
    line.push_back({radius * std::cos(a), radius * std::sin(a), pitch * turn});
  }
  return line;
}

// A ridge with flanks of 60 degrees or what the pitch has room for; its foot lies a little inside the
// cylinder.
Mesh thread(const BodyShape& s) {
  const double foot = std::min(0.42 * s.pitch_m, s.depth_m * 0.75);
  const double sunk = 0.2 * s.depth_m;
  std::vector<std::vector<Vec3>> sections;
  for (const Vec3& p : helix(1.0, s.pitch_m, s.turns, s.left)) {
    const Vec3 out{p[0], p[1], 0.0};
    const auto at_radius = [&](double r, double dz) { return Vec3{out[0] * r, out[1] * r, p[2] + dz}; };
    std::vector<Vec3> section = {at_radius(s.radius_m - sunk, -foot), at_radius(s.radius_m + s.depth_m, 0.0),
                                 at_radius(s.radius_m - sunk, foot)};
    if (!s.left) std::reverse(section.begin(), section.end());
    sections.push_back(std::move(section));
  }
  return joined(sections);
}

}  // namespace

std::vector<Vec3> rounded_line(const std::vector<Vec3>& points, int pieces) {
  if (pieces < 2 || points.size() < 3) return points;
  std::vector<Vec3> out;
  const std::size_t last = points.size() - 1;
  for (std::size_t i = 0; i < last; ++i) {
    const Vec3 p1 = points[i];
    const Vec3 p2 = points[i + 1];
    const Vec3 m1 = (p2 - (i > 0 ? points[i - 1] : p1)) * (i > 0 ? 0.5 : 1.0);
    const Vec3 m2 = ((i + 2 <= last ? points[i + 2] : p2) - p1) * (i + 2 <= last ? 0.5 : 1.0);
    for (int k = 0; k < pieces; ++k) {
      const double t = static_cast<double>(k) / pieces;
      const double t2 = t * t;
      const double t3 = t2 * t;
      out.push_back(p1 * (2 * t3 - 3 * t2 + 1) + m1 * (t3 - 2 * t2 + t) + p2 * (-2 * t3 + 3 * t2) +
                    m2 * (t3 - t2));
    }
  }
  out.push_back(points.back());
  return out;
}

Vec3 along(const std::vector<Vec3>& line, double share) {
  double whole = 0.0;
  for (std::size_t i = 1; i < line.size(); ++i) whole += length(line[i] - line[i - 1]);
  double left = std::clamp(share, 0.0, 1.0) * whole;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double piece = length(line[i] - line[i - 1]);
    if (left <= piece && piece > 0.0) return between(line[i - 1], line[i], left / piece);
    left -= piece;
  }
  return line.empty() ? Vec3{} : line.back();
}

Mesh swept(const std::vector<Vec3>& line, double radius, int sides) {
  const std::vector<Vec3> along_line = directions(line);
  std::vector<std::vector<Vec3>> sections;
  Vec3 u = any_perpendicular(along_line.front());
  for (std::size_t i = 0; i < line.size(); ++i) {
    u = unit(u - along_line[i] * dot(u, along_line[i]));
    sections.push_back(circle_section(line[i], u, cross(along_line[i], u), radius, sides));
  }
  return joined(sections);
}

Mesh bent(const BodyShape& s) {
  switch (s.kind) {
    case ShapeKind::strip: return strip(s);
    case ShapeKind::thread: return thread(s);
    case ShapeKind::coil:
      return swept(helix(s.radius_m, s.pitch_m, s.turns, s.left), s.wire_m, s.wire_m > 0.004 ? 10 : 8);
    default:
      return swept(rounded_line(s.points, s.smooth), s.radius_m, std::min(circle_pieces(s.radius_m), 14));
  }
}

}  // namespace stirbench::desk::views::body
