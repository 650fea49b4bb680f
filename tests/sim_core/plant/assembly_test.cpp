#include "sim_core/plant/upkeep/assembly.h"

#include <doctest/doctest.h>

#include <numbers>
#include <vector>

#include "sim_core/plant/upkeep/assembly_effects.h"
#include "tests/sim_core/plant/machine.h"
#include "tests/support/assembly_rules.h"
#include "tests/support/dice.h"

// Taking draw valve and agitator apart: rules of order, nothing lost, everything can be put back; and what
// missing and bad parts do.
using namespace stirbench;
using namespace stirbench::plant;
using stirbench::tests::assembly_rules;
using stirbench::tests::Rig;

namespace {

using test_support::Dice;

// Every thing is in exactly one place: a groove or seat, the hand, or the tray.
bool nothing_lost(const AssemblyState& a) {
  for (std::size_t item = 0; item < item_count; ++item) {
    int seen = a.hand == static_cast<int>(item) ? 1 : 0;
    for (const auto at : a.at) seen += at == static_cast<int>(item) ? 1 : 0;
    seen += on_tray(a, static_cast<int>(item)) ? 1 : 0;
    if (seen != 1) return false;
  }
  return true;
}

// One random try of a hand; returns whether it was let do something.
bool random_hand(const AssemblySpec& spec, AssemblyState& a, Dice& dice, bool& through) {
  const auto part = static_cast<PartId>(dice.below(part_count));
  switch (dice.below(4)) {
    case 0:
      if (!why_not_off(spec, a, part).empty()) return false;
      for (std::size_t i = 0; i < part_count; ++i)
        if (spec.rules[static_cast<std::size_t>(part)].behind.has(static_cast<PartId>(i)) && a.at[i] >= 0)
          through = true;
      take_off(a, part);
      return true;
    case 1: {
      const int item = static_cast<int>(dice.below(item_count));
      if (a.hand >= 0 || !on_tray(a, item)) return false;
      pick_up(a, item);
      return true;
    }
    case 2:
      if (!why_not_on(spec, a, part).empty()) return false;
      put_on(a, part);
      return true;
    default: lay_down(a); return true;
  }
}

// Everything out, then everything of its own back in, by hands alone; false when hands are stuck.
bool put_right(const AssemblySpec& spec, AssemblyState& a) {
  lay_down(a);
  for (std::size_t round = 0; round < part_count; ++round)
    for (std::size_t i = 0; i < part_count; ++i)
      if (why_not_off(spec, a, static_cast<PartId>(i)).empty()) take_off(a, static_cast<PartId>(i));
  for (const auto at : a.at)
    if (at >= 0) return false;
  for (std::size_t round = 0; round < part_count; ++round)
    for (std::size_t i = 0; i < part_count; ++i) {
      if (a.at[i] >= 0) continue;
      pick_up(a, static_cast<int>(i));
      // What would be in the way of another one later waits.
      bool blocks = false;
      for (std::size_t j = 0; j < part_count; ++j)
        blocks = blocks || (a.at[j] < 0 && j != i && spec.rules[j].behind.has(static_cast<PartId>(i)));
      if (!blocks && why_not_on(spec, a, static_cast<PartId>(i)).empty())
        put_on(a, static_cast<PartId>(i));
      else
        lay_down(a);
    }
  for (std::size_t i = 0; i < part_count; ++i)
    if (a.at[i] != static_cast<int>(i)) return false;
  return true;
}

// The draw line dripping for a minute, valve shut, agitator at rest.
struct Dripped {
  double pail_kg = 0.0;
  double leaked_kg = 0.0;  // past the rear ring to the floor
};
Dripped drip(const AssemblyState& assembly, double opening = 0.0) {
  Rig rig([] {
    plant::MachineSpec spec = tests::hm45_spec();
    spec.assembly = assembly_rules();
    return spec;
  }());
  rig.state.assembly = assembly;
  rig.pour(tests::white_base(), 40.0, 5.0);
  rig.state.fittings.draw_opening_norm = opening;
  rig.run(tests::nothing, 60.0);
  const double all = rig.state.product.total_kg() + rig.state.pail.total_kg() + rig.state.floor_kg +
                     rig.state.masses.evaporated_kg + rig.state.soil.film.total_kg();
  CHECK(all == doctest::Approx(40.0).epsilon(1e-9));
  CHECK(rig.residual_norm() < 1e-3);
  return {rig.state.pail.total_kg(), rig.state.masses.spilled_kg};
}

AssemblyState with(PartId place, PartHealth health) {
  AssemblyState a = assembled();
  a.items[static_cast<std::size_t>(place)].health = health;
  return a;
}
AssemblyState without(std::initializer_list<PartId> places) {
  AssemblyState a = assembled();
  for (const PartId p : places) a.at[static_cast<std::size_t>(p)] = -1;
  return a;
}

Rig stirred(const AssemblyState& assembly, double seconds) {
  plant::MachineSpec spec = tests::hm45_spec();
  spec.assembly = assembly_rules();
  Rig rig(spec);
  rig.state.assembly = assembly;
  rig.pour(tests::white_base(), 40.0, 20.0);
  rig.run(tests::stir_only, seconds);
  return rig;
}

}  // namespace

