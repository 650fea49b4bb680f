#include <algorithm>
#include <cmath>
#include <string>

#include "sim_core/hands/hand.h"
#include "sim_core/training/grounds.h"
#include "sim_core/training/monitors.h"
#include "sim_core/training/robustness.h"
#include "sim_core/training/words.h"

// The end of a monitor: its verdict and the sentence that explains it.
namespace stirbench::training {

namespace {

// A run of wrong moments that an injury cut short: it cannot be excused as a flicker. A longer grace is the
// author's decision.
bool cut_short(const Monitor& m, const MonitorState& memory, const Moment& moment) {
  const bool in_rows = m.kind == MonitorKind::never || m.kind == MonitorKind::always;
  return in_rows && memory.verdict == Verdict::open && memory.run_ticks > 0 && moment.state.injured &&
         m.grace_s <= must_pass_grace_s;
}

bool met_at_end(const Criterion& criterion, const MonitorState& memory, const Moment& moment) {
  const Monitor& m = criterion.monitor;
  if (memory.verdict != Verdict::open) return memory.verdict == Verdict::met;
  switch (m.kind) {
    case MonitorKind::never:
    case MonitorKind::always: return !cut_short(m, memory, moment);
    case MonitorKind::after: return !memory.window_open;
    case MonitorKind::total: return memory.sum >= m.low - total_slack && memory.sum <= m.high + total_slack;
    case MonitorKind::final_state: return holds(m.what, moment);
    case MonitorKind::happens:
    case MonitorKind::held_for:
    case MonitorKind::ordered: return false;
  }
  return false;
}

// The reading to quote: what was kept on the way, else the reading at the end.
DecisiveReading evidence_at_end(const Monitor& m, const MonitorState& memory, bool met,
                                const Moment& moment) {
  if (memory.extreme.leaf != nullptr) return memory.extreme;
  if (cut_short(m, memory, moment) && memory.row.leaf != nullptr) return memory.row;
  DecisiveReading evidence;
  const bool looks_at_end = m.kind == MonitorKind::final_state || (m.kind == MonitorKind::happens && !met);
  const Condition* leaf = decisive_comparison(m.what, moment, met);
  if (leaf == nullptr) return evidence;
  evidence.leaf = leaf;
  evidence.tick = looks_at_end ? moment.state.tick : memory.at_tick;
  evidence.value = leaf->signal->value(moment.machine, moment.state);
  // A reading of the end says nothing about an earlier moment.
  if (!looks_at_end) evidence.sign = 0.0;
  return evidence;
}

// The first condition on an action in it; nullptr when there is none.
const Condition* action_leaf(const Condition& condition) {
  if (condition.op == Op::event && condition.event == machine::EventKind::acted) return &condition;
  for (const Condition& part : condition.parts) {
    if (const Condition* leaf = action_leaf(part)) return leaf;
  }
  return nullptr;
}

// Whether the number of an action's event is a mass: what the action's own table says; an action that is not
// named may be any pouring.
bool tells_mass(const Monitor& m) {
  const Condition* leaf = action_leaf(m.what);
  const hands::Hand* hand = leaf == nullptr ? nullptr : hands::find(leaf->text);
  if (hand == nullptr) return true;
  const auto parameters = hand->takes();
  return std::any_of(parameters.begin(), parameters.end(),
                     [](const hands::Parameter* one) { return one->unit == "kg"; });
}

// The name whose ending is the unit of an event's number; empty for a bare number.
std::string_view event_signal(const Monitor& m, const MonitorState& memory) {
  const bool mass = (memory.event_kind == machine::EventKind::acted && tells_mass(m)) ||
                    memory.event_kind == machine::EventKind::spilled ||
                    memory.event_kind == machine::EventKind::boiled_over;
  return mass ? std::string_view("event_kg") : std::string_view();
}

// A count without decimals.
std::string bare_text(double value) { return fixed_text(value, value == std::floor(value) ? 0 : 2); }

// Sets a placeholder and remembers the number behind it.
void put(CriterionResult& result, std::string Placeholders::*slot, std::string_view signal, double value,
         bool difference = false) {
  const bool bare = signal.empty();
  result.why_words.*slot = bare         ? bare_text(value)
                           : difference ? difference_text(signal, value)
                                        : value_text(signal, value);
  std::erase_if(result.why_figures, [slot](const QuotedNumber& one) { return one.slot == slot; });
  if (!bare) result.why_figures.push_back({slot, signal, value, difference});
}

void fill_reading(const DecisiveReading& evidence, CriterionResult& result) {
  if (evidence.leaf == nullptr) return;
  const std::string_view name = evidence.leaf->signal->name;
  put(result, &Placeholders::bound, name, evidence.leaf->number);
  if (evidence.sign == 0.0) return;
  put(result, &Placeholders::value, name, evidence.value);
  put(result, &Placeholders::by, name, evidence.value - evidence.leaf->number, true);
}

void fill_total(const Monitor& m, const MonitorState& memory, CriterionResult& result) {
  const std::string_view unit = event_signal(m, memory);
  const bool over = memory.sum > m.high;
  put(result, &Placeholders::value, unit, memory.sum);
  put(result, &Placeholders::low, unit, m.low);
  put(result, &Placeholders::high, unit, m.high);
  put(result, &Placeholders::bound, unit, over ? m.high : m.low);
  put(result, &Placeholders::by, unit, over ? memory.sum - m.high : std::max(0.0, m.low - memory.sum));
}

void fill_words(const Criterion& criterion, const MonitorState& memory, const Moment& moment,
                CriterionResult& result) {
  const Monitor& m = criterion.monitor;
  Placeholders& words = result.why_words;
  const DecisiveReading evidence = evidence_at_end(m, memory, result.met, moment);
  fill_reading(evidence, result);
  const bool from_reading = result.at_s < 0.0 && evidence.leaf != nullptr && evidence.sign != 0.0;
  words.time = clock_text(from_reading ? static_cast<double>(evidence.tick) * machine::tick_s : result.at_s);
  words.held = duration_text(static_cast<double>(memory.longest_ticks) * machine::tick_s);
  words.done = std::to_string(memory.next_step) + " of " + std::to_string(m.steps.size());
  words.name = memory.event_name;
  std::replace(words.name.begin(), words.name.end(), '_', ' ');
  if (m.kind == MonitorKind::total) {
    fill_total(m, memory, result);
  } else if (words.value.empty() && memory.has_event) {
    put(result, &Placeholders::value, event_signal(m, memory), memory.event_number);
  }
  if (m.kind == MonitorKind::held_for && words.value.empty()) words.value = words.held;
}

// When it was decided; negative when at no moment.
double moment_s(const Monitor& m, const MonitorState& memory, const Moment& moment) {
  if (m.kind == MonitorKind::final_state) return machine::time_s(moment.state);
  if (cut_short(m, memory, moment)) return static_cast<double>(memory.run_start_tick) * machine::tick_s;
  if (!memory.has_moment && !(m.kind == MonitorKind::after && memory.window_open)) return -1.0;
  if (m.kind == MonitorKind::after && memory.window_open)
    return static_cast<double>(memory.window_tick) * machine::tick_s;
  return static_cast<double>(memory.at_tick) * machine::tick_s;
}

}  // namespace

namespace {

double robustness_of(const Condition& leaf, double value) {
  return leaf.op == Op::at_least || leaf.op == Op::above ? value - leaf.number : leaf.number - value;
}

// "Open at all": a share compared with nothing asks yes or no, by how much tells nothing.
bool asks_whether(const Condition& leaf) {
  return leaf.number == 0.0 && (leaf.op == Op::above || leaf.op == Op::at_most) &&
         std::string_view(leaf.signal->name).ends_with("_norm");
}

// never and always keep the worst reading of the run, or of the row that lost it: its severity is how far
// past the bound.
Margin margin_of_rows(const DecisiveReading& worst) {
  if (worst.leaf == nullptr || worst.sign == 0.0 || asks_whether(*worst.leaf)) return {};
  return {true, -worst.severity, worst.leaf->signal->name, worst.value > worst.leaf->number};
}

Margin margin_of_happens(const MonitorState& memory, bool met) {
  if (met || memory.extreme.leaf == nullptr) return {};
  return {true, memory.extreme.severity, memory.extreme.leaf->signal->name,
          memory.extreme.value > memory.extreme.leaf->number};
}

Margin margin_of_end(const Monitor& m, bool met, const Moment& moment) {
  const Condition* leaf = decisive_comparison(m.what, moment, met);
  if (leaf == nullptr || asks_whether(*leaf)) return {};
  const double value = leaf->signal->value(moment.machine, moment.state);
  const double distance = std::abs(robustness_of(*leaf, value));
  return {true, met ? distance : -distance, leaf->signal->name, value > leaf->number};
}

// Which names, checks or reports of the person's own the count in the condition is about.
std::string told_of_grounds(const Condition& condition, const Moment& moment) {
  if (moment.grounds == nullptr) return {};
  if (condition.op == Op::grounds) return moment.grounds->told(condition.text);
  std::string out;
  for (const Condition& part : condition.parts) {
    const std::string more = told_of_grounds(part, moment);
    out += (out.empty() || more.empty() ? "" : " ") + more;
  }
  return out;
}

}  // namespace

Margin margin_of(const Criterion& criterion, const MonitorState& memory, const Moment& moment) {
  const Monitor& m = criterion.monitor;
  const bool met = met_at_end(criterion, memory, moment);
  Margin out;
  switch (m.kind) {
    case MonitorKind::never:
    case MonitorKind::always:
      out = margin_of_rows(memory.extreme.leaf == nullptr && !met ? memory.row : memory.extreme);
      break;
    case MonitorKind::happens: out = margin_of_happens(memory, met); break;
    case MonitorKind::held_for:
      out = {true, static_cast<double>(memory.longest_ticks) * machine::tick_s - m.duration_s, "held_s",
             false};
      break;
    case MonitorKind::ordered:
      out = {true, static_cast<double>(memory.next_step) - static_cast<double>(m.steps.size()), {}, false};
      break;
    case MonitorKind::total:
      out = {true, std::min(memory.sum - m.low, m.high - memory.sum), event_signal(m, memory),
             memory.sum > m.high};
      break;
    case MonitorKind::final_state: out = margin_of_end(m, met, moment); break;
    case MonitorKind::after: break;
  }
  // A flicker within the grace, or a bound that was met exactly, is not a miss; a miss never has a margin
  // above 0.
  out.value = met ? std::max(0.0, out.value) : std::min(0.0, out.value);
  return out;
}

CriterionResult criterion_result(const Criterion& criterion, const MonitorState& memory, bool occasion,
                                 const Moment& moment) {
  const Monitor& m = criterion.monitor;
  CriterionResult result;
  result.id = criterion.id;
  result.title = criterion.title;
  result.skill = criterion.skill;
  result.must_pass = criterion.must_pass;
  result.everywhere = criterion.everywhere;
  result.of = criterion.points;
  result.met = met_at_end(criterion, memory, moment);
  // What was missed has had its occasion.
  result.occasion = occasion || !result.met;
  if (!result.occasion) {
    result.met = false;
    result.why = "The moment for this never came in this run, so it earns nothing.";
    return result;
  }
  const Margin margin = margin_of(criterion, memory, moment);
  result.has_margin = margin.known;
  result.margin = margin.value;
  result.margin_signal = margin.signal;
  result.over = !result.met && margin.over;
  // A share for a near miss only where it was at stake: near by doing nothing is worth nothing.
  const bool partial = occasion && !result.met && margin.known && m.tolerance > 0.0 && !criterion.must_pass;
  result.credit_norm = result.met ? 1.0 : partial ? credit_norm(margin.value / m.tolerance) : 0.0;
  result.points = criterion.points * result.credit_norm;
  result.at_s = moment_s(m, memory, moment);
  const std::string& text = result.met ? criterion.met_text : criterion.missed_text;
  result.why_text = text;
  if (const std::string told = result.met ? std::string() : told_of_grounds(m.what, moment); !told.empty())
    result.why_text += " " + told;
  fill_words(criterion, memory, moment, result);
  // A reason without its moment is hard to find again on the trend.
  if (result.at_s >= 0.0 && m.kind != MonitorKind::final_state && text.find("{time}") == std::string::npos) {
    result.why_text += " (At " + clock_text(result.at_s) + ".)";
  }
  result.why = fill_placeholders(result.why_text, result.why_words);
  return result;
}

}  // namespace stirbench::training
