#include <doctest/doctest.h>

#include "tests/app/cli/run.h"

using namespace stirbench;
using namespace stirbench::cli_test;

TEST_CASE("fit: a target that cannot be written is refused before the log is looked at") {
  const std::string target = std::string(impossible_folder) + "/ours.json";
  // There is no such log either: what is named first was looked at first.
  const auto refused =
      run({"fit", "--machine", "hm-45", "--log", "/no/such.csv", "--mass", "40", "--write", target});
  CHECK(refused.exit_code == 2);
  CHECK(contains(refused.err, "--write"));
  CHECK_FALSE(contains(refused.err, "such.csv"));
  const auto shipped =
      run({"fit", "--machine", "hm-45", "--log", "/no/such.csv", "--mass", "40", "--write", "hm-45.json"});
  CHECK(shipped.exit_code == 2);
  CHECK(contains(shipped.err, "shipped machine"));
}

TEST_CASE("causes: a symptom or a log is needed, and a log that cannot be read is refused") {
  const auto none = run({"causes", "--machine", "hm-45"});
  CHECK(none.exit_code == 2);
  CHECK(contains(none.err, "--log"));
  const auto missing = run({"causes", "--machine", "hm-45", "--log", "/no/such.csv"});
  CHECK(missing.exit_code == 2);
  CHECK(contains(missing.err, "such.csv"));
}
