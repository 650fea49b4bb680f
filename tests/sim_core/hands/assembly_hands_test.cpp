#include "sim_core/hands/part_hands.h"

#include <doctest/doctest.h>

#include "sim_core/signals/signals.h"
#include "tests/sim_core/hands/table.h"
#include "tests/support/assembly_rules.h"

// Hands on draw valve and agitator at the bench: guards, reasons, what is learnt, what can be done now.
using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::signals;
using namespace stirbench::bench_test;
using plant::PartId;

namespace {

struct Parts : Table {
  std::string off(const char* part) const { return why(hands::take_part_off(part)); }
  std::string on(const char* part) const { return why(hands::put_part_on(part)); }
};

}  // namespace

TEST_CASE("the vat's parts want the lid open and the shaft at rest; the valve's do not") {
  Parts t;
  t.fill(30.0);
  CHECK(t.off("guard_cover") == "The lid is closed.");
  CHECK(t.off("valve_handle") == "");
  t.step({press("stir")}, 50);
  REQUIRE(t.state.plant.shaft_rad_per_s > 0.0);
  t.step({hands::open_lid()});
  CHECK(t.off("guard_cover") == "The shaft still turns. Press Stop and wait.");
  t.step({}, 100);
  REQUIRE(t.state.plant.shaft_rad_per_s == 0.0);
  CHECK(t.off("guard_cover") == "");
  CHECK(t.off("agitator") == "Guard cover is in the way. Take it off first.");
  CHECK(t.off("spoon").find("part is one of: valve_handle") == 0);
}

TEST_CASE("strip and clean the draw valve: in order, with reasons, and the handle does nothing meanwhile") {
  Parts t;
  for (const char* part :
       {"valve_handle", "valve_nut", "valve_spring", "valve_plunger", "oring_front", "oring_rear"}) {
    CAPTURE(std::string(part));
    CHECK(t.off(part) == "");
    t.step({hands::take_part_off(part)});
    CHECK(t.happened(EventKind::acted, part));
  }
  CHECK(t.why(valve(0.5)).find("not put together") != std::string::npos);
  t.step({hands::look_over()});
  CHECK(t.events.back().text == "6 parts missing, 6 parts left over.");
  // A new front ring, lubricated; the rear one forgotten.
  t.step({hands::pick_up("new_oring_front")});
  CHECK(t.off("guard_cover") == "Your hands are full. Lay down what you hold first.");
  CHECK(t.on("valve_plunger") == "What you hold does not go there.");
  t.step({hands::grease()});
  CHECK(t.why(hands::grease()) == "It is lubricated already.");
  t.step({hands::put_part_on("oring_front")});
  t.step({hands::pick_up("valve_nut")});
  CHECK(t.on("valve_nut") == "Plunger must be in place first.");
  t.step({hands::lay_down()});
  for (const char* part : {"valve_plunger", "valve_spring", "valve_nut", "valve_handle"})
    t.step({hands::pick_up(part), hands::put_part_on(part)});
  CHECK(t.why(valve(0.5)) == "");
  t.step({hands::look_over()});
  CHECK(t.events.back().text == "1 part missing, 1 part left over.");
  t.step({hands::pick_up("oring_rear")});
  CHECK(t.on("oring_rear") == "Plunger is in the way. Take it off first.");
}

TEST_CASE("everything offered can be done, and nothing else is offered") {
  Parts t;
  t.step({hands::open_lid()});
  int offered = 0;
  for (int round = 0; round < 40; ++round) {
    const std::vector<hands::Action> now = hands::possible_part_work(t.machine, t.state);
    REQUIRE_FALSE(now.empty());
    for (const hands::Action& action : now) CHECK(t.why(action) == "");
    offered += static_cast<int>(now.size());
    // Each round another one of them.
    t.step({now[static_cast<std::size_t>(round * 7) % now.size()]});
    CHECK_FALSE(t.happened(EventKind::refused));
  }
  CHECK(offered > 200);
}

TEST_CASE(
    "a part taken off says what is wrong with it; hands and parts are in the state's hash and in the "
    "readings") {
  Parts t;
  t.state.plant.assembly.items[static_cast<std::size_t>(PartId::oring_front)].health =
      plant::PartHealth::cracked;
  for (const char* part : {"valve_handle", "valve_nut", "valve_spring", "valve_plunger"})
    t.step({hands::take_part_off(part)});
  const State before = t.state;
  t.step({hands::take_part_off("oring_front")});
  CHECK(t.events.back().text == "It is cracked.");
  CHECK(first_difference(before, t.state) != "");
  const auto reading = [&](const char* name) { return find_signal(name)->value(t.machine, t.state); };
  CHECK(reading("oring_front_off") == 1.0);
  CHECK(reading("oring_rear_off") == 0.0);
  CHECK(reading("parts_missing") == 5.0);
}

TEST_CASE("how a part comes off is said with its thread and tool") {
  const plant::AssemblySpec rules = tests::assembly_rules();
  const auto words = [&](PartId part) { return hands::how_off(rules.rules[static_cast<std::size_t>(part)]); };
  CHECK(words(PartId::shaft_end_bushing) == "Unscrew it clockwise: a left-hand thread. You need a spanner.");
  CHECK(words(PartId::valve_nut) == "Unscrew it anticlockwise: a right-hand thread. You need a spanner.");
  CHECK(words(PartId::agitator_bushing).find("press") != std::string::npos);
}
