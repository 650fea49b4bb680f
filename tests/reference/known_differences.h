#pragma once

#include <string>
#include <vector>

// Rows in which our physics and their source differ by more than the source's uncertainty allows. They are
// not widened: each is held at its ratio, so that a change of the physics shows, and stands in the report's
// own table.
namespace stirbench::tests {

struct KnownDifference {
  const char* row;  // "Part: what"
  double ratio;     // ours / reference
  const char* why;
};

// By how much the ratio may move: a twentieth of the difference, and the last digit in which ratios are
// given.
inline double ratio_step(const KnownDifference& known) {
  const double off = known.ratio - 1.0;
  return 0.05 * (off < 0.0 ? -off : off) + 0.0005;
}

const std::vector<KnownDifference>& known_differences();
const KnownDifference* find_known_difference(const std::string& part, const std::string& what);

}  // namespace stirbench::tests
