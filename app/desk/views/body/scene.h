#pragma once

#include <string>
#include <vector>

#include "app/desk/views/body/mesh.h"
#include "app/desk/views/machine_view/machine_view.h"

// A machine's body ready to be looked at: its parts as meshes, and where each stands at a moment. No OpenGL.
namespace stirbench::desk::views::body {

struct PartModel {
  const library::BodyPart* part = nullptr;
  Mesh mesh;                                 // in the part's own frame
  Pose rest;                                 // part to machine
  Bounds bounds;                             // in the part's own frame
  const library::BodyMove* rides = nullptr;  // sits on another part and goes with its movement
  int place = -1;  // of sim_core/plant/upkeep/assembly.h, for parts that hands can take off
};

struct BodyModel {
  explicit BodyModel(const library::MachineBody& machine_body);
  BodyModel(const BodyModel&) = delete;
  BodyModel& operator=(const BodyModel&) = delete;

  int index(const std::string& id) const;  // -1 when there is none
  std::size_t triangles() const;

  library::MachineBody body;
  std::vector<PartModel> parts;
};

// What moves parts. Made from the state alone (and where moving things stand at the moment), so that any
// saved moment can be drawn.
struct PartPositions {
  double lid_norm = 0.0;
  double cover_norm = 0.0;
  double handle_norm = 0.0;
  double gate_norm = 0.0;
  double freezer_lid_norm = 0.0;
  double freezer_drain_norm = 0.0;
  double isolator_norm = 0.0;   // 1: off
  double emergency_norm = 0.0;  // 1: in
  double agitator_rad = 0.0;
  double pump_rad = 0.0;
  double fan_rad = 0.0;
  double dasher_rad = 0.0;
  plant::HoseEnd hose = plant::HoseEnd::none;
  bool freezer = false;
  std::uint32_t off = 0;  // places whose own part is not in them, a bit each
};
PartPositions part_positions(const machine::State& state, const MachineMotion& motion);

// What a person has chosen to see.
enum class Look : std::uint8_t { whole, cutaway, see_through, apart };
struct Choice {
  Look look = Look::cutaway;
  double cut_m = 0.0;  // what lies before this plane (y below it) is taken away
  double apart_norm = 1.0;
  bool freezer = false;  // show the freezer even when no hose leads to it
};

bool is_shown(const library::BodyPart& part, const PartPositions& moment, const Choice& choice);
bool is_cut(const library::BodyPart& part, const Choice& choice);
bool is_veil(const library::BodyPart& part, const Choice& choice);  // drawn see-through
bool turns_by_itself(const library::BodyPart& part);                // agitator, pump, fan, dasher
Pose pose_of(const PartModel& part, const PartPositions& moment, const Choice& choice);
// Around what is shown; the freezer with its hose when it is.
Bounds bounds_of(const BodyModel& model, const PartPositions& moment, const Choice& choice);

// A straight line of sight; the first part that it meets, by the triangles as they are drawn.
struct Ray {
  Vec3 from{};
  Vec3 way{0, 1, 0};
};
struct Hit {
  int part = -1;
  double distance_m = 0.0;
  Vec3 at{};
};
Hit pick(const BodyModel& model, const PartPositions& moment, const Choice& choice, const Ray& ray);

}  // namespace stirbench::desk::views::body
