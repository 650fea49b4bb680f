#include <doctest/doctest.h>

#include "app/library/library.h"
#include "sim_core/explore/explore.h"
#include "sim_core/explore/promela.h"
#include "tests/app/cli/run.h"
#include "tests/support/skip.h"

using namespace stirbench;
using namespace stirbench::cli_test;
using namespace stirbench::test_support;
using nlohmann::json;

namespace {

// What exploration says falls when a rule is left out; the model's machine is the small part of it with lid,
// cover, Stop and one start key.
bool explorer_finds(const machine::Machine& machine, std::string_view rule, std::string_view invariant) {
  explore::ExplorationRequest question;
  question.scope = {.recipe = false, .fingers = 2};
  for (std::size_t i = 0; i < control::interlock_rule_count; ++i) {
    const auto one = static_cast<control::InterlockRule>(i);
    if (control::interlock_rule_name(one) == rule) question.without = control::omitting(one);
  }
  const explore::ExplorationResult answer = explore::explore(machine, question);
  const int index = explore::find_invariant(invariant == "stop_stops_all" ? "stop_stops" : invariant);
  return index >= 0 && !answer.holds(static_cast<explore::Invariant>(index));
}

// spin's verdict on the model that the program writes: the name of the first broken invariant, "none", or why
// it could not be had.
std::string spin_says(const TempFolder& folder, const std::string& rule, std::string& states) {
  std::vector<std::string> arguments = {"explore", "--machine", "hm-45", "--promela",
                                        folder.file("model.pml")};
  if (!rule.empty()) arguments.insert(arguments.end(), {"--without", rule});
  if (run(arguments).exit_code != 0) return "no model written";
  const std::string go = "cd '" + folder.file("") +
                         "' && rm -f pan* *.trail && spin -a model.pml >&2 && cc -O1 -DBFS -DSAFETY -o pan "
                         "pan.c >&2 && ./pan -E";
  const auto judged = run_program({"/bin/sh", "-c", go});
  const std::string mark = "assertion violated ";
  const std::size_t at = judged.out.find(mark);
  const std::size_t count = judged.out.find(" states, stored");
  if (count != std::string::npos)
    states = judged.out.substr(judged.out.rfind('\n', count) + 1, count - judged.out.rfind('\n', count) - 1);
  if (at != std::string::npos) {
    const std::size_t begin = at + mark.size();
    return judged.out.substr(begin, judged.out.find_first_of(" (\n", begin) - begin);
  }
  return judged.out.find("errors: 0") != std::string::npos ? "none"
                                                           : "spin failed: " + judged.err + judged.out;
}

std::string lines_of(const json& actions) {
  std::string text;
  for (const json& one : actions) text += one.dump() + "\n";
  return text;
}

}  // namespace

TEST_CASE(
    "spin agrees independently: the sample holds, and each seeded violation is found where exploration finds "
    "it") {
  if (program_or_skip("spin", "spin").empty() || program_or_skip("cc", "build-essential").empty()) return;
  TempFolder folder("spin");
  std::string states;
  CHECK(spin_says(folder, "", states) == "none");
  MESSAGE("spin: " << states << " states, all sampled invariants hold");
  const library::Library library = library::load(std::string(STIRBENCH_SOURCE_DIR) + "/content", "").library;
  const machine::Machine machine = library.machine("hm-45");
  for (const char* rule : {"clear_on_release", "latch_stays", "clear_wants_fresh_press", "causes_stop"}) {
    CAPTURE(std::string(rule));
    const std::string found = spin_says(folder, rule, states);
    MESSAGE("without " << std::string(rule) << " spin finds " << found);
    CHECK(explore::find_invariant(found == "stop_stops_all" ? "stop_stops" : found) >= 0);
    CHECK(explorer_finds(machine, rule, found));
  }
}

TEST_CASE("explore with a fault: the shortest sequence runs in simulate and shows the same breach") {
  TempFolder folder("sequences");
  for (const char* fault :
       {"lid_reed_stuck", "drive_contactor_welded", "emergency_contact_stuck", "stop_key_dead"}) {
    CAPTURE(std::string(fault));
    const auto result = run({"explore", "--machine", "hm-45", "--fault", fault, "--json"});
    REQUIRE(result.exit_code == 0);
    const json out = json_of(result);
    int fallen = 0;
    for (const json& row : out["invariants"]) {
      CHECK(row["fault"] == fault);
      if (row["holds"] == true) {
        CHECK(row["actions"].is_null());
        continue;
      }
      ++fallen;
      CAPTURE(row.dump());
      write_file(folder.file("a.jsonl"), lines_of(row["actions"]));
      const auto played = run({"simulate", "--machine", "hm-45", "--fault", fault, "--actions",
                               folder.file("a.jsonl"), "--until", "5", "--json"});
      REQUIRE(played.exit_code == 0);
      bool shown = false;
      const json run_out = json_of(played);
      for (const json& breach : run_out["breaches"]) shown = shown || breach["invariant"] == row["id"];
      CHECK(shown);
    }
    CHECK(fallen > 0);
  }
}

TEST_CASE("an ordinary batch breaks no invariant") {
  const auto result =
      run({"simulate", "--machine", "hm-45", "--recipe", "white-base-high", "--until", "9000", "--json"});
  REQUIRE(result.exit_code == 0);
  CHECK(json_of(result)["breaches"].dump() == "[]");
}

TEST_CASE("explore: unknown machine, fault and rule are refused") {
  CHECK(run({"explore", "--machine", "hm-99"}).exit_code == 2);
  CHECK(run({"explore", "--machine", "hm-45", "--fault", "gremlin"}).exit_code == 2);
  CHECK(run({"explore", "--machine", "hm-45", "--promela", "/dev/null/model", "--without", "gremlin"})
            .exit_code == 2);
}
