#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim_core/machine/machine.h"

// Random people at keys, guards, emergency stop, isolator, test buttons and resets of the running bench, with
// or without faults of the safety parts, watched by the invariants.
namespace stirbench::bench_test {

struct RandomHands {
  std::uint64_t sequences = 0;
  std::uint64_t actions = 0;
  std::uint64_t ticks = 0;
  std::uint64_t runs = 0;   // sequences in which something ran
  std::string first_wrong;  // empty: nothing was broken that should hold
};
// `count` sequences of 12 actions from `seed` on. Every third has one fault; `allowed` says which invariants
// fall with it.
RandomHands random_hands(const machine::Machine& machine, std::uint64_t seed, std::uint64_t count,
                         const std::vector<std::uint64_t>& allowed);
// For each fault in the table's order, what exploration says falls.
std::vector<std::uint64_t> allowed_by_exploration(const machine::Machine& machine);

}  // namespace stirbench::bench_test