TEST_CASE("random actions: nothing passes what blocks it, nothing is lost, every state can be restored") {
  const AssemblySpec spec = assembly_rules();
  Dice dice{20240611};
  int done = 0;
  bool through = false;
  std::size_t apart = 0;
  for (int order = 0; order < 10000; ++order) {
    AssemblyState a = assembled();
    for (int hand = 0; hand < 40; ++hand) {
      done += random_hand(spec, a, dice, through) ? 1 : 0;
      REQUIRE(nothing_lost(a));
    }
    REQUIRE_FALSE(through);
    for (const auto at : a.at) apart += at < 0 ? 1U : 0U;
    REQUIRE(put_right(spec, a));
    REQUIRE(look_over(spec, a).missing == 0);
  }
  CHECK(done > 50000);
  CHECK(apart > 5000);  // the hands did take things apart
}

TEST_CASE("reasons name what is in the way") {
  const AssemblySpec spec = assembly_rules();
  AssemblyState a = assembled();
  PartId blocker = PartId::count;
  CHECK(why_not_off(spec, a, PartId::agitator, &blocker) == "Another part is in its way.");
  CHECK(blocker == PartId::guard_cover);
  take_off(a, PartId::guard_cover);
  CHECK(why_not_off(spec, a, PartId::agitator) == "");
  take_off(a, PartId::agitator);
  pick_up(a, static_cast<int>(PartId::guard_cover));
  CHECK(why_not_on(spec, a, PartId::guard_cover, &blocker) == "The part that carries it is not there.");
  CHECK(blocker == PartId::agitator);
  CHECK(why_not_on(spec, a, PartId::sleeve_cap) == "Something is there already.");
  CHECK(why_not_on(spec, a, PartId::agitator) == "What you hold does not go there.");
  CHECK(why_not_off(spec, a, PartId::valve_handle) == "Your hands are full. Lay down what you hold first.");
  CHECK(why_not_off(AssemblySpec{}, a, PartId::agitator) == "This machine has no such part.");
}

TEST_CASE("the final inspection counts what is missing, swapped, worn, dry and left over") {
  const AssemblySpec spec = assembly_rules();
  AssemblyState a = assembled();
  CHECK(look_over(spec, a).none());
  take_off(a, PartId::valve_handle);
  CHECK(look_over(spec, a).missing == 1);
  CHECK(look_over(spec, a).left_over == 1);
  a = assembled();
  std::swap(a.at[static_cast<std::size_t>(PartId::oring_front)],
            a.at[static_cast<std::size_t>(PartId::oring_rear)]);
  CHECK(look_over(spec, a).misplaced == 2);
  a = assembled();
  a.at[static_cast<std::size_t>(PartId::oring_front)] =
      static_cast<std::int8_t>(find_item("new_oring_front"));
  CHECK(look_over(spec, a).dry == 1);  // a new ring comes dry
  CHECK(look_over(spec, a).left_over == 0);
  CHECK(look_over(spec, with(PartId::agitator_bushing, PartHealth::worn)).worn == 1);
}

TEST_CASE("flow through a ring gap is the slot formula's, with the third power of the gap") {
  // Q = pi d c^3 dp / (12 mu L): laminar slot flow (Bird, Stewart & Lightfoot, Transport Phenomena, narrow
  // slit), unrolled. From memory.
  CHECK(ring_gap_flow_m3_per_s(0.02, 1e-4, 0.01, 5000.0, 0.02) ==
        doctest::Approx(std::numbers::pi * 0.02 * 1e-12 * 5000.0 / (12.0 * 0.02 * 0.01)).epsilon(1e-12));
  CHECK(ring_gap_flow_m3_per_s(0.02, 2e-4, 0.01, 5000.0, 0.02) ==
        doctest::Approx(8.0 * ring_gap_flow_m3_per_s(0.02, 1e-4, 0.01, 5000.0, 0.02)));
  CHECK(ring_gap_flow_m3_per_s(0.02, 0.0, 0.01, 5000.0, 0.02) == 0.0);
  CHECK(ring_gap_flow_m3_per_s(0.02, 1e-4, 0.01, -5.0, 0.02) == 0.0);
}

