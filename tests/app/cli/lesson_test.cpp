#include <doctest/doctest.h>

#include "tests/app/cli/run.h"

namespace {

using nlohmann::json;
using stirbench::cli_test::contains;
using stirbench::cli_test::json_of;
using stirbench::cli_test::run;
using stirbench::test_support::read_file;
using stirbench::test_support::TempFolder;
using stirbench::test_support::write_file;

}  // namespace

TEST_CASE("lesson list and show") {
  const json list = json_of(run({"lesson", "list", "--json"}));
  bool first_batch = false;
  for (const json& lesson : list["lessons"]) {
    CHECK(lesson["title"].get<std::string>().size() > 3);
    CHECK(lesson["minutes"].get<double>() > 0.0);
    CHECK(lesson["skills"].is_array());
    first_batch = first_batch || lesson["id"] == "first-batch";
    const auto shown = run({"lesson", "show", lesson["id"].get<std::string>()});
    CHECK(shown.exit_code == 0);
    CHECK(contains(shown.out, "Steps"));
  }
  CHECK(first_batch);
}

TEST_CASE(
    "the right actions pass with exit 0; each criterion has its reason; the journal replays to the same "
    "score") {
  TempFolder folder("lesson");
  const auto result = run({"lesson", "run", "first-batch", "--json", "--journal", folder.file("j.journal")});
  CHECK(result.exit_code == 0);
  const json out = json_of(result);
  CHECK(out["passed"] == true);
  CHECK(out["score_norm"].get<double>() >= 0.95);
  for (const json& criterion : out["criteria"]) {
    for (const char* key : {"id", "met", "must_pass", "points", "of", "at_s", "why"})
      CHECK(criterion.contains(key));
    CHECK(criterion["why"].get<std::string>().size() > 10);
    CHECK_FALSE(contains(criterion["why"].get<std::string>(), "{"));
  }
  const auto replayed = run({"replay", folder.file("j.journal"), "--json"});
  CHECK(replayed.exit_code == 0);
  const json again = json_of(replayed);
  CHECK(again["state_hash"] == out["state_hash"]);
  CHECK(again["score"]["score_norm"] == out["score_norm"]);
  CHECK(again["score"]["criteria"] == out["criteria"]);
  // A journal is never overwritten.
  CHECK(run({"lesson", "run", "first-batch", "--journal", folder.file("j.journal")}).exit_code == 2);
}

TEST_CASE("a wrong run ends with exit 1") {
  TempFolder folder("wrong");
  write_file(folder.file("nothing.jsonl"), "{\"at_s\": 1, \"do\": \"open_lid\"}\n");
  const auto result =
      run({"lesson", "run", "guards-stop-it", "--actions", folder.file("nothing.jsonl"), "--json"});
  CHECK(result.exit_code == 1);
  CHECK(json_of(result)["passed"] == false);
}

TEST_CASE("a damaged journal: exit 3, the record or tick is named") {
  TempFolder folder("damaged");
  REQUIRE(run({"lesson", "run", "guards-stop-it", "--journal", folder.file("good.journal")}).exit_code == 0);
  const std::string good = read_file(folder.file("good.journal"));
  REQUIRE(good.size() > 1000);

  // One byte changed, spread over the whole file.
  for (std::size_t at = 7; at < good.size(); at += good.size() / 23) {
    std::string bad = good;
    bad[at] = static_cast<char>(bad[at] == 'x' ? 'y' : 'x');
    write_file(folder.file("bad.journal"), bad);
    const auto result = run({"replay", folder.file("bad.journal")});
    CAPTURE(at);
    CHECK(result.exit_code == 3);
    const bool named =
        contains(result.err, "record") || contains(result.err, "tick") || contains(result.err, "line");
    CHECK(named);
  }
  // Truncated.
  write_file(folder.file("cut.journal"), good.substr(0, good.size() * 2 / 3));
  const auto cut = run({"replay", folder.file("cut.journal"), "--json"});
  CHECK(cut.exit_code == 3);
  CHECK(json_of(cut)["verified"] == false);
  // Empty.
  write_file(folder.file("empty.journal"), "");
  CHECK(run({"replay", folder.file("empty.journal")}).exit_code == 3);
}

TEST_CASE("people and attempts: kept, listed, unique") {
  TempFolder folder("people");
  const std::string data = folder.path().string();
  CHECK(run({"people", "add", "Imani Okafor"}, data).exit_code == 0);
  CHECK(run({"people", "add", "Imani Okafor"}, data).exit_code == 2);
  CHECK(contains(run({"people", "list"}, data).out, "Imani Okafor"));
  CHECK(json_of(run({"attempts", "--json"}, data))["attempts"].empty());
  CHECK(run({"attempts", "--person", "Nobody Here"}, data).exit_code == 2);
}

TEST_CASE("check --draws says who passes, what each item tells and what the rule makes of it") {
  const auto result = run({"check", "--no-runs", "--json", "--draws", "3", "--lesson", "never-dry"});
  CHECK(result.exit_code == 0);
  const auto draws = json_of(result).at("draws");
  REQUIRE(draws.at("lessons").size() == 1);
  const auto& lesson = draws.at("lessons").at(0);
  CHECK(lesson.at("passed") == 3);
  CHECK(lesson.at("stranded") == 0);
  CHECK(lesson.at("players").size() == 7);
  CHECK_FALSE(lesson.at("items").empty());
  CHECK_FALSE(draws.at("operating").empty());
  const auto table = run({"check", "--no-runs", "--draws", "2", "--lesson", "never-dry"});
  CHECK(contains(table.out, "never-dry"));
  CHECK(contains(table.out, "discrimination"));
}
