#include <doctest/doctest.h>

#include "app/library/library.h"
#include "app/library/reading/paths.h"
#include "sim_core/training/guidance/advice.h"
#include "sim_core/training/guidance/follower.h"
#include "sim_core/training/trials/players.h"

// Parallel forms, sampled: whoever does what the guide says passes each draw of a lesson, with nearly the
// same score (`stirbench check --draws` plays as many as one likes).
#ifndef __SANITIZE_ADDRESS__  // a look at content, not at code: the release build is enough
using namespace stirbench;

TEST_CASE("the guide's follower passes the draws of every lesson, none dearer than another by 15 points") {
  const library::LoadResult loaded = library::load(library::content_dir(), "");
  REQUIRE(loaded.problems.empty());
  int followed = 0;
  for (const auto& [id, usual] : loaded.library.lessons) {
    CHECK_MESSAGE(loaded.library.varied_lessons.count(id) == 1, id << " draws nothing");
    if (!training::can_follow(usual)) continue;
    const machine::Machine machine = loaded.library.machine(usual.machine);
    for (std::uint64_t seed = 501; seed <= (usual.guide ? 504U : 503U); ++seed) {
      const training::Lesson drawn = *loaded.library.lesson(id, seed);
      training::LessonRun run(machine, drawn, "follower", "test", seed);
      const training::Followed end = training::follow(run);
      CAPTURE(id);
      CAPTURE(seed);
      CHECK_MESSAGE(end.end == training::Followed::End::passed, end.why);
      CHECK(end.card.score_norm > 0.85);
      ++followed;
    }
  }
  CHECK(followed >= 3 * 29 + 4 * 14);
}

// The aim is one draw in ten. Of 20 draws at that chance more than 5 pass once in ninety times (binomial),
// and the seeds are fixed.
TEST_CASE("hands recorded on a lesson's usual draw do not pass its others") {
  const library::LoadResult loaded = library::load(library::content_dir(), "");
  REQUIRE(loaded.problems.empty());
  for (const char* id :
       {"before-the-panel", "defeated-switch", "hot-product", "locking-out", "round-the-machine",
        "spills-and-chemicals", "strange-starts", "strip-and-clean-the-draw-valve"}) {
    const training::Lesson& usual = loaded.library.lessons.at(id);
    const machine::Machine machine = loaded.library.machine(usual.machine);
    training::LessonRun guided = training::trial_run(machine, usual);
    std::vector<training::GuidedHand> hands;
    training::record_follower(guided, hands);
    const auto passes = [&](const training::Lesson& lesson) {
      training::LessonRun run = training::trial_run(machine, lesson);
      return training::play_recording(run, training::recording_of(hands)).passed;
    };
    CHECK(passes(usual));
    int passed = 0;
    for (std::uint64_t seed = 601; seed <= 620; ++seed)
      passed += passes(*loaded.library.lesson(id, seed)) ? 1 : 0;
    CHECK_MESSAGE(passed <= 5, id << ": " << passed << " of 20 draws");
  }
}
#endif
