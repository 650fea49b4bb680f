#include <doctest/doctest.h>

#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "sim_core/journal/journal.h"
#include "sim_core/machine/fault_readings.h"
#include "tests/app/library/fault_work_run.h"

// Instruments, causes, repairs and the proof as hands in a run of the shipped machine. The readings are held
// against Ohm's law over the plates' own figures; who may do what is common practice of licensed trades.
using namespace fault_work;

namespace {

// The multimeter's own statement: +-(0.9 % + 2 digits) of a last digit of 0.1 Ohm.
bool shows_Ohm(double shown, double right) { return std::abs(shown - right) <= 0.009 * right + 0.25; }

}  // namespace

TEST_CASE("ohms across the heater terminals find the open element, and the repair mends it") {
  Run run({{"element_1_open", 1.0}});
  run.isolate_and_prove();
  run.act(hands::take_tool("multimeter"));
  run.act(hands::set_meter("Ohm"));
  // Elements of 2 kW at 400 V in delta: R = U^2 / P = 80 Ohm. Element 1 lies between terminals 1 and 2: what
  // is left there are the two others in series, 160 Ohm; across a good element there is nothing beside it, 80
  // Ohm.
  CHECK(shows_Ohm(run.ohms("X2.1", "X2.2"), 160.0));
  CHECK(shows_Ohm(run.ohms("X2.2", "X2.3"), 80.0));
  CHECK(shows_Ohm(run.ohms("X2.3", "X2.1"), 80.0));
  for (const std::uint32_t lapse : run.state().work.lapses) CHECK(lapse == 0);

  CHECK(machine::faults_left(shipped_machine(), run.state()) == 1);
  run.act(hands::name_cause("element_1_open"));
  CHECK(machine::causes_found(run.state()) == 1);
  CHECK(machine::causes_missed(run.state()) == 0);
  run.act(hands::repair("element_1_open"));
  CHECK(machine::faults_left(shipped_machine(), run.state()) == 0);
  CHECK(run.state().work.needless_repairs == 0);
  CHECK(shows_Ohm(run.ohms("X2.1", "X2.2"), 80.0 * 160.0 / 240.0));  // 80 beside 160
  run.act(hands::probes_off());
  run.give_back();
  CHECK_FALSE(run.refused(hands::prove()).empty());
  run.act(hands::press("heat"));
  run.run(70.0);
  CHECK(run.state().contactors.heat_norm == doctest::Approx(1.0));
  run.act(hands::prove());
  CHECK(run.state().work.proved);
  // 45 min of repair, panel off and on, isolator, lock, readings: the work clock counts them beside the run's
  // own minutes.
  CHECK(machine::work_min(run.state()) > 45.0 + 10.0 + 3.0);
  CHECK(machine::work_min(run.state()) < 90.0);
}

TEST_CASE("the journal of such a run replays to the same state, readings and all") {
  Run run({{"heater_line_lost", 1.0}});
  run.isolate_and_prove();
  run.act(hands::take_tool("multimeter"));
  run.act(hands::set_meter("continuity"));
  run.ohms("B2.22", "X2.2");
  run.act(hands::name_cause("heater_line_lost"));
  run.run(3.0);
  const journal::ReplayResult again = run.replays();
  CHECK(again.state.work.reading.over_range == run.state().work.reading.over_range);
}

TEST_CASE("ohms on a live circuit blow the meter's fuse, which then shows nothing where there is voltage") {
  Run run({}, faults::Who::electrician);
  run.act(hands::put_on("face_shield"));
  run.act(hands::take_panel_off());
  run.act(hands::take_tool("multimeter"));
  run.act(hands::red_probe("X1.1"));
  run.act(hands::black_probe("X1.2"));
  CHECK(run.state().work.reading.value == doctest::Approx(400.0).epsilon(0.02));
  CHECK(run.lapses(Lapse::ohms_live) == 0);
  run.act(hands::set_meter("Ohm"));
  CHECK(run.lapses(Lapse::ohms_live) == 1);
  CHECK(run.state().work.fuse_blown);
  run.act(hands::set_meter("V~"));
  CHECK(run.state().work.reading.value == 0.0);  // the trap: 400 V are there
  run.act(hands::new_fuse());
  run.act(hands::look_at_reading());
  CHECK(run.state().work.reading.value == doctest::Approx(400.0).epsilon(0.02));
}

