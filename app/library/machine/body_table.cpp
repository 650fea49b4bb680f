#include <cmath>
#include <set>

#include "app/library/body.h"
#include "app/library/tables.h"

// Bodies: content/bodies/ID.json, one for each machine that has one.
namespace stirbench::library {

namespace {

template <std::size_t N>
Shape<std::array<double, N>> place(double most, const std::string& unit) {
  const Shape<double> item = number(-most, most, unit);
  Shape<std::array<double, N>> shape;
  shape.schema = Json{{"type", "array"}, {"items", item.schema}, {"minItems", N}, {"maxItems", N}};
  shape.expected = "a list of " + std::to_string(N) + " numbers";
  shape.read = [item, expected = shape.expected](Reader& reader, const Json& json,
                                                 std::array<double, N>& out) {
    if (!json.is_array() || json.size() != N) return reader.problem(expected, found_text(json));
    for (std::size_t i = 0; i < N; ++i)
      reader.below("/" + std::to_string(i), [&] { item.read(reader, json[i], out[i]); });
  };
  return shape;
}

Shape<Vec3> metres() { return place<3>(20.0, "m"); }
Shape<Vec3> degrees() { return place<3>(360.0, "deg"); }

double outline_area(const std::vector<Vec2>& points) {
  double twice = 0.0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Vec2& a = points[i];
    const Vec2& b = points[(i + 1) % points.size()];
    twice += a[0] * b[1] - b[0] * a[1];
  }
  return 0.5 * twice;
}

void need(Reader& reader, bool there, const char* key, const char* expected) {
  if (!there) reader.problem(expected, "nothing", std::string("/") + key);
}

void judge_outline(Reader& reader, const std::vector<Vec2>& points, const char* key, bool radii) {
  need(reader, points.size() >= 3, key, "at least three points");
  if (points.size() < 3) return;
  if (std::abs(outline_area(points)) < 1e-9)
    reader.problem("an outline that encloses an area", "none", std::string("/") + key);
  for (std::size_t i = 0; radii && i < points.size(); ++i)
    if (points[i][0] < 0.0)
      reader.problem("a radius of at least 0", number_text(points[i][0]),
                     std::string("/") + key + "/" + std::to_string(i) + "/0");
}

void judge_round(Reader& reader, const BodyShape& s) {
  const bool helix = s.kind == ShapeKind::coil || s.kind == ShapeKind::thread;
  need(reader, s.radius_m > 0.0, "radius_m", "more than 0");
  if (s.kind == ShapeKind::tube) need(reader, s.height_m > 0.0, "height_m", "more than 0");
  if (s.kind == ShapeKind::tube && s.inner_m >= s.radius_m)
    reader.problem("less than radius_m (" + number_text(s.radius_m) + ")", number_text(s.inner_m),
                   "/inner_m");
  if (s.kind == ShapeKind::ring || s.kind == ShapeKind::coil) {
    need(reader, s.wire_m > 0.0, "wire_m", "more than 0");
    if (s.wire_m >= s.radius_m)
      reader.problem("less than radius_m (" + number_text(s.radius_m) + ")", number_text(s.wire_m),
                     "/wire_m");
  }
  if (helix) need(reader, s.turns > 0.0, "turns", "more than 0");
  if (helix) need(reader, s.pitch_m > 0.0, "pitch_m", "more than 0");
  if (s.kind == ShapeKind::thread) need(reader, s.depth_m > 0.0, "depth_m", "more than 0");
}

void judge_shape(Reader& reader, const BodyShape& s) {
  switch (s.kind) {
    case ShapeKind::revolve: judge_outline(reader, s.profile, "profile", true); break;
    case ShapeKind::extrude:
      judge_outline(reader, s.outline, "outline", false);
      need(reader, s.height_m > 0.0, "height_m", "more than 0");
      break;
    case ShapeKind::box:
      for (std::size_t i = 0; i < 3; ++i)
        if (s.size[i] <= 0.0)
          reader.problem("more than 0", number_text(s.size[i]), "/size/" + std::to_string(i));
      break;
    case ShapeKind::sweep:
      need(reader, s.points.size() >= 2, "points", "at least two points");
      need(reader, s.radius_m > 0.0, "radius_m", "more than 0");
      break;
    case ShapeKind::strip:
      need(reader, s.points.size() >= 2, "points", "at least two points");
      need(reader, s.width_m > 0.0, "width_m", "more than 0");
      need(reader, s.thickness_m > 0.0, "thickness_m", "more than 0");
      break;
    case ShapeKind::mesh:
      if (s.file.find('/') != std::string::npos || !s.file.ends_with(".obj"))
        reader.problem("a file of this folder that ends in .obj",
                       s.file.empty() ? "nothing" : in_quotes(s.file), "/file");
      break;
    default: judge_round(reader, s); break;
  }
  for (std::size_t i = 1; i < s.points.size(); ++i)
    if (s.points[i] == s.points[i - 1])
      reader.problem("a point that differs from the one before", "the same again",
                     "/points/" + std::to_string(i));
}

Object<BodyShape> shape_table() {
  using S = BodyShape;
  const std::vector<std::pair<std::string, ShapeKind>> kinds = {
      {"revolve", ShapeKind::revolve}, {"box", ShapeKind::box},     {"extrude", ShapeKind::extrude},
      {"tube", ShapeKind::tube},       {"sweep", ShapeKind::sweep}, {"strip", ShapeKind::strip},
      {"ring", ShapeKind::ring},       {"coil", ShapeKind::coil},   {"thread", ShapeKind::thread},
      {"ball", ShapeKind::ball},       {"mesh", ShapeKind::mesh}};
  Object<S> t;
  t.need("kind", &S::kind, choice<ShapeKind>(kinds),
         "What it is; which of the others are needed follows from it.")
      .may("at", &S::at, metres(), "Place of its own origin in the part.")
      .may("turn_deg", &S::turn_deg, degrees(), "Turned about x, then y, then z.")
      .may("around", &S::around, whole(1, 64), "So many of it, evenly about the part's z axis.")
      .may("around_deg", &S::around_deg, number(1.0, 360.0, "deg"), "Over this angle; 360 when not given.")
      .may("profile", &S::profile, list(place<2>(20.0, "m"), 3, 200),
           "Closed outline of [radius, height], for revolve.")
      .may("outline", &S::outline, list(place<2>(20.0, "m"), 3, 200),
           "Closed outline of [x, y], for extrude.")
      .may("points", &S::points, list(metres(), 2, 200), "Middle line, for sweep and strip.")
      .may("size", &S::size, metres(), "Of a box.")
      .may("round_m", &S::round_m, number(0.0, 2.0, "m"), "Radius of a box's upright edges.")
      .may("radius_m", &S::radius_m, number(0.0, 10.0, "m"), "Of tube, sweep, ring, coil, thread, ball.")
      .may("inner_m", &S::inner_m, number(0.0, 10.0, "m"), "Bore of a tube.")
      .may("height_m", &S::height_m, number(0.0, 10.0, "m"), "Of tube and extrude; of a flattened ball.")
      .may("width_m", &S::width_m, number(0.0, 10.0, "m"), "Of a strip.")
      .may("thickness_m", &S::thickness_m, number(0.0, 1.0, "m"), "Of a strip.")
      .may("tilt_from_deg", &S::tilt_from_deg, number(-720.0, 720.0, "deg"),
           "Tilt of a strip at its first point.")
      .may("tilt_to_deg", &S::tilt_to_deg, number(-720.0, 720.0, "deg"), "Tilt at its last.")
      .may("wire_m", &S::wire_m, number(0.0, 1.0, "m"), "Radius of the bar of a ring or coil.")
      .may("pitch_m", &S::pitch_m, number(0.0, 1.0, "m"), "Rise of a helix in a turn.")
      .may("turns", &S::turns, number(0.0, 60.0, ""), "Of a helix.")
      .may("depth_m", &S::depth_m, number(0.0, 0.5, "m"), "Of a thread.")
      .may("smooth", &S::smooth, whole(0, 24), "Pieces between two points; 0 leaves corners.")
      .may("left", &S::left, flag(), "A left-hand helix.")
      .may("file", &S::file, text(5, 80),
           "Of a mesh: content/bodies/FILE with v and f lines (OBJ), metres, closed, outside "
           "counter-clockwise.")
      .check(judge_shape);
  return t;
}

Object<BodyMove> move_table() {
  using S = BodyMove;
  const std::vector<std::pair<std::string, MovedBy>> movers = {{"lid", MovedBy::lid},
                                                               {"shaft_cover", MovedBy::shaft_cover},
                                                               {"draw_handle", MovedBy::draw_handle},
                                                               {"agitator", MovedBy::agitator},
                                                               {"pump", MovedBy::pump},
                                                               {"fan", MovedBy::fan},
                                                               {"dasher", MovedBy::dasher},
                                                               {"gate", MovedBy::gate},
                                                               {"freezer_lid", MovedBy::freezer_lid},
                                                               {"freezer_drain", MovedBy::freezer_drain},
                                                               {"isolator", MovedBy::isolator},
                                                               {"emergency_stop", MovedBy::emergency_stop}};
  Object<S> t;
  t.need("by", &S::by, choice<MovedBy>(movers), "What moves it.")
      .may("at", &S::at, metres(), "A point of the axis, in the machine.")
      .may("axis", &S::axis, metres(), "Direction of the axis; up when not given.")
      .may("turn_deg", &S::turn_deg, number(-360.0, 360.0, "deg"),
           "How far it turns; 360 or -360 for what turns all the time.")
      .may("slide_m", &S::slide_m, metres(), "How far it slides.")
      .check([](Reader& reader, const S& m) {
        if (m.axis[0] * m.axis[0] + m.axis[1] * m.axis[1] + m.axis[2] * m.axis[2] < 1e-12)
          reader.problem("a direction", "0, 0, 0", "/axis");
      });
  return t;
}

const std::vector<std::pair<std::string, Material>>& material_words() {
  static const std::vector<std::pair<std::string, Material>> words = {
      {"steel", Material::steel},
      {"steel_brushed", Material::steel_brushed},
      {"steel_dark", Material::steel_dark},
      {"painted", Material::painted},
      {"black_plastic", Material::black_plastic},
      {"white_plastic", Material::white_plastic},
      {"rubber", Material::rubber},
      {"nylon", Material::nylon},
      {"bronze", Material::bronze},
      {"copper", Material::copper},
      {"insulation", Material::insulation},
      {"glass", Material::glass},
      {"display", Material::display},
      {"key", Material::key},
      {"stop_key", Material::stop_key},
      {"element", Material::element},
      {"clear_hose", Material::clear_hose},
      {"aluminium", Material::aluminium},
      {"stop_ground", Material::stop_ground}};
  return words;
}

Object<BodyUse> use_table() {
  using S = BodyUse;
  Object<S> t;
  t.need("lesson", &S::lesson, slug(), "A lesson's id.")
      .need("what", &S::what, text(5, 200), "What is done with the part in it, one sentence.");
  return t;
}

Object<BodyPart> part_table() {
  using S = BodyPart;
  const std::vector<std::pair<std::string, ShownWhen>> when = {
      {"always", ShownWhen::always},
      {"no_hose", ShownWhen::no_hose},
      {"hose_to_pail", ShownWhen::hose_to_pail},
      {"hose_to_freezer", ShownWhen::hose_to_freezer},
      {"pail", ShownWhen::pail},
      {"freezer", ShownWhen::freezer}};
  Object<S> t;
  t.need("id", &S::id, word(), "Name in the files.")
      .need("title", &S::title, text(1, 60), "Name shown to people.")
      .need("purpose", &S::purpose, text(10, 400), "What it is for, in plain words.")
      .need("uses", &S::uses, list(use_table().shape(), 1, 9), "The lessons in which one meets it.")
      .need("material", &S::material, choice<Material>(material_words()), "What it looks like.")
      .may("cut", &S::cut, flag(), "Whether the cutaway opens it; yes when not given.")
      .may("shell", &S::shell, flag(), "Hides others: see-through in the x-ray.")
      .may("label", &S::label, whole(0, 9),
           "Named beside the picture: 1 first, 9 last; 0 only when pointed at.")
      .may("at", &S::at, metres(), "Where its own origin lies in the machine.")
      .may("turn_deg", &S::turn_deg, degrees(), "Turned about x, then y, then z.")
      .may("apart_m", &S::apart_m, metres(), "Where it goes in the exploded view.")
      .may("move", &S::move, move_table().shape(), "How it moves.")
      .may("shown", &S::shown, choice<ShownWhen>(when), "When it is there.")
      .need("shapes", &S::shapes, list(shape_table().shape(), 1, 60), "What it is made of.");
  return t;
}

void judge_body(Reader& reader, const MachineBody& body) {
  std::set<std::string> seen;
  for (std::size_t i = 0; i < body.parts.size(); ++i)
    if (!seen.insert(body.parts[i].id).second)
      reader.problem("each part once", in_quotes(body.parts[i].id) + " again",
                     "/parts/" + std::to_string(i) + "/id");
}

Object<MachineBody> make_body_table() {
  using S = MachineBody;
  Object<S> t;
  t.format(1)
      .need("id", &S::id, one_of("a machine", [](const Names& n) { return n.machines; }),
            "The machine; the file's name without .json.")
      .may("note", &S::note, text(0, 600), "For people who edit it.")
      .need("floor_m", &S::floor_m, number(-5.0, 0.0, "m"),
            "Height of the floor; 0 is the mouth of the well.")
      .need("loop", &S::loop, list(metres(), 2, 40),
            "Way of the circulation from the well back into the vat.")
      .need("draw_line", &S::draw_line, list(metres(), 2, 40), "Way from the pump to the spout.")
      .need("hose_line", &S::hose_line, list(metres(), 2, 40), "Way from the spout to the freezer's inlet.")
      .need("pail", &S::pail, metres(), "Middle of the pail's bottom.")
      .need("pail_radius_m", &S::pail_radius_m, number(0.01, 2.0, "m"), "Inner radius of the pail.")
      .need("pail_height_m", &S::pail_height_m, number(0.01, 2.0, "m"), "Height of the pail.")
      .need("parts", &S::parts, list(part_table().shape(), 1, 200), "All parts that can be seen and named.")
      .check(judge_body);
  return t;
}

}  // namespace

const Object<MachineBody>& body_table() {
  static const Object<MachineBody> table = make_body_table();
  return table;
}

}  // namespace stirbench::library
