#include <doctest/doctest.h>

#include <algorithm>

#include "sim_core/product/rules.h"
#include "tests/app/library/scratch.h"

// The rule files: strict, located, and a house's own beside them.
using namespace stirbench;
using library_test::Scratch;

namespace {

bool says(const std::string& problems, const std::string& words) {
  return problems.find(words) != std::string::npos;
}

const char* const house_rows = R"({"format": 1, "rows": [
  {"id": "house_82c_60s", "title": "House rule, 82 degC for 60 s", "jurisdiction": "This house", "product": "mix", "temperature_degC": 82,
   "hold_s": 60, "source": "Written by the owner", "sure": "text_seen"}]})";

}  // namespace

TEST_CASE("the shipped rules are there, with their sources") {
  const product::Rules& rules = library_test::shipped().rules;
  CHECK(rules.rows.size() >= 78);
  CHECK(rules.cooling.size() >= 4);
  CHECK(rules.storage.size() >= 5);
  CHECK(rules.inactivation.size() >= 5);
  CHECK(rules.growth.size() >= 3);
  for (const auto& row : rules.rows) CHECK(row.temperature_degC > 50.0);
  const auto places = product::jurisdictions(rules);
  CHECK(std::find(places.begin(), places.end(), "United Kingdom") != places.end());
  CHECK(library_test::shipped().machine("hm-45").rules.rows.size() == rules.rows.size());
}

TEST_CASE("a rule that is wrong is named with its place") {
  Scratch scratch("rules");
  REQUIRE(scratch.problems() == "");
  struct Change {
    const char* file;
    const char* from;
    const char* to;
    const char* words;
  };
  const Change changes[] = {
      {"rules/heat_treatment.json", "\"temperature_degF\": 145,", "",
       "rules/heat_treatment.json:/rows/0: expected temperature_degC or temperature_degF"},
      {"rules/heat_treatment.json", "\"temperature_degF\": 145,",
       "\"temperature_degF\": 145, \"temperature_degC\": 63,", "found both"},
      {"rules/heat_treatment.json", "\"hold_s\": 1800", "\"hold_s\": -1",
       "/rows/0/hold_s: expected a number in 0 .. 86400 s"},
      {"rules/heat_treatment.json", "\"us_milk_72c_15s\"", "\"us_milk_63c_30min\"",
       "/rows/1/id: expected an id that is not used yet"},
      {"rules/heat_treatment.json", "\"product\": \"milk\"", "\"product\": \"cheese\"",
       "/rows/0/product: expected one of milk"},
      {"rules/cooling.json", "\"to_degC\": 5, \"within_s\": 21600", "\"to_degC\": 30, \"within_s\": 21600",
       "/cooling/0/stages/1/to_degC: expected less than 21"},
      {"rules/cooling.json", "\"within_s\": 21600", "\"within_s\": 7200",
       "/cooling/0/stages/1/within_s: expected more than 7200"},
      {"rules/organisms.json", "\"law\": \"square_root\"", "\"law\": \"cardinal\"",
       "rules/organisms.json:/growth/0"},
      {"rules/organisms.json", "\"z_K\": 7", "\"zK\": 7", "did you mean \"z_K\"?"},
  };
  for (const Change& change : changes) {
    CAPTURE(std::string(change.words));
    const std::string before = scratch.read(change.file);
    scratch.change(change.file, change.from, change.to);
    const std::string problems = scratch.problems();
    CAPTURE(problems);
    CHECK(says(problems, change.words));
    scratch.write(change.file, before);
  }
  scratch.write("rules/other.json", "{}");
  CHECK(says(scratch.problems(),
             "rules/other.json: expected a name that begins with heat_treatment, cooling or organisms"));
}

TEST_CASE("without any row nothing can be claimed, and that is said") {
  Scratch scratch("rules-none");
  scratch.remove("rules");
  CHECK(says(scratch.problems(), "rules: expected at least one heat-treatment row"));
}

TEST_CASE("a site adds rules in a file of its own; an id that is taken is refused") {
  Scratch scratch("rules-own");
  test_support::write_file(scratch.own() + "/rules/heat_treatment-house.json", house_rows);
  const library::LoadResult loaded = library::load(scratch.dir(), scratch.own());
  CHECK(loaded.problems.empty());
  CHECK(product::find_heat_rule(loaded.library.rules, "house_82c_60s") != nullptr);
  // The content's own hash does not change with what a house adds.
  CHECK(loaded.library.content_hash == library::load(scratch.dir(), "").library.content_hash);
  std::string taken = house_rows;
  taken.replace(taken.find("house_82c_60s"), 13, "us_mix_80c_25s");
  test_support::write_file(scratch.own() + "/rules/heat_treatment-house.json", taken);
  CHECK(says(library_test::joined(library::load(scratch.dir(), scratch.own()).problems),
             "heat_treatment-house.json:/rows/0/id: expected an id that is not used yet"));
}

TEST_CASE("the content hash covers the rules") {
  Scratch scratch("rules-hash");
  const library::LoadResult before = library::load(scratch.dir(), "");
  scratch.change("rules/cooling.json", "\"within_s\": 5400", "\"within_s\": 5401");
  const library::LoadResult after = library::load(scratch.dir(), "");
  CHECK(after.problems.empty());
  CHECK(before.library.content_hash != after.library.content_hash);
  CHECK(before.library.machine_hashes.at("hm-45") != after.library.machine_hashes.at("hm-45"));
}

TEST_CASE("lessons may ask for rows and cooling rules, by names that exist") {
  Scratch scratch("rules-lesson");
  library_test::put_small_lesson(scratch);
  REQUIRE(scratch.problems() == "");
  const std::string lesson = "lessons/small/lesson.json";
  const std::string end =
      R"({"any": [{"signal": "phase", "is": "keep"}, {"event": "harm", "name": "boil_over"}]})";
  const std::string before = scratch.read(lesson);
  const auto with = [&](const std::string& condition) {
    scratch.write(lesson, before);
    scratch.change(lesson, end, condition);
    return scratch.problems();
  };
  CHECK(with(R"({"row_met": "us_mix_80c_25s"})") == "");
  CHECK(with(R"({"cooling": "us_two_stage", "is": "kept"})") == "");
  CHECK(says(with(R"({"row_met": "us_mix_80c_25"})"),
             "/end/row_met: expected the id of a heat-treatment row (did you mean"));
  CHECK(says(with(R"({"cooling": "us_two_stage", "is": "fine"})"),
             "/end/is: expected a state of a cooling rule"));
  CHECK(says(with(R"({"cooling": "us_two_stage"})"), "/end: expected cooling and is"));
}