TEST_CASE("a circuit that comes alive under an ohmmeter's probes blows its fuse too") {
  Run run({});
  run.isolate_and_prove();
  run.act(hands::take_tool("multimeter"));
  run.act(hands::set_meter("Ohm"));
  run.ohms("X1.1", "X1.2");
  CHECK_FALSE(run.state().work.fuse_blown);
  run.act(hands::remove_lock("you"));
  run.act(hands::isolate(false));
  run.run(1.5);
  CHECK(run.state().work.fuse_blown);
  CHECK(run.lapses(Lapse::ohms_live) == 1);
}

TEST_CASE("omitted precautions are counted: no lock, not proved dead, no licence, uncovered eyes") {
  Run technician({}, faults::Who::technician);
  technician.act(hands::take_panel_off());
  technician.act(hands::take_tool("multimeter"));
  technician.act(hands::red_probe("X1.1"));
  technician.act(hands::black_probe("X1.2"));
  CHECK(technician.lapses(Lapse::live_unlicensed) == 1);

  Run bare({}, faults::Who::electrician);
  bare.act(hands::take_panel_off());
  bare.act(hands::take_tool("multimeter"));
  bare.act(hands::red_probe("X3.1"));
  bare.act(hands::black_probe("X3.2"));
  CHECK(bare.lapses(Lapse::live_unprotected) == 0);  // 24 V: extra-low voltage
  bare.act(hands::red_probe("X1.1"));
  bare.act(hands::black_probe("X1.2"));
  CHECK(bare.lapses(Lapse::live_unprotected) == 2);  // 231 V to the earthed return on the way, then 400 V

  Run unlocked({{"element_2_open", 1.0}});
  unlocked.act(hands::isolate(true));
  unlocked.run(90.0);
  unlocked.act(hands::take_panel_off());
  unlocked.act(hands::take_tool("multimeter"));
  unlocked.act(hands::set_meter("Ohm"));
  unlocked.ohms("X2.1", "X2.2");
  CHECK(unlocked.lapses(Lapse::no_lock) == 1);
  unlocked.act(hands::repair("element_2_open"));
  CHECK(unlocked.lapses(Lapse::no_lock) == 2);
  CHECK(unlocked.lapses(Lapse::not_proved) == 1);
}

TEST_CASE("a repair in a live panel is a shock, and so is a live wire taken off") {
  Run repair({{"element_1_open", 1.0}});
  repair.act(hands::take_panel_off());
  repair.act(hands::repair("element_1_open"));
  CHECK(repair.state().injured);
  CHECK(repair.state().injury == machine::HarmId::live_terminals);

  Run wire({});
  wire.act(hands::take_panel_off());
  wire.act(hands::take_wire_off("10"));
  CHECK(wire.state().injured);
  // 230 V to earth on one line of a 400 V supply with its star point earthed.
  CHECK(wire.state().harms[static_cast<std::size_t>(machine::HarmId::live_terminals)].severity ==
        doctest::Approx(400.0 / std::sqrt(3.0)).epsilon(1e-6));

  Run low({});
  low.act(hands::take_panel_off());
  low.act(hands::take_wire_off("117"));  // a coil's return at 24 V
  CHECK_FALSE(low.state().injured);
  CHECK(low.refused(hands::isolate(true)).empty());
}

TEST_CASE("an insulation test that reaches the controller kills it; with its wires off it does not") {
  Run run({});
  run.isolate_and_prove();
  run.act(hands::take_tool("insulation_tester"));
  run.act(hands::red_probe("M1.U"));
  run.act(hands::black_probe("X5.1"));
  CHECK(run.lapses(Lapse::electronics) == 0);
  CHECK(run.state().work.reading.value ==
        doctest::Approx(200.0e6).epsilon(0.05));  // the plate's insulation, all windings together
  run.act(hands::red_probe("A1.H2"));
  CHECK(run.lapses(Lapse::electronics) == 1);
  CHECK(machine::faults_left(shipped_machine(), run.state()) == 1);
  run.act(hands::probes_off());
  run.give_back();
  CHECK_FALSE(run.state().plant.circuit.supplied.controller_on);
}

