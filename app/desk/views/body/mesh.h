#pragma once

#include <cstdint>
#include <vector>

#include "app/desk/views/body/vec.h"

// Solids of triangles, and how the shapes of a body become them. Every shape gives a closed surface: each
// edge is shared by two triangles that run along it in opposite directions, outside seen counter-clockwise.
namespace stirbench::desk::views::body {

struct Mesh {
  std::vector<Vec3> points;
  std::vector<std::array<std::uint32_t, 3>> triangles;

  void add(const Mesh& other);  // side by side, nothing is welded
  Mesh moved(const Pose& pose) const;
};

// Enclosed volume by the divergence theorem: sum of a . (b x c) / 6. Positive for a closed surface whose
// outside is outside.
double volume_m3(const Mesh& mesh);
double area_m2(const Mesh& mesh);
bool is_closed(const Mesh& mesh);

struct Bounds {
  Vec3 low{1e9, 1e9, 1e9};
  Vec3 high{-1e9, -1e9, -1e9};
  void take(const Vec3& p);
  void take(const Bounds& other);
  bool empty() const { return low[0] > high[0]; }
  Vec3 centre() const { return (low + high) * 0.5; }
  double radius() const { return empty() ? 0.0 : 0.5 * length(high - low); }
};
Bounds bounds_of(const Mesh& mesh);

// The shape as its kind says, before `at`, `turn_deg` and `around`.
Mesh solid(const library::BodyShape& shape);
// The shape in its part: placed and repeated.
Mesh shape_mesh(const library::BodyShape& shape);
Mesh part_mesh(const library::BodyPart& part);

// Pieces of a full circle of that radius: enough that the chord stays within 0.4 mm of the arc, 10 to 64.
int circle_pieces(double radius_m);

// For the renderer: a normal at each corner, shared between triangles that meet at less than `crease_deg`;
// and the edges that are sharper.
struct ShadedMesh {
  struct Corner {
    std::array<float, 3> point;
    std::array<float, 3> normal;
  };
  std::vector<Corner> corners;
  std::vector<std::uint32_t> triangles;
  std::vector<std::uint32_t> edges;  // pairs of corners
};
ShadedMesh shaded(const Mesh& mesh, double crease_deg = 38.0, bool with_edges = true);

}  // namespace stirbench::desk::views::body
