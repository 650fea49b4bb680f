#pragma once

#include <string>

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

}  // namespace stirbench::cli
