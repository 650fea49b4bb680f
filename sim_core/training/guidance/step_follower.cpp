#include "sim_core/training/guidance/step_follower.h"

#include <algorithm>

namespace stirbench::training {

namespace {

const Condition* first_event_leaf(const Condition& c) {
  if (c.op == Op::event) return &c;
  for (const Condition& part : c.parts) {
    if (const Condition* found = first_event_leaf(part)) return found;
  }
  return nullptr;
}

// Whether two neighbouring steps wait for the same kind of action.
bool alike(const Condition& a, const Condition& b) {
  if (!only_events(a) || !only_events(b)) return false;
  const Condition* x = first_event_leaf(a);
  const Condition* y = first_event_leaf(b);
  return x->event == y->event && x->text == y->text;
}

}  // namespace

StepFollower::StepFollower(const std::vector<LessonStep>& steps)
    : row_end_(steps.size(), 0), remembered_(steps.size(), 0), was_false_(steps.size(), 0) {
  for (const LessonStep& step : steps) needs_event_.push_back(needs_event(step.done) ? 1 : 0);
  for (std::size_t i = steps.size(); i-- > 0;) {
    const bool goes_on = i + 1 < steps.size() && alike(steps[i].done, steps[i + 1].done);
    row_end_[i] = goes_on ? row_end_[i + 1] : i + 1;
  }
}

void StepFollower::go_to(std::size_t step) {
  current_ = step;
  std::fill(was_false_.begin(), was_false_.end(), static_cast<unsigned char>(0));
}

bool StepFollower::done_now(const std::vector<LessonStep>& steps, const Moment& moment, EventSpan& span) {
  if (remembered_[current_] != 0) return true;
  if (needs_event_[current_] != 0 && moment.events.empty()) return false;
  span.used_end = span.first;
  if (!holds(steps[current_].done, moment, span)) return false;
  span.first = span.used_end;
  return true;
}

bool StepFollower::skip_ahead(const std::vector<LessonStep>& steps, const Moment& moment, EventSpan& span) {
  for (std::size_t later = current_ + 1; later < steps.size() && steps[later - 1].skippable; ++later) {
    span.used_end = span.first;
    if (later < row_end_[current_]) continue;
    if (!holds(steps[later].done, moment, span)) {
      was_false_[later] = 1;
      continue;
    }
    if (was_false_[later] == 0 && needs_event_[later] == 0) continue;
    span.first = span.used_end;
    go_to(later + 1);
    return true;
  }
  return false;
}

void StepFollower::remember_row(const std::vector<LessonStep>& steps, const Moment& moment,
                                const EventSpan& span) {
  for (std::size_t later = current_ + 1; later < row_end_[current_]; ++later) {
    EventSpan rest = span;
    if (holds(steps[later].done, moment, rest)) remembered_[later] = 1;
  }
}

void StepFollower::see(const std::vector<LessonStep>& steps, const Moment& moment) {
  EventSpan span{0, moment.events.size(), 0};
  while (current_ < steps.size()) {
    if (done_now(steps, moment, span)) {
      go_to(current_ + 1);
      continue;
    }
    if (!moment.events.empty()) remember_row(steps, moment, span);
    if (!skip_ahead(steps, moment, span)) return;
  }
}

}  // namespace stirbench::training
