#pragma once

#include <cstddef>

#include "sim_core/machine/random.h"

namespace stirbench::test_support {

// The program's own generator (its reference values are in test_bench_core), with a choice among n. Seeded by
// hand: Dice{7}.
struct Dice : machine::Random {
  std::size_t below(std::size_t n) { return static_cast<std::size_t>(next() % n); }
};

}  // namespace stirbench::test_support
