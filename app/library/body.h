#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

// The body of a machine as content/bodies/ID.json describes it: what its parts look like, where they sit, how
// they move. Lengths in metres. The machine's axes: z up with 0 at the mouth of the well (the vat's bottom),
// x from the shaft to the draw valve, y to the back. Nothing here enters the simulation.
namespace stirbench::library {

using Vec3 = std::array<double, 3>;
using Vec2 = std::array<double, 2>;

// Each is closed: a solid with an outside.
enum class ShapeKind : std::uint8_t {
  revolve,  // `profile` (a closed outline of [radius, height]) turned about z
  box,      // `size`, standing upright edges rounded by `round_m`, its centre at 0
  extrude,  // `outline` (a closed outline of [x, y]) from z = 0 to `height_m`
  tube,     // `radius_m`, hollow by `inner_m`, from z = 0 to `height_m`
  sweep,    // a round bar of `radius_m` along `points`, rounded by `smooth`
  strip,    // a bar of `width_m` x `thickness_m` along `points`, tilted from `tilt_from_deg` to `tilt_to_deg`
  ring,     // a round bar of `wire_m` radius bent to a ring of `radius_m`
  coil,     // the same bent to a helix of `pitch_m` and `turns`
  thread,   // a ridge of `depth_m` standing on a cylinder of `radius_m`, helix of `pitch_m` and `turns`
  ball,     // `radius_m`, squeezed to `height_m` (0: round)
  mesh      // a surface of an author's own, from `file`
};

struct BodyShape {
  ShapeKind kind = ShapeKind::box;
  Vec3 at{};                  // where the shape's own origin lies in its part
  Vec3 turn_deg{};            // turned first about x, then y, then z
  int around = 1;             // so many, evenly about the part's z axis
  double around_deg = 360.0;  // over this angle
  std::vector<Vec2> profile;
  std::vector<Vec2> outline;
  std::vector<Vec3> points;
  Vec3 size{};
  double round_m = 0.0;
  double radius_m = 0.0;
  double inner_m = 0.0;
  double height_m = 0.0;
  double width_m = 0.0;
  double thickness_m = 0.0;
  double tilt_from_deg = 0.0;
  double tilt_to_deg = 0.0;
  double wire_m = 0.0;
  double pitch_m = 0.0;
  double turns = 0.0;
  double depth_m = 0.0;
  int smooth = 0;             // pieces between two points
  bool left = false;          // left-hand helix
  std::string file;           // of a mesh: content/bodies/FILE
  std::vector<Vec3> corners;  // read from it
  std::vector<std::array<std::uint32_t, 3>> triangles;
};

enum class Material : std::uint8_t {
  steel,
  steel_brushed,
  steel_dark,
  painted,
  black_plastic,
  white_plastic,
  rubber,
  nylon,
  bronze,
  copper,
  insulation,
  glass,
  display,
  key,
  stop_key,
  element,
  clear_hose,
  aluminium,
  stop_ground,
  count
};

// What moves a part, from 0 to 1 (or round and round for those that turn).
enum class MovedBy : std::uint8_t {
  none,
  lid,
  shaft_cover,
  draw_handle,
  agitator,
  pump,
  fan,
  dasher,
  gate,
  freezer_lid,
  freezer_drain,
  isolator,
  emergency_stop
};

// When a part is shown at all.
enum class ShownWhen : std::uint8_t { always, no_hose, hose_to_pail, hose_to_freezer, pail, freezer };

struct BodyMove {
  MovedBy by = MovedBy::none;
  Vec3 at{};  // a point of the axis
  Vec3 axis{0, 0, 1};
  double turn_deg = 0.0;  // at 1; a whole turn for those that turn
  Vec3 slide_m{};         // at 1
};

// Where a learner meets a part: a lesson, and what is done with it there.
struct BodyUse {
  std::string lesson;
  std::string what;
};

struct BodyPart {
  std::string id;
  std::string title;
  std::string purpose;
  std::vector<BodyUse> uses;
  Material material = Material::steel;
  bool cut = true;     // opened by the cutaway plane
  bool shell = false;  // hides others: see-through in the x-ray
  int label = 0;       // named beside the picture: 1 first, 9 last; 0 only when pointed at
  Vec3 at{};
  Vec3 turn_deg{};
  Vec3 apart_m{};  // where it goes in the exploded view
  BodyMove move;
  ShownWhen shown = ShownWhen::always;
  std::vector<BodyShape> shapes;
};

struct MachineBody {
  std::string id;
  std::string note;
  double floor_m = -0.8;        // height of the floor
  std::vector<Vec3> loop;       // way of the circulation, from the well back into the vat
  std::vector<Vec3> draw_line;  // from the pump to the spout
  std::vector<Vec3> hose_line;  // from the spout to the freezer's inlet
  Vec3 pail{};                  // centre of the pail's bottom
  double pail_radius_m = 0.1;   // inner
  double pail_height_m = 0.2;
  std::vector<BodyPart> parts;

  const BodyPart* part(const std::string& part_id) const {
    for (const BodyPart& one : parts)
      if (one.id == part_id) return &one;
    return nullptr;
  }
};

}  // namespace stirbench::library
