#include "app/cli/trace.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "app/cli/common.h"
#include "app/records/csv.h"

namespace stirbench::cli {

namespace {

void append_number(std::string& out, double value) {
  char buffer[32];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::general, 9);
  out.append(buffer, end.ptr);
}

std::uint64_t ticks_between_rows(double every_s) {
  return static_cast<std::uint64_t>(std::max<long long>(1, std::llround(every_s / machine::tick_s)));
}

// What a spread is taken of: the trace's numbers but its time.
bool spreads(const signals::Signal& signal) {
  return signal.in_trace && signal.kind != signals::SignalKind::text && signal.name != "time_s";
}

}  // namespace

Trace::Trace(const machine::Machine& machine, double every_s)
    : machine_(&machine), every_ticks_(ticks_between_rows(every_s)) {
  for (const signals::Signal& signal : signals::signals()) {
    if (!signal.in_trace) continue;
    if (!text_.empty()) text_ += ',';
    text_ += signal.name;
  }
  text_ += '\n';
}

void Trace::add(const machine::State& state) {
  if (state.tick % every_ticks_ != 0) return;
  bool first = true;
  for (const signals::Signal& signal : signals::signals()) {
    if (!signal.in_trace) continue;
    if (!first) text_ += ',';
    first = false;
    if (signal.kind == signals::SignalKind::text) {
      records::append_csv(text_, signal.text(*machine_, state));
    } else {
      append_number(text_, signal.value(*machine_, state));
    }
  }
  text_ += '\n';
}

Spread::Spread(const machine::Machine& machine, double every_s)
    : machine_(&machine), every_ticks_(ticks_between_rows(every_s)) {}

void Spread::add(const machine::State& state) {
  if (state.tick % every_ticks_ != 0) return;
  const bool first = row_ == rows_.size();
  if (first) {
    times_s_.push_back(machine::time_s(state));
    rows_.emplace_back();
  }
  std::vector<Range>& row = rows_[row_++];
  std::size_t i = 0;
  for (const signals::Signal& signal : signals::signals()) {
    if (!spreads(signal)) continue;
    const double value = signal.value(*machine_, state);
    if (first) {
      row.push_back({value, value});
    } else {
      row[i].low = std::min(row[i].low, value);
      row[i].high = std::max(row[i].high, value);
    }
    ++i;
  }
}

std::string Spread::text() const {
  std::string out = "time_s";
  for (const signals::Signal& signal : signals::signals()) {
    if (!spreads(signal)) continue;
    out += "," + std::string(signal.name) + "_low," + std::string(signal.name) + "_high";
  }
  out += '\n';
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    append_number(out, times_s_[i]);
    for (const Range& range : rows_[i]) {
      for (const double value : {range.low, range.high}) {
        out += ',';
        append_number(out, value);
      }
    }
    out += '\n';
  }
  return out;
}

}  // namespace stirbench::cli
