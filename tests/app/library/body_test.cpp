#include <doctest/doctest.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "tests/app/library/scratch.h"

// Bodies of machines: what the reader refuses, with the whole message. (Their meshes are tried in the desk's
// group.)
using nlohmann::json;
using namespace stirbench;
using library_test::Scratch;

namespace {

struct Change {
  const char* pointer;
  json value;
  const char* message;
};

// The shipped body among content whose one lesson is called "small".
json scratch_body(const Scratch& scratch) {
  library_test::put_small_lesson(scratch);
  std::filesystem::create_directories(scratch.file("bodies"));
  json body = json::parse(test_support::read_file(library_test::content_dir() + "/bodies/hm-45.json"));
  for (json& part : body["parts"])
    part["uses"] = json::array({json{{"lesson", "small"}, {"what", "Looked at."}}});
  return body;
}

}  // namespace

TEST_CASE("both machines have a body whose parts are named and say what they are for") {
  const library::Library& content = library_test::shipped();
  CHECK(content.bodies.size() == content.machines.size());
  for (const auto& [id, body] : content.bodies) {
    CAPTURE(id);
    CHECK(content.machines.count(id) == 1);
    CHECK(body.parts.size() >= 60);
    for (const auto& part : body.parts) {
      CAPTURE(part.id);
      CHECK(part.title.size() >= 3);
      CHECK(part.purpose.size() >= 20);
      CHECK(part.purpose.back() == '.');
      CHECK(part.uses.size() >= 1);  // a place in a procedure; the loader knows that the lesson exists
      for (const auto& use : part.uses) CHECK(use.what.back() == '.');
    }
    for (const char* needed : {"vat",
                               "well",
                               "lid",
                               "lid_magnet",
                               "reed_switch",
                               "shaft_cover",
                               "cover_switch",
                               "agitator",
                               "agitator_bushing",
                               "shaft",
                               "shaft_sleeve",
                               "sleeve_cap",
                               "shaft_end_bushing",
                               "guard_cover",
                               "pump",
                               "elements",
                               "evaporator",
                               "compressor",
                               "condenser",
                               "grille",
                               "panel",
                               "stop_key",
                               "isolator",
                               "valve_body",
                               "valve_plunger",
                               "valve_spring",
                               "valve_handle",
                               "oring_front",
                               "oring_rear",
                               "hose_freezer",
                               "hose_pail",
                               "pail",
                               "dasher",
                               "freezer_barrel",
                               "freezer_gate",
                               "rinse_gun",
                               "probe",
                               "motor",
                               "belt"})
      CHECK(body.part(needed) != nullptr);
  }
}

TEST_CASE("a bad body is refused with its place") {
  const std::vector<Change> changes = {
      {"/id", "hm-54", "/id: expected a machine (did you mean \"hm-45\"?), found \"hm-54\""},
      {"/parts/0/material", "steal", "(did you mean \"steel\"?), found \"steal\""},
      {"/parts/1/id", "vat", "/parts/1/id: expected each part once, found \"vat\" again"},
      {"/parts/0/uses", json::array(), "/parts/0/uses: expected"},
      {"/parts/0/uses/0/lesson", "smal",
       "/parts/0/uses/0/lesson: expected a lesson's id (did you mean \"small\"?), found \"smal\""},
      {"/parts/0/at", json::array({0, 0}), "/parts/0/at: expected a list of 3 numbers, found a list"},
      {"/parts/0/at", json::array({0, 0, "0"}),
       "/parts/0/at/2: expected a number in -20 .. 20 m, found \"0\""},
      {"/parts/0/shapes/0", json{{"kind", "cube"}}, "/parts/0/shapes/0/kind: expected one of"},
      {"/parts/0/shapes/0", json{{"kind", "revolve"}},
       "/parts/0/shapes/0/profile: expected at least three points, found nothing"},
      {"/parts/0/shapes/0", json{{"kind", "revolve"}, {"profile", {{0, 0}, {-0.1, 0}, {0, 1}}}},
       "/parts/0/shapes/0/profile/1/0: expected a radius of at least 0, found -0.1"},
      {"/parts/0/shapes/0",
       json{{"kind", "extrude"}, {"outline", {{0, 0}, {1, 0}, {2, 0}}}, {"height_m", 0.1}},
       "/parts/0/shapes/0/outline: expected an outline that encloses an area, found none"},
      {"/parts/0/shapes/0", json{{"kind", "box"}, {"size", {0.1, 0, 0.1}}},
       "/parts/0/shapes/0/size/1: expected more than 0, found 0"},
      {"/parts/0/shapes/0", json{{"kind", "tube"}, {"radius_m", 0.1}, {"inner_m", 0.2}, {"height_m", 0.1}},
       "/parts/0/shapes/0/inner_m: expected less than radius_m (0.1), found 0.2"},
      {"/parts/0/shapes/0", json{{"kind", "sweep"}, {"points", {{0, 0, 0}, {0, 0, 0}}}, {"radius_m", 0.01}},
       "/parts/0/shapes/0/points/1: expected a point that differs from the one before, found the same again"},
      {"/parts/0/shapes/0", json{{"kind", "coil"}, {"radius_m", 0.1}, {"wire_m", 0.01}, {"turns", 2}},
       "/parts/0/shapes/0/pitch_m: expected more than 0, found nothing"},
      {"/parts/0/move", json{{"by", "lid"}, {"axis", {0, 0, 0}}},
       "/parts/0/move/axis: expected a direction, found 0, 0, 0"},
      {"/parts/0/colour", "red", "/parts/0/colour: expected a known key"},
      {"/floor_m", 1.0, "/floor_m: expected a number in -5 .. 0 m, found 1"}};
  Scratch scratch("bad-body");
  const std::string before = scratch_body(scratch).dump();
  scratch.write("bodies/hm-45.json", before);
  REQUIRE(scratch.problems() == "");
  for (const Change& change : changes) {
    CAPTURE(std::string(change.message));
    json changed = json::parse(before);
    changed[json::json_pointer(change.pointer)] = change.value;
    scratch.write("bodies/hm-45.json", changed.dump());
    const std::string found = scratch.problems();
    CAPTURE(found);
    CHECK(found.find("bodies/hm-45.json:/") == 0);
    CHECK(found.find(change.message) != std::string::npos);
  }
  scratch.write("bodies/hm-45.json", before);
  CHECK(scratch.problems() == "");
}

