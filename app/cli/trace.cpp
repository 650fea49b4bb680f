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

}  // namespace

Trace::Trace(const machine::Machine& machine, double every_s)
    : machine_(&machine),
      every_ticks_(
          static_cast<std::uint64_t>(std::max<long long>(1, std::llround(every_s / machine::tick_s)))) {
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

}  // namespace stirbench::cli
