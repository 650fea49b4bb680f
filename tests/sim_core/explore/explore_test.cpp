#include <doctest/doctest.h>

#include <set>

#include "sim_core/explore/explore.h"
#include "sim_core/explore/promela.h"
#include "sim_core/explore/safety_watch.h"
#include "sim_core/faults/safety.h"
#include "sim_core/journal/session.h"
#include "sim_core/plant/electrical_link.h"
#include "tests/sim_core/bench/machine_fixture.h"

using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::explore;
using namespace stirbench::journal;
namespace ex = stirbench::explore;

namespace {

const ex::ExplorationScope small{.recipe = false, .fingers = 1, .wire = true, .never = ex::no_trips};

std::set<std::string> fallen(const ex::ExplorationResult& answer) {
  std::set<std::string> ids;
  for (std::size_t i = 0; i < invariant_count; ++i) {
    if (!answer.holds(static_cast<Invariant>(i)))
      ids.insert(std::string(invariant_id(static_cast<Invariant>(i))));
  }
  return ids;
}

std::string joined(const std::set<std::string>& ids) {
  std::string text;
  for (const std::string& id : ids) text += (text.empty() ? "" : " ") + id;
  return text;
}

// Plays a sequence on the whole machine and says what the watch saw broken.
std::set<std::string> played(const Machine& machine, const std::vector<ex::Move>& moves,
                             const std::vector<StartSetup::Fault>& faults) {
  SessionHeader header;
  header.machine = machine.plant.id;
  header.mode = "free";
  header.program = "0";
  header.start.faults = faults;
  Session session(machine, header);
  SafetyWatch watch(machine);
  bool exact = true;
  const auto actions = ex::as_actions(moves, machine.recipes.front().id, 1.0, exact);
  std::size_t next = 0;
  for (std::uint64_t tick = 0; tick < 60; ++tick) {
    for (; next < actions.size() && actions[next].at_s * 10.0 <= static_cast<double>(tick) + 1.0e-6; ++next)
      session.act(actions[next].action);
    watch.see(session.state(), session.step());
  }
  watch.check_recovery(session.state());
  std::set<std::string> ids;
  for (const Breach& breach : watch.breaches()) ids.insert(std::string(invariant_id(breach.invariant)));
  return ids;
}

}  // namespace

TEST_CASE("a state survives its word: packing what was unpacked gives the same word") {
  const Machine machine = bench_test::small_kitchen_machine();
  const ex::ControllerModel rig = ex::controller_model(machine);
  ex::Word word = ex::pack(ex::first_node(rig));
  electrics::SwitchingTable wiring = plant::switching_table(machine.plant);
  ex::Mover mover(rig, {}, wiring);
  std::set<ex::Word> seen;
  std::uint64_t dice = 1;
  for (int i = 0; i < 4000; ++i) {
    dice = dice * 6364136223846793005ULL + 1442695040888963407ULL;
    ex::ExplorationNode node = ex::unpack(rig, word);
    REQUIRE(ex::pack(node) == word);
    bool possible = false;
    const auto& moves = ex::all_moves();
    mover.advance(ex::ground_truth(node), moves[(dice >> 33U) % moves.size()], node, possible);
    if (possible) word = ex::pack(node);
    seen.insert(word);
  }
  CHECK(seen.size() > 500);
}

TEST_CASE("with sound safety parts every invariant holds in every reachable state") {
  ex::ExplorationRequest question;
  // Without recipe and trips, so that it is quick; the whole of it: `stirbench explore`,
  // tests/bench/safety.cpp.
  question.scope = {.recipe = false, .fingers = 2, .never = ex::no_trips};
  const ex::ExplorationResult answer = ex::explore(bench_test::small_kitchen_machine(), question);
  MESSAGE(answer.states << " states, " << answer.transitions << " transitions");
  CHECK(answer.complete);
  CHECK(joined(fallen(answer)) == "");
  CHECK(answer.states > 3000);
  // And with the recipe, hands off everything else.
  question.scope = {.recipe = true,
                    .fingers = 1,
                    .never = ex::no_trips | ex::stimulus_bit(ex::Stimulus::open_cover) |
                             ex::stimulus_bit(ex::Stimulus::stop_in)};
  const ex::ExplorationResult recipe = ex::explore(bench_test::small_kitchen_machine(), question);
  MESSAGE(recipe.states << " states with the recipe");
  CHECK(joined(fallen(recipe)) == "");
}

