#include <doctest/doctest.h>

#include <filesystem>

#include "tests/app/cli/run.h"

// Bad input: a located message on stderr, exit code 2 (or as the design says), nothing on stdout, nothing
// written.
namespace {

using stirbench::cli_test::contains;
using stirbench::cli_test::run;
using stirbench::test_support::read_file;
using stirbench::test_support::source_root;
using stirbench::test_support::TempFolder;
using stirbench::test_support::write_file;

struct Case {
  const char* what;
  const char* line;     // second line of the actions file
  const char* message;  // must stand in the message
};

}  // namespace

TEST_CASE("each kind of bad action is located by line and named") {
  const Case cases[] = {
      {"unknown ingredient", R"({"at_s": 2, "do": "pour", "ingredient": "whole_mlik", "kg": 1})",
       "whole_milk"},
      {"negative mass", R"({"at_s": 2, "do": "pour", "ingredient": "whole_milk", "kg": -1})", "kg"},
      {"unknown action", R"({"at_s": 2, "do": "opne_lid"})", "open_lid"},
      {"malformed JSON", R"({"at_s": 2, "do": )", "line 2"},
      {"times out of order", R"({"at_s": 0.5, "do": "close_lid"})", "at_s"},
      {"unknown key", R"({"at_s": 2, "do": "open_lid", "speed": 3})", "speed"},
      {"wrong type", R"({"at_s": "2", "do": "open_lid"})", "at_s"},
      {"unknown recipe", R"({"at_s": 2, "do": "choose_recipe", "recipe": "nothing"})", "nothing"},
  };
  for (const Case& bad : cases) {
    CAPTURE(bad.what);
    TempFolder folder("bad-actions");
    write_file(folder.file("a.jsonl"),
               std::string("{\"at_s\": 1, \"do\": \"open_lid\"}\n") + bad.line + "\n");
    const auto result = run({"simulate", "--machine", "hm-45", "--actions", folder.file("a.jsonl"), "--until",
                             "10", "--trace", folder.file("t.csv"), "--json"});
    CHECK(result.exit_code == 2);
    CHECK(result.out.empty());
    CHECK(contains(result.err, "a.jsonl"));
    CHECK(contains(result.err, "line 2"));
    CHECK(contains(result.err, bad.message));
    CHECK(contains(result.err, "expected"));
    CHECK(contains(result.err, "found"));
    CHECK_FALSE(std::filesystem::exists(folder.file("t.csv")));
  }
}

TEST_CASE("options out of range, unknown names and missing files are refused with code 2") {
  TempFolder folder("bad-options");
  const std::vector<std::pair<std::vector<std::string>, std::string>> cases = {
      {{"simulate", "--machine", "hm-99", "--until", "10"}, "hm-45"},
      {{"simulate", "--machine", "hm-45", "--until", "-5"}, "--until"},
      {{"simulate", "--machine", "hm-45", "--until", "nan"}, "--until"},
      {{"simulate", "--machine", "hm-45", "--until", "10", "--ambient", "400"}, "--ambient"},
      {{"simulate", "--machine", "hm-45", "--until", "10", "--humidity", "50"}, "--humidity"},
      {{"simulate", "--machine", "hm-45", "--until", "10", "--supply", "-1"}, "--supply"},
      {{"simulate", "--machine", "hm-45", "--until", "10", "--supply", "nan"}, "--supply"},
      {{"simulate", "--machine", "hm-45", "--until", "10", "--frequency", "400"}, "--frequency"},
      {{"simulate", "--machine", "hm-45", "--until", "10", "--seed", "-1"}, "--seed"},
      {{"simulate", "--machine", "hm-45", "--until", "10", "--recipe", "no-such"}, "white-base-high"},
      {{"simulate", "--machine", "hm-20", "--until", "10", "--recipe", "white-base-high"},
       "when hot on hm-20"},
      {{"simulate", "--machine", "hm-45", "--until", "10", "--fault", "gremlin"}, "gremlin"},
      {{"simulate", "--machine", "hm-45", "--until", "10", "--actions", folder.file("absent.jsonl")},
       "absent.jsonl"},
      {{"simulate", "--machine", "hm-45"}, "--until"},
      {{"lesson", "run", "no-such-lesson"}, "first-batch"},
      {{"replay", folder.file("absent.journal")}, "absent.journal"},
      {{"check", "--no-runs", "--draws", "20000"}, "--draws: expected 0 .. 10000"},
      {{"check", "--no-runs", "--draws", "2", "--lesson", "no-such-lesson"}, "first-batch"},
      {{"frobnicate"}, "frobnicate"},
      {{"check", folder.file("no-such-folder")}, "no-such-folder"},
  };
  for (const auto& [arguments, message] : cases) {
    CAPTURE(arguments.back());
    const auto result = run(arguments);
    CHECK(result.exit_code == 2);
    CHECK(contains(result.err + result.out, message));
  }
}

