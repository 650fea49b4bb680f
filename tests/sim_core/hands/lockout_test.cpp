#include <doctest/doctest.h>

#include <cmath>
#include <stdexcept>

#include "sim_core/journal/journal.h"
#include "sim_core/machine/fields.h"
#include "tests/sim_core/hands/safe_table.h"

using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench;
using namespace stirbench::journal;
using namespace stirbench::bench_test;
using L = LockoutStep;

namespace {

// 29 CFR 1910.147(d): prepare, shut down, isolate, lock and tag, let stored energy out, verify.
void lock_out(SafeTable& t) {
  t.step({hands::read_energies(), hands::tell_people("lockout"), press("stop")}, 5);
  t.step({hands::isolate(true), hands::fit_lock("you"), hands::take_key(), hands::fit_tag("you")});
  t.wait_s(60.0);
  t.step({hands::release_energy("heat"), hands::release_energy("hose"), hands::release_energy("spring"),
          hands::release_energy("capacitor"), hands::release_energy("refrigerant")});
  t.step({press("stir")}, 10);
  t.step({hands::take_panel_off(), hands::measure("known_source"), hands::measure("terminals"),
          hands::measure("known_source")});
}

// (e): inspect, tell, each the own lock, restore.
void bring_back(SafeTable& t) {
  t.step({hands::put_panel_on(), hands::inspect(), hands::tell_people("restart"), hands::remove_tag("you"),
          hands::remove_lock("you"), hands::isolate(false)});
}

StartSetup with(Scenario situation) {
  StartSetup setup;
  setup.situation = situation;
  return setup;
}

}  // namespace

TEST_CASE("the whole procedure: every step done, in order, nobody hurt") {
  SafeTable t;
  lock_out(t);
  CHECK(verified_dead(t.state.lockout));
  CHECK(energies_released_norm(t.machine, t.state) == 1.0);
  t.step({hands::begin_work("panel")}, 100);
  t.step({hands::end_work()});
  bring_back(t);
  for (std::size_t i = 0; i < lockout_step_count; ++i) {
    const auto step = static_cast<L>(i);
    CAPTURE(lockout_step_key(step));
    CHECK(t.done(step));
    CHECK(t.in_order(step));
  }
  CHECK(t.state.plant.fittings.isolator_on);
  CHECK_FALSE(t.state.injured);
}

TEST_CASE("each step left out shows: work is then not in order") {
  // The step left out, and how the actions are told apart.
  for (int left_out = 0; left_out < 9; ++left_out) {
    CAPTURE(left_out);
    SafeTable t;
    const auto unless = [&](int number, std::vector<hands::Action> actions) {
      if (number != left_out) t.step(std::move(actions), 5);
    };
    unless(0, {hands::read_energies()});
    unless(1, {hands::tell_people("lockout")});
    t.step({press("stop")}, 5);
    t.step({hands::isolate(true)});
    unless(2, {hands::fit_lock("you")});
    unless(3, {hands::take_key()});
    unless(4, {hands::fit_tag("you")});
    t.wait_s(60.0);
    unless(5, {hands::release_energy("heat"), hands::release_energy("hose")});
    unless(6, {hands::release_energy("capacitor")});
    unless(7, {press("run")});
    t.step({hands::take_panel_off()});
    unless(8, {hands::measure("known_source"), hands::measure("terminals"), hands::measure("known_source")});
    t.step({hands::begin_work("panel")});
    CHECK(t.done(L::work_begun));
    CHECK_FALSE(t.in_order(L::work_begun));
  }
}

TEST_CASE("a running machine that is isolated was not stopped in an orderly way") {
  SafeTable t;
  t.step({hands::open_lid(), pour("whole_milk", 30.0, 5.0), hands::close_lid()});
  t.step({press("stir")}, 50);
  t.step({hands::isolate(true)});
  CHECK(t.done(L::isolated));
  CHECK_FALSE(t.in_order(L::isolated));
}

TEST_CASE("a padlock holds the isolator; only the own one comes off in peace") {
  SafeTable t;
  CHECK(t.why(hands::fit_lock("you")) == "A padlock goes on an isolator that is off. Turn it off first.");
  CHECK(t.why(hands::fit_lock("robot")) == "person is one of: you, colleague.");
  t.step({hands::isolate(true), hands::fit_lock("you")});
  CHECK(t.why(hands::isolate(false)) == "Your padlock holds the isolator. Take it off first.");
  t.step({hands::take_key()});
  CHECK(isolator_held(t.state.lockout));
  CHECK(t.why(hands::take_key()) == "You have the key in your pocket already.");
  t.step({hands::remove_lock("you"), hands::isolate(false)});
  CHECK(t.state.plant.fittings.isolator_on);
}

