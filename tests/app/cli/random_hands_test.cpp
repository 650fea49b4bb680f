#include <doctest/doctest.h>

#include "app/library/library.h"
#include "sim_core/explore/invariants.h"
#include "sim_core/faults/safety.h"
#include "tests/app/cli/run.h"
#include "tests/sim_core/bench/random_hands.h"

// The guide's table of faults against the running bench, and against exploration.
using namespace stirbench;
using namespace stirbench::cli_test;
using nlohmann::json;

namespace {

json guide_table() {
  return json::parse(test_support::read_file(std::string(STIRBENCH_SOURCE_DIR) +
                                             "/content/guides/safety-faults.json"))["faults"];
}

}  // namespace

TEST_CASE("random actions on the running machine break no invariant that exploration proves") {
  // The same with a million sequences: build/release/tests/bench_safety.
  std::vector<std::uint64_t> allowed;
  for (const json& row : guide_table()) {
    std::uint64_t bits = 0;
    for (const json& id : row["fall"]) {
      const int index = explore::find_invariant(id.get<std::string>());
      REQUIRE(index >= 0);
      bits |= explore::invariant_bit(static_cast<explore::Invariant>(index));
    }
    allowed.push_back(bits);
  }
  REQUIRE(allowed.size() == faults::safety_faults().size());
  const library::Library library = library::load(std::string(STIRBENCH_SOURCE_DIR) + "/content", "").library;
  for (const auto& [id, spec] : library.machines) {
    const bench_test::RandomHands result = bench_test::random_hands(library.machine(id), 1, 4000, allowed);
    MESSAGE(id << ": " << result.sequences << " sequences, " << result.actions << " actions, " << result.ticks
               << " ticks, something ran in " << result.runs);
    CHECK(result.first_wrong == "");
    CHECK(result.runs > result.sequences / 4);
  }
}

TEST_CASE("the guide's table of safety faults agrees with exploration") {
  // When this fails: `build/release/stirbench explore --machine hm-45 --table
  // content/guides/safety-faults.json`.
  const json table = guide_table();
  std::size_t index = 0;
  for (const auto& fault : faults::safety_faults()) {
    CAPTURE(fault.id);
    const json& row = table[index++];
    CHECK(row["fault"] == fault.id);
    CHECK(row["title"] == fault.title);
    CHECK(row["wiring"] == fault.wiring);
  }
  // Three of them in full; `explore` itself writes all.
  for (const char* fault : {"lid_magnet_taped", "guard_wire_broken", "cutout_bridged"}) {
    CAPTURE(std::string(fault));
    json fall = json::array();
    const json explored = json_of(run({"explore", "--machine", "hm-45", "--fault", fault, "--json"}));
    for (const json& row : explored["invariants"]) {
      if (row["holds"] == false) fall.push_back(row["id"]);
    }
    for (const json& row : table) {
      if (row["fault"] == fault) CHECK(row["fall"] == fall);
    }
  }
}
