#include <doctest/doctest.h>

#include <stdexcept>

#include "sim_core/journal/journal.h"
#include "tests/sim_core/hands/table.h"

// Faults of the safety parts on the whole machine: each behaves as the parts are wired
// (plant/wiring/switching.h).
using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench;
using namespace stirbench::journal;
using namespace stirbench::bench_test;

namespace {

StartSetup with_fault(const char* id, double severity = 1.0) {
  StartSetup setup;
  setup.loaded = {{"whole_milk", 30.0, 5.0}};
  setup.faults = {{id, severity}};
  return setup;
}

struct FaultyTable : Table {
  explicit FaultyTable(const char* id, double severity = 1.0) {
    state = initial_state(machine, with_fault(id, severity));
  }
  bool turns() const { return state.plant.flows.agitator_rpm > 5.0; }
  bool heats() const { return state.plant.flows.heaters_W > 0.0; }
  void start(const char* key) { step({press(key)}, 30); }
};

}  // namespace

TEST_CASE("reed stuck or magnet taped: the lid opens and nothing stops; a hand that goes in is hurt") {
  for (const char* fault : {"lid_reed_stuck", "lid_magnet_taped"}) {
    FaultyTable t(fault);
    t.start("stir");
    t.step({hands::open_lid()}, 20);
    CHECK(t.turns());
    CHECK_FALSE(t.happened(EventKind::alarm_raised));
    t.step({hands::reach_in()});
    CHECK(t.harmed(HarmId::moving_agitator));
  }
}

TEST_CASE("shaft cover's switch stuck or taped: the cover comes off and nothing stops; the lid still stops") {
  for (const char* fault : {"cover_switch_stuck", "cover_switch_taped"}) {
    FaultyTable t(fault);
    t.start("stir");
    t.step({hands::open_shaft_cover()}, 20);
    CHECK(t.turns());
    t.step({hands::open_lid()}, 20);
    CHECK_FALSE(t.turns());
  }
}

TEST_CASE(
    "welded drive contactor: it turns by itself, guard and Stop do not help, emergency stop and isolator "
    "do") {
  for (const char* way : {"emergency", "isolate"}) {
    FaultyTable t("drive_contactor_welded");
    t.step({}, 30);
    CHECK(t.turns());
    t.step({press("stop"), hands::open_lid()}, 30);
    CHECK(t.turns());
    if (std::string(way) == "emergency")
      t.step({hands::press_emergency_stop()}, 30);
    else
      t.step({hands::isolate(true)}, 30);
    CHECK_FALSE(t.turns());
  }
}

TEST_CASE("welded heat contactor: it heats on over the target until the cut-out takes it") {
  FaultyTable t("heat_contactor_welded");
  t.step({}, 3);
  CHECK(t.heats());
  t.step({press("stop")}, 10);
  CHECK(t.heats());
  t.step({hands::test_cutout()}, 2);
  CHECK_FALSE(t.heats());
}

TEST_CASE("a bridged cut-out lets a welded heat contactor go past its limit") {
  FaultyTable t("cutout_bridged");
  t.step({hands::test_cutout()}, 3);
  CHECK_FALSE(t.state.plant.cutout_tripped);
  CHECK_FALSE(t.happened(EventKind::alarm_raised));
  t.state.plant.well_wall_degC = t.machine.plant.elements.cutout_degC + 20.0;
  t.step();
  CHECK_FALSE(t.state.plant.cutout_tripped);
}

TEST_CASE("wire of the guard loop broken: a normally closed loop stops") {
  FaultyTable t("guard_wire_broken");
  t.step({press("stir")}, 30);
  CHECK_FALSE(t.turns());
  CHECK(t.state.control.alarms[static_cast<std::size_t>(control::AlarmId::lid_guard)].active);
  CHECK(t.state.control.alarms[static_cast<std::size_t>(control::AlarmId::shaft_cover_guard)].active);
}

TEST_CASE(
    "a loose wire stops the machine from time to time, with both guards as first alarms, and can be "
    "cleared") {
  FaultyTable t("guard_wire_loose");
  t.start("stir");
  t.step({}, 400);
  CHECK_FALSE(t.turns());
  CHECK(t.happened(EventKind::alarm_raised, "lid_guard"));
  CHECK(t.happened(EventKind::alarm_raised, "shaft_cover_guard"));
  t.step({press("stop")}, 10);
  CHECK_FALSE(control::any_latched(t.state.control));
  t.start("stir");
  CHECK(t.turns());
}

TEST_CASE(
    "emergency stop with a contact that does not open does nothing; with a welded contactor the controller "
    "still stops") {
  FaultyTable stuck("emergency_contact_stuck");
  stuck.start("stir");
  stuck.step({hands::press_emergency_stop()}, 30);
  CHECK(stuck.turns());
  FaultyTable welded("emergency_contactor_welded");
  welded.start("stir");
  welded.step({hands::press_emergency_stop()}, 30);
  CHECK_FALSE(welded.turns());
}

