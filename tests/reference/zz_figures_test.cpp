#include <doctest/doctest.h>

#include <filesystem>
#include <set>
#include <string>

#include "tests/support/files.h"

// The figures beside MODELS.md are what the plant's own step draws now, and each is named there.
using namespace stirbench;
namespace fs = std::filesystem;

TEST_CASE("the generated figures are those of this plant, and MODELS.md shows each") {
  const test_support::TempFolder folder("figures");
  const auto drawn = test_support::run_program({STIRBENCH_FIGURES, folder.path().string()});
  REQUIRE(drawn.exit_code == 0);
  const fs::path kept = test_support::source_root() / "sim_core/figures";
  const std::string models = test_support::read_file(test_support::source_root() / "sim_core/MODELS.md");
  std::set<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder.path()))
    names.insert(entry.path().filename().string());
  CHECK(names.size() >= 7);
  for (const std::string& name : names) {
    CAPTURE(name);
    REQUIRE(fs::exists(kept / name));
    const bool same = test_support::read_file(kept / name) == test_support::read_file(folder.path() / name);
    CHECK_MESSAGE(same, "old; bench_figures draws it anew");
    CHECK(models.find("(figures/" + name + ")") != std::string::npos);
  }
  for (const auto& entry : fs::directory_iterator(kept))
    CHECK(names.count(entry.path().filename().string()) == 1);
}
