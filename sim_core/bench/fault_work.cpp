#include "sim_core/bench/fault_work.h"

#include <algorithm>

#include "sim_core/bench/machine.h"
#include "sim_core/bench/state.h"

// Words of tools, trades and lapses; what is still wrong; what it took.
namespace stirbench::bench {

namespace {

namespace w = plant::wiring;
using std::string_view;

constexpr std::array<string_view, static_cast<std::size_t>(Trade::count)> trade_names{"anyone", "technician", "electrician", "refrigeration"};
constexpr std::array<string_view, static_cast<std::size_t>(Tool::count)> tool_names{"none",      "multimeter",  "clamp_meter", "insulation_tester",
                                                                                    "gauge_set", "contact_thermometer"};
constexpr std::array<string_view, static_cast<std::size_t>(w::MeterFunction::count)> function_names{"V~", "V=", "Ohm", "continuity"};
struct LapseWords {
  string_view key;
  string_view words;
};
constexpr std::array<LapseWords, lapse_count> lapse_table{{
    {"no_lock", "Hands were in the open panel with no own padlock on the isolator: anybody could have switched it on."},
    {"not_proved", "Work in the panel began without having proved it dead: meter on a known source, terminals, known source again."},
    {"live_unlicensed", "Live parts were measured without the licence for it. Isolate, or call a licensed electrician."},
    {"live_unprotected", "Live parts were measured with eyes or face uncovered: one slip is an arc."},
    {"ohms_live", "Resistance or insulation was measured on a live circuit. Isolate and prove it dead first."},
    {"electronics", "The test voltage reached the controller or a sensor and destroyed it. Take its wires off first."},
}};

bool holds_mark(const std::array<std::uint64_t, most_causes>& list, std::uint64_t mark) {
  return std::find(list.begin(), list.end(), mark) != list.end();
}

bool was_in(const State& state, std::uint64_t mark) {
  const auto& faults = state.plant.faults;
  const bool is_in = std::any_of(faults.begin(), faults.end(), [mark](const plant::ActiveFault& one) { return one.mark == mark; });
  return is_in || holds_mark(state.work.mended, mark);
}

// A misuse that hands have put right: nothing of it is left but the hands' positions, and those are good.
bool put_right(const State& state, const faults::Fault& fault) {
  const plant::Fittings& f = state.plant.fittings;
  for (const faults::Change& change : fault.changes) {
    switch (change.target) {
      case faults::Target::isolator_off: if (!f.isolator_on) return false; break;
      case faults::Target::lid_open: if (f.lid_open) return false; break;
      case faults::Target::cover_open: if (f.shaft_cover_open) return false; break;
      case faults::Target::draw_open_norm: if (f.draw_opening_norm > 0.0) return false; break;
      default: return false;
    }
  }
  return true;
}

}  // namespace

int find_trade(string_view word) {
  const auto found = std::find(trade_names.begin(), trade_names.end(), word);
  return found == trade_names.end() ? -1 : static_cast<int>(found - trade_names.begin());
}

string_view trade_word(Trade trade) { return trade_names[static_cast<std::size_t>(trade)]; }
string_view tool_word(Tool tool) { return tool_names[static_cast<std::size_t>(tool)]; }
string_view lapse_word(Lapse lapse) { return lapse_table[static_cast<std::size_t>(lapse)].key; }
string_view lapse_words(Lapse lapse) { return lapse_table[static_cast<std::size_t>(lapse)].words; }
std::span<const string_view> tools() { return tool_names; }
std::span<const string_view> meter_functions() { return function_names; }

bool may_do(Trade trade, string_view who) {
  if (who == "anyone") return true;
  if (who == "technician") return trade != Trade::anyone;
  return trade_word(trade) == who;
}

double work_min(const State& state) { return time_s(state) / 60.0 + state.work.hand_min; }

int faults_left(const Machine& machine, const State& state) {
  int left = 0;
  for (const plant::ActiveFault& active : state.plant.faults) {
    if (active.mark == 0) continue;
    const auto known = std::find_if(machine.faults.begin(), machine.faults.end(),
                                    [&](const faults::Fault& one) { return faults::fault_mark(one.id) == active.mark; });
    const bool gone = known != machine.faults.end() && known->kind == faults::FaultKind::misuse && put_right(state, *known);
    left += gone ? 0 : 1;
  }
  return left;
}

int causes_found(const State& state) {
  int found = 0;
  for (const std::uint64_t mark : state.work.named) found += mark != 0 && was_in(state, mark) ? 1 : 0;
  return found;
}

int causes_wrong(const State& state) {
  int wrong = 0;
  for (const std::uint64_t mark : state.work.named) wrong += mark != 0 && !was_in(state, mark) ? 1 : 0;
  return wrong;
}

int causes_missed(const State& state) {
  int missed = 0;
  for (const plant::ActiveFault& one : state.plant.faults) missed += one.mark != 0 && !holds_mark(state.work.named, one.mark) ? 1 : 0;
  for (const std::uint64_t mark : state.work.mended) missed += mark != 0 && !holds_mark(state.work.named, mark) ? 1 : 0;
  return missed;
}

}  // namespace stirbench::bench
