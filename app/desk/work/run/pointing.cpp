#include "app/desk/work/run/pointing.h"

#include <algorithm>

namespace stirbench::desk::work {

namespace {

using K = bench::ActionKind;

bool asks(const training::Condition& condition) {
  if (condition.op == training::Op::event && condition.event == bench::EventKind::acted && condition.text == bench::action_entry(K::point_out).name) return true;
  return std::any_of(condition.parts.begin(), condition.parts.end(), asks);
}

}  // namespace

bool asks_to_point(const training::LessonStep& step) { return asks(step.done); }

bool asks_to_point(const LiveRun& run) {
  if (run.lesson() == nullptr) return false;
  const auto& steps = run.lesson()->steps;
  return std::any_of(steps.begin(), steps.end(), [](const training::LessonStep& step) { return asks(step.done); });
}

bool is_pointing(const bench::Event& event) {
  return event.kind == bench::EventKind::acted && event.subject == static_cast<std::int32_t>(K::point_out);
}

}  // namespace stirbench::desk::work
