#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "app/desk/views/body/solids.h"

// Solids against closed forms of geometry: prism, Pappus' theorems for bodies of revolution, the length of a
// helix.
using namespace stirbench::desk::views::body;
using stirbench::library::BodyShape;
using stirbench::library::ShapeKind;

namespace {

constexpr double pi = std::numbers::pi;

// A polygon of n sides instead of a circle encloses this share of it.
double polygon_share(int pieces) { return pieces / (2.0 * pi) * std::sin(2.0 * pi / pieces); }

bool outward(const Mesh& mesh) { return is_closed(mesh) && volume_m3(mesh) > 0.0; }

}  // namespace

TEST_CASE("a box encloses its length, breadth and height") {
  BodyShape box;
  box.kind = ShapeKind::box;
  box.size = {0.3, 0.2, 0.1};
  const Mesh mesh = solid(box);
  CHECK(outward(mesh));
  CHECK(volume_m3(mesh) == doctest::Approx(0.006).epsilon(1e-12));
  CHECK(area_m2(mesh) == doctest::Approx(0.22).epsilon(1e-12));
  // Rounded upright edges: four quarter circles in place of four squares, as polygons of 5 pieces a quarter.
  box.round_m = 0.05;
  const double section = 0.06 - 4.0 * 0.05 * 0.05 + pi * 0.05 * 0.05 * polygon_share(20);
  CHECK(volume_m3(solid(box)) == doctest::Approx(section * 0.1).epsilon(1e-12));
  CHECK(outward(solid(box)));
}

TEST_CASE("bodies of revolution follow Pappus: area of the outline times the way of its centroid") {
  BodyShape tube;
  tube.kind = ShapeKind::tube;
  tube.radius_m = 0.1;
  tube.inner_m = 0.06;
  tube.height_m = 0.25;
  const double share = polygon_share(circle_pieces(0.1));
  CHECK(outward(solid(tube)));
  CHECK(volume_m3(solid(tube)) == doctest::Approx(pi * (0.01 - 0.0036) * 0.25 * share).epsilon(1e-12));

  // A cone stands on the axis.
  BodyShape cone;
  cone.kind = ShapeKind::revolve;
  cone.profile = {{0.0, 0.0}, {0.2, 0.0}, {0.0, 0.3}};
  CHECK(outward(solid(cone)));
  CHECK(volume_m3(solid(cone)) ==
        doctest::Approx(pi * 0.04 * 0.3 / 3.0 * polygon_share(circle_pieces(0.2))).epsilon(1e-12));
  // The other way round it is the same solid.
  cone.profile = {{0.0, 0.3}, {0.2, 0.0}, {0.0, 0.0}};
  CHECK(volume_m3(solid(cone)) ==
        doctest::Approx(pi * 0.04 * 0.3 / 3.0 * polygon_share(circle_pieces(0.2))).epsilon(1e-12));

  // A ring: 2 pi R times pi r^2, both circles being polygons.
  BodyShape ring;
  ring.kind = ShapeKind::ring;
  ring.radius_m = 0.05;
  ring.wire_m = 0.004;
  const double torus = 2.0 * pi * 0.05 * pi * 0.004 * 0.004;
  CHECK(outward(solid(ring)));
  CHECK(volume_m3(solid(ring)) ==
        doctest::Approx(torus * polygon_share(10) * polygon_share(circle_pieces(0.054))).epsilon(1e-9));
}

TEST_CASE("a ball comes near the sphere as its pieces grow, and never reaches it") {
  BodyShape ball;
  ball.kind = ShapeKind::ball;
  for (const double radius : {0.01, 0.1, 0.5}) {
    ball.radius_m = radius;
    const double sphere = 4.0 / 3.0 * pi * radius * radius * radius;
    CHECK(outward(solid(ball)));
    CHECK(volume_m3(solid(ball)) < sphere);
    CHECK(volume_m3(solid(ball)) > sphere * (radius > 0.05 ? 0.985 : 0.85));
  }
}

TEST_CASE("prisms with corners that point inwards keep their area") {
  BodyShape star;
  star.kind = ShapeKind::extrude;
  star.height_m = 0.1;
  for (int i = 0; i < 12; ++i) {
    const double r = i % 2 == 0 ? 0.1 : 0.04;
    star.outline.push_back({r * std::cos(pi * i / 6.0), r * std::sin(pi * i / 6.0)});
  }
  // Twelve triangles with two sides 0.1 and 0.04 and 30 degrees between them.
  CHECK(outward(solid(star)));
  CHECK(volume_m3(solid(star)) == doctest::Approx(12.0 * 0.5 * 0.1 * 0.04 * 0.5 * 0.1).epsilon(1e-12));
  CHECK(ears(star.outline).size() == 10);
}

