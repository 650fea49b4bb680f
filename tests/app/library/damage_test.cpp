#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>

#include "app/library/food/recipe_store.h"
#include "tests/app/library/scratch.h"
#include "tests/support/dice.h"

// Damaged files: whatever happens to their bytes, the loader says something or takes a content that is still
// sound. Seeded, so that a failure can be repeated; under the sanitizers this is where a slip would show.
namespace fs = std::filesystem;
using namespace stirbench;
using library_test::Scratch;

namespace {

using test_support::Dice;

std::string damaged(std::string text, Dice& dice) {
  static const std::vector<std::string> pieces = {
      "{", "}", "[", "]", ",", ":", "\"", "null", "-1", "1e308", "true", "\\u0000", "\xC3", "0.0000001"};
  for (std::size_t change = dice.below(3) + 1; change > 0 && !text.empty(); --change) {
    const std::size_t at = dice.below(text.size());
    switch (dice.below(5)) {
      case 0: text[at] = static_cast<char>(dice.below(256)); break;
      case 1: text.erase(at, dice.below(20) + 1); break;
      case 2: text.insert(at, pieces[dice.below(pieces.size())]); break;
      case 3: text.resize(at); break;
      default: text.insert(at, text.substr(dice.below(text.size()), dice.below(60))); break;
    }
  }
  return text;
}

std::vector<std::string> files(const Scratch& scratch) {
  std::vector<std::string> out;
  for (const auto& entry : fs::recursive_directory_iterator(scratch.dir())) {
    if (entry.is_regular_file()) out.push_back(entry.path().lexically_relative(scratch.dir()).string());
  }
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace

TEST_CASE("damaged content never crashes the loader, and what it accepts can be used") {
  Scratch scratch("damage");
  library_test::put_small_lesson(scratch);
  REQUIRE(scratch.problems() == "");
  Dice dice{20240229};
  int refused = 0;
  int tried = 0;
  for (const std::string& name : files(scratch)) {
    CAPTURE(name);
    const std::string good = scratch.read(name);
    for (int round = 0; round < 12; ++round) {
      scratch.write(name, damaged(good, dice));
      const auto loaded = library::load(scratch.dir(), "");
      ++tried;
      for (const auto& problem : loaded.problems) {
        CHECK_FALSE(problem.expected.empty());
        CHECK_FALSE(problem.found.empty());
        CHECK(problem.text().size() < 2000);
      }
      if (!loaded.problems.empty()) {
        ++refused;
        continue;
      }
      for (const auto& [id, recipe] : loaded.library.recipes) library::recipe_text(recipe);
      loaded.library.machine("hm-45");
    }
    scratch.write(name, good);
  }
  CHECK(tried > 300);
  // Most damage cannot be overlooked (what passes hit a word for people, a digit within its range, or the
  // lesson's page).
  CHECK(refused > tried * 3 / 4);
}

TEST_CASE("a damaged actions file never crashes") {
  const std::string good =
      "{\"at_s\": 1, \"do\": \"open_lid\"}\n{\"at_s\": 2, \"do\": \"pour\", \"ingredient\": \"whole_milk\", "
      "\"kg\": 20}\n"
      "{\"at_phase\": \"add\", \"after_s\": 3, \"do\": \"press\", \"key\": \"stop\", \"held_s\": 1}\n";
  const machine::Machine machine = library_test::shipped().machine("hm-45");
  Dice dice{7};
  int refused = 0;
  for (int round = 0; round < 2000; ++round) {
    const auto result = library::parse_actions(damaged(good, dice), "a.jsonl", machine);
    refused += result.problems.empty() ? 0 : 1;
    CHECK((result.problems.empty() || result.actions.empty()));
  }
  CHECK(refused > 1200);
}