TEST_CASE(
    "a shut valve drips: no O-ring more than a cracked, that more than a worn one, a good one not at all") {
  const double none = drip(without({PartId::oring_front})).pail_kg;
  const double cracked = drip(with(PartId::oring_front, PartHealth::cracked)).pail_kg;
  const double worn = drip(with(PartId::oring_front, PartHealth::worn)).pail_kg;
  const double good = drip(assembled()).pail_kg;
  CHECK(none > 4.0 * cracked);
  CHECK(cracked > 2.0 * worn);
  CHECK(worn > 0.0);
  CHECK(good == 0.0);
  // The rear one's ring in the front groove is smaller: it drips too, less than a worn one.
  AssemblyState swapped = assembled();
  std::swap(swapped.at[static_cast<std::size_t>(PartId::oring_front)],
            swapped.at[static_cast<std::size_t>(PartId::oring_rear)]);
  const double wrong = drip(swapped).pail_kg;
  CHECK(wrong > 0.0);
  CHECK(wrong < worn);
}

TEST_CASE("without plunger it runs out, without spring or nut it does not shut") {
  const double open = drip(assembled(), 1.0).pail_kg;
  // As from an open valve, but for the air that comes in by the open end (half the prime).
  const double out = drip(without({PartId::valve_plunger})).pail_kg;
  CHECK(out > 0.7 * open);
  CHECK(out < open);
  const double drift = drip(without({PartId::valve_spring})).pail_kg;
  CHECK(drift > drip(without({PartId::oring_front})).pail_kg);
  CHECK(drift < open);
  CHECK(drift == doctest::Approx(drip(assembled(), 0.15).pail_kg).epsilon(1e-6));
  CHECK_FALSE(valve_can_be_turned(without({PartId::valve_handle})));
  CHECK(valve_can_be_turned(without({PartId::valve_spring})));
}

TEST_CASE("without the rear O-ring product runs to the floor while drawing, and the pump takes air") {
  CHECK(drip(without({PartId::oring_rear})).leaked_kg == 0.0);  // shut, and the front ring good
  const double good = drip(assembled(), 0.3).leaked_kg;
  const double worn = drip(with(PartId::oring_rear, PartHealth::worn), 0.3).leaked_kg;
  const double none = drip(without({PartId::oring_rear}), 0.3).leaked_kg;
  CHECK(none > worn);
  CHECK(worn > good);
  Rig rig = stirred(without({PartId::oring_rear}), 60.0);
  CHECK(rig.state.prime_norm == 1.0);
  rig.state.fittings.draw_opening_norm = 0.5;
  rig.run(tests::stir_only, 10.0);
  CHECK(rig.state.prime_norm == doctest::Approx(0.6));
  rig.state.fittings.draw_opening_norm = 0.0;
  rig.run(tests::stir_only, 20.0);
  CHECK(rig.state.prime_norm == 1.0);
}

TEST_CASE("bushings: none wears faster than a cracked one, that than a good one; current and noise follow") {
  const auto measure = [](const AssemblyState& a) { return stirred(a, 600.0).state; };
  const PlantState good = measure(assembled());
  const PlantState cracked = measure(with(PartId::agitator_bushing, PartHealth::cracked));
  const PlantState none = measure(without({PartId::agitator_bushing}));
  CHECK(none.agitator_bushing.play_mm > cracked.agitator_bushing.play_mm);
  CHECK(cracked.agitator_bushing.play_mm > good.agitator_bushing.play_mm);
  CHECK(none.flows.motor_A > cracked.flows.motor_A);
  CHECK(cracked.flows.motor_A > good.flows.motor_A);
  plant::MachineSpec spec = tests::hm45_spec();
  spec.assembly = assembly_rules();
  CHECK(noise_dB(spec, none) > noise_dB(spec, cracked));
  CHECK(noise_dB(spec, cracked) > noise_dB(spec, good));
  CHECK(noise_dB(spec, good) == doctest::Approx(52.0));
  AssemblyState bronze = assembled();
  bronze.at[static_cast<std::size_t>(PartId::agitator_bushing)] =
      static_cast<std::int8_t>(find_item("other_agitator_bushing"));
  CHECK(measure(bronze).agitator_bushing.play_mm > good.agitator_bushing.play_mm);
}