TEST_CASE("each interlock rule, left out in turn, is missed by some invariant") {
  // The mutation table: test output with -s.
  const Machine machine = bench_test::small_kitchen_machine();
  for (std::size_t i = 0; i < control::interlock_rule_count; ++i) {
    const auto rule = static_cast<control::InterlockRule>(i);
    CAPTURE(control::interlock_rule_name(rule));
    ex::ExplorationRequest question;
    question.without = control::omitting(rule);
    question.stop_at_first =
        rule != control::InterlockRule::stop_acknowledges;  // shows only in what can no longer be reached
    question.scope = {.recipe = false, .fingers = 2};
    if (rule == control::InterlockRule::stop_acknowledges) question.scope = small;
    const ex::ExplorationResult answer = ex::explore(machine, question);
    CHECK_FALSE(fallen(answer).empty());
    MESSAGE(std::string(control::interlock_rule_name(rule)) << ": " << joined(fallen(answer)));
  }
}

TEST_CASE("faults of the safety parts: which invariants fall is what their wiring says") {
  const Machine machine = bench_test::small_kitchen_machine();
  struct Row {
    const char* fault;
    std::set<std::string> some;  // among those that fall
    std::set<std::string> not_these;
    std::uint64_t trip = 0;  // what else may happen
  };
  const Row rows[] = {
      {"lid_magnet_taped",
       {"no_motion_with_guard_open", "no_heat_with_guard_open", "interruption_is_told"},
       {"emergency_stop_cuts_all", "stop_stops"}},
      {"drive_contactor_welded",
       {"no_motion_with_guard_open", "stop_stops", "overload_takes_drive", "power_return_starts_nothing"},
       {"emergency_stop_cuts_all", "no_power_without_supply"},
       ex::stimulus_bit(ex::Stimulus::trip_overload)},
      {"heat_contactor_welded",
       {"no_heat_with_guard_open", "no_heat_without_circulation", "stop_stops"},
       {"cutout_takes_heat", "emergency_stop_cuts_all", "no_motion_with_guard_open"},
       ex::stimulus_bit(ex::Stimulus::trip_cutout)},
      {"guard_wire_broken", {"way_back_to_running"}, {"no_motion_with_guard_open", "stop_stops"}},
      {"emergency_contact_stuck", {"emergency_stop_cuts_all"}, {"stop_stops"}},
      {"emergency_contactor_welded", {"emergency_wiring_alone"}, {"emergency_stop_cuts_all"}},
      {"stop_key_dead", {"stop_stops"}, {"no_motion_with_guard_open"}},
      {"stop_key_stuck",
       {"way_back_to_running"},
       {"no_motion_with_guard_open", "no_restart_without_start_key"}},
      {"cutout_bridged",
       {"cutout_takes_heat"},
       {"no_motion_with_guard_open"},
       ex::stimulus_bit(ex::Stimulus::trip_cutout)},
  };
  for (const Row& row : rows) {
    CAPTURE(std::string(row.fault));
    ex::ExplorationRequest question;
    question.scope = small;
    question.scope.never &= ~row.trip;
    faults::find_safety_fault(row.fault)->apply(question.parts, 1.0);
    const ex::ExplorationResult answer = ex::explore(machine, question);
    REQUIRE(answer.complete);
    const std::set<std::string> ids = fallen(answer);
    INFO(joined(ids));
    for (const std::string& id : row.some) CHECK(ids.count(id) == 1);
    for (const std::string& id : row.not_these) CHECK(ids.count(id) == 0);
    // Each sequence does the same on the whole machine.
    for (const std::string& id : ids) {
      CAPTURE(id);
      const auto& moves = answer.sequences[static_cast<std::size_t>(find_invariant(id))];
      CHECK(played(machine, moves, {{row.fault, 1.0}}).count(id) == 1);
      CHECK(played(machine, moves, {}).count(id) == 0);
    }
  }
}

TEST_CASE("a stuck start key starts nothing by itself") {
  for (const char* fault : {"heat_key_stuck", "stir_key_stuck", "run_key_stuck"}) {
    ex::ExplorationRequest question;
    question.scope = small;
    faults::find_safety_fault(fault)->apply(question.parts, 1.0);
    const ex::ExplorationResult answer = ex::explore(bench_test::small_kitchen_machine(), question);
    INFO(joined(fallen(answer)));
    CHECK(answer.holds(Invariant::no_restart_without_start_key));
    CHECK(answer.holds(Invariant::power_return_starts_nothing));
  }
}

TEST_CASE("the Promela model names only rules and invariants that the code has") {
  CHECK(promela_model("gremlin") == "");
  for (const std::string_view rule : promela_rules()) {
    bool known = false;
    for (std::size_t i = 0; i < control::interlock_rule_count; ++i)
      known = known || control::interlock_rule_name(static_cast<control::InterlockRule>(i)) == rule;
    CHECK(known);
    CHECK(promela_model(rule).find("#define " + std::string(rule) + " false") != std::string::npos);
  }
  for (const std::string_view invariant : promela_invariants()) {
    CHECK((invariant == "stop_stops_all" || find_invariant(invariant) >= 0));
    CHECK(promela_model().find("assert(" + std::string(invariant) + ")") != std::string::npos);
  }
}
