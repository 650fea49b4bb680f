#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include "sim_core/machine/machine.h"

// What the model does not know well: constants of laws and of the machine that are choices, or that published
// sources give within a range. A run with all of them drawn is as good as the shipped one; what such runs
// disagree about is not known.
namespace stirbench::machine {

struct UncertainConstant {
  std::string_view name;
  double low, high;         // factors on the shipped value, 0 < low < 1 < high
  std::string_view source;  // of the range; "choice" where there is none
  void (*scale)(Machine&, double factor);
};

std::span<const UncertainConstant> uncertain_constants();

// The machine with every uncertain constant drawn from its range, evenly in the logarithm and each by itself;
// the same seed gives the same machine.
Machine drawn(const Machine& machine, std::uint64_t seed);

}  // namespace stirbench::machine
