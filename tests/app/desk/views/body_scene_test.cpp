#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "app/desk/views/body/camera.h"
#include "app/desk/views/body/effects.h"
#include "app/desk/views/machine_view/sample_states.h"
#include "app/library/library.h"
#include "app/library/reading/paths.h"

// The shipped bodies: closed meshes, volumes that agree with the machine's file, picking, what moves, what is
// drawn of a state.
using namespace stirbench;
using namespace stirbench::desk::kit;
using namespace stirbench::desk::views;
using namespace stirbench::desk::views::body;

namespace {

const library::Library& content() {
  static const library::Library loaded = library::load(library::content_dir(), "").library;
  return loaded;
}

struct Seen {
  explicit Seen(const std::string& id)
      : machine(content().machine(id)), model(content().bodies.at(id)), vessel(machine.plant) {}
  machine::Machine machine;
  BodyModel model;
  Vessel vessel;
  MachineMotion motion;
  Choice choice;
  Camera camera;
};

machine::State state_named(const machine::Machine& machine, const std::string& name) {
  for (const SampleState& one : sample_states(machine))
    if (one.name == name) return one.state;
  return {};
}

double effect_volume(const Effect& effect) {
  double six = 0.0;
  for (std::size_t i = 0; i + 2 < effect.triangles.size(); i += 3) {
    const auto at = [&](std::size_t k) {
      const auto& p = effect.corners[effect.triangles[i + k]].point;
      return Vec3{p[0], p[1], p[2]};
    };
    six += dot(at(0), cross(at(1), at(2)));
  }
  return six / 6.0;
}

Effects effects_of(const Seen& seen, const machine::State& state) {
  Effects out;
  const PartPositions moment = part_positions(state, seen.motion);
  make_effects({seen.model, seen.machine, state, seen.motion, moment, seen.choice, seen.camera, seen.vessel},
               out);
  return out;
}

}  // namespace

TEST_CASE("every solid of every part is closed with its outside outside") {
  for (const auto& [id, body] : content().bodies) {
    CAPTURE(id);
    std::size_t triangles = 0;
    for (const auto& part : body.parts) {
      CAPTURE(part.id);
      for (std::size_t i = 0; i < part.shapes.size(); ++i) {
        CAPTURE(i);
        const Mesh mesh = shape_mesh(part.shapes[i]);
        CHECK(is_closed(mesh));
        CHECK(volume_m3(mesh) > 0.0);
        triangles += mesh.triangles.size();
      }
    }
    CHECK(triangles < 90000);  // a software renderer draws them
  }
}

TEST_CASE("vat and well hold what the machine's file says") {
  for (const auto& [id, body] : content().bodies) {
    CAPTURE(id);
    const plant::MachineSpec& spec = content().machines.at(id);
    const Vessel vessel(spec);
    // Of each profile the corners that lie on the vessel's wall, to 0.2 mm: the inside as drawn is the inside
    // as filled.
    for (const char* name : {"vat", "well"}) {
      CAPTURE(std::string(name));
      int on_wall = 0;
      for (const auto& p : body.part(name)->shapes[0].profile)
        if (p[1] <= vessel.rim_m() && std::abs(vessel.radius_m(p[1]) - p[0]) < 2e-4) ++on_wall;
      CHECK(on_wall >= 8);
    }
    CHECK(vessel.volume_L(vessel.rim_m()) == doctest::Approx(spec.vat.brim_L).epsilon(1e-9));
  }
}

