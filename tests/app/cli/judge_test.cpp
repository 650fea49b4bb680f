#include <doctest/doctest.h>

#include "tests/app/cli/run.h"

namespace {

using nlohmann::json;
using stirbench::cli_test::contains;
using stirbench::cli_test::json_of;
using stirbench::cli_test::run;
using stirbench::test_support::TempFolder;

json entry(const json& list, const std::string& id) {
  for (const json& one : list) {
    if (one["id"] == id) return one;
  }
  FAIL("no entry " << id);
  return {};
}

}  // namespace

TEST_CASE(
    "simulate --json says what the batch is like: rows, organisms, cooling, quality; a replay says the "
    "same") {
  TempFolder folder("judge");
  const std::string journal = folder.file("run.jsonl");
  const auto result = run({"simulate", "--machine", "hm-45", "--recipe", "white-base-high", "--until", "9000",
                           "--journal", journal, "--json"},
                          folder.file("data"));
  REQUIRE(result.exit_code == 0);
  const json out = json_of(result);
  const json met = entry(out["heat_treatment"]["rows"], "us_mix_80c_25s");
  CHECK(met["met"] == true);
  CHECK(met["jurisdiction"] == "United States");
  CHECK(met["at_s"].get<double>() > 1000.0);
  CHECK(met["held_s"].get<double>() > 25.0);
  CHECK(met["short_by"] == json({{"s", 0.0}, {"K", 0.0}}));
  const json missed = entry(out["heat_treatment"]["rows"], "us_mix_69c_30min");
  CHECK(missed["met"] == false);
  CHECK(missed["at_s"].is_null());
  CHECK(missed["why"] == "too_short");
  CHECK(missed["short_by"]["s"].get<double>() + missed["held_s"].get<double>() == doctest::Approx(1800.0));
  CHECK(entry(out["heat_treatment"]["organisms"], "listeria_mix")["log10"].get<double>() > 20.0);
  CHECK(out["heat_treatment"]["caution"].get<std::string>().find("pasteuriser only where it is approved") !=
        std::string::npos);
  CHECK(entry(out["cooling"]["rules"], "us_two_stage")["state"] == "kept");
  CHECK(entry(out["cooling"]["rules"], "us_two_stage")["stages"].size() == 2);
  CHECK(entry(out["cooling"]["storage"], "us_retail_5c")["cold_s"].is_number());
  CHECK(entry(out["cooling"]["growth"], "bacillus_cereus_growth")["log10"].get<double>() < 0.5);
  CHECK(out["quality"]["taste"] == "cooked");
  CHECK(out["quality"]["cleaning_min"].get<double>() >= 15.0);

  const auto replayed = run({"replay", journal, "--json"}, folder.file("data"));
  REQUIRE(replayed.exit_code == 0);
  const json again = json_of(replayed);
  for (const char* key : {"heat_treatment", "cooling", "quality"}) CHECK(again[key] == out[key]);

  const auto plain = run({"simulate", "--machine", "hm-45", "--recipe", "white-base-high", "--until", "3000"},
                         folder.file("data"));
  CHECK(contains(plain.out, "rows met"));
  CHECK(contains(plain.out, "taste "));
}
