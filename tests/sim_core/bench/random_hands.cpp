#include "tests/sim_core/bench/random_hands.h"

#include "sim_core/bench/run.h"
#include "sim_core/explore/explore.h"
#include "sim_core/explore/safety_watch.h"
#include "sim_core/faults/safety.h"
#include "sim_core/hands/handles.h"
#include "sim_core/machine/random.h"
#include "sim_core/plant/electrical_link.h"
#include "tests/support/dice.h"

namespace stirbench::bench_test {

using namespace machine;
using namespace bench;
using namespace explore;
using hands::Action;

namespace {

using test_support::Dice;

Action random_action(Dice& dice, const State& state) {
  const plant::PlantState& plant = state.plant;
  switch (dice.below(12)) {
    case 0:
    case 1: return plant.fittings.lid_open ? hands::close_lid() : hands::open_lid();
    case 2: return plant.fittings.shaft_cover_open ? hands::close_shaft_cover() : hands::open_shaft_cover();
    case 3:
      return plant.safety.emergency_stop_in ? hands::release_emergency_stop() : hands::press_emergency_stop();
    case 4: return hands::isolate(plant.fittings.isolator_on);
    case 5: {
      const hands::HandOf<>* tests[] = {&hands::test_overload, &hands::test_cutout, &hands::test_pressure};
      if (plant.overload_tripped) return hands::reset_overload();
      return plant.cutout_tripped ? hands::reset_cutout() : (*tests[dice.below(3)])();
    }
    case 6: return hands::acknowledge("all");
    default: {
      // Stop more often than any other.
      const std::size_t key = dice.below(control::key_count + 3);
      const double held_s = 0.1 * static_cast<double>(1 + dice.below(6));
      return hands::press(
          control::key_name(key < control::key_count ? static_cast<control::Key>(key) : control::Key::stop),
          held_s);
    }
  }
}

Action start_action(Dice& dice) {
  constexpr control::Key keys[] = {control::Key::heat, control::Key::chill, control::Key::stir,
                                   control::Key::rinse};
  return hands::press(control::key_name(keys[dice.below(4)]));
}

}  // namespace

RandomHands random_hands(const Machine& machine, std::uint64_t seed, std::uint64_t count,
                         const std::vector<std::uint64_t>& allowed) {
  RandomHands result;
  const State sound = initial_state(machine, {});
  std::vector<State> faulty;
  for (const faults::SafetyFault& fault : faults::safety_faults()) {
    StartSetup setup;
    setup.faults = {{std::string(fault.id), 1.0}};
    faulty.push_back(initial_state(machine, setup));
  }
  const auto wiring = std::make_shared<electrics::SwitchingTable>(plant::switching_table(machine.plant));
  for (std::uint64_t i = 0; i < count; ++i) {
    Dice dice{(seed + i) * 0xd1342543de82ef95ULL};
    const bool has_fault = i % 3 == 2;
    const std::size_t fault = dice.below(faulty.size());
    Run run(machine, has_fault ? faulty[fault] : sound);
    const State& state = run.state();
    SafetyWatch watch(machine, wiring);
    bool ran = false;
    for (int a = 0; a < 12; ++a) {
      std::vector<Action> hands = {random_action(dice, state)};
      if (a == 0 && i % 2 == 0) hands.back() = start_action(dice);
      if (dice.below(4) == 0) hands.push_back(random_action(dice, state));
      result.actions += hands.size();
      for (const Action& action : hands) run.act(action);
      const std::size_t ticks = 1 + dice.below(5);
      for (std::size_t t = 0; t < ticks; ++t) {
        watch.see(state, run.step());
        ++result.ticks;
        ran = ran || control::mode_moves(state.control.mode);
      }
    }
    ++result.sequences;
    result.runs += ran ? 1 : 0;
    for (const Breach& breach : watch.breaches()) {
      const bool expected = has_fault && (allowed[fault] & invariant_bit(breach.invariant)) != 0;
      if (expected || !result.first_wrong.empty()) continue;
      result.first_wrong = "sequence " + std::to_string(seed + i) + ", tick " + std::to_string(breach.tick) +
                           ", " +
                           (has_fault ? std::string(faults::safety_faults()[fault].id) : "sound parts") +
                           ": " + std::string(invariant_id(breach.invariant));
    }
  }
  return result;
}

std::vector<std::uint64_t> allowed_by_exploration(const Machine& machine) {
  std::vector<std::uint64_t> allowed;
  electrics::SwitchingTable wiring = plant::switching_table(machine.plant);
  for (const faults::SafetyFault& fault : faults::safety_faults()) {
    explore::ExplorationRequest question;
    question.scope = {.recipe = false, .fingers = 2, .wire = true};
    question.wiring = &wiring;
    fault.apply(question.parts, 1.0);
    allowed.push_back(explore::explore(machine, question).broken);
  }
  return allowed;
}

}  // namespace stirbench::bench_test
