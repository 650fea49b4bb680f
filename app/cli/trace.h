#pragma once

#include <string>
#include <vector>

#include "sim_core/signals/signals.h"

namespace stirbench::cli {

// A trace file: CSV (RFC 4180), one row each `every_s` simulated seconds, columns from the signal table.
class Trace {
 public:
  Trace(const machine::Machine& machine, double every_s);
  void add(const machine::State& state);  // adds a row when one is due
  const std::string& text() const { return text_; }

 private:
  const machine::Machine* machine_;
  std::uint64_t every_ticks_;
  std::string text_;
};

// Least and greatest value of each number over several runs of one plan, row by row: what their differing
// constants leave open.
class Spread {
 public:
  Spread(const machine::Machine& machine, double every_s);
  void begin_run() { row_ = 0; }
  void add(const machine::State& state);  // looks when a row is due
  // CSV: time_s, then NAME_low and NAME_high of each number of a trace.
  std::string text() const;

 private:
  struct Range {
    double low, high;
  };
  const machine::Machine* machine_;
  std::uint64_t every_ticks_;
  std::size_t row_ = 0;
  std::vector<double> times_s_;
  std::vector<std::vector<Range>> rows_;
};

}  // namespace stirbench::cli
