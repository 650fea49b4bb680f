#include <doctest/doctest.h>

#include "sim_core/journal/journal.h"
#include "sim_core/journal/session.h"
#include "tests/sim_core/bench/machine_fixture.h"

using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench;
using namespace stirbench::journal;

namespace {

// The kitchen's machine after somebody added a recipe that stands before all others.
Machine with_another_recipe_first() {
  Machine machine = bench_test::small_kitchen_machine();
  control::Recipe mine = machine.recipes.front();
  mine.id = "a_mine";
  machine.recipes.insert(machine.recipes.begin(), mine);
  return machine;
}

std::string run_of(const Machine& machine) {
  std::string journal;
  SessionHeader header;
  header.machine = machine.plant.id;
  header.mode = "free";
  header.start.loaded = {{"whole_milk", 25.0, 5.0}};
  Session session(machine, header, [&journal](std::string_view record) { journal += record; });
  session.act(bench_test::choose("white_base"));
  session.act(bench_test::press("run"));
  for (int i = 0; i < 600; ++i) session.step();
  session.end();
  return journal;
}

}  // namespace

TEST_CASE("a journal still verifies after a recipe was added that renumbers the others") {
  const Machine before = bench_test::small_kitchen_machine();
  const Machine after = with_another_recipe_first();
  Journal journal;
  REQUIRE(read_journal(run_of(before), journal).message == "");
  const ReplayResult result = replay(after, journal);
  CHECK(result.message == "");
  CHECK(result.verified);
  CHECK(result.state.control.recipe == before.recipe_index("white_base") + 1);
}

TEST_CASE("which recipe is chosen is in the hash, wherever it stands in the list") {
  const Machine machine = bench_test::small_kitchen_machine();
  StartSetup setup;
  setup.recipe = "white_base";
  const State one = initial_state(machine, setup);
  CHECK(state_hash(one) == state_hash(initial_state(with_another_recipe_first(), setup)));
  setup.recipe = "warm_only";
  const State other = initial_state(machine, setup);
  CHECK(state_hash(one) != state_hash(other));
  CHECK(first_difference(one, other) == "control.recipe_id_hash");
  CHECK(control::recipe_id_hash("white_base") != control::recipe_id_hash("warm_only"));
  CHECK(control::recipe_id_hash("") != 0);
}
