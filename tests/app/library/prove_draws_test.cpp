#include "app/library/lessons/prove_draws.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "sim_core/hands/handles.h"
#include "sim_core/training/trials/players.h"
#include "tests/app/library/scratch.h"

using namespace stirbench;
using library::Taker;

namespace {

using training::trial_run;

std::vector<training::GuidedHand> recorded(training::LessonRun& run) {
  std::vector<training::GuidedHand> out;
  training::record_follower(run, out);
  return out;
}

// Figures of a lesson that nothing is held against.
library::LessonDraws good_figures() {
  library::LessonDraws out;
  out.lesson = "first-batch";
  out.draws = 20;
  for (library::TakerRow& row : out.takers) row.plays = 20;
  out.takers[0].passed = 20;
  for (int i = 0; i < 20; ++i) {
    out.takers[0].score.add(1.0);
    out.minutes.add(100.0 + i);
  }
  return out;
}

}  // namespace

TEST_CASE("made-up people: a recording passes its own start, without a goal it does not") {
  const training::Lesson lesson = *library_test::shipped().lesson("guards-stop-it", 7);
  const machine::Machine machine = library_test::shipped().machine(lesson.machine);
  training::LessonRun guided = trial_run(machine, lesson);
  const auto right = recorded(guided);
  REQUIRE(guided.card().passed);
  REQUIRE_FALSE(right.empty());
  training::LessonRun again = trial_run(machine, lesson);
  CHECK(training::play_recording(again, training::recording_of(right)).passed);
  CHECK(again.state().tick == guided.state().tick);
  int failed = 0;
  for (const training::GuidedHand& one : right) {
    training::LessonRun run = trial_run(machine, lesson);
    failed += training::play_recording(run, training::recording_without(right, one.goal)).passed ? 0 : 1;
  }
  CHECK(failed > 0);
  training::LessonRun idle = trial_run(machine, lesson);
  CHECK_FALSE(training::do_nothing(idle).passed);
}

TEST_CASE("made-up people: without slips nobody differs from the guide, with them everybody from himself") {
  const training::Lesson lesson = *library_test::shipped().lesson("guards-stop-it", 7);
  const machine::Machine machine = library_test::shipped().machine(lesson.machine);
  training::LessonRun guided = trial_run(machine, lesson);
  const training::Recording right = training::recording_of(recorded(guided));
  CHECK(training::careless(right, {0.0, 3, {}}) == right);
  training::LessonRun careful = trial_run(machine, lesson);
  CHECK(training::play_with_slips(careful, {0.0, 3, {}}).passed);
  const training::Slips often{1.0, 3, {hands::open_lid()}};
  const training::Recording wrong = training::careless(right, often);
  CHECK(wrong != right);
  CHECK(wrong == training::careless(right, often));
  CHECK(wrong != training::careless(right, {1.0, 4, {hands::open_lid()}}));
}

TEST_CASE("lessons on drawn starts: figures of two lessons, the same on one thread and on two") {
  const auto play = [](unsigned threads) {
    return library::play_draws(library_test::content_dir(), library_test::shipped(),
                               {"guards-stop-it", "never-dry"}, 3, 101, threads);
  };
  const auto one = play(1), two = play(2);
  REQUIRE(one.size() == 2);
  for (std::size_t i = 0; i < one.size(); ++i) {
    CHECK(one[i].draws == 3);
    CHECK(one[i].of(Taker::follows).passed == 3);
    CHECK(one[i].of(Taker::idle).passed == 0);
    const auto& criteria = library_test::shipped().lessons.at(one[i].lesson).criteria;
    CHECK(one[i].items.size() ==
          static_cast<std::size_t>(
              std::count_if(criteria.begin(), criteria.end(), [](const auto& c) { return !c.everywhere; })));
    for (std::size_t t = 0; t < one[i].takers.size(); ++t) {
      CHECK(one[i].takers[t].plays == 3);
      CHECK(one[i].takers[t].passed == two[i].takers[t].passed);
      CHECK(one[i].takers[t].score.sum == two[i].takers[t].score.sum);
    }
  }
}

TEST_CASE("what figures of draws hold against a lesson") {
  const auto problems = [](const library::LessonDraws& figures) {
    return library::draws_problems(library_test::shipped(), figures);
  };
  CHECK(problems(good_figures()).empty());
  library::LessonDraws figures = good_figures();
  figures.takers[0].passed = 19;
  figures.why = "seed 5: stuck";
  REQUIRE(problems(figures).size() == 1);
  CHECK(problems(figures)[0] == "the guide's follower passes 19 of 20 draws; seed 5: stuck");
  figures = good_figures();
  figures.takers[static_cast<std::size_t>(Taker::recording)].passed = 2;
  CHECK(problems(figures).empty());
  figures.takers[static_cast<std::size_t>(Taker::recording)].passed = 3;
  CHECK(problems(figures).size() == 1);
  figures = good_figures();
  figures.takers[static_cast<std::size_t>(Taker::idle)].score.add(0.2);
  CHECK(problems(figures).size() == 1);
  figures = good_figures();
  figures.minutes.add(500.0);
  CHECK(problems(figures).size() == 1);
  figures = good_figures();
  for (int i = 0; i < 10; ++i) figures.takers[0].score.add(0.8);
  CHECK(problems(figures).size() == 1);
  CHECK(problems(library::LessonDraws{"first-batch"}).size() == 1);
}

TEST_CASE(
    "a demand's rule with measured chances: who knows is found competent, who repeats a script is not") {
  const std::string skill = library_test::shipped().demands.at("start-alone").skills.front();
  library::LessonDraws figures = good_figures();
  for (library::TakerRow& row : figures.takers) {
    row.shown[skill] = 2;
    row.failed_must[skill] = 18;
  }
  figures.takers[0].shown[skill] = 20;
  figures.takers[0].failed_must[skill] = 0;
  for (const auto& one : library::measured_operating(library_test::shipped(), {figures})) {
    if (one.skill != skill) {
      CHECK(one.lessons == 0);
      continue;
    }
    CHECK(one.lessons == 1);
    CHECK(one.knowing_competent == doctest::Approx(1.0));
    CHECK(one.unknowing == doctest::Approx(0.1));
    CHECK(one.unknowing_competent < 1e-4);
  }
}
