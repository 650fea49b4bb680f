#include <doctest/doctest.h>

#include "app/library/library.h"
#include "app/library/reading/paths.h"
#include "sim_core/training/guidance/advice.h"
#include "sim_core/training/guidance/follower.h"

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
    for (const std::uint64_t seed : {501U, 502U, 503U}) {
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
  CHECK(followed >= 3 * 29);
}
#endif
