#include "app/library/lessons/prove_lessons.h"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "tests/app/library/scratch.h"

using namespace stirbench;
using library_test::Scratch;

// All lessons are proved by tests/golden, which plays them anyway.
TEST_CASE("check proves that every criterion of a shipped lesson can be met and missed") {
  library::Library few = library_test::shipped();
  std::erase_if(few.lessons,
                [](const auto& one) { return one.first != "guards-stop-it" && one.first != "hot-product"; });
  REQUIRE(few.lessons.size() == 2);
  CHECK(library_test::joined(library::prove_lessons(library_test::content_dir(), few)) == "");
}

TEST_CASE("check finds a criterion that nothing can miss, and a right run that is not right") {
  Scratch scratch("prove");
  const std::filesystem::path lesson = test_support::source_root() / "content/lessons/guards-stop-it";
  for (const char* name : {"lesson.json", "page.md", "right.jsonl"})
    scratch.write(std::string("lessons/guards-stop-it/") + name, test_support::read_file(lesson / name));
  // The only wrong run is the right one: nothing is ever missed.
  scratch.write("lessons/guards-stop-it/wrong-none.jsonl", test_support::read_file(lesson / "right.jsonl"));
  auto loaded = library::load(scratch.dir(), "");
  REQUIRE(library_test::joined(loaded.problems) == "");
  auto problems = library::prove_lessons(scratch.dir(), loaded.library);
  CHECK(problems.size() == loaded.library.lessons.at("guards-stop-it").criteria.size());
  CHECK(problems.at(0).path == "/criteria/0");
  // And the other way round: a right run that does nothing.
  scratch.write("lessons/guards-stop-it/wrong-none.jsonl", "{\"at_s\": 1.0, \"do\": \"touch_wall\"}\n");
  scratch.write("lessons/guards-stop-it/right.jsonl", "{\"at_s\": 1.0, \"do\": \"touch_wall\"}\n");
  loaded = library::load(scratch.dir(), "");
  problems = library::prove_lessons(scratch.dir(), loaded.library);
  bool named = false;
  for (const auto& one : problems)
    named =
        named || (one.file == "lessons/guards-stop-it/right.jsonl" && one.expected == "a run that passes");
  CHECK(named);
}

TEST_CASE("check says which skill has no must-pass item, or no wrong run that fails only it") {
  training::Lesson lesson;
  lesson.id = "made";
  lesson.skills = {"guards", "alarms", "isolation"};
  training::ScoreCard card;
  for (const char* skill : {"guards", "alarms"}) {
    training::Criterion one;
    one.skill = skill;
    one.must_pass = one.skill == "guards";
    lesson.criteria.push_back(one);
    training::CriterionResult result;
    result.skill = skill;
    result.must_pass = one.must_pass;
    result.met = true;
    card.criteria.push_back(result);
  }
  const auto lacks = [&lesson](const training::ScoreCard& wrong) {
    std::string out;
    for (const library::SkillGap& gap : library::skill_gaps(lesson, {wrong})) out += gap.lacks + "; ";
    return out;
  };
  const std::string others = "no must-pass item decides it; no criterion shows it; ";
  CHECK(lacks(card) == "no wrong run fails only its must-pass items; " + others);
  card.criteria[0].met = false;
  CHECK(lacks(card) == others);
  // Somebody hurt, or another skill's item missed beside it: that run does not tell which.
  training::CriterionResult hurt;
  hurt.must_pass = true;
  card.criteria.push_back(hurt);
  CHECK(lacks(card) == "no wrong run fails only its must-pass items; " + others);
}

TEST_CASE("check says where a demand asks for more lessons than there are") {
  const std::vector<library::SkillGap> gaps = library::demand_gaps(library_test::shipped());
  for (const library::SkillGap& gap : gaps) CHECK(gap.where.starts_with("assessments/"));
  library::Library none = library_test::shipped();
  none.lessons.clear();
  std::size_t skills = 0;
  for (const auto& [id, demand] : none.demands) skills += demand.skills.size();
  CHECK(library::demand_gaps(none).size() == skills);
}

TEST_CASE("a must-pass item that watches a reading forgives a flicker, and has no almost") {
  struct Case {
    const char* what;
    const char* monitor;
    const char* problem;  // empty: good
  };
  for (
      const Case& one : {
          Case{"nothing said", R"({"kind": "never", "what": {"signal": "probe_degC", "above": 60}})", ""},
          Case{"enough", R"({"kind": "never", "grace_s": 2, "what": {"signal": "probe_degC", "above": 60}})",
               ""},
          Case{"too little",
               R"({"kind": "never", "grace_s": 0.2, "what": {"signal": "probe_degC", "above": 60}})",
               "/criteria/0/monitor/grace_s: expected at least 0.5 s"},
          Case{
              "an event is over at once",
              R"({"kind": "never", "what": {"all": [{"event": "acted", "name": "open_lid"}, {"signal": "probe_degC", "above": 60}]}})",
              ""},
          Case{"tolerance",
               R"({"kind": "final_state", "tolerance": 2, "what": {"signal": "probe_degC", "above": 60}})",
               "/criteria/0/monitor/tolerance: expected no tolerance"},
      }) {
    CAPTURE(one.what);
    Scratch scratch("must-pass");
    library_test::put_small_lesson(scratch);
    nlohmann::json lesson = nlohmann::json::parse(scratch.read("lessons/small/lesson.json"));
    lesson["criteria"][0]["must_pass"] = true;
    lesson["criteria"][0]["monitor"] = nlohmann::json::parse(one.monitor);
    lesson["criteria"][0]["met_text"] = "Good.";
    lesson["criteria"][0]["missed_text"] = "Not good.";
    scratch.write("lessons/small/lesson.json", lesson.dump());
    const auto loaded = library::load(scratch.dir(), "");
    const std::string problems = library_test::joined(loaded.problems);
    if (*one.problem != '\0') {
      CHECK_MESSAGE(problems.find(one.problem) != std::string::npos, problems);
      continue;
    }
    REQUIRE(problems == "");
    const training::Monitor& read = loaded.library.lessons.at("small").criteria[0].monitor;
    CHECK(read.grace_s == (std::string(one.what) == "nothing said" ? training::must_pass_grace_s
                           : std::string(one.what) == "enough"     ? 2.0
                                                                   : 0.0));
  }
  Scratch scratch("tolerance-event");
  library_test::put_small_lesson(scratch);
  nlohmann::json lesson = nlohmann::json::parse(scratch.read("lessons/small/lesson.json"));
  lesson["criteria"][0]["must_pass"] = false;
  lesson["criteria"][0]["monitor"] = nlohmann::json::parse(
      R"({"kind": "never", "tolerance": 1, "what": {"signal": "lid_open", "is": true}})");
  scratch.write("lessons/small/lesson.json", lesson.dump());
  CHECK(scratch.problems().find("/criteria/0/monitor/tolerance: expected a comparison of a number") !=
        std::string::npos);
}