TEST_CASE("another person comes by: a padlock protects, nothing less does") {
  Scenario situation;
  situation.second_person_s = 30.0;
  const auto come_by = [&](std::vector<hands::Action> actions) {
    SafeTable t(with(situation));
    t.step({press("stop")}, 5);
    t.step(std::move(actions));
    t.wait_s(60.0);
    return t.state.plant.fittings.isolator_on;
  };
  const hands::Action off = hands::isolate(true);
  CHECK_FALSE(come_by({off, hands::fit_lock("you"), hands::take_key()}));
  CHECK(come_by({off}));
  CHECK(come_by({off, hands::fit_tag("you")}));                                // a tag alone
  CHECK(come_by({off, hands::fit_lock("you")}));                               // the key left in it
  CHECK(come_by({off, hands::fit_lock("colleague"), hands::fit_tag("you")}));  // another one's lock
}

TEST_CASE("hands in the panel when another person switches on: a shock without a lock, none with it") {
  Scenario situation;
  situation.second_person_s = 120.0;
  for (const bool locked : {false, true}) {
    CAPTURE(locked);
    SafeTable t(with(situation));
    t.step({press("stop")}, 5);
    t.step({hands::isolate(true)});
    if (locked) t.step({hands::fit_lock("you"), hands::take_key()});
    t.wait_s(60.0);
    t.step({hands::take_panel_off(), hands::begin_work("panel")});
    CHECK_FALSE(t.state.injured);
    t.wait_s(90.0);
    CHECK(t.state.injured == !locked);
    CHECK(t.harmed(HarmId::live_terminals) == !locked);
    CHECK(t.state.lockout.second_came);
  }
}

TEST_CASE("a panel opened with only Stop pressed is live, and so is a charged capacitor") {
  SafeTable t;
  t.step({press("stop")}, 5);
  t.step({hands::take_panel_off(), hands::measure("terminals")});
  CHECK(t.state.lockout.meter_V == doctest::Approx(t.machine.plant.supply_V));
  t.step({hands::begin_work("panel")});
  CHECK(t.harmed(HarmId::live_terminals));

  SafeTable charged;
  charged.step({hands::isolate(true), hands::take_panel_off()});
  CHECK(terminals_V(charged.machine, charged.state) == 0.0);
  charged.step({hands::begin_work("panel")});
  CHECK(charged.harmed(HarmId::live_terminals));
}

TEST_CASE("the capacitor empties as R C says, and the label's time is long enough") {
  // Closed form: V = sqrt(2) U exp(-t / RC), RC = 20 s.
  SafeTable t;
  t.step();
  const double peak_V = std::sqrt(2.0) * t.machine.plant.supply_V;
  CHECK(t.state.lockout.capacitor_V == doctest::Approx(peak_V));
  t.step({hands::isolate(true)});
  for (const double time_s : {10.0, 10.0, 25.0}) {
    t.wait_s(time_s);
    const double gone_s = static_cast<double>(t.state.tick - 1) * tick_s;
    CHECK(t.state.lockout.capacitor_V ==
          doctest::Approx(peak_V * std::exp(-gone_s / capacitor_tau_s)).epsilon(1e-9));
  }
  CHECK(peak_V * std::exp(-capacitor_label_s / capacitor_tau_s) < released_V);
  SafeTable early;
  early.step({hands::isolate(true)}, 20);
  CHECK(early.why(hands::release_energy("capacitor")).find("wait 60 s") != std::string::npos);
}

TEST_CASE("the wrong isolator: the start key answers, and the meter shows it") {
  SafeTable t;
  t.step({hands::open_lid(), pour("whole_milk", 30.0, 5.0), hands::close_lid()});
  t.step({press("stop")}, 5);
  t.step({hands::isolate_neighbour(true), hands::fit_lock("you"), hands::take_key()});
  CHECK_FALSE(isolator_held(t.state.lockout));
  CHECK_FALSE(t.done(L::locked));
  t.step({press("stir")}, 30);
  CHECK(t.state.plant.flows.agitator_rpm > 5.0);
  CHECK_FALSE(t.done(L::start_tried));
  t.step({hands::take_panel_off(), hands::measure("known_source"), hands::measure("terminals")});
  CHECK_FALSE(verified_dead(t.state.lockout));
  CHECK(t.state.lockout.meter_V > touch_V);
}

TEST_CASE("a try that a guard or the emergency stop answers proves nothing about the isolator") {
  SafeTable t;
  t.step({press("stop"), hands::isolate(true)});
  t.step({hands::open_lid(), press("stir")}, 10);
  CHECK_FALSE(t.done(L::start_tried));
  t.step({hands::close_lid(), hands::open_shaft_cover(), press("stir")}, 10);
  CHECK_FALSE(t.done(L::start_tried));
  t.step({hands::close_shaft_cover(), hands::press_emergency_stop(), press("stir")}, 10);
  CHECK_FALSE(t.done(L::start_tried));
  t.step({hands::release_emergency_stop(), press("stir")}, 10);
  CHECK(t.done(L::start_tried));
}