TEST_CASE("the drawn product has the state's volume, whatever the speed") {
  Seen seen("hm-45");
  machine::State state = state_named(seen.machine, "hot");
  state.plant.flows.steam_kg_per_h = 0.0;
  state.plant.flows.circulation_L_per_min = 0.0;
  for (const double litres : {3.0, 12.0, 25.0, 41.3}) {
    for (const double rpm : {0.0, 90.0}) {
      CAPTURE(litres);
      CAPTURE(rpm);
      state.plant.coefficients.volume_L = litres;
      state.plant.flows.agitator_rpm = rpm;
      const Effects drawn = effects_of(seen, state);
      // 48 sides instead of a circle (0.3 %), 0.6 mm off the wall, twelve rings of the surface.
      CHECK(effect_volume(drawn.solid) == doctest::Approx(litres * 1e-3).epsilon(rpm > 0.0 ? 0.05 : 0.03));
    }
  }
}

TEST_CASE("what the state holds is drawn, and nothing else") {
  Seen seen("hm-45");
  const machine::State empty = state_named(seen.machine, "empty");
  CHECK(effects_of(seen, empty).solid.triangles.empty());
  CHECK(effects_of(seen, empty).whole.triangles.empty());
  CHECK(effects_of(seen, empty).veil.triangles.empty());
  CHECK_FALSE(effects_of(seen, state_named(seen.machine, "alarm")).veil.triangles.empty());  // steam
  CHECK_FALSE(
      effects_of(seen, state_named(seen.machine, "draw")).whole.triangles.empty());  // stream and flow
  CHECK_FALSE(effects_of(seen, state_named(seen.machine, "spill")).whole.triangles.empty());  // on the floor
  machine::State burnt = empty;
  burnt.plant.deposit_kg_per_m2 = 0.2;
  CHECK_FALSE(effects_of(seen, burnt).solid.triangles.empty());
  seen.choice.look = Look::apart;
  CHECK(effects_of(seen, state_named(seen.machine, "hot")).solid.triangles.empty());
}

TEST_CASE("parts are picked by what lies in front") {
  Seen seen("hm-45");
  const PartPositions moment = part_positions(state_named(seen.machine, "empty"), seen.motion);
  const auto name = [&](const Ray& ray) {
    const Hit hit = pick(seen.model, moment, seen.choice, ray);
    return hit.part < 0 ? std::string() : seen.model.parts[static_cast<std::size_t>(hit.part)].part->id;
  };
  seen.choice.look = Look::whole;
  CHECK(name({{0.0, -3.0, 0.25}, {0, 1, 0}}) == "jacket");
  CHECK(name({{0.05, 0.05, 3.0}, {0, 0, -1}}) == "lid");
  CHECK(name({{0.0, -3.0, 5.0}, {0, 1, 0}}) == "");
  // Cut open, the same line of sight ends at the agitator's hub, its way through the jacket's front half
  // being free.
  seen.choice.look = Look::cutaway;
  CHECK(name({{0.0, -3.0, 0.18}, {0, 1, 0}}) == "agitator");
  CHECK(name({{0.15, -3.0, 0.20}, {0, 1, 0}}) == "vat");
  // See-through, what hides others is not in the way.
  seen.choice.look = Look::see_through;
  const auto& coil = *seen.model.body.part("evaporator");
  const double turn_m = coil.shapes[0].pitch_m;
  CHECK(name({{0.0, -3.0, coil.shapes[0].at[2] + 1.75 * turn_m}, {0, 1, 0}}) == "evaporator");
  CHECK(name({{0.0, -3.0, coil.shapes[0].at[2] + 1.25 * turn_m}, {0, 1, 0}}) == "vat");
}

