#include "sim_core/training/guidance/goals.h"

#include <algorithm>

#include "sim_core/hands/handles.h"

namespace stirbench::training {

namespace {

const Condition* event_in(const Condition& c) {
  if (c.op == Op::event) return &c;
  for (const Condition& part : c.parts) {
    if (const Condition* found = event_in(part)) return found;
  }
  return nullptr;
}

bool waits_for_pouring(const Condition& c) {
  if (!only_events(c)) return false;
  const Condition* event = event_in(c);
  return event->event == machine::EventKind::acted && event->text == hands::pour.name;
}

// Whether two neighbouring goals are pourings, which may be done in any order.
bool of_one_kind(const Condition& a, const Condition& b) {
  return waits_for_pouring(a) && waits_for_pouring(b);
}

bool counts_poured(const LessonStep& step) {
  return step.means.amount == Amount::rest_of_poured && step.means.hand.has_value();
}

double asked_kg(const LessonStep& step) { return hands::asked_value(*step.means.hand); }

}  // namespace

Goals::Goals(const std::vector<LessonStep>& steps) : reached_(steps.size(), 0), group_end_(steps.size(), 0) {
  for (std::size_t i = steps.size(); i-- > 0;) {
    const bool goes_on = i + 1 < steps.size() && of_one_kind(steps[i].done, steps[i + 1].done);
    group_end_[i] = goes_on ? group_end_[i + 1] : i + 1;
  }
}

double Goals::poured_kg(std::string_view ingredient) const {
  const auto found = std::find_if(poured_.begin(), poured_.end(),
                                  [ingredient](const Poured& one) { return one.ingredient == ingredient; });
  return found == poured_.end() ? 0.0 : found->kg;
}

void Goals::count_pourings(const Moment& moment) {
  for (const machine::Event& event : moment.events) {
    if (!was_done(event, hands::pour)) continue;
    auto found = std::find_if(poured_.begin(), poured_.end(),
                              [&event](const Poured& one) { return one.ingredient == event.name; });
    if (found == poured_.end()) found = poured_.insert(poured_.end(), {std::string(event.name), 0.0});
    found->kg += event.number;
  }
}

void Goals::settle_amounts(const std::vector<LessonStep>& steps) {
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (!counts_poured(steps[i])) continue;
    const std::string& ingredient = hands::first_text(*steps[i].means.hand);
    double asked = 0.0;
    for (std::size_t k = 0; k <= i; ++k) {
      if (counts_poured(steps[k]) && hands::first_text(*steps[k].means.hand) == ingredient)
        asked += (k < i ? 1.0 : enough_of_amount_norm) * asked_kg(steps[k]);
    }
    if (poured_kg(ingredient) >= asked) reached_[i] = 1;
  }
}

void Goals::take_back(const std::vector<LessonStep>& steps, const Moment& moment) {
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (reached_[i] == 0 || !steps[i].undone || !holds(*steps[i].undone, moment)) continue;
    reached_[i] = 0;
    next_ = std::min(next_, i);
  }
}

bool Goals::reach(const std::vector<LessonStep>& steps, std::size_t goal, const Moment& moment,
                  EventSpan& span) {
  if (reached_[goal] != 0) return true;
  if (counts_poured(steps[goal])) return false;
  if (needs_event(steps[goal].done) && moment.events.empty()) return false;
  span.used_end = span.first;
  const bool holds_now = holds(steps[goal].done, moment, span);
  if (!held_long(steps[goal], goal, moment, holds_now)) return false;
  span.first = span.used_end;
  reached_[goal] = 1;
  return true;
}

bool Goals::held_long(const LessonStep& step, std::size_t goal, const Moment& moment, bool holds_now) {
  if (step.for_s <= 0.0) return holds_now;
  if (!holds_now || held_goal_ != goal || held_tick_ == never) {
    held_goal_ = goal;
    held_tick_ = holds_now ? moment.state.tick : never;
  }
  return holds_now && static_cast<double>(moment.state.tick - held_tick_) * machine::tick_s >= step.for_s;
}

bool Goals::pass_over(const std::vector<LessonStep>& steps, const Moment& moment, EventSpan& span) {
  if (!steps[next_].skippable) return false;
  std::size_t aim = next_ + 1;
  while (aim < steps.size() && steps[aim].skippable) ++aim;
  if (aim >= steps.size() || !reach(steps, aim, moment, span)) return false;
  for (std::size_t i = next_; i < aim; ++i) reached_[i] = 1;
  return true;
}

void Goals::remember_group(const std::vector<LessonStep>& steps, const Moment& moment,
                           const EventSpan& span) {
  for (std::size_t later = next_ + 1; later < group_end_[next_]; ++later) {
    EventSpan rest = span;
    if (!counts_poured(steps[later]) && holds(steps[later].done, moment, rest)) reached_[later] = 1;
  }
}

void Goals::advance() {
  while (next_ < reached_.size() && reached_[next_] != 0) ++next_;
}

void Goals::see(const std::vector<LessonStep>& steps, const Moment& moment) {
  if (!moment.events.empty()) {
    count_pourings(moment);
    settle_amounts(steps);
  }
  take_back(steps, moment);
  EventSpan span{0, moment.events.size(), 0};
  for (advance(); next_ < steps.size(); advance()) {
    if (reach(steps, next_, moment, span)) continue;
    if (!moment.events.empty()) remember_group(steps, moment, span);
    if (!pass_over(steps, moment, span)) return;
  }
}

}  // namespace stirbench::training