TEST_CASE("a stuck pole: nothing starts, only the meter finds it") {
  Scenario situation;
  situation.isolator_pole_stuck = true;
  SafeTable t(with(situation));
  lock_out(t);
  CHECK(t.done(L::start_tried));
  CHECK_FALSE(verified_dead(t.state.lockout));
  CHECK(terminals_V(t.machine, t.state) == doctest::Approx(t.machine.plant.supply_V / std::sqrt(3.0)));
  t.step({hands::begin_work("panel")});
  CHECK(t.harmed(HarmId::live_terminals));
}

TEST_CASE("a broken meter reads 0 V on live parts; the proof on a known source finds it") {
  Scenario situation;
  situation.meter_broken = true;
  SafeTable t(with(situation));
  t.step({hands::take_panel_off(), hands::measure("terminals")});
  CHECK(t.state.lockout.meter_V == 0.0);  // and yet they are live
  CHECK(terminals_V(t.machine, t.state) > touch_V);
  CHECK_FALSE(verified_dead(t.state.lockout));
  t.step({hands::measure("known_source")});
  CHECK_FALSE(t.done(L::meter_proved));
  CHECK(t.events.back().text.find("broken") != std::string::npos);
}

TEST_CASE("the supply that was back makes every proof void") {
  SafeTable t;
  lock_out(t);
  t.step({hands::remove_lock("you"), hands::isolate(false)});
  CHECK_FALSE(verified_dead(t.state.lockout));
  CHECK_FALSE(t.done(L::start_tried));
  CHECK_FALSE(t.done(L::restored));
}

TEST_CASE("two people: the colleague's lock stays until they have finished") {
  Scenario situation;
  situation.colleague_work_s = 120.0;
  const auto both = [&] {
    SafeTable t(with(situation));
    lock_out(t);
    return t;
  };
  SafeTable t = both();
  CHECK(t.state.lockout.colleague_working);
  t.step({hands::put_panel_on(), hands::remove_lock("you")});
  CHECK(t.why(hands::isolate(false)) ==
        "Your colleague's padlock holds the isolator. Only they take it off.");
  t.wait_s(120.0);
  CHECK(t.told("colleague_done"));
  CHECK(t.why(hands::isolate(false)) == "");
  t.step({hands::isolate(false)}, 5);
  CHECK_FALSE(t.state.injured);

  SafeTable cut = both();
  cut.step({hands::remove_lock("you"), hands::remove_lock("colleague"), hands::isolate(false)}, 3);
  CHECK(cut.harmed(HarmId::colleague_hurt));
}

TEST_CASE("hands that are in the machine can do nothing else") {
  SafeTable t;
  t.step({hands::open_lid(), hands::begin_work("vat")});
  CHECK(t.why(hands::close_lid()) == "Your hands are in the machine. Take them out first.");
  CHECK(t.why(press("stir")) == "Your hands are in the machine. Take them out first.");
  t.step({hands::end_work(), hands::close_lid()});
  CHECK_FALSE(t.state.plant.fittings.lid_open);
}

TEST_CASE("a hose on a closed end holds what the pump pressed into it") {
  SafeTable t;
  t.step({hands::open_lid(), pour("whole_milk", 30.0, 5.0), hands::close_lid()});
  t.step({}, 320);  // the line fills
  t.step({hands::freezer_inlet(false), hands::fit_hose("freezer"), press("stir")}, 50);
  t.step({valve(1.0)}, 100);
  t.step({valve(0.0), press("stop")}, 50);
  INFO(t.state.plant.freezer.line_bar);
  CHECK(t.state.plant.freezer.line_bar > released_bar);
  CHECK(t.state.plant.freezer.line_bar <= 0.5 + t.machine.plant.pump.shut_off_bar);
  SafeTable careful = t;
  t.step({hands::remove_hose()});
  CHECK(t.harmed(HarmId::hose_pressure));
  careful.step({hands::release_energy("hose"), hands::remove_hose()});
  CHECK_FALSE(careful.state.injured);
}

TEST_CASE("what a lesson sets up is written to the journal and read back from it") {
  const Machine machine = safe_machine();
  SessionHeader header;
  header.machine = machine.plant.id;
  header.start.situation = {
      .second_person_s = 12.5, .colleague_work_s = 3.0, .isolator_pole_stuck = true, .meter_broken = true};
  std::string text;
  Session session(machine, header, [&text](std::string_view line) { text += line; });
  session.act(hands::measure("known_source"));
  session.act(hands::add_chemical("acid", 0.5));
  for (int i = 0; i < 40; ++i) (void)session.step();
  session.end();
  Journal journal;
  REQUIRE(read_journal(text, journal).message == "");
  CHECK(journal.header.start.situation == header.start.situation);
  const ReplayResult result = replay(machine, journal);
  CHECK(result.verified);
  CHECK(first_difference(result.state, session.state()) == "");
  StartSetup wrong;
  wrong.situation.colleague_work_s = -1.0;
  CHECK_THROWS_AS((void)initial_state(machine, wrong), std::invalid_argument);
}