TEST_CASE("without the sleeve cap product runs into the shaft, and the shaft end suffers") {
  const PlantState good = stirred(assembled(), 1200.0).state;
  const PlantState open = stirred(without({PartId::sleeve_cap}), 1200.0).state;
  CHECK(good.assembly.shaft_product_kg == 0.0);
  CHECK(open.assembly.shaft_product_kg ==
        doctest::Approx(0.2 / 3.0).epsilon(0.02));  // 20 minutes at 0.2 kg/h
  CHECK(open.shaft_end_bushing.play_mm > 1.5 * good.shaft_end_bushing.play_mm);
}

TEST_CASE(
    "a worn shaft end whirls: its cap no longer seals, and what the sleeve cannot hold drips on the floor") {
  const auto leaked = [](double play_mm) {
    Rig rig(tests::hm45_spec());
    rig.spec.assembly = assembly_rules();
    rig.pour(tests::plain_water(), 30.0, 20.0);
    rig.state.shaft_end_bushing.play_mm = play_mm;
    rig.run(tests::stir_only, 3600.0);
    CHECK(std::abs(mass_residual_kg(rig.state)) < 1.0e-9);
    return rig.state;
  };
  CHECK(leaked(0.29).assembly.shaft_product_kg == 0.0);
  const PlantState worn = leaked(0.45);
  // Half open: 0.1 kg in the hour, of which the sleeve holds 0.06.
  CHECK(worn.assembly.shaft_product_kg == doctest::Approx(0.1).epsilon(0.02));
  CHECK(worn.floor_kg == doctest::Approx(0.04).epsilon(0.05));
  CHECK(leaked(0.6).floor_kg > 2.0 * worn.floor_kg);
}

TEST_CASE("without the agitator the shaft turns light, nothing is sheared, and the wall takes less heat") {
  const PlantState good = stirred(assembled(), 60.0).state;
  const PlantState none = stirred(without({PartId::guard_cover, PartId::agitator}), 60.0).state;
  CHECK(none.coefficients.agitator_torque_Nm == 0.0);
  CHECK(none.flows.motor_A < good.flows.motor_A);
  CHECK(none.coefficients.vat_wall_W_per_K < good.coefficients.vat_wall_W_per_K);
  CHECK(none.flows.circulation_L_per_min > 0.0);  // the pump has its own belt
}

TEST_CASE(
    "O-rings wear with the strokes of the handle, dry ones twenty times as fast; a new bushing has no play") {
  plant::MachineSpec spec = tests::hm45_spec();
  spec.assembly = assembly_rules();
  PlantState state = initial_state(spec, {});
  for (int stroke = 0; stroke < 100; ++stroke) {
    state.fittings.draw_opening_norm = stroke % 2 == 0 ? 1.0 : 0.0;
    advance_assembly(spec, state, 1.0);
  }
  const double greased = state.assembly.items[static_cast<std::size_t>(PartId::oring_front)].wear;
  CHECK(greased == doctest::Approx(100.0 / 2.0e4));
  state.assembly.items[static_cast<std::size_t>(PartId::oring_front)].greased = false;
  state.fittings.draw_opening_norm = 1.0;
  advance_assembly(spec, state, 1.0);
  CHECK(state.assembly.items[static_cast<std::size_t>(PartId::oring_front)].wear - greased ==
        doctest::Approx(1.0 / 1.0e3));

  state.agitator_bushing.play_mm = 0.7;
  state.assembly.at[static_cast<std::size_t>(PartId::agitator)] = -1;
  take_part_off(spec, state, PartId::agitator_bushing);
  pick_up(state.assembly, find_item("new_agitator_bushing"));
  put_part_on(spec, state, PartId::agitator_bushing);
  CHECK(state.agitator_bushing.play_mm == 0.0);
  take_part_off(spec, state, PartId::agitator_bushing);
  pick_up(state.assembly, find_item("agitator_bushing"));
  put_part_on(spec, state, PartId::agitator_bushing);
  CHECK(state.agitator_bushing.play_mm == 0.7);  // the old one as it was
}
