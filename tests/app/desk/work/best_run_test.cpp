#include "app/desk/work/debrief/best_run.h"

#include <doctest/doctest.h>

#include <future>

#include "sim_core/training/guidance/follower.h"
#include "tests/support/files.h"

// What a run is compared with.
namespace {

using namespace stirbench;
namespace work = desk::work;

struct Played {
  test_support::TempFolder folder{"best-run"};
  std::unique_ptr<work::Desk> desk;
  std::optional<training::Lesson> lesson;
  machine::Machine machine;
  work::DebriefModel model;

  // Nothing is done for five seconds.
  Played(const std::string& id, std::uint64_t seed) {
    desk = work::open_desk({.content_dir = {}, .data_dir = folder.file("data"), .open_journal = {}});
    lesson = desk->library.lesson(id, seed);
    REQUIRE(lesson);
    machine = desk->library.machine(lesson->machine);
    std::string text;
    training::LessonRun run(machine, *lesson, "practice", "test", lesson->start.seed,
                            [&text](std::string_view record) { text += record; });
    for (int i = 0; i < 50; ++i) run.step();
    run.session().end();
    model = work::build_debrief(machine, &*lesson, text);
    REQUIRE(model.verified);
  }
};

// A lesson that draws something and whose guide can be followed.
std::string drawn_lesson() {
  const auto desk = work::open_desk({});
  std::string shortest;
  double minutes = 1.0e9;
  for (const auto& [id, lesson] : desk->library.lessons) {
    const bool fits = desk->library.varied_lessons.count(id) > 0 && training::can_follow(lesson);
    if (fits && lesson.minutes < minutes) {
      minutes = lesson.minutes;
      shortest = id;
    }
  }
  return shortest;
}

}  // namespace

TEST_CASE("best run: the guide plays the very draws that are looked back at") {
  const std::string id = drawn_lesson();
  REQUIRE(id != "");
  const Played played(id, 77);
  auto question = work::best_run_question(*played.desk, played.machine, *played.lesson, played.model);
  REQUIRE(question);
  CHECK(question->kind == work::BestRunQuestion::Kind::followed);
  CHECK(question->lesson.start.seed == 77);
  CHECK(question->lesson.drawn == played.lesson->drawn);
  const std::atomic<bool> go_on{false};
  const work::BestRun best = work::play_best_run(*question, go_on);
  CHECK(best.problem == "");
  CHECK(best.score_norm >= played.lesson->pass_norm);
  CHECK_FALSE(best.own);
  CHECK_FALSE(best.step_began_s.empty());
  CHECK(best.end_s > 5.0);
}

TEST_CASE("best run: in the background it comes to the same, and a cancelled one leaves nothing") {
  const std::string id = drawn_lesson();
  const Played played(id, 77);
  auto question = work::best_run_question(*played.desk, played.machine, *played.lesson, played.model);
  REQUIRE(question);
  const std::atomic<bool> go_on{false};
  const work::BestRun here = work::play_best_run(*question, go_on);
  std::promise<void> woken;
  work::BestRunSearch search([&woken] { woken.set_value(); });
  search.start(*question);
  woken.get_future().wait();
  REQUIRE(search.poll());
  CHECK_FALSE(search.busy());
  CHECK(search.poll()->end_s == here.end_s);
  CHECK(search.poll()->step_began_s == here.step_began_s);

  work::BestRunSearch given_up;
  given_up.start(*question);
  given_up.cancel();
  CHECK_FALSE(given_up.busy());
  CHECK_FALSE(given_up.poll());
  const std::atomic<bool> at_once{true};
  CHECK(work::play_best_run(*question, at_once).problem != "");
}

TEST_CASE("best run: a guide that cannot pass says so") {
  const std::string id = drawn_lesson();
  const Played played(id, 77);
  auto question = work::best_run_question(*played.desk, played.machine, *played.lesson, played.model);
  REQUIRE(question);
  question->lesson.limit_s = 1.0;  // no time for anything
  const std::atomic<bool> go_on{false};
  const work::BestRun best = work::play_best_run(*question, go_on);
  CHECK(best.problem.find("could not pass") != std::string::npos);
  CHECK(best.history.empty());
}
