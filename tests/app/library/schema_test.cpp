#include <doctest/doctest.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "app/library/schema.h"
#include "tests/app/library/scratch.h"
#include "tests/support/skip.h"

// The schema files against the reader's tables, and against the reader itself through an independent
// validator (python3-jsonschema, tests/habits/check_schemas.py).
namespace fs = std::filesystem;
using nlohmann::json;
using namespace stirbench;

TEST_CASE("the schema files are what the field tables say") {
  // After a change to a table: `build/release/tests/write_schemas`.
  std::size_t files = 0;
  for (const auto& entry : fs::directory_iterator(fs::path(library_test::content_dir()) / "schema")) {
    CAPTURE(entry.path().string());
    CHECK(library::schema_files().count(entry.path().filename().string()) == 1);
    ++files;
  }
  CHECK(files == library::schema_files().size());
  for (const auto& [name, text] : library::schema_files()) {
    CAPTURE(name);
    CHECK(test_support::read_file(library_test::content_dir() + "/schema/" + name) == text);
  }
}

TEST_CASE("the schemas refuse what the reader refuses") {
  struct Change {
    const char* file;
    const char* pointer;
    json value;
  };
  const std::vector<Change> changes = {
      {"ingredients/salt.json", "/supply_degC", 1000},
      {"ingredients/salt.json", "/supply_degC", "20"},
      {"ingredients/salt.json", "/form", "dust"},
      {"ingredients/salt.json", "/format", 2},
      {"ingredients/salt.json", "/unknown", 1},
      {"ingredients/salt.json", "/id", "Salt!"},
      {"ingredients/salt.json", "/fraction/wtaer", 0.0},
      {"ingredients/salt.json", "/allergens", "milk"},
      {"machines/hm-45.json", "/elements/count", 2.5},
      {"recipes/egg-custard.json", "/phases/0/kind", "warm"},
      {"rules/heat_treatment.json", "/rows/0/hold_s", -1},
      {"rules/heat_treatment.json", "/rows/0/sure", "perhaps"},
      {"rules/cooling.json", "/cooling/0/start", "later"},
      {"rules/organisms.json", "/growth/0/h0", "long"},
      {"recipes/egg-custard.json", "/start", json::array()},
      {"lessons/small/lesson.json", "/end", json{{"signal", "probe_degC"}, {"above", 3}, {"below", 4}}},
      {"lessons/small/lesson.json", "/end", json{{"any", json::array()}}},
      {"lessons/small/lesson.json", "/criteria/0/monitor/kind", "sometimes"}};
  if (!test_support::python_module_or_skip("jsonschema", "python3-jsonschema")) return;
  library_test::Scratch scratch("schema");
  library_test::put_small_lesson(scratch);
  fs::copy(fs::path(library_test::content_dir()) / "schema", fs::path(scratch.dir()) / "schema");
  REQUIRE(scratch.problems() == "");
  const auto judge = [&scratch] {
    return test_support::run_program(
        {"/usr/bin/python3", "-B", (test_support::source_root() / "tests/habits/check_schemas.py").string(),
         scratch.dir()});
  };
  const auto good = judge();
  REQUIRE(good.exit_code == 0);
  for (const Change& change : changes) {
    CAPTURE(std::string(change.file));
    CAPTURE(std::string(change.pointer));
    const std::string before = scratch.read(change.file);
    json changed = json::parse(before);
    changed[json::json_pointer(change.pointer)] = change.value;
    scratch.write(change.file, changed.dump());
    CHECK(scratch.problems() != "");
    CHECK(judge().exit_code == 1);
    scratch.write(change.file, before);
  }
}
