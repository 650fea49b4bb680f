#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "sim_core/training/guidance/advice.h"
#include "sim_core/training/guidance/follower.h"

// What the guide's follower did on one draw of a lesson, played hand for hand at the same tick on another.
namespace stirbench::test_support {

using Recording = std::vector<std::pair<std::uint64_t, hands::Action>>;

inline training::LessonRun run_of(const machine::Machine& machine, const training::Lesson& lesson) {
  return {machine, lesson, "actions_file", "forms", lesson.start.seed};
}

inline Recording record(const machine::Machine& machine, const training::Lesson& lesson) {
  Recording out;
  training::LessonRun run = run_of(machine, lesson);
  training::follow(run, [&](const machine::State& state, const training::Advice& advice) {
    out.emplace_back(state.tick, advice.hand);
  });
  return out;
}

inline bool passes(const machine::Machine& machine, const training::Lesson& lesson,
                   const Recording& recording) {
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

}  // namespace stirbench::test_support