TEST_CASE(
    "keys: a dead Stop stops nothing, a stuck one lets nothing start, a stuck start key starts nothing by "
    "itself") {
  FaultyTable dead("stop_key_dead");
  dead.start("stir");
  dead.step({press("stop")}, 30);
  CHECK(dead.turns());
  FaultyTable stuck("stop_key_stuck");
  stuck.start("stir");
  CHECK_FALSE(stuck.turns());
  for (const char* key : {"heat_key_stuck", "stir_key_stuck", "run_key_stuck"}) {
    FaultyTable t(key);
    t.step({}, 10);
    CHECK_FALSE(t.turns());
    t.step({hands::isolate(true)}, 20);
    t.step({hands::isolate(false)}, 20);
    t.step({press("stop")}, 30);
    CHECK_FALSE(t.turns());
  }
}

TEST_CASE("the test buttons trip what they belong to; each alarm follows and goes by its own reset") {
  Table t;
  t.fill();
  t.step({press("heat")}, 20);
  t.step({hands::test_overload()}, 3);
  CHECK(t.happened(EventKind::alarm_raised, "drive_overload"));
  CHECK(t.why(hands::test_overload()) == "The overload relay has already tripped.");
  t.step({hands::reset_overload()}, 2);
  t.step({press("stop")}, 6);
  CHECK(t.happened(EventKind::alarm_cleared, "drive_overload"));
  t.step({hands::test_cutout()}, 3);
  CHECK(t.happened(EventKind::alarm_raised, "over_temperature"));
  t.step({press("stop")}, 6);
  CHECK_FALSE(t.happened(EventKind::alarm_cleared, "over_temperature"));
  t.step({hands::reset_cutout()}, 2);
  t.step({press("stop")}, 6);
  CHECK(t.happened(EventKind::alarm_cleared, "over_temperature"));
  t.step({hands::test_pressure()}, 3);
  CHECK(t.happened(EventKind::alarm_raised, "chiller_pressure"));
}

TEST_CASE("the meter behind a contactor shows what reaches the load; an emergency stop is not isolation") {
  FaultyTable t("drive_contactor_welded");
  t.step({press("stop")}, 10);
  CHECK(load_terminals_V(t.machine, t.state, LoadTerminals::drive) ==
        doctest::Approx(t.machine.plant.supply_V));
  CHECK(load_terminals_V(t.machine, t.state, LoadTerminals::heater) == 0.0);
  t.step({hands::press_emergency_stop()}, 10);
  CHECK(load_terminals_V(t.machine, t.state, LoadTerminals::drive) == 0.0);
  CHECK(terminals_V(t.machine, t.state) == doctest::Approx(t.machine.plant.supply_V));
  t.step({hands::isolate(true)}, 10);
  CHECK(terminals_V(t.machine, t.state) == 0.0);
}

TEST_CASE("a cut of the supply stops all, and its return starts nothing") {
  Table t;
  StartSetup setup;
  setup.loaded = {{"whole_milk", 30.0, 5.0}};
  setup.situation.power_cut_at_s = 5.0;
  setup.situation.power_cut_for_s = 3.0;
  t.state = initial_state(t.machine, setup);
  t.step({press("stir")}, 40);
  CHECK(t.state.plant.flows.agitator_rpm > 5.0);
  t.step({}, 20);
  CHECK(t.happened(EventKind::other_person, "power_failed"));
  CHECK(t.state.control.mode == control::Mode::off);
  t.step({}, 60);
  CHECK(t.happened(EventKind::other_person, "power_back"));
  CHECK(t.happened(EventKind::alarm_raised, "power_returned"));
  CHECK(t.state.plant.environment.supply_norm == 1.0);
  CHECK(t.state.plant.flows.agitator_rpm < 1.0);
}

TEST_CASE("faults and power cut come back from a journal, and the replay verifies") {
  const Machine machine = small_kitchen_machine();
  SessionHeader header;
  header.machine = machine.plant.id;
  header.mode = "free";
  header.program = "0";
  header.start = with_fault("guard_wire_loose", 0.5);
  header.start.faults.push_back({"stop_key_dead", 1.0});
  header.start.situation.power_cut_at_s = 70.0;
  header.start.situation.power_cut_for_s = 2.5;
  std::string text;
  Session session(machine, header, [&text](std::string_view record) { text += record; });
  for (int i = 0; i < 900; ++i) {
    if (i == 5) session.act(press("stir"));
    if (i == 700) session.act(hands::acknowledge("all"));
    session.step();
  }
  session.end();
  Journal journal;
  REQUIRE(read_journal(text, journal).message == "");
  REQUIRE(journal.header.start.faults.size() == 2);
  CHECK(journal.header.start.faults[0].id == "guard_wire_loose");
  CHECK(journal.header.start.faults[0].severity == 0.5);
  CHECK(journal.header.start.situation.power_cut_for_s == 2.5);
  const ReplayResult result = replay(machine, journal);
  CHECK(result.message == "");
  CHECK(result.verified);
}

TEST_CASE("a start with an unknown fault cannot be built") {
  const Machine machine = small_kitchen_machine();
  CHECK_THROWS_WITH_AS(initial_state(machine, with_fault("gremlin")), "faults: there is no fault \"gremlin\"",
                       std::invalid_argument);
}
