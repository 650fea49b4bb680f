#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "sim_core/journal/journal.h"
#include "sim_core/machine/fault_readings.h"
#include "tests/app/library/fault_work_run.h"

// A fault handed to a colleague: made safe first, then called, locked out by them too, worked on, given back.
using namespace fault_work;
using machine::HandOverStage;

namespace {

void lock_out(Run& run) {
  run.act(hands::press("stop"));
  run.run(5.0);
  run.act(hands::isolate(true));
  run.act(hands::fit_lock("you"));
  run.act(hands::take_key());
  run.act(hands::fit_tag("you"));
}

HandOverStage stage(Run& run) { return run.state().work.hand_over.stage; }

// Minutes from the call until it was given back; 0: it never was.
double given_back_after_min(const std::string& suspected, const std::string& fault) {
  Run run({{fault, 1.0}}, faults::Who::technician);
  lock_out(run);
  run.act(hands::hand_off(suspected));
  const double called_s = machine::time_s(run.state());
  for (int i = 0; i < 150 && stage(run) != HandOverStage::given_back; ++i) run.run(60.0);
  if (stage(run) != HandOverStage::given_back) return 0.0;
  CHECK(machine::faults_left(shipped_machine(), run.state()) == 0);
  return (machine::time_s(run.state()) - called_s) / 60.0;
}

}  // namespace

TEST_CASE("nobody is called to a machine that runs, or that is not made safe") {
  Run run({{"heater_coil_open", 1.0}}, faults::Who::technician);
  const hands::Action call = hands::hand_off("heater_coil_open");
  run.act(hands::press("stir"));
  run.run(5.0);
  CHECK(run.refused(call).find("It still runs") != std::string::npos);
  run.act(hands::press("stop"));
  run.run(5.0);
  CHECK(run.refused(call).find("Isolate it first") != std::string::npos);
  run.act(hands::isolate(true));
  CHECK(run.refused(call).find("padlock") != std::string::npos);
  run.act(hands::fit_lock("you"));
  CHECK(run.refused(call).find("padlock") != std::string::npos);  // its key is still in it
  run.act(hands::take_key());
  CHECK(run.refused(call).find("tag") != std::string::npos);
  run.act(hands::fit_tag("you"));
  CHECK(run.refused(call).empty());
  // Called once is enough.
  run.act(call);
  CHECK(stage(run) == HandOverStage::called);
  CHECK(run.refused(call).find("on the way") != std::string::npos);
}

TEST_CASE("an operator stops, isolates and tags; to hang a padlock is a technician's") {
  Run run({{"heater_coil_open", 1.0}}, faults::Who::anyone);
  run.act(hands::isolate(true));
  CHECK_FALSE(run.refused(hands::hand_off("not_known")).empty());
  run.act(hands::fit_tag("you"));
  CHECK(run.refused(hands::hand_off("not_known")).empty());
  CHECK(run.refused(hands::hand_off("no_such_thing")).find("no_such_thing") != std::string::npos);
}

TEST_CASE("the colleague works behind a padlock of their own, and nobody else switches on or opens it") {
  Run run({{"heater_coil_open", 1.0}}, faults::Who::technician);
  lock_out(run);
  run.act(hands::hand_off("heater_coil_open"));
  CHECK(machine::causes_found(run.state()) == 1);  // what is reported is named
  run.run(60.0 * (machine::licensed_comes_min - 1.0));
  CHECK(stage(run) == HandOverStage::called);
  CHECK(machine::faults_left(shipped_machine(), run.state()) == 1);
  run.run(120.0);
  CHECK(stage(run) == HandOverStage::here);
  CHECK(run.state().lockout.colleagues.on);
  run.act(hands::remove_tag("you"));
  run.act(hands::remove_lock("you"));
  CHECK(run.refused(hands::isolate(false)).find("colleague") != std::string::npos);
  CHECK(run.refused(hands::remove_lock("colleague")).find("colleague") != std::string::npos);
  CHECK_FALSE(run.refused(hands::take_panel_off()).empty());
  CHECK_FALSE(run.refused(hands::repair("lid_seal_gone")).empty());
  CHECK(machine::faults_left(shipped_machine(), run.state()) == 1);
  run.run(30.0 * 60.0);
  CHECK(stage(run) == HandOverStage::given_back);
  CHECK_FALSE(run.state().lockout.colleagues.on);
  CHECK(machine::faults_left(shipped_machine(), run.state()) == 0);
  CHECK(run.state().work.repairs == 1);
  // It is handed back dark, and has to be seen running.
  CHECK_FALSE(run.state().plant.fittings.isolator_on);
  CHECK_FALSE(run.refused(hands::prove()).empty());
  run.act(hands::isolate(false));
  run.run(5.0);
  run.act(hands::press("stop"));
  run.act(hands::press("heat"));
  run.run(65.0);
  run.act(hands::prove());
  CHECK(run.state().work.proved);
}

TEST_CASE(
    "a wrong suspicion, or none, costs the colleague's search and no part; the fault is mended all the "
    "same") {
  const double right_min = given_back_after_min("heater_coil_open", "heater_coil_open");
  const double wrong_min = given_back_after_min("heat_output_dead", "heater_coil_open");
  const double unknown_min = given_back_after_min("not_known", "heater_coil_open");
  // 20 min to come, 30 of work (content/faults/heater_coil_open.json).
  CHECK(right_min == doctest::Approx(50.0).epsilon(0.03));
  CHECK(wrong_min == doctest::Approx(right_min + machine::colleague_search_min).epsilon(0.02));
  CHECK(unknown_min == doctest::Approx(wrong_min).epsilon(0.02));
}

TEST_CASE("what was switched on again before they came is isolated by the colleague") {
  Run run({{"heater_coil_open", 1.0}}, faults::Who::technician);
  lock_out(run);
  run.act(hands::hand_off("heater_coil_open"));
  run.act(hands::remove_tag("you"));
  run.act(hands::remove_lock("you"));
  run.act(hands::isolate(false));
  run.run(60.0 * (machine::licensed_comes_min + 1.0));
  CHECK(stage(run) == HandOverStage::here);
  CHECK(run.state().work.hand_over.found_switched_on);
  CHECK_FALSE(run.state().plant.fittings.isolator_on);
}

TEST_CASE("a hand-over replays from its journal to the same state") {
  Run run({{"heater_coil_open", 1.0}}, faults::Who::technician);
  lock_out(run);
  run.act(hands::report_finding("Look at the lid", false));
  run.act(hands::hand_off("heat_output_dead"));
  run.run(60.0 * 100.0);
  CHECK(stage(run) == HandOverStage::given_back);
  run.replays();
}

TEST_CASE("a name can be taken back and given anew; what was reported stays") {
  Run run({{"heater_coil_open", 1.0}}, faults::Who::technician);
  CHECK_FALSE(run.refused(hands::take_back_name("element_short")).empty());
  run.act(hands::name_cause("element_short"));
  CHECK(machine::causes_wrong(run.state()) == 1);
  run.act(hands::take_back_name("element_short"));
  CHECK(machine::causes_wrong(run.state()) == 0);
  CHECK(run.state().work.names_taken_back == 1);
  run.act(hands::name_cause("heater_coil_open"));
  lock_out(run);
  run.act(hands::hand_off("heater_coil_open"));
  CHECK(run.refused(hands::take_back_name("heater_coil_open")).find("reported") != std::string::npos);
}
