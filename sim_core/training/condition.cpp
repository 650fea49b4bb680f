#include "sim_core/training/condition.h"

#include <algorithm>

#include "sim_core/control/controller.h"
#include "sim_core/hands/hand.h"
#include "sim_core/training/batch_judge.h"
#include "sim_core/training/grounds.h"

namespace stirbench::training {

namespace {

std::string_view action_topic(std::int32_t subject) {
  const hands::Hand* hand = hands::at(subject);
  return hand != nullptr ? hand->name : std::string_view();
}

bool event_holds(const Condition& leaf, const Moment& moment, EventSpan& span) {
  for (std::size_t i = span.first; i < span.end; ++i) {
    if (!matches(leaf, moment.events[i])) continue;
    span.used_end = std::max(span.used_end, i + 1);
    return true;
  }
  return false;
}

bool mentions(const Condition& c, const machine::Event& event) {
  if (c.op == Op::event) return matches(c, event);
  return std::any_of(c.parts.begin(), c.parts.end(),
                     [&event](const Condition& part) { return mentions(part, event); });
}

bool is_number(Op op) {
  return op == Op::at_least || op == Op::at_most || op == Op::above || op == Op::below;
}

// First number leaf that comes out as `outcome`; `any_number` remembers the first of all as the fallback.
const Condition* find_number(const Condition& c, const Moment& moment, bool outcome,
                             const Condition*& any_number) {
  if (is_number(c.op)) {
    if (any_number == nullptr) any_number = &c;
    return holds(c, moment) == outcome ? &c : nullptr;
  }
  const bool wanted = c.op == Op::negate ? !outcome : outcome;
  for (const Condition& part : c.parts) {
    if (const Condition* found = find_number(part, moment, wanted, any_number)) return found;
  }
  return nullptr;
}

}  // namespace

std::string_view event_topic(const machine::Event& event) {
  switch (event.kind) {
    case machine::EventKind::acted:
    case machine::EventKind::refused:
    case machine::EventKind::instructor: return action_topic(event.subject);
    case machine::EventKind::alarm_raised:
    case machine::EventKind::alarm_cleared:
      if (event.subject < 0 || event.subject >= static_cast<std::int32_t>(control::alarm_count)) return {};
      return control::alarm_key(static_cast<control::AlarmId>(event.subject));
    case machine::EventKind::harm:
      if (event.subject < 0 || event.subject >= static_cast<std::int32_t>(machine::harm_count)) return {};
      return machine::harm_key(static_cast<machine::HarmId>(event.subject));
    default: return event.name;
  }
}

bool matches(const Condition& leaf, const machine::Event& event) {
  if (event.kind != leaf.event) return false;
  if (!leaf.of.empty() && leaf.of != event.name) return false;
  if (leaf.event_at_least != 0.0 && !(event.number >= leaf.event_at_least)) return false;
  return leaf.text.empty() || leaf.text == event_topic(event);
}

namespace {

bool compares_by(Op op, double value, double bound) {
  switch (op) {
    case Op::at_least: return value >= bound;
    case Op::at_most: return value <= bound;
    case Op::above: return value > bound;
    case Op::below: return value < bound;
    default: return false;
  }
}

}  // namespace

bool compares(const Condition& leaf, double value) { return compares_by(leaf.op, value, leaf.number); }

bool holds(const Condition& c, const Moment& moment, EventSpan& span) {
  switch (c.op) {
    case Op::at_least:
    case Op::at_most:
    case Op::above:
    case Op::below: return compares(c, c.signal->value(moment.machine, moment.state));
    case Op::is_flag: return (c.signal->value(moment.machine, moment.state) != 0.0) == c.flag;
    case Op::is_text: return c.signal->text(moment.machine, moment.state) == c.text;
    case Op::event: return event_holds(c, moment, span);
    case Op::row_met: return moment.judge != nullptr && moment.judge->row_met(c.text);
    case Op::cooling_is: return moment.judge != nullptr && moment.judge->cooling_state(c.text) == c.of;
    case Op::grounds:
      return moment.grounds != nullptr && compares_by(c.compare, moment.grounds->count(c.text), c.number);
    case Op::all:
      for (const Condition& part : c.parts) {
        if (!holds(part, moment, span)) return false;
      }
      return true;
    case Op::any:
      for (const Condition& part : c.parts) {
        if (holds(part, moment, span)) return true;
      }
      return false;
    case Op::negate: return !c.parts.empty() && !holds(c.parts.front(), moment, span);
  }
  return false;
}

bool holds(const Condition& condition, const Moment& moment) {
  EventSpan span{0, moment.events.size(), 0};
  return holds(condition, moment, span);
}

bool needs_event(const Condition& c) {
  switch (c.op) {
    case Op::event: return true;
    case Op::all: return std::any_of(c.parts.begin(), c.parts.end(), needs_event);
    case Op::any: return std::all_of(c.parts.begin(), c.parts.end(), needs_event);
    default: return false;
  }
}

bool only_events(const Condition& c) {
  switch (c.op) {
    case Op::event: return true;
    case Op::all:
    case Op::any: return !c.parts.empty() && std::all_of(c.parts.begin(), c.parts.end(), only_events);
    default: return false;
  }
}

const Condition* decisive_comparison(const Condition& condition, const Moment& moment, bool outcome) {
  const Condition* any_number = nullptr;
  const Condition* found = find_number(condition, moment, outcome, any_number);
  return found != nullptr ? found : any_number;
}

const machine::Event* matching_event(const Condition& condition, const Moment& moment) {
  for (const machine::Event& event : moment.events) {
    if (mentions(condition, event)) return &event;
  }
  return nullptr;
}

}  // namespace stirbench::training
