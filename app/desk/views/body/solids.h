#pragma once

#include <vector>

#include "app/desk/views/body/mesh.h"

// What solid() is made of; the effects (product, pail's contents) use them too.
namespace stirbench::desk::views::body {

// A closed outline of [radius, height], either way round, turned about z.
Mesh revolved(const std::vector<Vec2>& profile, int pieces);
// A closed outline of [x, y] without holes, either way round, between two heights.
Mesh extruded(const std::vector<Vec2>& outline, double from, double to);
// Triangles of a counter-clockwise outline by cutting ears.
std::vector<std::array<std::uint32_t, 3>> ears(const std::vector<Vec2>& outline);
// sweep, strip, coil, thread.
Mesh bent(const library::BodyShape& shape);
// A round bar along a line; the frame is carried along without twist.
Mesh swept(const std::vector<Vec3>& line, double radius, int sides);
// The line through the points, rounded by Catmull and Rom's cubic with `pieces` between two points; itself
// for pieces < 2.
std::vector<Vec3> rounded_line(const std::vector<Vec3>& points, int pieces);
// Point at a share 0..1 of a line's length.
Vec3 along(const std::vector<Vec3>& line, double share);

}  // namespace stirbench::desk::views::body
