#include <doctest/doctest.h>

#include <algorithm>

#include "app/library/lessons/prove_conduct.h"
#include "sim_core/hands/handles.h"
#include "sim_core/training/lesson_run.h"
#include "tests/app/library/scratch.h"

using namespace stirbench;
using library_test::Scratch;
using library_test::shipped;

namespace {

const training::CriterionResult* found(const training::ScoreCard& card, const std::string& id) {
  const auto at = std::find_if(card.criteria.begin(), card.criteria.end(),
                               [&id](const auto& one) { return one.id == id; });
  return at == card.criteria.end() ? nullptr : &*at;
}

void wait(training::LessonRun& run, int seconds) {
  for (int i = 0; i < seconds * static_cast<int>(machine::ticks_per_second); ++i) run.step();
}

}  // namespace

TEST_CASE("conduct: the lid used as a stop fails a lesson that does not speak of it, and its card says so") {
  const training::Lesson lesson = *shipped().lesson("first-batch", 5);
  const machine::Machine machine = shipped().machine(lesson.machine);
  training::LessonRun run(machine, lesson, "actions_file", "test", 5);
  for (const hands::Action& one :
       {hands::open_lid(), hands::pour("whole_milk", 22.2, 4.0), hands::close_lid(), hands::press("stir")}) {
    run.act(one);
    wait(run, 8);
  }
  REQUIRE(found(run.card(), "conduct-lid") != nullptr);
  CHECK(training::goes_without_saying(*found(run.card(), "conduct-lid")));
  CHECK(run.prospect().can_pass);
  run.act(hands::open_lid());
  wait(run, 2);
  const training::CriterionResult missed = *found(run.card(), "conduct-lid");
  CHECK_FALSE(training::goes_without_saying(missed));
  CHECK(missed.must_pass);
  CHECK(missed.of == 0.0);
  CHECK_FALSE(run.prospect().can_pass);
  CHECK(run.prospect().why == missed.why);
}

TEST_CASE("conduct: a draw keeps it, an excepted lesson is not asked") {
  for (const auto& [id, lesson] : shipped().lessons) {
    CAPTURE(id);
    const auto asked = [](const training::Lesson& one) {
      return std::count_if(one.criteria.begin(), one.criteria.end(),
                           [](const auto& c) { return c.everywhere; });
    };
    std::size_t excepted = 0;
    for (const library::Conduct& one : shipped().conduct)
      excepted += static_cast<std::size_t>(std::count_if(one.except.begin(), one.except.end(),
                                                         [&id](const auto& e) { return e.lesson == id; }));
    CHECK(static_cast<std::size_t>(asked(lesson)) == shipped().conduct.size() - excepted);
    CHECK(asked(*shipped().lesson(id, 12345)) == asked(lesson));
  }
}

TEST_CASE("conduct: an unknown lesson among the exceptions, and an id that a lesson has, are located") {
  Scratch scratch("conduct");
  library_test::put_small_lesson(scratch);
  const auto conduct = [&scratch](const std::string& id, const std::string& lesson) {
    scratch.write("conduct/one.json",
                  "{\"format\": 1, \"conduct\": [{\"id\": \"" + id +
                      "\", \"title\": \"T\", \"never\": {\"signal\": \"lid_open\", \"is\": true}, "
                      "\"missed_text\": \"M\", \"except\": [{\"lesson\": \"" +
                      lesson + "\", \"why\": \"W\"}]}]}");
    return scratch.problems();
  };
  CHECK(conduct("lid", "no-such-lesson").find("the id of a lesson, found \"no-such-lesson\"") !=
        std::string::npos);
  CHECK(conduct("lid", "small").find("lesson") == std::string::npos);
}

TEST_CASE("habits: unsafe ones occur and do not pass, careful ones do not fail") {
  library::Library few = shipped();
  std::erase_if(few.lessons, [](const auto& one) { return one.first != "clearing-an-alarm"; });
  int unsafe = 0, careful = 0;
  for (const library::HabitCell& cell : library::play_habits(few, 2)) {
    CAPTURE(cell.habit);
    CHECK_MESSAGE(!library::is_wrong(cell), cell.why);
    (cell.careful ? careful : unsafe) += cell.occurred;
  }
  CHECK(unsafe >= 4);
  CHECK(careful >= 12);
}