TEST_CASE("licensed work is refused with its reason, and what is one's own is not handed off") {
  Run run({{"heater_coil_open", 1.0}}, faults::Who::technician);
  run.act(hands::press("heat"));
  run.run(5.0);
  CHECK(run.refused(hands::repair("heater_coil_open")).find("licensed electrician") != std::string::npos);
  CHECK(run.refused(hands::repair("no_such_thing")).find("no_such_thing") != std::string::npos);
  CHECK_FALSE(run.refused(hands::hand_off("lid_seal_gone")).empty());
}

TEST_CASE(
    "a needless repair costs its parts and removes no fault; a new part removes every fault that the old one "
    "had") {
  Run run({{"heater_contactor_pole", 1.0}});
  run.isolate_and_prove();
  run.act(hands::name_cause("element_short"));
  run.act(hands::repair("element_short"));
  CHECK(machine::faults_left(shipped_machine(), run.state()) == 1);
  CHECK(run.state().work.needless_repairs == 1);
  CHECK(run.state().work.needless_parts_min == doctest::Approx(120.0));
  CHECK(machine::causes_wrong(run.state()) == 1);
  CHECK(machine::causes_missed(run.state()) == 1);
  // Coil and contacts are one contactor.
  run.act(hands::repair("heater_coil_open"));
  CHECK(machine::faults_left(shipped_machine(), run.state()) == 0);
  // Element 2 is not element 1, though both are the same part.
  Run other({{"element_2_open", 1.0}});
  other.isolate_and_prove();
  other.act(hands::repair("element_1_open"));
  CHECK(machine::faults_left(shipped_machine(), other.state()) == 1);
}

TEST_CASE("a breaker is reset and trips again as long as its cause is there") {
  Run run({{"element_short", 0.5}});
  run.act(hands::press("heat"));
  run.run(3.0);
  const int breaker = shipped_machine().plant.circuit.part("F1");
  CHECK(run.state().plant.circuit.gear.is_tripped(breaker));
  CHECK_FALSE(run.refused(hands::reset_breaker("F1")).empty());  // behind the panel
  run.isolate_and_prove();
  run.act(hands::reset_breaker("F1"));
  CHECK_FALSE(run.state().plant.circuit.gear.is_tripped(breaker));
  run.give_back();
  run.act(hands::press("heat"));
  run.run(3.0);
  CHECK(run.state().plant.circuit.gear.is_tripped(breaker));
}

TEST_CASE("faults are picked by the seed, within their own range, and the journal holds the result") {
  machine::StartSetup setup;
  setup.drawn = {{"supply_low", "heater_joint_loose", "element_1_open", "lid_seal_gone"}, 2};
  std::set<std::string> seen;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    machine::StartSetup one = setup;
    one.seed = seed;
    machine::StartSetup same = one;
    bench::pick_random_faults(shipped_machine(), one);
    bench::pick_random_faults(shipped_machine(), same);
    REQUIRE(one.faults.size() == 2);
    CHECK(one.faults[0].id != one.faults[1].id);
    CHECK(one.drawn.from.empty());
    for (std::size_t i = 0; i < 2; ++i) {
      CHECK(one.faults[i].id == same.faults[i].id);
      CHECK(one.faults[i].severity == same.faults[i].severity);
      const faults::Fault& known =
          shipped_machine().faults[static_cast<std::size_t>(shipped_machine().fault_index(one.faults[i].id))];
      CHECK(one.faults[i].severity >= known.severity_low);
      CHECK(one.faults[i].severity <= known.severity_high);
      seen.insert(one.faults[i].id);
    }
    bench::initial_state(shipped_machine(), one);
  }
  CHECK(seen.size() == 4);
}

TEST_CASE("a misuse put right by hand leaves no fault, and is named like one") {
  Run run({{"lid_not_shut", 1.0}}, faults::Who::technician);
  CHECK(machine::faults_left(shipped_machine(), run.state()) == 1);
  run.act(hands::close_lid());
  CHECK(machine::faults_left(shipped_machine(), run.state()) == 0);
  run.act(hands::name_cause("lid_not_shut"));
  CHECK(machine::causes_found(run.state()) == 1);
  run.act(hands::press("stop"));
  run.act(hands::press("stir"));
  run.run(65.0);
  run.act(hands::prove());
}
