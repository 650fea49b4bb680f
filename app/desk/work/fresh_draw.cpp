#include <set>
#include <string>
#include <vector>

#include "app/desk/work/desk.h"
#include "app/records/hash.h"
#include "sim_core/journal/journal.h"

namespace stirbench::desk::work {

namespace {

constexpr std::size_t most_looked_at = 60;  // of the newest runs
constexpr int most_tries = 40;

struct Met {
  std::set<std::uint64_t> seeds;
  std::set<std::vector<std::string>> draws;
};

// The seed stands in a journal's first records; the rest is not parsed.
std::optional<std::uint64_t> seed_of(const std::string& journal_text) {
  constexpr std::size_t enough = 8192;
  journal::Journal journal;
  journal::read_journal(std::string_view(journal_text).substr(0, enough), journal);
  if (journal.header.lesson.empty()) return std::nullopt;
  return journal.header.start.seed;
}

// What the person at the desk has met in this lesson. A run whose journal is gone is not known of.
Met met_before(const Desk& desk, const std::string& id) {
  Met out;
  if (!desk.store || desk.person.id == 0) return out;
  try {
    std::size_t looked_at = 0;
    for (const records::Attempt& attempt : desk.store->attempts(desk.person.id)) {
      if (attempt.lesson != id || looked_at == most_looked_at) continue;
      ++looked_at;
      try {
        if (const auto seed = seed_of(desk.store->journal_text(attempt))) out.seeds.insert(*seed);
      } catch (const records::StoreError&) {
        continue;
      }
    }
  } catch (const records::StoreError&) {
    return out;
  }
  for (const std::uint64_t seed : out.seeds) out.draws.insert(desk.library.lesson(id, seed)->drawn);
  return out;
}

}  // namespace

std::optional<training::Lesson> lesson_to_run(const Desk& desk, const std::string& id) {
  const auto usual = desk.library.lessons.find(id);
  if (usual == desk.library.lessons.end()) return std::nullopt;
  if (desk.usual_draws) return desk.library.lesson(id, usual->second.start.seed);
  const Met met = met_before(desk, id);
  std::optional<training::Lesson> out;
  for (int i = 0; i < most_tries; ++i) {
    const std::uint64_t seed = records::random_seed();
    if (met.seeds.count(seed) != 0 || seed == usual->second.start.seed) continue;
    out = desk.library.lesson(id, seed);
    if (out->drawn.empty() || met.draws.count(out->drawn) == 0) break;
  }
  return out ? out : desk.library.lesson(id, records::random_seed());
}

}  // namespace stirbench::desk::work
