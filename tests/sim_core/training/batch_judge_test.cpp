#include <doctest/doctest.h>

#include "sim_core/journal/journal.h"
#include "sim_core/journal/session.h"
#include "sim_core/training/batch_judge.h"
#include "sim_core/training/condition.h"
#include "tests/sim_core/bench/machine_fixture.h"

using namespace stirbench;
using bench_test::pour;
using bench_test::press;

namespace {

machine::Machine machine_with_rules() {
  machine::Machine machine = bench_test::small_kitchen_machine();
  product::HeatRule row;
  row.id = "warm";
  row.temperature_degC = 40.0;
  row.hold_s = 20.0;
  machine.rules.rows = {row};
  product::CoolingRule rule;
  rule.id = "quick";
  rule.from_degC = 39.0;
  rule.stages = {{20.0, 60.0}};
  machine.rules.cooling = {rule};
  machine.rules.inactivation = {{.id = "bug", .D_s = 60.0, .at_degC = 45.0, .z_K = 7.0}};
  return machine;
}

journal::SessionHeader header(const machine::Machine& machine, double kg, double degC) {
  journal::SessionHeader out;
  out.machine = machine.plant.id;
  out.mode = "free";
  out.start.loaded = {{"water", kg, degC}};
  return out;
}

void run(journal::Session& session, training::BatchJudge& judge, int ticks) {
  for (int i = 0; i < ticks; ++i) {
    session.step();
    judge.see(session.state());
  }
}

}  // namespace

TEST_CASE("the judge reads a run: met, undone by a late addition, the same from its journal") {
  const machine::Machine machine = machine_with_rules();
  std::string text;
  journal::Session session(machine, header(machine, 25.0, 48.0),
                           [&text](std::string_view record) { text += record; });
  training::BatchJudge judge(machine);
  judge.see(session.state());
  run(session, judge, 190);
  CHECK_FALSE(judge.row_met("warm"));
  run(session, judge, 20);
  REQUIRE(judge.row_met("warm"));
  CHECK_FALSE(judge.row_met("no_such_row"));
  CHECK(judge.lethality().log10(0) > 0.1);
  CHECK(judge.cooling_state("quick") == "waiting");
  CHECK(judge.cooling_state("no_such_rule").empty());
  const double before = judge.lethality().log10(0);
  session.act(hands::open_lid());
  session.act(pour("whole_milk", 8.0, 5.0));
  run(session, judge, 10);
  CHECK_FALSE(judge.row_met("warm"));
  CHECK(judge.rows().verdict(0).why == product::HeatRuleShortfall::added_after);
  CHECK(judge.lethality().log10(0) < before);
  // The mean is below 39 degC, but nothing circulates: the well under it is still as hot as it was.
  CHECK(session.state().plant.vat_degC < 39.0);
  CHECK(judge.cooling_state("quick") == "waiting");
  session.act(hands::close_lid());
  session.act(press("stir"));
  run(session, judge, 300);
  CHECK(judge.cooling_state("quick") == "running");
  run(session, judge, 700);
  CHECK(judge.cooling_state("quick") == "missed");
  session.end();

  journal::Journal journal;
  REQUIRE(journal::read_journal(text, journal).message == "");
  training::BatchJudge again(machine);
  again.see(bench::initial_state(machine, journal.header.start));
  const auto result = journal::replay(
      machine, journal,
      [&again](const machine::State& state, const std::vector<machine::Event>&) { again.see(state); });
  REQUIRE(result.verified);
  CHECK(again.rows().verdict(0).undone_s == judge.rows().verdict(0).undone_s);
  CHECK(again.lethality().log10(0) == judge.lethality().log10(0));
  CHECK(again.cooling().cooling(0).at_s == judge.cooling().cooling(0).at_s);
}

TEST_CASE("rinse water after the vat was emptied takes nothing back") {
  const machine::Machine machine = machine_with_rules();
  journal::Session session(machine, header(machine, 25.0, 48.0));
  training::BatchJudge judge(machine);
  run(session, judge, 220);
  REQUIRE(judge.row_met("warm"));
  machine::State state = session.state();
  state.plant.product = {};
  state.plant.well_kg = 0.0;
  ++state.tick;
  judge.see(state);
  CHECK(judge.row_met("warm"));
  state.plant.masses.rinsed_kg += 3.0;
  state.plant.product.mass_kg[product::Component::water] = 3.0;
  state.plant.well_kg = 3.0;
  ++state.tick;
  judge.see(state);
  CHECK(judge.row_met("warm"));
  state.plant.masses.poured_kg += 5.0;
  state.plant.product.mass_kg[product::Component::water] = 8.0;
  ++state.tick;
  judge.see(state);
  CHECK_FALSE(judge.row_met("warm"));
  CHECK(judge.rows().verdict(0).undone_s == -1.0);
}

TEST_CASE("conditions ask the judge, and are false without one") {
  const machine::Machine machine = machine_with_rules();
  journal::Session session(machine, header(machine, 25.0, 48.0));
  training::BatchJudge judge(machine);
  run(session, judge, 220);
  training::Condition met;
  met.op = training::Op::row_met;
  met.text = "warm";
  training::Condition waiting;
  waiting.op = training::Op::cooling_is;
  waiting.text = "quick";
  waiting.of = "waiting";
  const std::vector<machine::Event> quiet;
  CHECK(training::holds(met, {machine, session.state(), quiet, &judge}));
  CHECK(training::holds(waiting, {machine, session.state(), quiet, &judge}));
  CHECK_FALSE(training::holds(met, {machine, session.state(), quiet}));
  CHECK_FALSE(training::holds(waiting, {machine, session.state(), quiet}));
  CHECK_FALSE(training::needs_event(met));
}
