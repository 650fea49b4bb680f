#include "app/desk/views/body/mesh.h"

#include <algorithm>
#include <map>
#include <utility>

namespace stirbench::desk::views::body {

void Mesh::add(const Mesh& other) {
  const auto first = static_cast<std::uint32_t>(points.size());
  points.insert(points.end(), other.points.begin(), other.points.end());
  for (const auto& t : other.triangles) triangles.push_back({t[0] + first, t[1] + first, t[2] + first});
}

Mesh Mesh::moved(const Pose& pose) const {
  Mesh out = *this;
  for (Vec3& p : out.points) p = pose.apply(p);
  return out;
}

double volume_m3(const Mesh& mesh) {
  double six = 0.0;
  for (const auto& t : mesh.triangles)
    six += dot(mesh.points[t[0]], cross(mesh.points[t[1]], mesh.points[t[2]]));
  return six / 6.0;
}

double area_m2(const Mesh& mesh) {
  double twice = 0.0;
  for (const auto& t : mesh.triangles)
    twice += length(cross(mesh.points[t[1]] - mesh.points[t[0]], mesh.points[t[2]] - mesh.points[t[0]]));
  return 0.5 * twice;
}

bool is_closed(const Mesh& mesh) {
  std::map<std::pair<std::uint32_t, std::uint32_t>, int> seen;
  for (const auto& t : mesh.triangles)
    for (std::size_t i = 0; i < 3; ++i) ++seen[{t[i], t[(i + 1) % 3]}];
  return !seen.empty() && std::all_of(seen.begin(), seen.end(), [&](const auto& edge) {
    const auto back = seen.find({edge.first.second, edge.first.first});
    return edge.second == 1 && back != seen.end() && back->second == 1;
  });
}

void Bounds::take(const Vec3& p) {
  for (std::size_t i = 0; i < 3; ++i) {
    low[i] = std::min(low[i], p[i]);
    high[i] = std::max(high[i], p[i]);
  }
}

void Bounds::take(const Bounds& other) {
  if (other.empty()) return;
  take(other.low);
  take(other.high);
}

Bounds bounds_of(const Mesh& mesh) {
  Bounds out;
  for (const Vec3& p : mesh.points) out.take(p);
  return out;
}

Mesh shape_mesh(const library::BodyShape& shape) {
  const Mesh one = solid(shape).moved(placed(shape.at, shape.turn_deg));
  Mesh out;
  constexpr double rad = 3.14159265358979323846 / 180.0;
  const bool whole = shape.around_deg >= 359.999;
  const int steps = whole ? shape.around : std::max(shape.around - 1, 1);
  for (int i = 0; i < shape.around; ++i)
    out.add(one.moved(turned_about({}, {0, 0, 1}, rad * shape.around_deg * i / steps)));
  return out;
}

Mesh part_mesh(const library::BodyPart& part) {
  Mesh out;
  for (const library::BodyShape& shape : part.shapes) out.add(shape_mesh(shape));
  return out;
}

namespace {

// Face normals times twice the area.
std::vector<Vec3> face_normals(const Mesh& mesh) {
  std::vector<Vec3> out;
  out.reserve(mesh.triangles.size());
  for (const auto& t : mesh.triangles)
    out.push_back(cross(mesh.points[t[1]] - mesh.points[t[0]], mesh.points[t[2]] - mesh.points[t[0]]));
  return out;
}

}  // namespace

ShadedMesh shaded(const Mesh& mesh, double crease_deg, bool with_edges) {
  const double limit = std::cos(crease_deg * 3.14159265358979323846 / 180.0);
  const std::vector<Vec3> faces = face_normals(mesh);
  std::vector<Vec3> units;
  units.reserve(faces.size());
  for (const Vec3& face : faces) units.push_back(unit(face));
  std::vector<std::vector<std::uint32_t>> at_point(mesh.points.size());
  for (std::uint32_t f = 0; f < mesh.triangles.size(); ++f)
    for (const std::uint32_t p : mesh.triangles[f]) at_point[p].push_back(f);

  ShadedMesh out;
  // Corners with the same point and normal are one.
  std::vector<std::vector<std::uint32_t>> made(mesh.points.size());
  const auto corner = [&](std::uint32_t point, std::uint32_t face) {
    const Vec3 own = units[face];
    Vec3 sum{};
    for (const std::uint32_t f : at_point[point])
      if (dot(units[f], own) > limit) sum = sum + faces[f];
    const Vec3 normal = length(sum) > 0.0 ? unit(sum) : own;
    for (const std::uint32_t c : made[point]) {
      const auto& n = out.corners[c].normal;
      if (dot(normal, {n[0], n[1], n[2]}) > 0.9999) return c;
    }
    const auto index = static_cast<std::uint32_t>(out.corners.size());
    out.corners.push_back({narrow(mesh.points[point]), narrow(normal)});
    made[point].push_back(index);
    return index;
  };
  std::map<std::pair<std::uint32_t, std::uint32_t>, std::uint32_t> face_at;
  for (std::uint32_t f = 0; f < mesh.triangles.size(); ++f) {
    const auto& t = mesh.triangles[f];
    for (std::size_t i = 0; i < 3; ++i) {
      out.triangles.push_back(corner(t[i], f));
      if (with_edges) face_at[{t[i], t[(i + 1) % 3]}] = f;
    }
  }
  for (const auto& [edge, face] : face_at) {
    if (edge.first > edge.second) continue;
    const auto other = face_at.find({edge.second, edge.first});
    if (other == face_at.end() || dot(units[face], units[other->second]) > limit) continue;
    out.edges.push_back(corner(edge.first, face));
    out.edges.push_back(corner(edge.second, face));
  }
  return out;
}

}  // namespace stirbench::desk::views::body
