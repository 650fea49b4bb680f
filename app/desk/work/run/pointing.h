#pragma once

#include "app/desk/work/run/live_run.h"

// Lessons that ask for parts of the machine by what they do: the learner points at one.
namespace stirbench::desk::work {

// Whether the step, or any step of the run's lesson, waits for a part to be pointed at.
bool asks_to_point(const training::LessonStep& step);
bool asks_to_point(const LiveRun& run);

bool is_pointing(const machine::Event& event);

}  // namespace stirbench::desk::work
