#include <doctest/doctest.h>

#include <algorithm>

#include "tests/golden/random_starts.h"
#include "tests/support/files.h"

// Each lesson that can be followed, played by its guide alone. bench: tests/tools/strandings.cpp plays many
// more.
namespace {

using namespace stirbench;

#ifdef __SANITIZE_ADDRESS__
constexpr std::uint64_t sampled_starts = 1;  // a look at the code alone
#else
constexpr std::uint64_t sampled_starts = 6;
#endif

}  // namespace

TEST_CASE("who does what the guide says passes, or is told in time that this run cannot") {
  const std::string content = (test_support::source_root() / "content").string();
  const library::LoadResult loaded = library::load(content, "");
  REQUIRE(loaded.problems.empty());
  int followed = 0;
  for (const auto& [id, lesson] : loaded.library.lessons) {
    if (!training::can_follow(lesson)) continue;
    ++followed;
    const golden_test::Course course(loaded.library, lesson, content);
    const golden_test::FollowCount from_start = course.follow_from_start();
    CHECK_MESSAGE(from_start.passed == 1, id << " from its start: " << from_start.why);
    golden_test::FollowCount after;
    // A search for a fault is dear: fewer of them.
    const std::uint64_t starts = lesson.guide ? std::min<std::uint64_t>(sampled_starts, 2) : sampled_starts;
    for (std::uint64_t seed = 1; seed <= starts; ++seed) {
      const std::string said = course.follow_after_hands(seed, after);
      CHECK_MESSAGE(after.stranded == 0, id << " after random hands of seed " << seed << ": " << said);
    }
  }
  CHECK(followed >= 43);
}
