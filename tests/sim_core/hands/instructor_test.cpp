#include <doctest/doctest.h>

#include "sim_core/faults/fault.h"
#include "sim_core/journal/journal.h"
#include "tests/sim_core/bench/machine_fixture.h"

// An instructor beside a run: conditions, faults, clock and notes are inputs like hands, kept in the journal
// and done again by a replay.
using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench;
using namespace stirbench::journal;
using bench_test::small_kitchen_machine;
using stirbench::hands::why_not;

namespace {

Machine machine_with_faults() {
  Machine machine = small_kitchen_machine();
  faults::Fault thick;
  thick.id = "drag";
  thick.title = "Gear drags";
  thick.changes = {{faults::FaultTarget::gear_drag_Nm, "", 0.5, 4.0}};
  machine.faults.push_back(thick);
  return machine;
}

struct Kept {
  std::string journal;
  State state;
  std::vector<Event> history;
};

Kept run(const Machine& machine) {
  Kept kept;
  SessionHeader header;
  header.machine = machine.plant.id;
  header.mode = "practice";
  Session session(machine, header, [&kept](std::string_view record) { kept.journal += record; });
  const auto seconds = [&session](int n) {
    for (int i = 0; i < 10 * n; ++i) session.step();
  };
  seconds(3);
  session.act(hands::set_room(38.0));
  session.act(hands::set_supply_voltage(0.9));
  seconds(2);
  session.act(hands::set_fault("drag", 0.5));
  session.act(hands::freeze_run());
  session.act(hands::mark_observation("looks into the vat first", true));
  session.act(hands::hand_back());
  seconds(4);
  session.act(hands::set_fault("drag", 0.0));
  session.act(hands::set_delivery(machine.ingredients.front().id, 12.0));
  seconds(1);
  session.end();
  kept.state = session.state();
  kept.history = session.history();
  return kept;
}

}  // namespace

TEST_CASE("what an instructor did stands in the journal with its moment, and a replay does it again") {
  const Machine machine = machine_with_faults();
  const Kept kept = run(machine);
  CHECK(kept.state.plant.environment.ambient_degC == 38.0);
  CHECK(kept.state.plant.environment.supply_norm == 0.9);
  CHECK(kept.state.plant.health.gear_drag_Nm == 0.0);
  std::vector<std::pair<std::uint64_t, std::string_view>> seen;
  for (const Event& event : kept.history) {
    REQUIRE(event.kind == EventKind::instructor);
    seen.emplace_back(event.tick, hands::at(event.subject)->name);
  }
  CHECK(seen == std::vector<std::pair<std::uint64_t, std::string_view>>{{30, "set_room"},
                                                                        {30, "set_supply_voltage"},
                                                                        {50, "set_fault"},
                                                                        {50, "freeze_run"},
                                                                        {50, "mark_observation"},
                                                                        {50, "hand_back"},
                                                                        {90, "set_fault"},
                                                                        {90, "set_delivery"}});
  CHECK(kept.history[4].text == "looks into the vat first");
  CHECK(kept.history[4].number == 1.0);
  CHECK(kept.history[2].text == "Gear drags");

  Journal journal;
  CHECK(read_journal(kept.journal, journal).message == "");
  bool dragged = false;
  std::vector<Event> again;
  const ReplayResult result =
      replay(machine, journal, [&](const State& state, const std::vector<Event>& events) {
        again.insert(again.end(), events.begin(), events.end());
        dragged = dragged || state.plant.health.gear_drag_Nm > 0.0;
      });
  CHECK(result.verified);
  CHECK(dragged);
  CHECK(state_hash(result.state) == state_hash(kept.state));
  CHECK(again.size() == kept.history.size());
}

TEST_CASE("an instructor needs no free hands, and is refused what cannot be") {
  const Machine machine = machine_with_faults();
  State state = initial_state(machine, {});
  state.injured = true;
  CHECK(why_not(machine, state, hands::open_lid()) != "");
  CHECK(why_not(machine, state, hands::mark_observation("note", true)) == "");
  CHECK(why_not(machine, state, hands::mark_observation("", true)) != "");
  CHECK(why_not(machine, state, hands::set_fault("no-such", 0.5)) != "");
  CHECK(why_not(machine, state, hands::set_fault("drag", 0.0)) == "This fault is not set.");
  CHECK(why_not(machine, state, hands::set_room(200.0)) != "");
  CHECK(why_not(machine, state, hands::set_supply_voltage(-0.1)) != "");
  CHECK(why_not(machine, state, hands::set_delivery("no-such", 5.0)) != "");
}

TEST_CASE("a power cut by the instructor and one of the lesson do not lose the voltage that was set") {
  const Machine machine = machine_with_faults();
  StartSetup setup;
  setup.situation.power_cut_at_s = 1.0;
  setup.situation.power_cut_for_s = 2.0;
  State state = initial_state(machine, setup);
  Inputs inputs;
  std::vector<Event> events;
  for (int i = 0; i < 50; ++i) {
    inputs.actions.clear();
    if (i == 20) inputs.actions.push_back(hands::set_supply_voltage(0.85));
    step(machine, state, inputs, events);
    if (i == 25) CHECK(state.plant.environment.supply_norm == 0.0);
  }
  CHECK(state.plant.environment.supply_norm == 0.85);
}

TEST_CASE("a journal says from where it went on, and reads back") {
  const Machine machine = machine_with_faults();
  SessionHeader header;
  header.machine = machine.plant.id;
  header.mode = "retry";
  header.branch_of = "0b9c";
  header.branch_tick = 37;
  std::string text;
  Session session(machine, header, [&text](std::string_view record) { text += record; });
  for (int i = 0; i < 50; ++i) session.step();
  session.end();
  Journal journal;
  CHECK(read_journal(text, journal).message == "");
  CHECK(journal.header.branch_of == "0b9c");
  CHECK(journal.header.branch_tick == 37);
  CHECK(replay(machine, journal).verified);
}
