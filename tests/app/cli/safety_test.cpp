#include <doctest/doctest.h>

#include "tests/app/cli/run.h"

using namespace stirbench::cli_test;
using namespace stirbench::test_support;
using nlohmann::json;

namespace {

const char* const guard_run =
    "{\"at_s\": 1, \"do\": \"open_lid\"}\n"
    "{\"at_s\": 2, \"do\": \"pour\", \"ingredient\": \"water\", \"kg\": 25, \"degC\": 15}\n"
    "{\"at_s\": 3, \"do\": \"close_lid\"}\n"
    "{\"at_s\": 5, \"do\": \"press\", \"key\": \"stir\"}\n"
    "{\"at_s\": 10, \"do\": \"open_lid\"}\n"
    "{\"at_s\": 12, \"do\": \"acknowledge\", \"alarm\": \"all\"}\n"
    "{\"at_s\": 15, \"do\": \"close_lid\"}\n"
    "{\"at_s\": 18, \"do\": \"press\", \"key\": \"stop\"}\n";

}  // namespace

TEST_CASE("simulate reports each alarm's states, its place in the cascade and the alarm load of the run") {
  TempFolder folder("alarm-life");
  write_file(folder.file("a.jsonl"), guard_run);
  const auto result =
      run({"simulate", "--machine", "hm-45", "--actions", folder.file("a.jsonl"), "--until", "30", "--json"});
  REQUIRE(result.exit_code == 0);
  const json out = json_of(result);
  // The lid at rest, then the lid that stopped something.
  REQUIRE(out["alarms"].size() == 2);
  const json& latched = out["alarms"][1];
  CHECK(latched["id"] == "lid_guard");
  CHECK(latched["first_out"] == true);
  CHECK(latched["raised_s"].get<double>() == doctest::Approx(10.0));
  CHECK(latched["acknowledged_s"].get<double>() == doctest::Approx(12.0));
  CHECK(latched["returned_s"].get<double>() == doctest::Approx(15.0));
  CHECK(latched["cleared_s"].get<double>() == doctest::Approx(18.3));
  CHECK(out["alarm_journal"].size() >= 4);
  CHECK(out["alarm_load"]["alarms"] == 2);
}

TEST_CASE("simulate takes faults of the safety parts, with a severity") {
  TempFolder folder("fault");
  write_file(folder.file("a.jsonl"), guard_run);
  const std::vector<std::string> base = {
      "simulate", "--machine", "hm-45", "--actions", folder.file("a.jsonl"), "--until", "14", "--json"};
  const auto with = [&base](const std::string& fault) {
    std::vector<std::string> arguments = base;
    arguments.insert(arguments.end(), {"--fault", fault});
    return run(arguments);
  };
  const json taped = json_of(with("lid_magnet_taped"));
  CHECK(taped["mode"] == "stirring");
  CHECK(taped["alarms"].empty());
  CHECK(with("guard_wire_loose=0.5").exit_code == 0);
  for (const char* wrong :
       {"guard_wire_loose=0", "guard_wire_loose=2", "guard_wire_loose=much", "guard_wire_loose="}) {
    const auto refused = with(wrong);
    CHECK(refused.exit_code == 2);
    CHECK(contains(refused.err, "severity"));
  }
}

TEST_CASE("help alarms prints cause, consequence and action of each") {
  const json out = json_of(run({"help", "alarms", "--json"}));
  REQUIRE(out["alarms"].size() == 9);
  for (const json& alarm : out["alarms"]) {
    for (const char* part : {"cause", "consequence", "action"})
      CHECK(alarm[part].get<std::string>().size() > 30);
  }
  CHECK(contains(run({"help", "alarms"}).out, "Emergency stop pressed"));
}
