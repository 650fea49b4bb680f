#pragma once

#include <string_view>
#include <vector>

#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// Named readings of a state in one table, used by trace columns, monitors, trend and machine view.
namespace stirbench::signals {

using machine::Machine;
using machine::State;

enum class SignalKind : unsigned char { number, text, flag };

struct Signal {
  std::string_view name;  // "product_degC": unit in the name
  SignalKind kind = SignalKind::number;
  std::string_view meaning;
  double (*value)(const Machine&, const State&) = nullptr;           // number and flag (0/1)
  std::string_view (*text)(const Machine&, const State&) = nullptr;  // text kind
  bool in_trace = false;                                             // column of --trace, in this order
};

const std::vector<Signal>& signals();
const Signal* find_signal(std::string_view name);

}  // namespace stirbench::signals
