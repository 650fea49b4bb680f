#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "app/cli/common.h"

namespace stirbench::cli {

inline constexpr int most_draws = 10'000;

struct CheckDrawsOptions {
  int draws = 0;                     // 1 .. most_draws
  std::uint64_t seed = 101;          // of the first draw
  std::vector<std::string> lessons;  // empty: all
};

// Plays lessons, all of them known, on drawn starts by made-up people (app/library/lessons/prove_draws.h) and
// prints what that says of each lesson, of its items and of the demands' rule. The answer: what is held
// against them, one line each. `json`: receives the figures instead of stdout.
std::vector<std::string> check_draws(const std::string& content_dir, const library::Library& library,
                                     const CheckDrawsOptions& options, nlohmann::json* json);

}  // namespace stirbench::cli
