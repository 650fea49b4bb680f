#include "sim_core/training/monitors.h"

#include <algorithm>
#include <cmath>

namespace stirbench::training {

namespace {

std::uint64_t ticks_of(double duration_s) {
  return duration_s <= 0.0 ? 0
                           : static_cast<std::uint64_t>(std::llround(duration_s * machine::ticks_per_second));
}

bool is_number(const Condition& c) {
  return c.op == Op::at_least || c.op == Op::at_most || c.op == Op::above || c.op == Op::below;
}

// Robustness of one comparison: how far the reading is on the true side of its bound.
double robustness(const Condition& leaf, double value) {
  return leaf.op == Op::at_least || leaf.op == Op::above ? value - leaf.number : leaf.number - value;
}

void keep_worse(DecisiveReading& evidence, const Condition& leaf, double sign, double value,
                std::uint64_t tick) {
  const double severity = sign * robustness(leaf, value);
  if (evidence.leaf == &leaf && !(severity > evidence.severity)) return;
  evidence = {&leaf, value, severity, sign, tick};
}

void keep_worse(DecisiveReading& evidence, const Condition& leaf, double sign, const Moment& moment) {
  keep_worse(evidence, leaf, sign, leaf.signal->value(moment.machine, moment.state), moment.state.tick);
}

// `what` at this moment. Where it is one comparison its reading is kept too, in one look.
bool look(const Monitor& m, const CompiledMonitor& plan, MonitorState& memory, double sign,
          const Moment& moment) {
  if (!plan.number_only) return holds(m.what, moment);
  const double value = m.what.signal->value(moment.machine, moment.state);
  if (memory.verdict == Verdict::open) keep_worse(memory.extreme, m.what, sign, value, moment.state.tick);
  return compares(m.what, value);
}

void keep_named(MonitorState& memory, const machine::Event& event) {
  memory.event_name = event.name;
  memory.event_number = event.number;
  memory.event_kind = event.kind;
  memory.has_event = true;
}

bool keep_event(MonitorState& memory, const Condition& condition, const Moment& moment) {
  const machine::Event* event = matching_event(condition, moment);
  if (event == nullptr) return false;
  keep_named(memory, *event);
  return true;
}

void decide(MonitorState& memory, Verdict verdict, std::uint64_t tick) {
  memory.verdict = verdict;
  memory.has_moment = true;
  memory.at_tick = tick;
}

bool watch_happens(const Monitor& m, const CompiledMonitor& plan, MonitorState& memory,
                   const Moment& moment) {
  const std::uint64_t tick = moment.state.tick;
  if (plan.aim != nullptr) keep_worse(memory.extreme, *plan.aim, 1.0, moment);
  if (holds(m.what, moment)) {
    decide(memory, Verdict::met, tick);
    memory.settled = true;
    keep_event(memory, m.what, moment);
    memory.extreme = {};
    if (const Condition* leaf = decisive_comparison(m.what, moment, true))
      keep_worse(memory.extreme, *leaf, 1.0, moment);
    return false;
  }
  if (plan.within_ticks == 0 || tick < plan.within_ticks) return false;
  decide(memory, Verdict::missed, tick);
  memory.settled = true;
  return true;
}

// The row of bad moments that never and always share. `outcome` is what `what` is in a bad moment.
bool watch_row(const Monitor& m, const CompiledMonitor& plan, MonitorState& memory, const Moment& moment,
               bool bad, bool outcome) {
  if (!bad) {
    // The row that lost it is over: its worst reading is known.
    if (memory.verdict == Verdict::missed) memory.settled = true;
    memory.run_ticks = 0;
    return false;
  }
  if (memory.run_ticks == 0) {
    memory.run_start_tick = moment.state.tick;
    memory.row = {};
    if (memory.verdict == Verdict::open && !keep_event(memory, m.what, moment))
      keep_event(memory, m.when, moment);
    if (const Condition* leaf = decisive_comparison(m.what, moment, outcome)) {
      keep_worse(memory.row, *leaf, holds(*leaf, moment) ? 1.0 : -1.0, moment);
    }
  } else if (memory.row.leaf != nullptr) {
    keep_worse(memory.row, *memory.row.leaf, memory.row.sign, moment);
  }
  ++memory.run_ticks;
  if (memory.verdict == Verdict::missed) {
    memory.extreme = memory.row;
    return false;
  }
  if (memory.run_ticks <= plan.grace_ticks) return false;
  decide(memory, Verdict::missed, memory.run_start_tick);
  memory.extreme = memory.row;
  // Without a reading to follow there is nothing more to learn.
  memory.settled = memory.row.leaf == nullptr;
  return true;
}

bool watch_never(const Monitor& m, const CompiledMonitor& plan, MonitorState& memory, const Moment& moment) {
  return watch_row(m, plan, memory, moment, look(m, plan, memory, 1.0, moment), true);
}

bool watch_always(const Monitor& m, const CompiledMonitor& plan, MonitorState& memory, const Moment& moment) {
  const bool when = holds(m.when, moment);
  return watch_row(m, plan, memory, moment, when && !look(m, plan, memory, -1.0, moment), false);
}

bool watch_held(const Monitor& m, const CompiledMonitor& plan, MonitorState& memory, const Moment& moment) {
  const std::uint64_t tick = moment.state.tick;
  if (!holds(m.what, moment)) {
    if (memory.run_ticks > 0 && ++memory.gap_ticks > plan.grace_ticks) memory.run_ticks = 0;
    return false;
  }
  if (memory.run_ticks == 0) memory.run_start_tick = tick;
  memory.gap_ticks = 0;
  ++memory.run_ticks;
  if (memory.run_ticks > memory.longest_ticks) {
    memory.longest_ticks = memory.run_ticks;
    memory.has_moment = true;
    memory.at_tick = tick;
  }
  if (memory.run_ticks >= std::max<std::uint64_t>(plan.duration_ticks, 1)) {
    decide(memory, Verdict::met, tick);
    memory.settled = true;
  }
  return false;
}

bool watch_ordered(const Monitor& m, const CompiledMonitor& plan, MonitorState& memory,
                   const Moment& moment) {
  EventSpan span{0, moment.events.size(), 0};
  while (memory.next_step < m.steps.size()) {
    if (moment.events.empty() && plan.step_needs_event[memory.next_step] != 0) return false;
    span.used_end = span.first;
    if (!holds(m.steps[memory.next_step], moment, span)) return false;
    span.first = span.used_end;
    ++memory.next_step;
    memory.has_moment = true;
    memory.at_tick = moment.state.tick;
  }
  decide(memory, Verdict::met, moment.state.tick);
  memory.settled = true;
  return false;
}

bool watch_after(const Monitor& m, const CompiledMonitor& plan, MonitorState& memory, const Moment& moment) {
  const std::uint64_t tick = moment.state.tick;
  const bool when = holds(m.when, moment);
  if (when && (plan.when_is_event || !memory.previous_when)) {
    keep_event(memory, m.when, moment);
    // The oldest open window ends first; what closes it closes the younger ones too.
    if (!memory.window_open) memory.window_tick = tick;
    memory.window_open = true;
  }
  memory.previous_when = when;
  if (!memory.window_open) return false;
  if (holds(m.what, moment)) {
    memory.window_open = false;
    memory.has_moment = true;
    memory.at_tick = tick;
    return false;
  }
  if (plan.within_ticks == 0 || tick - memory.window_tick < plan.within_ticks) return false;
  if (const Condition* leaf = decisive_comparison(m.what, moment, false))
    keep_worse(memory.extreme, *leaf, -1.0, moment);
  decide(memory, Verdict::missed, memory.window_tick);
  memory.settled = true;
  return true;
}

bool watch_total(const Monitor& m, MonitorState& memory, const Moment& moment) {
  for (std::size_t i = 0; i < moment.events.size(); ++i) {
    EventSpan one{i, i + 1, 0};
    if (!holds(m.what, moment, one)) continue;
    memory.sum += moment.events[i].number;
    keep_named(memory, moment.events[i]);
    memory.has_moment = true;
    memory.at_tick = moment.state.tick;
  }
  if (memory.verdict != Verdict::open || memory.sum <= m.high + total_slack) return false;
  memory.verdict = Verdict::missed;
  return true;
}

bool skips_quiet(const Monitor& m) {
  switch (m.kind) {
    case MonitorKind::happens: return needs_event(m.what) && m.within_s <= 0.0;
    // A row of moments ends in a quiet tick, so a grace must see them.
    case MonitorKind::never: return needs_event(m.what) && m.grace_s <= 0.0;
    case MonitorKind::always: return needs_event(m.when) && m.grace_s <= 0.0;
    case MonitorKind::total: return true;
    default: return false;
  }
}

}  // namespace

const Condition* first_number(const Condition& c) {
  if (is_number(c)) return &c;
  if (c.op == Op::negate) return nullptr;
  for (const Condition& part : c.parts) {
    if (const Condition* found = first_number(part)) return found;
  }
  return nullptr;
}

CompiledMonitor::CompiledMonitor(const Monitor& monitor)
    : duration_ticks(ticks_of(monitor.duration_s)),
      within_ticks(ticks_of(monitor.within_s)),
      grace_ticks(ticks_of(monitor.grace_s)),
      number_only(is_number(monitor.what)),
      aim(monitor.kind == MonitorKind::happens && !needs_event(monitor.what) ? first_number(monitor.what)
                                                                             : nullptr),
      skips_quiet_ticks(skips_quiet(monitor)),
      when_is_event(needs_event(monitor.when)) {
  for (const Condition& step : monitor.steps) step_needs_event.push_back(needs_event(step) ? 1 : 0);
}

bool feed_monitor(const Monitor& monitor, const CompiledMonitor& plan, MonitorState& memory,
                  const Moment& moment) {
  if (memory.settled || (plan.skips_quiet_ticks && moment.events.empty())) return false;
  switch (monitor.kind) {
    case MonitorKind::happens: return watch_happens(monitor, plan, memory, moment);
    case MonitorKind::never: return watch_never(monitor, plan, memory, moment);
    case MonitorKind::always: return watch_always(monitor, plan, memory, moment);
    case MonitorKind::held_for: return watch_held(monitor, plan, memory, moment);
    case MonitorKind::ordered: return watch_ordered(monitor, plan, memory, moment);
    case MonitorKind::after: return watch_after(monitor, plan, memory, moment);
    case MonitorKind::total: return watch_total(monitor, memory, moment);
    case MonitorKind::final_state: return false;
  }
  return false;
}

}  // namespace stirbench::training
