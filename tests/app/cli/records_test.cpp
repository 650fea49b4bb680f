#include <doctest/doctest.h>

#include <filesystem>

#include "tests/app/cli/run.h"

namespace {

using namespace stirbench;
using cli_test::contains;
using cli_test::json_of;
using test_support::TempFolder;

test_support::ProgramResult run(const std::string& data, std::vector<std::string> arguments,
                                const std::string& pin = "", const std::string& new_pin = "") {
  arguments.insert(arguments.begin(), STIRBENCH_PROGRAM);
  const auto set = [](const std::string& value) {
    return value.empty() ? std::string(test_support::unset_variable) : value;
  };
  return test_support::run_program(arguments, {{"STIRBENCH_DATA", data},
                                               {"STIRBENCH_PIN", set(pin)},
                                               {"STIRBENCH_NEW_PIN", set(new_pin)},
                                               {"DISPLAY", test_support::unset_variable},
                                               {"WAYLAND_DISPLAY", test_support::unset_variable}});
}

// Ana is manager (739182), Kim a learner (8024).
void two_people(const std::string& data) {
  REQUIRE(run(data, {"people", "add", "Ana"}).exit_code == 0);
  REQUIRE(run(data, {"people", "add", "Kim"}).exit_code == 0);
  REQUIRE(run(data, {"people", "pin", "Kim"}, "", "8024").exit_code == 0);
  REQUIRE(run(data, {"people", "pin", "Ana"}, "", "739182").exit_code == 0);
  REQUIRE(run(data, {"people", "role", "Ana", "manager"}).exit_code == 0);
}

}  // namespace

TEST_CASE("command line: without the role people neither see nor do what they have no right to") {
  const TempFolder folder("roles");
  const std::string data = folder.file("data");
  two_people(data);
  CHECK(json_of(run(data, {"people", "list", "--json"}))["managed"] == true);
  // Nobody, the wrong PIN, a learner.
  for (const auto& [arguments, pin] : std::vector<std::pair<std::vector<std::string>, std::string>>{
           {{"attempts"}, ""},
           {{"attempts", "--person", "Ana"}, ""},
           {{"attempts", "--as", "Ana"}, "111111"},
           {{"attempts", "--as", "Ana"}, ""},
           {{"attempts", "--person", "Ana", "--as", "Kim"}, "8024"},
           {{"people", "add", "Mallory"}, ""},
           {{"people", "add", "Mallory", "--as", "Kim"}, "8024"},
           {{"people", "role", "Kim", "manager", "--as", "Kim"}, "8024"},
           {{"people", "role", "Kim", "manager"}, ""},
           {{"people", "role", "Ana", "learner", "--as", "Kim"}, "8024"},
           {{"people", "remove", "Ana", "--as", "Kim"}, "8024"},
           {{"records", "backup", folder.file("b"), "--as", "Kim"}, "8024"},
           {{"records", "backup", folder.file("b")}, ""},
           {{"records", "site", "Elsewhere"}, ""},
           {{"records", "rescore"}, ""}}) {
    CAPTURE(arguments.back());
    const auto result = run(data, arguments, pin);
    CHECK(result.exit_code == 2);
    CHECK(result.out == "");
    CHECK(result.err != "");
  }
  CHECK_FALSE(std::filesystem::exists(folder.file("b")));
  CHECK(run(data, {"people", "pin", "Ana"}, "wrong1", "555777").exit_code == 2);
  CHECK(run(data, {"people", "pin", "Ana", "--as", "Kim"}, "8024", "555777").exit_code == 2);
  // What is theirs works.
  CHECK(json_of(run(data, {"attempts", "--as", "Kim", "--json"}, "8024"))["attempts"].empty());
  CHECK(run(data, {"attempts", "--as", "Ana"}, "739182").exit_code == 0);
  CHECK(run(data, {"people", "add", "Bo", "--number", "12", "--as", "ana"}, "739182").exit_code == 0);
  CHECK(run(data, {"records", "verify"}).exit_code == 0);
}

TEST_CASE("command line: roster, back-up, restore, merge, verify with the place") {
  const TempFolder folder("records");
  const std::string data = folder.file("data");
  two_people(data);
  test_support::write_file(folder.file("list.csv"), "name,number\nZoë Lind,5\nkim,6\n");
  auto seen =
      json_of(run(data, {"people", "import", folder.file("list.csv"), "--as", "Ana", "--json"}, "739182"));
  CHECK(seen["to_add"] == 1);
  CHECK(seen["applied"] == false);
  seen = json_of(
      run(data, {"people", "import", folder.file("list.csv"), "--apply", "--as", "Ana", "--json"}, "739182"));
  CHECK(seen["added"] == 1);
  test_support::write_file(folder.file("bad.csv"), "name\n=1+1\n");
  const auto bad =
      run(data, {"people", "import", folder.file("bad.csv"), "--apply", "--as", "Ana"}, "739182");
  CHECK(bad.exit_code == 2);
  CHECK(contains(bad.err, "bad.csv:2:"));
  CHECK(run(data, {"records", "backup", folder.file("b"), "--as", "Ana"}, "739182").exit_code == 0);
  CHECK(run(folder.file("second"), {"records", "restore", folder.file("b")}).exit_code == 0);
  CHECK(run(folder.file("second"), {"records", "restore", folder.file("b")}).exit_code == 2);
  CHECK(json_of(run(folder.file("second"), {"records", "verify", "--json"}))["verified"] == true);
  const std::string head = run(data, {"records", "head"}).out;
  CHECK(run(data, {"records", "verify", "--head", head.substr(0, head.size() - 1)}).exit_code == 0);
  CHECK(run(data, {"records", "verify", "--head", "nonsense"}).exit_code == 2);
  // The other room has not come so far: a printed head that it does not have is a fault.
  CHECK(
      run(folder.file("third"), {"records", "verify", "--head", head.substr(0, head.size() - 1)}).exit_code ==
      3);
  std::string lines = test_support::read_file(folder.file("b/records.jsonl"));
  lines[lines.find("Kim")] = 'T';
  test_support::write_file(folder.file("b/records.jsonl"), lines);
  const auto spoilt = run(data, {"records", "merge", folder.file("b"), "--as", "Ana"}, "739182");
  CHECK(spoilt.exit_code == 3);
  CHECK(contains(spoilt.err, "b/records.jsonl"));
  test_support::write_file(data + "/records.sqlite", std::string(5000, 'x'));
  CHECK(run(data, {"records", "verify"}).exit_code == 3);
}

TEST_CASE("records items: nothing kept says so, in words and as JSON; a learner may not look") {
  TempFolder folder("items");
  const std::string data = folder.path().string();
  two_people(data);
  const std::vector<std::string> asks{"records", "items", "--as", "Ana"};
  CHECK(contains(run(data, asks, "739182").out, "No practice and no test is kept."));
  CHECK(json_of(run(data, {"records", "items", "--json", "--as", "Ana"}, "739182")).at("lessons").empty());
  CHECK(run(data, {"records", "items", "--as", "Kim"}, "8024").exit_code == 2);
}
