#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "sim_core/bench/script.h"
#include "sim_core/journal/journal.h"
#include "tests/sim_core/bench/machine_fixture.h"

using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench;
using namespace stirbench::journal;
using namespace stirbench::bench_test;

namespace {

using Events = std::vector<Event>;

Run new_run(const Machine& machine) { return Run(machine, initial_state(machine, {})); }

std::size_t count_acted(const Events& events) {
  std::size_t count = 0;
  for (const Event& event : events) count += event.kind == EventKind::acted ? 1 : 0;
  return count;
}

}  // namespace

TEST_CASE("the loop: inputs of a tick in their order, the tick, then each observer in its order") {
  const Machine machine = small_kitchen_machine();
  Run run = new_run(machine);
  ActionScript script(
      {{.at_s = 0.2, .action = hands::open_lid()}, {.at_s = 0.2, .action = pour("cream", 1.0, 5.0)}});
  std::string order;
  std::vector<std::uint64_t> acted_at;
  const auto first = [&](const State& state, const Events& events) {
    order += 'a';
    for (std::size_t i = 0; i < count_acted(events); ++i) acted_at.push_back(state.tick);
  };
  const auto second = [&](const State&, const Events&) { order += 'b'; };
  drive(
      run, script, [&run] { return run.state().tick >= 4; }, first, second);
  CHECK(order == "abababab");
  CHECK(acted_at == std::vector<std::uint64_t>{3, 3});  // in the tick that begins at 0.2 s
  CHECK(run.state().plant.fittings.lid_open);
  CHECK(run.state().plant.product.total_kg() == doctest::Approx(1.0));
}

TEST_CASE("a loop that is over before it began does nothing") {
  const Machine machine = small_kitchen_machine();
  Run run = new_run(machine);
  int seen = 0;
  drive(
      run, NoInputs{}, [] { return true; }, [&seen](const State&, const Events&) { ++seen; });
  CHECK(run.state().tick == 0);
  CHECK(seen == 0);
}

TEST_CASE("kept inputs come at their ticks and give the same state as hands") {
  const Machine machine = small_kitchen_machine();
  Run by_hand = new_run(machine);
  for (int tick = 0; tick < 300; ++tick) {
    if (tick == 3) by_hand.act(press("stir"));
    if (tick == 100) by_hand.act(press("stop"));
    by_hand.step();
  }
  const std::vector<JournalAct> acts = {{3, press("stir")}, {100, press("stop")}};
  Run again = new_run(machine);
  drive(again, KeptInputs(acts), [&again] { return again.state().tick >= 300; });
  CHECK(state_hash(again.state()) == state_hash(by_hand.state()));
  Run idle = new_run(machine);
  drive(idle, NoInputs{}, [&idle] { return idle.state().tick >= 300; });
  CHECK(state_hash(idle.state()) != state_hash(by_hand.state()));
}
