#include "app/desk/views/body/scene.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace stirbench::desk::views::body {

namespace {

using library::MovedBy;
using library::ShownWhen;

struct Way {
  double norm = 0.0;  // share of the turn and the slide
  double rad = 0.0;   // or an angle of its own
  bool spins = false;
};

Way way_of(MovedBy by, const PartPositions& m) {
  switch (by) {
    case MovedBy::none: return {};
    case MovedBy::lid: return {m.lid_norm};
    case MovedBy::shaft_cover: return {m.cover_norm};
    case MovedBy::draw_handle: return {m.handle_norm};
    case MovedBy::gate: return {m.gate_norm};
    case MovedBy::freezer_lid: return {m.freezer_lid_norm};
    case MovedBy::freezer_drain: return {m.freezer_drain_norm};
    case MovedBy::isolator: return {m.isolator_norm};
    case MovedBy::emergency_stop: return {m.emergency_norm};
    case MovedBy::agitator: return {0.0, m.agitator_rad, true};
    case MovedBy::pump: return {0.0, m.pump_rad, true};
    case MovedBy::fan: return {0.0, m.fan_rad, true};
    case MovedBy::dasher: return {0.0, m.dasher_rad, true};
  }
  return {};
}

// Where a ray enters the box, or infinity.
bool meets(const Bounds& box, const Ray& ray, double nearest) {
  double enter = 0.0;
  double leave = nearest;
  for (std::size_t i = 0; i < 3; ++i) {
    if (std::abs(ray.way[i]) < 1e-12) {
      if (ray.from[i] < box.low[i] || ray.from[i] > box.high[i]) return false;
      continue;
    }
    double a = (box.low[i] - ray.from[i]) / ray.way[i];
    double b = (box.high[i] - ray.from[i]) / ray.way[i];
    if (a > b) std::swap(a, b);
    enter = std::max(enter, a);
    leave = std::min(leave, b);
  }
  return enter <= leave;
}

// Moeller and Trumbore's test; the distance, or infinity.
double meets(const Vec3& a, const Vec3& b, const Vec3& c, const Ray& ray) {
  constexpr double none = std::numeric_limits<double>::infinity();
  const Vec3 e1 = b - a;
  const Vec3 e2 = c - a;
  const Vec3 p = cross(ray.way, e2);
  const double det = dot(e1, p);
  if (std::abs(det) < 1e-18) return none;
  const Vec3 s = ray.from - a;
  const double u = dot(s, p) / det;
  if (u < 0.0 || u > 1.0) return none;
  const Vec3 q = cross(s, e1);
  const double v = dot(ray.way, q) / det;
  if (v < 0.0 || u + v > 1.0) return none;
  const double t = dot(e2, q) / det;
  return t > 1e-9 ? t : none;
}

}  // namespace

BodyModel::BodyModel(const library::MachineBody& machine_body) : body(machine_body) {
  for (const library::BodyPart& part : body.parts) {
    PartModel one;
    one.part = &part;
    one.mesh = part_mesh(part);
    one.rest = placed(part.at, part.turn_deg);
    one.bounds = body::bounds_of(one.mesh);
    one.place = plant::find_part(part.id);
    parts.push_back(std::move(one));
  }
  // The outlet gate sits in the freezer's lid and swings with it.
  const auto lid = std::find_if(body.parts.begin(), body.parts.end(),
                                [](const library::BodyPart& p) { return p.move.by == MovedBy::freezer_lid; });
  for (PartModel& one : parts) {
    if (one.part->move.by == MovedBy::gate && lid != body.parts.end()) one.rides = &lid->move;
  }
}

int BodyModel::index(const std::string& id) const {
  for (std::size_t i = 0; i < parts.size(); ++i)
    if (parts[i].part->id == id) return static_cast<int>(i);
  return -1;
}

std::size_t BodyModel::triangles() const {
  std::size_t sum = 0;
  for (const PartModel& part : parts) sum += part.mesh.triangles.size();
  return sum;
}

PartPositions part_positions(const machine::State& state, const MachineMotion& motion) {
  const plant::PlantState& p = state.plant;
  PartPositions m;
  m.lid_norm = motion.seen ? motion.lid_norm : (p.fittings.lid_open ? 1.0 : 0.0);
  m.cover_norm = motion.seen ? motion.cover_norm : (p.fittings.shaft_cover_open ? 1.0 : 0.0);
  m.handle_norm = p.fittings.draw_opening_norm;
  m.gate_norm = p.freezer.gate_norm;
  m.freezer_lid_norm = p.freezer.lid_open ? 1.0 : 0.0;
  m.freezer_drain_norm = p.freezer.drain_open ? 1.0 : 0.0;
  m.isolator_norm = p.fittings.isolator_on ? 0.0 : 1.0;
  m.emergency_norm = p.safety.emergency_stop_in ? 1.0 : 0.0;
  m.agitator_rad = motion.agitator_rad;
  m.pump_rad = -1.4 * motion.agitator_rad;  // by the ratio of the pulleys
  m.fan_rad = p.compressor_on ? 9.0 * motion.steam_s : 0.0;
  m.dasher_rad = motion.dasher_rad;
  m.hose = p.fittings.hose;
  for (std::size_t i = 0; i < plant::part_count; ++i)
    if (!plant::in_place(p.assembly, static_cast<plant::PartId>(i))) m.off |= 1U << i;
  m.freezer = p.fittings.hose == plant::HoseEnd::freezer || p.freezer.product.total_kg() > 0.01 ||
              p.freezer.running || p.freezer.lid_open || p.freezer.drain_open;
  return m;
}