TEST_CASE("a trace that cannot be written names the file; the exit code is 2") {
  const auto result =
      run({"simulate", "--machine", "hm-45", "--until", "10", "--trace", "/dev/null/folder/t.csv"});
  CHECK(result.exit_code == 2);
  CHECK(contains(result.err, "/dev/null/folder"));
}

TEST_CASE("an unwritable data folder is named, with the way out") {
  TempFolder folder("data");
  write_file(folder.file("a-file"), "not a folder");
  const auto result = run({"people", "add", "Somebody New"}, folder.file("a-file"));
  CHECK(result.exit_code == 2);
  CHECK(contains(result.err, "a-file"));
  CHECK(contains(result.err, "--data"));
}

TEST_CASE("no display: code 4, the message names the way without a window, and nothing is written") {
  TempFolder folder("no-display");
  const auto result = run({}, folder.file("data"));
  CHECK_FALSE(std::filesystem::exists(folder.file("data")));
  CHECK(result.exit_code == 4);
  CHECK(contains(result.err, "lesson run"));
}

TEST_CASE(
    "an own recipe that is malformed or more than the machine holds is refused with file, place, expected "
    "and found") {
  TempFolder folder("own-recipe");
  const std::string file = folder.file("recipes/too-much.json");
  const auto refused = [&](const std::string& text) {
    write_file(file, text);
    const auto result = run({"simulate", "--machine", "hm-45", "--until", "1"}, folder.path().string());
    CHECK(result.exit_code == 2);
    CHECK(contains(result.err, file));
    return result.err;
  };
  CHECK(contains(refused("{\n  \"format\": 1,\n  \"id\": \"too-much\",\n  oops\n}\n"), "line 4"));
  auto recipe = nlohmann::json::parse(read_file(source_root() / "content/recipes/white-base-high.json"));
  recipe["id"] = "too-much";
  recipe["start"][0]["kg"] = 60.0;
  // 77.8 kg of a mix of 1.0 to 1.1 kg/L at 85 degC; the machine is made for 45 L.
  CHECK(contains(refused(recipe.dump()), "/phases: expected at most 45 L when hot on hm-45, found 7"));
}

TEST_CASE("every verb has help, and help is not an error") {
  for (const std::vector<std::string>& arguments : {std::vector<std::string>{"--help"},
                                                    {"simulate", "--help"},
                                                    {"lesson", "--help"},
                                                    {"lesson", "run", "--help"},
                                                    {"replay", "--help"},
                                                    {"check", "--help"},
                                                    {"help", "actions", "--help"},
                                                    {"people", "--help"},
                                                    {"attempts", "--help"}}) {
    CAPTURE(arguments.front());
    const auto result = run(arguments);
    CHECK(result.exit_code == 0);
    CHECK(contains(result.out, "--help"));
  }
  CHECK(contains(run({"help", "actions"}).out, "pour"));
}
