// Are a lesson's draws parallel forms? Plays each lesson by its guide alone on draws of seeds S, S + 1 ...:
// how many pass, with what score and in how many simulated minutes; and plays what was recorded on its usual
// draw, hand for hand at the same tick, on the same draws: how many of those pass.
//   forms [--content DIR] [--draws N] [--seed S] [LESSON ...]
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>
#include <utility>
#include <vector>

#include "app/library/library.h"
#include "sim_core/training/guidance/advice.h"
#include "sim_core/training/guidance/follower.h"
#include "tests/support/lesson_tool.h"

namespace {

using namespace stirbench;

struct Spread {
  double sum = 0.0, squares = 0.0, n = 0.0;
  void add(double x) {
    sum += x;
    squares += x * x;
    n += 1.0;
  }
  double mean() const { return n > 0.0 ? sum / n : 0.0; }
  double deviation() const {
    return n > 1.0 ? std::sqrt(std::max(0.0, squares - sum * sum / n) / (n - 1.0)) : 0.0;
  }
};

training::LessonRun run_of(const machine::Machine& machine, const training::Lesson& lesson) {
  return {machine, lesson, "actions_file", "forms", lesson.start.seed};
}

// What the guide's follower does on a draw, by tick.
using Recording = std::vector<std::pair<std::uint64_t, hands::Action>>;

Recording record(const machine::Machine& machine, const training::Lesson& lesson) {
  Recording out;
  training::LessonRun run = run_of(machine, lesson);
  training::follow(run, [&](const machine::State& state, const training::Advice& advice) {
    out.emplace_back(state.tick, advice.hand);
  });
  return out;
}

bool passes(const machine::Machine& machine, const training::Lesson& lesson, const Recording& recording) {
  training::LessonRun run = run_of(machine, lesson);
  std::size_t next = 0;
  while (!run.over()) {
    for (; next < recording.size() && recording[next].first <= run.state().tick; ++next)
      run.act(recording[next].second);
    // Nothing more comes: what is open then is decided by the machine within the hour.
    if (next == recording.size() && !recording.empty() &&
        run.state().tick > recording.back().first + 3600 * machine::ticks_per_second)
      break;
    run.step();
  }
  return run.card().passed;
}

void print_row(const library::Library& library, const training::Lesson& usual,
               const test_support::LessonTool& options) {
  const machine::Machine machine = library.machine(usual.machine);
  if (!training::can_follow(usual)) {
    std::printf("%-32s says its steps in words alone\n", usual.id.c_str());
    return;
  }
  const Recording recording = record(machine, usual);
  Spread score, minutes;
  std::uint64_t passed = 0, lost = 0, stranded = 0, recorded = 0;
  std::string why;
  for (std::uint64_t i = 0; i < options.count; ++i) {
    const training::Lesson drawn = *library.lesson(usual.id, options.seed + i);
    training::LessonRun run = run_of(machine, drawn);
    const training::Followed followed = training::follow(run);
    const bool good = followed.end == training::Followed::End::passed;
    passed += good ? 1 : 0;
    lost += followed.end == training::Followed::End::said_lost ? 1 : 0;
    stranded += followed.end == training::Followed::End::stranded ? 1 : 0;
    if (!good) why = std::to_string(options.seed + i) + ": " + followed.why;
    score.add(100.0 * followed.card.score_norm);
    minutes.add(machine::time_s(run.state()) / 60.0);
    if (passes(machine, drawn, recording)) ++recorded;
  }
  std::printf("%-32s %5llu %7llu %5llu %9llu %7.1f +- %4.1f %7.1f +- %4.1f %9llu   %s\n", usual.id.c_str(),
              static_cast<unsigned long long>(options.count), static_cast<unsigned long long>(passed),
              static_cast<unsigned long long>(lost), static_cast<unsigned long long>(stranded), score.mean(),
              score.deviation(), minutes.mean(), minutes.deviation(),
              static_cast<unsigned long long>(recorded), why.c_str());
  std::fflush(stdout);
}

}  // namespace

int main(int count, char** words) {
  const test_support::LessonTool options = test_support::lesson_tool(count, words, "--draws");
  const library::LoadResult loaded = library::load(options.content, "");
  for (const auto& problem : loaded.problems) std::fprintf(stderr, "%s\n", problem.text().c_str());
  if (!loaded.problems.empty()) return 2;
  std::printf("%-32s %5s %7s %5s %9s %15s %15s %9s\n", "lesson", "draws", "passed", "lost", "stranded",
              "score %", "minutes", "recording");
  for (const auto& [id, lesson] : loaded.library.lessons)
    if (options.asks_for(id)) print_row(loaded.library, lesson, options);
  return 0;
}
