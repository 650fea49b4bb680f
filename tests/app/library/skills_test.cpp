#include <doctest/doctest.h>

#include "tests/app/library/scratch.h"

using namespace stirbench;
using library_test::Scratch;

namespace {

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("shipped skills: at least twenty, safety ones marked, each trained or known not to be") {
  const library::Library& lib = library_test::shipped();
  CHECK(lib.skills.size() >= 20);
  int safety = 0;
  for (const auto& [id, skill] : lib.skills) safety += skill.safety ? 1 : 0;
  CHECK(safety >= 8);
  CHECK(library_test::joined(library::untrained_skills(lib)) == "");
  for (const auto& [id, lesson] : lib.lessons) {
    CAPTURE(id);
    CHECK_FALSE(lesson.skills.empty());
  }
}

TEST_CASE("a skill that nobody trains is found by the check") {
  library::Library lib = library_test::shipped();
  lib.skills["guards"].not_yet_trained = false;
  for (auto& [id, lesson] : lib.lessons) std::erase(lesson.skills, "guards");
  CHECK(says(library_test::joined(library::untrained_skills(lib)),
             "skills:/guards: expected a lesson that trains it"));
}

TEST_CASE("skills: unknown names, rings and doubles are named with their place") {
  const Scratch scratch("skills");
  SUBCASE("a lesson names a skill that is not known") {
    library_test::put_small_lesson(scratch);
    scratch.change("lessons/small/lesson.json", "\"skills\": [", "\"skills\": [\"juggling\", ");
    CHECK(says(scratch.problems(), "lessons/small/lesson.json:/skills/0: expected a known skill"));
  }
  SUBCASE("an unknown prerequisite") {
    scratch.write(
        "skills/more.json",
        R"({"format": 1, "skills": [{"id": "x-ray", "title": "X", "summary": "Sees through.", "area": "faults",
                  "needs": ["gards"], "repeat_days": 100}]})");
    CHECK(says(scratch.problems(), "skills:/x-ray/needs: expected a known skill"));
    CHECK(says(scratch.problems(), "did you mean \"guards\""));
  }
  SUBCASE("a ring") {
    scratch.write("skills/more.json",
                  R"({"format": 1, "skills": [
                  {"id": "one", "title": "One", "summary": "First.", "area": "faults", "needs": ["two"], "repeat_days": 100},
                  {"id": "two", "title": "Two", "summary": "Second.", "area": "faults", "needs": ["one"], "repeat_days": 100}]})");
    CHECK(says(scratch.problems(), "one needs two needs one"));
  }
  SUBCASE("the same id twice, and a safety skill that is repeated too seldom") {
    scratch.write(
        "skills/twice.json",
        R"({"format": 1, "skills": [{"id": "guards", "title": "Guards", "summary": "Again.", "area": "safety",
                  "safety": true, "repeat_days": 700}]})");
    CHECK(says(scratch.problems(), "skills/twice.json:/skills/0/id: expected an id that is not used yet"));
    CHECK(says(scratch.problems(), "expected 365 or less for a safety skill"));
  }
}