TEST_CASE("a machine without a body is none the worse, and a body changes no hash") {
  Scratch scratch("no-body");
  const json body = scratch_body(scratch);
  const auto without = library::load(scratch.dir(), "");
  scratch.write("bodies/hm-45.json", body.dump());
  const auto with = library::load(scratch.dir(), "");
  CHECK(with.library.bodies.count("hm-45") == 1);
  CHECK(library_test::joined(without.problems) == "");
  CHECK(without.library.bodies.count("hm-45") == 0);
  CHECK(without.library.content_hash == with.library.content_hash);
  CHECK(without.library.machine_hashes == with.library.machine_hashes);
}

TEST_CASE("a part may have its own mesh file; a bad one is refused by file and line") {
  Scratch scratch("mesh");
  json body = scratch_body(scratch);
  body["parts"][0]["shapes"] = json::array({json{{"kind", "mesh"}, {"file", "wedge.obj"}}});
  scratch.write("bodies/hm-45.json", body.dump());
  CHECK(scratch.problems().find("bodies/wedge.obj: expected a file that can be read") != std::string::npos);
  const std::string good =
      "# a wedge\no wedge\nv 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\nf 1 3 2\nf 1/1/1 2/2/1 4/3/1\nf 2 3 4\nf 1 4 "
      "3\n";
  scratch.write("bodies/wedge.obj", good);
  CHECK(scratch.problems() == "");
  const auto loaded = library::load(scratch.dir(), "").library;
  CHECK(loaded.bodies.at("hm-45").parts[0].shapes[0].triangles.size() == 4);
  struct Bad {
    const char* text;
    const char* message;
  };
  for (const Bad& bad :
       {Bad{"v 0 0\n", "bodies/wedge.obj:line 1: expected v with three numbers, found \"0\""},
        Bad{"v 0 0 nan\n", "bodies/wedge.obj:line 1: expected a number in -20 .. 20 m, found \"nan\""},
        Bad{"v 0 0 0\nf 1 2 3\n",
            "bodies/wedge.obj:line 2: expected the number of a corner given before, found \"2\""},
        Bad{"v 0 0 0\nl 1 1\n", "bodies/wedge.obj:line 2: expected v, f, or a line that is passed over"},
        Bad{"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n",
            "bodies/wedge.obj:line 4: expected a closed surface: each edge once each way, found an open"},
        Bad{"", "expected a closed surface: each edge once each way, found no faces"}}) {
    scratch.write("bodies/wedge.obj", bad.text);
    const std::string found = scratch.problems();
    CAPTURE(found);
    CHECK(found.find(bad.message) != std::string::npos);
  }
  body["parts"][0]["shapes"][0]["file"] = "../machines/hm-45.json";
  scratch.write("bodies/hm-45.json", body.dump());
  CHECK(scratch.problems().find("/parts/0/shapes/0/file: expected a file of this folder that ends in .obj") !=
        std::string::npos);
}

TEST_CASE("a lesson can ask only for parts that a machine's body has") {
  Scratch scratch("point-out");
  const json body = scratch_body(scratch);
  scratch.write("bodies/hm-45.json", body.dump());
  json lesson = json::parse(library_test::small_lesson());
  lesson["steps"][1]["done"] = json{{"event", "acted"}, {"name", "point_out"}, {"of", "reed_switch"}};
  scratch.write("lessons/small/lesson.json", lesson.dump());
  CHECK(scratch.problems() == "");
  lesson["steps"][1]["done"]["of"] = "read_switch";
  scratch.write("lessons/small/lesson.json", lesson.dump());
  CHECK(scratch.problems().find("/steps/1/done/of: expected something that can be used with point_out (did "
                                "you mean \"reed_switch\"?), found \"read_switch\"") != std::string::npos);
}