bool is_shown(const library::BodyPart& part, const PartPositions& moment, const Choice& choice) {
  const bool to_freezer = moment.hose == plant::HoseEnd::freezer;
  switch (part.shown) {
    case ShownWhen::always: return true;
    case ShownWhen::no_hose: return moment.hose == plant::HoseEnd::none;
    case ShownWhen::hose_to_pail: return moment.hose == plant::HoseEnd::pail;
    case ShownWhen::hose_to_freezer:
      return to_freezer || (choice.freezer && moment.hose == plant::HoseEnd::none);
    case ShownWhen::pail: return !to_freezer && (!choice.freezer || moment.hose == plant::HoseEnd::pail);
    case ShownWhen::freezer: return moment.freezer || choice.freezer;
  }
  return true;
}

bool is_cut(const library::BodyPart& part, const Choice& choice) {
  return choice.look == Look::cutaway && part.cut;
}
bool is_veil(const library::BodyPart& part, const Choice& choice) {
  return choice.look == Look::see_through && part.shell;
}

bool turns_by_itself(const library::BodyPart& part) {
  const MovedBy by = part.move.by;
  return by == MovedBy::agitator || by == MovedBy::pump || by == MovedBy::fan || by == MovedBy::dasher;
}

Pose pose_of(const PartModel& part, const PartPositions& moment, const Choice& choice) {
  const library::BodyMove& move = part.part->move;
  const bool off = part.place >= 0 && (moment.off >> static_cast<unsigned>(part.place) & 1U) != 0;
  // What is off hangs in the air where it goes when everything is taken apart, and nothing moves it.
  if (off)
    return moved_by(part.part->apart_m * (choice.look == Look::apart ? choice.apart_norm : 1.0)) * part.rest;
  const Way way = way_of(move.by, moment);
  Pose pose = part.rest;
  if (move.by != MovedBy::none) {
    const double rad =
        way.spins ? way.rad * (move.turn_deg < 0.0 ? -1.0 : 1.0) : way.norm * move.turn_deg * rad_per_deg;
    pose = moved_by(move.slide_m * way.norm) * turned_about(move.at, move.axis, rad) * pose;
  }
  if (part.rides != nullptr && moment.freezer_lid_norm > 0.0)
    pose = turned_about(part.rides->at, part.rides->axis,
                        moment.freezer_lid_norm * part.rides->turn_deg * rad_per_deg) *
           pose;
  if (choice.look == Look::apart) pose = moved_by(part.part->apart_m * choice.apart_norm) * pose;
  return pose;
}

Bounds bounds_of(const BodyModel& model, const PartPositions& moment, const Choice& choice) {
  Bounds out;
  // The lid may swing without the picture changing its size.
  PartPositions still = moment;
  still.lid_norm = 0.0;
  still.cover_norm = 0.0;
  still.freezer_lid_norm = 0.0;
  for (const PartModel& part : model.parts) {
    if (!is_shown(*part.part, moment, choice)) continue;
    const Pose pose = pose_of(part, still, choice);
    for (int corner = 0; corner < 8; ++corner) {
      const Vec3 p{corner & 1 ? part.bounds.high[0] : part.bounds.low[0],
                   corner & 2 ? part.bounds.high[1] : part.bounds.low[1],
                   corner & 4 ? part.bounds.high[2] : part.bounds.low[2]};
      out.take(pose.apply(p));
    }
  }
  return out;
}

Hit pick(const BodyModel& model, const PartPositions& moment, const Choice& choice, const Ray& ray) {
  Hit hit;
  double nearest = 1e6;
  for (std::size_t i = 0; i < model.parts.size(); ++i) {
    const PartModel& part = model.parts[i];
    if (!is_shown(*part.part, moment, choice) || is_veil(*part.part, choice)) continue;
    const Pose pose = pose_of(part, moment, choice);
    const Pose back = pose.inverse();
    const Ray local{back.apply(ray.from), back.turned(ray.way)};
    if (!meets(part.bounds, local, nearest)) continue;
    const bool cut = is_cut(*part.part, choice);
    for (const auto& t : part.mesh.triangles) {
      const double d = meets(part.mesh.points[t[0]], part.mesh.points[t[1]], part.mesh.points[t[2]], local);
      if (d >= nearest) continue;
      const Vec3 at = ray.from + ray.way * d;
      if (cut && at[1] < choice.cut_m) continue;
      nearest = d;
      hit = {static_cast<int>(i), d, at};
    }
  }
  return hit;
}

}  // namespace stirbench::desk::views::body
