#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <set>
#include <string_view>

#include "tests/reference/known_differences.h"
#include "tests/reference/report_text.h"
#include "tests/support/files.h"

// The cases run in the order of their files' names, so these see what all others recorded.
using namespace stirbench;
namespace fs = std::filesystem;

namespace {

// Writes to the build, and with STIRBENCH_WRITE_REPORT=1 to the tree; what the tree then holds.
std::string kept_text(const std::string& name, const std::string& text) {
  test_support::write_file(fs::path(STIRBENCH_TEST_DIR) / "reference" / name, text);
  const fs::path kept = test_support::source_root() / "tests/reference" / name;
  const char* wish = std::getenv("STIRBENCH_WRITE_REPORT");
  if (wish != nullptr && std::string_view(wish) == "1") test_support::write_file(kept, text);
  return fs::exists(kept) ? test_support::read_file(kept) : "";
}

tests::ReferenceRow row_of(double ours, double reference, const tests::Tolerance& tolerance,
                           const tests::Source& source) {
  return {"Part", tests::at("value", 20.0, "row"), ours, reference, tolerance, source};
}

}  // namespace

TEST_CASE("REPORT.md and its figures say what this run found") {
  const auto& rows = tests::reference_rows();
  REQUIRE_MESSAGE(rows.size() >= 150,
                  "run all of test_reference, in the usual order: the report needs every part");
  fs::create_directories(fs::path(STIRBENCH_TEST_DIR) / "reference/figures");
  const std::string report = tests::reference_report(rows);
  CHECK_MESSAGE(kept_text("REPORT.md", report) == report,
                "tests/reference/REPORT.md is old; STIRBENCH_WRITE_REPORT=1 writes it anew");
  std::set<std::string> names;
  for (const std::string& part : tests::parts_of(rows)) {
    const std::string name = tests::figure_name(part);
    if (report.find("(figures/" + name + ")") == std::string::npos) continue;  // look-ups alone
    const std::string drawn = tests::part_figure(part, rows);
    CAPTURE(name);
    CHECK_MESSAGE(kept_text("figures/" + name, drawn) == drawn,
                  "old; STIRBENCH_WRITE_REPORT=1 draws it anew");
    names.insert(name);
  }
  for (const auto& entry : fs::directory_iterator(test_support::source_root() / "tests/reference/figures")) {
    CAPTURE(entry.path().filename().string());
    CHECK(names.count(entry.path().filename().string()) == 1);
  }
}

TEST_CASE("every row has its class, source, uncertainty and reason, and none stands twice") {
  for (const std::string& flaw : tests::flaws(tests::reference_rows())) CHECK_MESSAGE(false, flaw);
}

TEST_CASE("at least 400 independent figures of the physical world") {
  CHECK(tests::physical_count(tests::reference_rows()) >= 400);
}

TEST_CASE("a value that is off, or no number, would be reported as such") {
  const auto row = row_of(101.0, 100.0, 2 * tests::relative(0.01), tests::measured("Source", "a guess"));
  const std::string report = tests::reference_report({row});
  CHECK(report.find("| value at 20, row | 101 | 100 | +1.000 % | 1 % | 2 |") != std::string::npos);
  CHECK(report.find("**measured** Source. Uncertainty: a guess.") != std::string::npos);
}

TEST_CASE(
    "a row passes inside k times its uncertainty, a known difference outside it and at its ratio alone") {
  const tests::Source source = tests::measured("Source", "a guess");
  const auto off = [&](double ours, const tests::KnownDifference* known) {
    return tests::objection(row_of(ours, 100.0, 2 * tests::relative(0.01), source), known);
  };
  CHECK(off(101.9, nullptr) == "");
  CHECK(off(102.1, nullptr) != "");
  CHECK(off(97.9, nullptr) != "");
  CHECK(off(std::nan(""), nullptr) != "");
  const tests::KnownDifference known{"Part: value", 1.20, "it is"};
  CHECK(off(120.9, &known) == "");
  CHECK(off(121.2, &known).starts_with("differs by another ratio"));
  CHECK(off(118.8, &known).starts_with("differs by another ratio"));
  CHECK(off(101.0, &known).starts_with("differs no longer"));
  CHECK(off(std::nan(""), &known) != "");
}

TEST_CASE("rows that are no evidence are found out") {
  using tests::relative;
  const tests::Source sound = tests::measured("Source", "a guess");
  const auto flaw = [](const tests::ReferenceRow& row) {
    std::string text;
    for (const std::string& one : tests::flaws({row}))
      if (one.starts_with("Part")) text += one;
    return text;
  };
  CHECK(flaw(row_of(1.5, 1.5, relative(0.01), sound)) == "");
  CHECK(flaw(row_of(1.5, 1.5, relative(0.01), "Source")).ends_with("no class"));
  CHECK(flaw(row_of(1.5, 1.5, relative(0.01), tests::measured("", "a guess"))).ends_with("no source"));
  CHECK(flaw(row_of(1.5, 1.5, relative(0.01), tests::measured("Source", ""))).ends_with("its uncertainty"));
  CHECK(flaw(row_of(1.5, 1.5, relative(0.0), sound)).ends_with("no uncertainty"));
  CHECK(flaw(row_of(1.5, 1.5, 4 * relative(0.01), sound)).ends_with("without a reason"));
  CHECK(flaw(row_of(1.5, 1.5, beyond(4 * relative(0.01), "known"), sound)) == "");
  const auto row = row_of(1.2345, 1.2346, relative(0.01), sound);
  auto elsewhere = row;
  elsewhere.part = "Other";
  CHECK(tests::flaws({row, row}).size() >= tests::known_differences().size() + 1);
  CHECK(tests::flaws({row, elsewhere}).front().ends_with("also in Part"));
}
