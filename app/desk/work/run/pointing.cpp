#include "app/desk/work/run/pointing.h"

#include <algorithm>

#include "sim_core/hands/handles.h"

namespace stirbench::desk::work {

namespace {

bool asks(const training::Condition& condition) {
  if (condition.op == training::Op::event && condition.event == machine::EventKind::acted &&
      condition.text == hands::point_out.name)
    return true;
  return std::any_of(condition.parts.begin(), condition.parts.end(), asks);
}

}  // namespace

bool asks_to_point(const training::LessonStep& step) { return asks(step.done); }

bool asks_to_point(const LiveRun& run) {
  if (run.lesson() == nullptr) return false;
  const auto& steps = run.lesson()->steps;
  return std::any_of(steps.begin(), steps.end(),
                     [](const training::LessonStep& step) { return asks(step.done); });
}

bool is_pointing(const machine::Event& event) { return was_done(event, hands::point_out); }

}  // namespace stirbench::desk::work
