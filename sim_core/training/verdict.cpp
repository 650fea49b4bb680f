#include <algorithm>
#include <string>

#include "sim_core/training/monitors.h"
#include "sim_core/training/words.h"

// The end of a monitor: its verdict and the sentence that explains it.
namespace stirbench::training {

namespace {

constexpr double total_slack = 1.0e-9;

bool met_at_end(const Criterion& criterion, const MonitorMemory& memory, const Moment& moment) {
  const Monitor& m = criterion.monitor;
  if (memory.verdict != Verdict::open) return memory.verdict == Verdict::met;
  switch (m.kind) {
    case MonitorKind::never:
    case MonitorKind::always:
      return true;
    case MonitorKind::after:
      return !memory.window_open;
    case MonitorKind::total:
      return memory.sum >= m.low - total_slack && memory.sum <= m.high + total_slack;
    case MonitorKind::final_state:
      return holds(m.what, moment);
    case MonitorKind::happens:
    case MonitorKind::held_for:
    case MonitorKind::ordered:
      return false;
  }
  return false;
}

// The reading to quote: what was kept on the way, else the reading at the end.
Evidence evidence_at_end(const Monitor& m, const MonitorMemory& memory, bool met, const Moment& moment) {
  if (memory.extreme.leaf != nullptr) return memory.extreme;
  Evidence evidence;
  const bool looks_at_end = m.kind == MonitorKind::final_state || (m.kind == MonitorKind::happens && !met);
  const Condition* leaf = telling_number(m.what, moment, met);
  if (leaf == nullptr) return evidence;
  evidence.leaf = leaf;
  evidence.tick = looks_at_end ? moment.state.tick : memory.at_tick;
  evidence.value = leaf->signal->value(moment.machine, moment.state);
  // A reading of the end says nothing about an earlier moment.
  if (!looks_at_end) evidence.sign = 0.0;
  return evidence;
}

std::string event_value_text(const MonitorMemory& memory, double number) {
  const bool mass = memory.event_kind == bench::EventKind::acted ||
                    memory.event_kind == bench::EventKind::spilled ||
                    memory.event_kind == bench::EventKind::boiled_over;
  return mass ? value_text("event_kg", number) : fixed_text(number, 2);
}

void fill_reading(const Evidence& evidence, Placeholders& words) {
  if (evidence.leaf == nullptr) return;
  const std::string_view name = evidence.leaf->signal->name;
  words.bound = value_text(name, evidence.leaf->number);
  if (evidence.sign == 0.0) return;
  words.value = value_text(name, evidence.value);
  words.by = difference_text(name, evidence.value - evidence.leaf->number);
}

Placeholders words_for(const Criterion& criterion, const MonitorMemory& memory, bool met, double at_s,
                       const Moment& moment) {
  const Monitor& m = criterion.monitor;
  Placeholders words;
  const Evidence evidence = evidence_at_end(m, memory, met, moment);
  fill_reading(evidence, words);
  const bool from_reading = at_s < 0.0 && evidence.leaf != nullptr && evidence.sign != 0.0;
  words.time = clock_text(from_reading ? static_cast<double>(evidence.tick) * bench::tick_s : at_s);
  words.held = duration_text(static_cast<double>(memory.longest_ticks) * bench::tick_s);
  words.done = std::to_string(memory.next_step) + " of " + std::to_string(m.steps.size());
  words.name = memory.event_name;
  std::replace(words.name.begin(), words.name.end(), '_', ' ');
  if (m.kind == MonitorKind::total) {
    words.value = event_value_text(memory, memory.sum);
    words.low = event_value_text(memory, m.low);
    words.high = event_value_text(memory, m.high);
    words.bound = memory.sum > m.high ? words.high : words.low;
    words.by = event_value_text(
        memory, memory.sum > m.high ? memory.sum - m.high : std::max(0.0, m.low - memory.sum));
  } else if (words.value.empty() && memory.has_event) {
    words.value = event_value_text(memory, memory.event_number);
  }
  if (m.kind == MonitorKind::held_for && words.value.empty()) words.value = words.held;
  return words;
}

// When it was decided; negative when at no moment.
double moment_s(const Monitor& m, const MonitorMemory& memory, const Moment& moment) {
  if (m.kind == MonitorKind::final_state) return bench::time_s(moment.state);
  if (!memory.has_moment && !(m.kind == MonitorKind::after && memory.window_open)) return -1.0;
  if (m.kind == MonitorKind::after && memory.window_open)
    return static_cast<double>(memory.window_tick) * bench::tick_s;
  return static_cast<double>(memory.at_tick) * bench::tick_s;
}

}  // namespace

CriterionResult conclude(const Criterion& criterion, const MonitorMemory& memory, const Moment& moment) {
  const Monitor& m = criterion.monitor;
  CriterionResult result;
  result.id = criterion.id;
  result.title = criterion.title;
  result.must_pass = criterion.must_pass;
  result.of = criterion.points;
  result.met = met_at_end(criterion, memory, moment);
  result.points = result.met ? criterion.points : 0.0;
  result.at_s = moment_s(m, memory, moment);

  const bool conditional = m.kind == MonitorKind::after ||
                           (m.kind == MonitorKind::always && !(m.when.op == Op::all && m.when.parts.empty()));
  if (result.met && conditional && !memory.came_up) {
    result.why = "The moment for this never came in this run.";
    return result;
  }
  const std::string& text = result.met ? criterion.met_text : criterion.missed_text;
  result.why = filled(text, words_for(criterion, memory, result.met, result.at_s, moment));
  // A reason without its moment is hard to find again on the trend.
  if (result.at_s >= 0.0 && m.kind != MonitorKind::final_state && text.find("{time}") == std::string::npos) {
    result.why += " (At " + clock_text(result.at_s) + ".)";
  }
  return result;
}

}  // namespace stirbench::training
