#include "app/records/items.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace stirbench;
using records::Attempt;

namespace {

Attempt kept(const std::string& mode, bool passed, double first, double second,
             const std::string& more = "") {
  Attempt out;
  out.lesson = "never-dry";
  out.mode = mode;
  out.finished = true;
  out.passed = passed;
  const auto criterion = [](const char* id, double points) {
    return "{\"id\": \"" + std::string(id) + "\", \"of\": 10, \"points\": " + std::to_string(points) +
           ", \"met\": " + (points > 0.0 ? "true" : "false") + "}";
  };
  out.card_json =
      "{\"criteria\": [" + criterion("full", first) + ", " + criterion("dry", second) + more + "]}";
  return out;
}

}  // namespace

TEST_CASE("items of kept attempts: practice and tests of the present criteria count, nothing else") {
  std::vector<Attempt> attempts{kept("test", true, 10, 10),   kept("practice", false, 10, 0),
                                kept("test", true, 10, 10),   kept("practice", false, 0, 0),
                                kept("guided", true, 10, 10), kept("retry", true, 10, 10)};
  attempts.push_back(kept("test", true, 10, 10));
  attempts.back().finished = false;
  attempts.push_back(kept("test", true, 10, 10));
  attempts.back().card_json = "no card";
  // Kept before the lesson got its second criterion.
  attempts.push_back(kept("test", true, 10, 10));
  attempts.back().card_json =
      "{\"criteria\": [{\"id\": \"full\", \"of\": 10, \"points\": 10, \"met\": true}]}";
  // An injury adds an item of its own.
  attempts.push_back(
      kept("test", false, 10, 0, ", {\"id\": \"nobody-injured\", \"of\": 0, \"points\": 0, \"met\": false}"));
  const auto lessons = records::items_of(attempts);
  REQUIRE(lessons.size() == 1);
  CHECK(lessons[0].attempts == 5);
  CHECK(lessons[0].passed == 2);
  CHECK(lessons[0].criteria == std::vector<std::string>{"full", "dry"});
  CHECK(lessons[0].items[0].difficulty == doctest::Approx(0.8));
  CHECK(lessons[0].items[1].difficulty == doctest::Approx(0.4));
  CHECK(lessons[0].items[1].gain == doctest::Approx(1.0));
  // phi of the table 2 0 / 2 1: (2 * 1 - 0 * 2) / sqrt(2 * 3 * 4 * 1)
  CHECK(lessons[0].items[0].discrimination == doctest::Approx(2.0 / std::sqrt(24.0)));
}
