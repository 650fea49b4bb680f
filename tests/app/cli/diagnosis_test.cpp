#include <doctest/doctest.h>

#include <functional>

#include "tests/app/cli/run.h"

namespace {

using nlohmann::json;
using stirbench::cli_test::contains;
using stirbench::cli_test::json_of;
using stirbench::cli_test::run;
using stirbench::test_support::TempFolder;

}  // namespace

TEST_CASE("causes: ranked, with reasons, next checks and repairs; a finding moves them") {
  const auto result =
      run({"causes", "--machine", "hm-45", "--symptom", "heats-slowly", "--who", "electrician", "--json"});
  REQUIRE(result.exit_code == 0);
  const json out = json_of(result);
  REQUIRE(out["causes"].size() >= 45);
  double above = 2.0;
  for (const json& one : out["causes"]) {
    CHECK(one["p"].get<double>() <= above);
    above = one["p"].get<double>();
  }
  CHECK(out["expected_min"].get<double>() >= out["at_least_min"].get<double>());
  CHECK(out["expected_min"].get<double>() <= out["call_now_min"].get<double>());
  REQUIRE(out["next"].size() > 3);
  const auto found = run({"causes", "--machine", "hm-45", "--symptom", "heats-slowly", "--finding",
                          "ohms-elements=high-12", "--who", "electrician", "--json"});
  REQUIRE(found.exit_code == 0);
  CHECK(json_of(found)["causes"][0]["id"] == "element_1_open");
  CHECK(json_of(found)["causes"][0]["p"].get<double>() > 0.8);
  const auto doubtful = run({"causes", "--machine", "hm-45", "--symptom", "heats-slowly", "--finding",
                             "ohms-elements=high-12@0.3", "--who", "electrician", "--json"});
  CHECK(json_of(doubtful)["causes"][0]["p"].get<double>() < json_of(found)["causes"][0]["p"].get<double>());
  // Plain words do as well as an id.
  CHECK(json_of(run({"causes", "--machine", "hm-45", "--symptom", "heats slowly", "--json"}))["causes"]
            .size() >= 45);
  CHECK(contains(run({"causes", "--machine", "hm-45", "--symptom", "display-dark"}).out, "probable causes"));
}

TEST_CASE("causes: a contradiction is said") {
  const auto result = run({"causes", "--machine", "hm-45", "--symptom", "display-dark", "--finding",
                           "see-isolator=on", "--finding", "see-isolator=off", "--json"});
  REQUIRE(result.exit_code == 0);
  CHECK_FALSE(json_of(result)["contradictions"].empty());
}

TEST_CASE("guide: a tree for every symptom, every answer leads on, ends name a repair or the call") {
  const auto result =
      run({"guide", "--machine", "hm-45", "--who", "electrician", "--symptom", "display-dark", "--json"});
  REQUIRE(result.exit_code == 0);
  const json out = json_of(result);
  CHECK(out["expected_min"].get<double>() >= out["at_least_min"].get<double>() - 1e-6);
  int ends = 0;
  const std::function<void(const json&)> visit = [&](const json& node) {
    if (node.contains("repairs")) {
      ++ends;
      return;
    }
    REQUIRE(node["answers"].size() >= 2);
    bool leads_on = false;
    for (const json& answer : node["answers"]) {
      if (answer["next"].is_null()) continue;
      leads_on = true;
      visit(answer["next"]);
    }
    CHECK(leads_on);
  };
  visit(out["tree"]);
  CHECK(ends >= 2);
  TempFolder folder("guide");
  const auto graph =
      run({"guide", "--machine", "hm-45", "--symptom", "display-dark", "--dot", folder.file("tree.dot")});
  CHECK(graph.exit_code == 0);
  CHECK(contains(stirbench::test_support::read_file(folder.file("tree.dot")), "digraph guide"));
}

TEST_CASE("causes, guide, evidence: bad input ends with 2 and says what is known") {
  const auto machine = run({"causes", "--machine", "hm-99", "--symptom", "heats-slowly"});
  CHECK(machine.exit_code == 2);
  CHECK(contains(machine.err, "hm-45"));
  const auto symptom = run({"causes", "--machine", "hm-45", "--symptom", "qqqq"});
  CHECK(symptom.exit_code == 2);
  CHECK(contains(symptom.err, "heats-slowly"));
  for (const char* finding : {"ohms-elements", "no-such=x", "ohms-elements=maybe", "ohms-elements=alike@7"}) {
    const auto result =
        run({"causes", "--machine", "hm-45", "--symptom", "heats-slowly", "--finding", finding});
    CHECK(result.exit_code == 2);
    CHECK(contains(result.err, "--finding"));
  }
  CHECK(run({"guide", "--machine", "hm-45", "--symptom", "heats-slowly", "--who", "wizard"}).exit_code == 2);
  CHECK(run({"evidence", "--machine", "hm-20"}).exit_code == 2);
  CHECK(run({"evidence", "--machine", "hm-45", "--machines", "0"}).exit_code == 2);
}
