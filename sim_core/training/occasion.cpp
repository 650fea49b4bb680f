#include "sim_core/training/occasion.h"

#include <algorithm>

namespace stirbench::training {

namespace {

Condition any_hand() {
  Condition acted;
  acted.op = Op::event;
  acted.event = machine::EventKind::acted;
  return acted;
}

bool is_given(const Condition& condition) { return condition.op != Op::all || !condition.parts.empty(); }

// Whether all that it looks at is what hands do.
bool is_act(const Condition& c) {
  if (c.op == Op::event) return c.event == machine::EventKind::acted;
  if (c.op != Op::any && c.op != Op::all) return false;
  return !c.parts.empty() && std::all_of(c.parts.begin(), c.parts.end(), is_act);
}

Condition act_of(const Condition& what) {
  if (what.op != Op::all) return any_hand();
  const auto act = std::find_if(what.parts.begin(), what.parts.end(), is_act);
  return act == what.parts.end() ? any_hand() : *act;
}

// An empty `all`: true from the start.
Condition chance_of(const Criterion& criterion) {
  if (criterion.chance) return *criterion.chance;
  const Monitor& m = criterion.monitor;
  switch (m.kind) {
    case MonitorKind::never: return act_of(m.what);
    case MonitorKind::always: return is_given(m.when) ? m.when : any_hand();
    case MonitorKind::after: return m.when;
    case MonitorKind::final_state: return any_hand();
    case MonitorKind::total: return m.low <= 0.0 ? any_hand() : Condition{};
    case MonitorKind::happens:
    case MonitorKind::held_for:
    case MonitorKind::ordered: break;
  }
  return {};
}

}  // namespace

Occasion::Occasion(const Criterion& criterion)
    : chance_(chance_of(criterion)), came_(!is_given(chance_)), quiet_(needs_event(chance_)) {}

void Occasion::see(const Moment& moment) {
  if (came_ || (quiet_ && moment.events.empty())) return;
  came_ = holds(chance_, moment);
}

}  // namespace stirbench::training