TEST_CASE("every part can be picked from somewhere in one of the looks") {
  for (const auto& [id, body] : content().bodies) {
    CAPTURE(id);
    Seen seen(id);
    seen.choice.freezer = true;
    for (const auto hose : {plant::HoseEnd::none, plant::HoseEnd::pail}) {
      machine::State state = state_named(seen.machine, "empty");
      state.plant.fittings.hose = hose;
      const PartPositions moment = part_positions(state, seen.motion);
      for (std::size_t i = 0; i < seen.model.parts.size(); ++i) {
        const PartModel& part = seen.model.parts[i];
        if (!is_shown(*part.part, moment, seen.choice)) continue;
        CAPTURE(part.part->id);
        bool found = false;
        for (const Look look : {Look::whole, Look::cutaway, Look::see_through, Look::apart}) {
          seen.choice.look = look;
          const Pose pose = pose_of(part, moment, seen.choice);
          const std::size_t step = std::max<std::size_t>(part.mesh.triangles.size() / 12, 1);
          for (std::size_t t = 0; t < part.mesh.triangles.size() && !found; t += step) {
            const auto& corners = part.mesh.triangles[t];
            const Vec3 a = part.mesh.points[corners[0]];
            const Vec3 normal =
                unit(cross(part.mesh.points[corners[1]] - a, part.mesh.points[corners[2]] - a));
            const Vec3 at =
                pose.apply((a + part.mesh.points[corners[1]] + part.mesh.points[corners[2]]) * (1.0 / 3.0));
            const Vec3 way = pose.turned(normal) * -1.0;
            found =
                pick(seen.model, moment, seen.choice, {at - way * 4.0, way}).part == static_cast<int>(i) ||
                pick(seen.model, moment, seen.choice, {at + Vec3{0, -4, 0}, {0, 1, 0}}).part ==
                    static_cast<int>(i);
          }
          if (found) break;
        }
        CHECK(found);
      }
      seen.choice.look = Look::cutaway;
    }
  }
}

TEST_CASE("lid, cover and handle are where the state says") {
  Seen seen("hm-45");
  machine::State state = state_named(seen.machine, "empty");
  const auto top = [&](const char* id) {
    const PartModel& part = seen.model.parts[static_cast<std::size_t>(seen.model.index(id))];
    return pose_of(part, part_positions(state, seen.motion), seen.choice).apply(part.bounds.centre());
  };
  const Vec3 lid_closed = top("lid");
  const Vec3 handle_shut = top("valve_handle");
  const Vec3 plunger_shut = top("valve_plunger");
  state.plant.fittings.lid_open = true;
  state.plant.fittings.draw_opening_norm = 0.5;
  CHECK(top("lid")[2] > lid_closed[2] + 0.1);      // up
  CHECK(top("lid")[1] > lid_closed[1] + 0.1);      // and back
  CHECK(top("valve_handle")[0] > handle_shut[0]);  // pulled
  CHECK(top("valve_plunger")[0] == doctest::Approx(plunger_shut[0] + 0.5 * 0.022).epsilon(1e-6));
}

TEST_CASE("the eye: what is fitted is inside the picture, and a line of sight goes where it points") {
  Seen seen("hm-20");
  const PartPositions moment = part_positions(state_named(seen.machine, "empty"), seen.motion);
  for (const double aspect : {0.7, 1.0, 1.9}) {
    for (const double azimuth : {-150.0, -30.0, 20.0, 95.0}) {
      for (const double height : {-10.0, 15.0, 80.0}) {
        Camera camera;
        camera.azimuth_deg = azimuth;
        camera.height_deg = height;
        const Bounds bounds = bounds_of(seen.model, moment, seen.choice);
        // From wherever the eye was before: quite near must do as well as far.
        camera.distance_m = azimuth < 0.0 ? 0.5 : 3.0;
        camera.fit(bounds, aspect);
        for (int corner = 0; corner < 8; ++corner) {
          const Vec3 p{corner & 1 ? bounds.high[0] : bounds.low[0],
                       corner & 2 ? bounds.high[1] : bounds.low[1],
                       corner & 4 ? bounds.high[2] : bounds.low[2]};
          const auto at = camera.project(p, aspect);
          REQUIRE(at.has_value());
          for (const double share : *at) {
            CHECK(share > -0.01);
            CHECK(share < 1.01);
          }
          const Ray ray = camera.ray((*at)[0], (*at)[1], aspect);
          CHECK(length(cross(unit(p - ray.from), ray.way)) < 1e-9);
        }
      }
    }
  }
}
