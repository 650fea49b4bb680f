#pragma once

#include <cstdint>

namespace stirbench::machine {

// splitmix64: one 64-bit word of state, published reference values in tests. Kept in State, never global.
struct Random {
  std::uint64_t word = 0;

  std::uint64_t next() {
    word += 0x9e3779b97f4a7c15ULL;
    std::uint64_t z = word;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
  }
  // Uniform in [0, 1): 53 bits.
  double uniform() { return static_cast<double>(next() >> 11) * 0x1.0p-53; }
};

}  // namespace stirbench::machine
