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

// The name whose ending is the unit of an event's number; empty for a bare number.
std::string_view event_signal(const MonitorMemory& memory) {
  const bool mass = memory.event_kind == bench::EventKind::acted ||
                    memory.event_kind == bench::EventKind::spilled ||
                    memory.event_kind == bench::EventKind::boiled_over;
  return mass ? std::string_view("event_kg") : std::string_view();
}

// Sets a placeholder and remembers the number behind it.
void put(CriterionResult& result, std::string Placeholders::*slot, std::string_view signal, double value, bool difference = false) {
  const bool bare = signal.empty();
  result.why_words.*slot = bare ? fixed_text(value, 2) : difference ? difference_text(signal, value) : value_text(signal, value);
  std::erase_if(result.why_figures, [slot](const Figure& one) { return one.slot == slot; });
  if (!bare) result.why_figures.push_back({slot, signal, value, difference});
}

void fill_reading(const Evidence& evidence, CriterionResult& result) {
  if (evidence.leaf == nullptr) return;
  const std::string_view name = evidence.leaf->signal->name;
  put(result, &Placeholders::bound, name, evidence.leaf->number);
  if (evidence.sign == 0.0) return;
  put(result, &Placeholders::value, name, evidence.value);
  put(result, &Placeholders::by, name, evidence.value - evidence.leaf->number, true);
}

void fill_total(const Monitor& m, const MonitorMemory& memory, CriterionResult& result) {
  const std::string_view unit = event_signal(memory);
  const bool over = memory.sum > m.high;
  put(result, &Placeholders::value, unit, memory.sum);
  put(result, &Placeholders::low, unit, m.low);
  put(result, &Placeholders::high, unit, m.high);
  put(result, &Placeholders::bound, unit, over ? m.high : m.low);
  put(result, &Placeholders::by, unit, over ? memory.sum - m.high : std::max(0.0, m.low - memory.sum));
}

void fill_words(const Criterion& criterion, const MonitorMemory& memory, const Moment& moment, CriterionResult& result) {
  const Monitor& m = criterion.monitor;
  Placeholders& words = result.why_words;
  const Evidence evidence = evidence_at_end(m, memory, result.met, moment);
  fill_reading(evidence, result);
  const bool from_reading = result.at_s < 0.0 && evidence.leaf != nullptr && evidence.sign != 0.0;
  words.time = clock_text(from_reading ? static_cast<double>(evidence.tick) * bench::tick_s : result.at_s);
  words.held = duration_text(static_cast<double>(memory.longest_ticks) * bench::tick_s);
  words.done = std::to_string(memory.next_step) + " of " + std::to_string(m.steps.size());
  words.name = memory.event_name;
  std::replace(words.name.begin(), words.name.end(), '_', ' ');
  if (m.kind == MonitorKind::total) {
    fill_total(m, memory, result);
  } else if (words.value.empty() && memory.has_event) {
    put(result, &Placeholders::value, event_signal(memory), memory.event_number);
  }
  if (m.kind == MonitorKind::held_for && words.value.empty()) words.value = words.held;
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
  result.why_text = text;
  fill_words(criterion, memory, moment, result);
  // A reason without its moment is hard to find again on the trend.
  if (result.at_s >= 0.0 && m.kind != MonitorKind::final_state && text.find("{time}") == std::string::npos) {
    result.why_text += " (At " + clock_text(result.at_s) + ".)";
  }
  result.why = filled(result.why_text, result.why_words);
  return result;
}

}  // namespace stirbench::training
