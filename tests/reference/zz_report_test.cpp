#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <string_view>

#include "tests/reference/report.h"
#include "tests/support/files.h"

// The cases run in the order of their files' names, so this one sees what all others recorded.
using namespace stirbench;

TEST_CASE("REPORT.md says what this run found") {
  const auto& rows = tests::reference_rows();
  REQUIRE_MESSAGE(rows.size() >= 150,
                  "run all of test_reference, in the usual order: the report needs every part");
  const std::string report = tests::reference_report(rows);
  test_support::write_file(std::filesystem::path(STIRBENCH_TEST_DIR) / "REPORT.md", report);

  const std::filesystem::path kept = test_support::source_root() / "tests/reference/REPORT.md";
  const char* wish = std::getenv("STIRBENCH_WRITE_REPORT");
  if (wish != nullptr && std::string_view(wish) == "1") test_support::write_file(kept, report);
  CHECK_MESSAGE(test_support::read_file(kept) == report,
                "tests/reference/REPORT.md is old; STIRBENCH_WRITE_REPORT=1 writes it anew");
}

TEST_CASE("a value that is off, or no number, would be reported as such") {
  const tests::ReferenceRow row{"Part", tests::at("value", 20.0, "row"), 101.0,
                                100.0,  tests::relative(0.02),           "Source"};
  const std::string report = tests::reference_report({row});
  CHECK(report.find("| value at 20, row | 101 | 100 | +1.000 % | 2 % |") != std::string::npos);
  CHECK(report.find("## Part\n\nSource\n") != std::string::npos);
}