TEST_CASE("a coil is as long as its helix, and turns the way it is told") {
  BodyShape coil;
  coil.kind = ShapeKind::coil;
  coil.radius_m = 0.2;
  coil.wire_m = 0.006;
  coil.pitch_m = 0.03;
  coil.turns = 5.0;
  // Length of a helix: turns times sqrt((2 pi r)^2 + pitch^2).
  const double helix = 5.0 * std::sqrt(std::pow(2.0 * pi * 0.2, 2.0) + 0.03 * 0.03);
  const double volume = helix * pi * 0.006 * 0.006 * polygon_share(10);
  CHECK(outward(solid(coil)));
  CHECK(volume_m3(solid(coil)) == doctest::Approx(volume).epsilon(0.01));
  const auto first_turn = [](const Mesh& mesh) {
    // The side on which the coil is after a quarter of its first turn: +y for a right-hand helix.
    double y = 0.0;
    for (const Vec3& p : mesh.points)
      if (p[2] > 0.004 && p[2] < 0.011 && std::abs(p[0]) < 0.05) y += p[1];
    return y;
  };
  CHECK(first_turn(solid(coil)) > 0.0);
  coil.left = true;
  CHECK(first_turn(solid(coil)) < 0.0);
  CHECK(outward(solid(coil)));
}

TEST_CASE("threads and strips are closed, with their outside outside") {
  BodyShape thread;
  thread.kind = ShapeKind::thread;
  thread.radius_m = 0.01;
  thread.depth_m = 0.001;
  thread.pitch_m = 0.003;
  thread.turns = 4.0;
  CHECK(outward(solid(thread)));
  thread.left = true;
  CHECK(outward(solid(thread)));
  BodyShape strip;
  strip.kind = ShapeKind::strip;
  strip.points = {{0, 0, 0}, {0.2, 0, 0}};
  strip.width_m = 0.04;
  strip.thickness_m = 0.004;
  strip.tilt_from_deg = strip.tilt_to_deg = 30.0;
  CHECK(outward(solid(strip)));
  CHECK(volume_m3(solid(strip)) == doctest::Approx(0.2 * 0.04 * 0.004).epsilon(1e-9));
  strip.points = {{0, 0, 0}, {0.1, 0.02, 0.0}, {0.15, 0.08, 0.05}};
  strip.smooth = 6;
  strip.tilt_to_deg = -60.0;
  CHECK(outward(solid(strip)));
}

TEST_CASE("an open surface is distinguished from one that is inside out") {
  Mesh mesh = extruded({{0, 0}, {1, 0}, {0, 1}}, 0.0, 1.0);
  CHECK(is_closed(mesh));
  Mesh open = mesh;
  open.triangles.pop_back();
  CHECK_FALSE(is_closed(open));
  Mesh turned = mesh;
  for (auto& t : turned.triangles) std::swap(t[1], t[2]);
  CHECK(is_closed(turned));
  CHECK(volume_m3(turned) == doctest::Approx(-0.5));
  Mesh one_wrong = mesh;
  std::swap(one_wrong.triangles[0][1], one_wrong.triangles[0][2]);
  CHECK_FALSE(is_closed(one_wrong));
}

TEST_CASE("normals are shared over smooth places and split at edges") {
  const ShadedMesh box = shaded(extruded({{0, 0}, {1, 0}, {1, 1}, {0, 1}}, 0.0, 1.0));
  CHECK(box.corners.size() == 24);  // three to each of the eight corners
  CHECK(box.edges.size() == 2 * 12);
  BodyShape ball;
  ball.kind = ShapeKind::ball;
  ball.radius_m = 0.1;
  const Mesh mesh = solid(ball);
  const ShadedMesh round = shaded(mesh);
  CHECK(round.corners.size() == mesh.points.size());
  CHECK(round.edges.empty());
  for (const auto& corner : round.corners) {
    const Vec3 p{corner.point[0], corner.point[1], corner.point[2]};
    const Vec3 n{corner.normal[0], corner.normal[1], corner.normal[2]};
    CHECK(dot(unit(p), n) > 0.99);
  }
}

TEST_CASE("turning and moving keep lengths, and can be taken back") {
  const Pose pose =
      placed({0.1, -0.2, 0.3}, {25.0, -40.0, 110.0}) * turned_about({0.3, 0.1, 0.0}, {1.0, 2.0, -1.0}, 0.7);
  const Vec3 a{0.2, 0.5, -0.1};
  const Vec3 b{-0.4, 0.1, 0.3};
  CHECK(length(pose.apply(a) - pose.apply(b)) == doctest::Approx(length(a - b)).epsilon(1e-12));
  CHECK(length(pose.inverse().apply(pose.apply(a)) - a) < 1e-12);
  // x, then y, then z: a quarter turn about y carries z to x.
  CHECK(length(placed({}, {0, 90, 0}).apply({0, 0, 1}) - Vec3{1, 0, 0}) < 1e-12);
  // A point of the axis stays.
  CHECK(length(turned_about({0.3, 0.1, 0.0}, {0, 0, 1}, 2.0).apply({0.3, 0.1, 5.0}) - Vec3{0.3, 0.1, 5.0}) <
        1e-12);
}

TEST_CASE("a share of a line is a share of its length") {
  const std::vector<Vec3> line = {{0, 0, 0}, {3, 0, 0}, {3, 1, 0}};
  CHECK(length(along(line, 0.5) - Vec3{2, 0, 0}) < 1e-12);
  CHECK(length(along(line, 1.0) - Vec3{3, 1, 0}) < 1e-12);
  const std::vector<Vec3> smooth = rounded_line(line, 8);
  CHECK(smooth.size() == 17);
  CHECK(length(smooth[8] - line[1]) < 1e-12);  // the cubic goes through the points
}
