#include "app/library/lessons/variations.h"

#include <doctest/doctest.h>

#include <set>

#include "app/library/library.h"
#include "tests/app/library/scratch.h"

using namespace stirbench;
using library::Json;
using library::Variation;

namespace {

Variation number_of(const char* name, double from, double to, double step, double usual) {
  Variation out;
  out.name = name;
  out.from = from;
  out.to = to;
  out.step = step;
  out.usual = usual;
  return out;
}

Variation one_of_these(const char* name, std::vector<Json> values) {
  Variation out;
  out.name = name;
  out.usual = values.front();
  out.one_of = std::move(values);
  return out;
}

std::vector<library::Problem> put(const std::map<std::string, Json>& values, Json& json) {
  std::vector<library::Problem> problems;
  const library::Names names;
  library::Reader reader("file", problems, names);
  library::put_in(reader, values, json);
  return problems;
}

}  // namespace

TEST_CASE("draws keep to their bounds and their grid, reach both ends, and hang on the seed alone") {
  const std::vector<Variation> varied = {number_of("milk_kg", 18.0, 18.4, 0.1, 18.2),
                                         one_of_these("part", {"oring_front", "oring_rear"})};
  std::set<std::string> seen;
  for (std::uint64_t seed = 0; seed < 400; ++seed) {
    const std::map<std::string, Json> values = library::draw(varied, seed);
    CHECK(values == library::draw(varied, seed));
    seen.insert(values.at("milk_kg").dump() + values.at("part").dump());
  }
  // Five kilograms times two parts, each as decimal figures have it.
  CHECK(seen.size() == 10);
  CHECK(seen.count("18.3\"oring_rear\"") == 1);
  // Evenly: a fair grid of five falls on one value 80 times in 400, give or take four standard deviations.
  int lowest = 0;
  for (std::uint64_t seed = 0; seed < 400; ++seed)
    if (library::draw(varied, seed).at("milk_kg") == 18.0) ++lowest;
  CHECK(lowest > 48);
  CHECK(lowest < 112);
}

TEST_CASE("values are put in for references and placeholders, and what is not drawn is located") {
  const std::map<std::string, Json> values = {{"milk_kg", 21.3},
                                              {"left", Json{{"part", "oring_front"}, {"word", "front"}}}};
  Json json = Json::parse(R"({"low": {"drawn": "milk_kg", "times": 0.9, "plus": 0.13},
    "kg": {"drawn": "milk_kg"}, "whole": {"drawn": "left"}, "place": {"drawn": "left", "of": "part"},
    "texts": ["Pour {milk_kg} kg.", "The {left.word} ring; you had {value}."]})");
  CHECK(put(values, json).empty());
  CHECK(json["low"] == 19.3);
  CHECK(json["kg"] == 21.3);
  CHECK(json["place"] == "oring_front");
  CHECK(json["whole"] == values.at("left"));
  CHECK(json["texts"][0] == "Pour 21.3 kg.");
  CHECK(json["texts"][1] == "The front ring; you had {value}.");

  Json bad = Json::parse(R"({"a": [{"drawn": "milk"}], "b": {"drawn": "left", "of": "colour"},
    "c": {"drawn": "left", "of": "part", "times": 2}, "d": {"drawn": "milk_kg", "minus": 2}})");
  const std::vector<library::Problem> problems = put(values, bad);
  REQUIRE(problems.size() == 4);
  CHECK(problems[0].path == "/a/0");
  CHECK(problems[0].found == "\"milk\"");
  CHECK(problems[1].found == "\"left.colour\"");
  CHECK(problems[2].path == "/c");
  CHECK(problems[3].path == "/d");
}

TEST_CASE("an entry of a drawn object may be a whole condition, hand or list") {
  const std::map<std::string, Json> values = {
      {"guard",
       Json::parse(R"({"seen": {"signal": "lid_open", "is": true}, "faults": [{"id": "x"}, {"id": "y"}]})")}};
  Json json =
      Json::parse(R"({"what": {"drawn": "guard", "of": "seen"}, "faults": {"drawn": "guard", "of": "faults"},
                              "text": "{guard.seen}"})");
  CHECK(put(values, json).empty());
  CHECK(json["what"] == Json::parse(R"({"signal": "lid_open", "is": true})"));
  CHECK(json["faults"].size() == 2);
  CHECK(json["text"] == "{guard.seen}");  // no text: left as it stands
}

TEST_CASE("a lesson that varies: usual for its own seed, drawn for others, its extremes tried when loaded") {
  const library_test::Scratch scratch("varied");
  library_test::put_small_lesson(scratch);
  scratch.change("lessons/small/lesson.json", "\"kg\": 20,", "\"kg\": {\"drawn\": \"milk_kg\"},");
  scratch.change("lessons/small/lesson.json", "\"format\": 1,",
                 "\"format\": 1, \"varies\": [{\"name\": \"milk_kg\", \"from\": 15, \"to\": 25, \"step\": "
                 "0.5, \"usual\": 20, \"says\": \"{milk_kg} kg of milk.\"}],");
  const library::LoadResult loaded = library::load(scratch.dir(), "");
  REQUIRE(library_test::joined(loaded.problems) == "");
  const library::Library& content = loaded.library;
  const training::Lesson& usual = content.lessons.at("small");
  CHECK(usual.start.loaded[0].kg == 20.0);
  CHECK(content.lesson("small", usual.start.seed)->start.loaded[0].kg == 20.0);
  const auto drawn = content.lesson("small", 77);
  REQUIRE(drawn);
  CHECK(drawn->start.loaded[0].kg != 20.0);
  CHECK(drawn->start.loaded[0].kg == content.lesson("small", 77)->start.loaded[0].kg);
  CHECK(drawn->start.seed == 77);
  CHECK(drawn->hash == usual.hash);
  CHECK(drawn->drawn.front() == library::number_text(drawn->start.loaded[0].kg) + " kg of milk.");
  CHECK_FALSE(content.lesson("none", 1));

  // More than the file's own bounds allow: named at loading, though the usual value is good.
  scratch.change("lessons/small/lesson.json", "\"to\": 25,", "\"to\": 2500,");
  const std::vector<library::Problem> problems = library::load(scratch.dir(), "").problems;
  REQUIRE_FALSE(problems.empty());
  CHECK(problems.front().path == "/start/loaded/0/kg");
  CHECK(problems.front().found == "2500");
  scratch.change("lessons/small/lesson.json", "\"usual\": 20,", "\"usual\": 20.2,");
  CHECK(library::load(scratch.dir(), "").problems.front().path == "/varies/0/usual");
}
