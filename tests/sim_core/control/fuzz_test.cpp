#include <doctest/doctest.h>

#include "tests/sim_core/control/rig.h"

// Random hands against invariants that hold whatever they do.

using namespace stirbench::control_test;

namespace {

// A small linear congruential stream (Knuth's MMIX constants), so that the test has no state of the project's
// own.
struct Dice {
  std::uint64_t word;
  std::uint32_t roll(std::uint32_t sides) {
    word = word * 6364136223846793005ULL + 1442695040888963407ULL;
    return static_cast<std::uint32_t>(word >> 33) % sides;
  }
};

void shuffle_inputs(Rig& rig, Dice& dice) {
  for (auto& key : rig.panel.key) {
    if (dice.roll(20) == 0) key = !key;
  }
  auto& r = rig.readings;
  if (dice.roll(40) == 0) r.lid_closed = !r.lid_closed;
  if (dice.roll(60) == 0) r.shaft_cover_closed = !r.shaft_cover_closed;
  if (dice.roll(r.overload_tripped ? 30 : 300) == 0) r.overload_tripped = !r.overload_tripped;
  if (dice.roll(r.cutout_tripped ? 30 : 300) == 0) r.cutout_tripped = !r.cutout_tripped;
  if (dice.roll(r.pressure_tripped ? 30 : 300) == 0) r.pressure_tripped = !r.pressure_tripped;
  if (dice.roll(r.supply_on ? 400 : 20) == 0) r.supply_on = !r.supply_on;
  if (dice.roll(15) == 0) r.probe_degC = dice.roll(100);
  rig.panel.confirm = dice.roll(30) == 0;
  if (dice.roll(100) == 0) rig.panel.choose_recipe = static_cast<std::int32_t>(dice.roll(3)) - 1;
  if (dice.roll(100) == 0) {
    rig.panel.set_target = true;
    rig.panel.target_degC = static_cast<double>(dice.roll(140)) - 20.0;
  }
}

struct Memory {
  bool moved = false;  // outputs of the scan before
  bool latched = false;
  std::array<bool, key_count> keys{};
};

void check_invariants(const Rig& rig, const Memory& before) {
  const auto& r = rig.readings;
  const bool any_cause = !r.lid_closed || !r.shaft_cover_closed || r.overload_tripped || r.cutout_tripped ||
                         r.pressure_tripped || !r.supply_on;
  const bool quiet = rig.still();
  // No drive, no heat, no cold while a cause is present or an alarm latched.
  if (any_cause) REQUIRE(quiet);
  if (any_cause) REQUIRE(rig.relays_still());
  if (any_latched(rig.state)) REQUIRE(quiet);
  if (!mode_moves(rig.state.mode)) REQUIRE(quiet);
  const auto pressed = [&](Key key) {
    const auto i = static_cast<std::size_t>(key);
    return rig.panel.key[i] && !before.keys[i];
  };
  const bool start_edge = pressed(Key::heat) || pressed(Key::chill) || pressed(Key::stir) ||
                          pressed(Key::run) || pressed(Key::rinse);
  // From rest to motion only by a fresh press of a start key in this very scan, with Stop up.
  const bool moves = mode_moves(rig.state.mode);
  if (moves && !before.moved) {
    REQUIRE(start_edge);
    REQUIRE_FALSE(rig.panel.key[static_cast<std::size_t>(Key::stop)]);
    REQUIRE_FALSE(before.latched);
  }
  // A latch goes only as Stop is let go.
  if (before.latched && !any_latched(rig.state)) {
    const auto stop = static_cast<std::size_t>(Key::stop);
    REQUIRE((before.keys[stop] && !rig.panel.key[stop]));
    REQUIRE_FALSE(any_cause);
    REQUIRE_FALSE((moves && !start_edge));
  }
  // Heat only with the agitator turning, never together with cold.
  if (rig.outputs.heat_norm > 0.0) REQUIRE((rig.outputs.drive && !rig.outputs.chill));
  if (rig.outputs.chill) REQUIRE(rig.outputs.drive);
  // The recipe's place stays inside the recipe.
  REQUIRE(rig.state.phase < static_cast<std::int32_t>(rig.recipes[0].phases.size()));
  REQUIRE(rig.state.recipe < static_cast<std::int32_t>(rig.recipes.size()));
}

}  // namespace

TEST_CASE("random keys, guards, trips and power cuts never break the rules of stopping") {
  int starts = 0;
  int clears = 0;
  int latches = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    CAPTURE(seed);
    Rig rig;
    Dice dice{seed};
    for (int tick = 0; tick < 20000; ++tick) {
      CAPTURE(tick);
      const Memory before{mode_moves(rig.state.mode), any_latched(rig.state), rig.panel.key};
      shuffle_inputs(rig, dice);
      // scan() clears the one-shot entries; the keys stay for the check.
      rig.scan();
      check_invariants(rig, before);
      starts += mode_moves(rig.state.mode) && !before.moved ? 1 : 0;
      latches += any_latched(rig.state) && !before.latched ? 1 : 0;
      clears += !any_latched(rig.state) && before.latched ? 1 : 0;
    }
  }
  // The dice must have reached what the invariants speak of.
  CHECK(starts > 500);
  CHECK(latches > 500);
  CHECK(clears > 500);
}
