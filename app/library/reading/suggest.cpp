#include "app/library/reading/suggest.h"

#include <algorithm>

namespace stirbench::library {

namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  // Names in content are short; a hostile long one must not cost quadratic time.
  constexpr std::size_t longest = 80;
  if (a.size() > longest || b.size() > longest) return std::max(a.size(), b.size());
  std::vector<std::vector<std::size_t>> cost(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) cost[i][0] = i;
  for (std::size_t j = 0; j <= b.size(); ++j) cost[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = lower(a[i - 1]) == lower(b[j - 1]) ? 0 : 1;
      cost[i][j] = std::min({cost[i - 1][j] + 1, cost[i][j - 1] + 1, cost[i - 1][j - 1] + change});
      if (i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) && lower(a[i - 2]) == lower(b[j - 1]))
        cost[i][j] = std::min(cost[i][j], cost[i - 2][j - 2] + 1);
    }
  }
  return cost[a.size()][b.size()];
}

std::string nearest(std::string_view name, const std::vector<std::string>& known) {
  std::size_t best = std::max<std::size_t>(2, name.size() / 3) + 1;
  std::string found;
  for (const std::string& candidate : known) {
    const std::size_t distance = edit_distance(name, candidate);
    if (distance < best && distance < std::max<std::size_t>(candidate.size(), 1)) {
      best = distance;
      found = candidate;
    }
  }
  return found;
}

std::string expect_name(const std::string& what, std::string_view name,
                        const std::vector<std::string>& known) {
  const std::string near = nearest(name, known);
  if (!near.empty()) return what + " (did you mean \"" + near + "\"?)";
  constexpr std::size_t most_listed = 16;
  if (known.empty() || known.size() > most_listed) return what;
  std::string list;
  for (const std::string& one : known) list += (list.empty() ? "" : ", ") + one;
  return what + " (one of " + list + ")";
}

}  // namespace stirbench::library
