// Plays lessons by their guide alone, from the start and from states after 0 to 40 random hands, and counts
// how that ends. Random hands are those of the lesson's own runs, right and wrong, of its guide, and a few
// that any operator has; hands that are refused, or that do nothing but hurt, are not drawn.
//   strandings [--content DIR] [--starts N] [--seed S] [--show] [LESSON ...]
#include <cstdio>
#include <string>

#include "tests/golden/random_starts.h"
#include "tests/support/lesson_tool.h"

namespace {

using namespace stirbench;

void print_row(const std::string& lesson, const golden_test::FollowCount& from_start,
               const golden_test::FollowCount& after) {
  std::printf("%-32s %5llu %7llu %6llu %9llu %9llu   %s\n", lesson.c_str(),
              static_cast<unsigned long long>(after.starts), static_cast<unsigned long long>(after.passed),
              static_cast<unsigned long long>(after.said_lost), static_cast<unsigned long long>(after.ended),
              static_cast<unsigned long long>(after.stranded),
              from_start.passed > 0 ? "passed" : from_start.why.c_str());
  std::fflush(stdout);
}

}  // namespace

int main(int count, char** words) {
  const test_support::LessonTool options = test_support::lesson_tool(count, words, "--starts");
  library::LoadResult loaded = library::load(options.content, "");
  for (const auto& problem : loaded.problems) std::fprintf(stderr, "%s\n", problem.text().c_str());
  if (!loaded.problems.empty()) return 2;
  std::printf("%-32s %5s %7s %6s %9s %9s   %s\n", "lesson", "runs", "passed", "lost", "ended", "stranded",
              "from the start");
  std::string without;
  for (const auto& [id, lesson] : loaded.library.lessons) {
    if (!options.asks_for(id)) continue;
    if (!training::can_follow(lesson)) {
      without += (without.empty() ? "" : ", ") + id;
      continue;
    }
    const golden_test::Course course(loaded.library, lesson, options.content);
    const golden_test::FollowCount first = course.follow_from_start();
    golden_test::FollowCount after;
    for (std::uint64_t i = 0; i < options.count; ++i) {
      const std::string said = course.follow_after_hands(options.seed + i, after);
      if (options.show && !said.empty())
        std::printf("  seed %llu: %s\n", static_cast<unsigned long long>(options.seed + i), said.c_str());
    }
    print_row(id, first, after);
  }
  if (!without.empty()) std::printf("Without hands in every step: %s\n", without.c_str());
  return 0;
}
