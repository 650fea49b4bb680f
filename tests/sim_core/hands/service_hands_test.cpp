#include "sim_core/hands/part_states.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "sim_core/journal/journal.h"
#include "sim_core/journal/session.h"
#include "sim_core/plant/hose.h"
#include "sim_core/plant/upkeep/cleaning.h"
#include "sim_core/signals/signals.h"
#include "tests/sim_core/hands/table.h"

// Hands on the hose, washing, wear service: reasons, what is learnt, harm, and what a session may begin with.
using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench;
using namespace stirbench::signals;
using namespace stirbench::bench_test;
using plant::PartId;

namespace {

struct Washer : Table {
  Washer() {
    Chemical cleaner;
    cleaner.id = "cleaner";
    cleaner.kind = ChemicalKind::alkaline;
    cleaner.active_norm = 0.1;
    cleaner.use_low_norm = 0.003;
    cleaner.use_high_norm = 0.008;
    cleaner.irritant_norm = 0.005;
    cleaner.corrosive_norm = 0.02;
    Chemical sour = cleaner;
    sour.id = "descaler";
    sour.kind = ChemicalKind::acid;
    sour.active_norm = 0.3;
    sour.reactive_mol_per_kg = 10.2;
    Chemical chlorine = cleaner;
    chlorine.id = "sanitiser";
    chlorine.kind = ChemicalKind::chlorine;
    chlorine.active_norm = 0.06;
    chlorine.reactive_mol_per_kg = 14.1;
    chlorine.corrosive_norm = 0.05;
    chlorine.irritant_norm = 0.01;
    machine.chemicals = {cleaner, sour, chlorine};
    machine.plant.sanitiser = {{25.0, 49.0, 10.0}, {50.0, 38.0, 10.0}, {100.0, 13.0, 10.0}};
  }
  hands::Action dosed(const char* chemical, double kg) const { return hands::dose_vat(chemical, kg); }
  void dress() { step({hands::put_on("chemical_gloves"), hands::put_on("eye_protection")}); }
  double reading(const char* name) const { return find_signal(name)->value(machine, state); }
};

hands::Action turned(const char* part, bool clockwise) { return hands::unscrew(part, clockwise); }

}  // namespace

TEST_CASE("hose: pushed on, clamped, laid, drained; each with its reason") {
  Table t;
  t.fill();
  CHECK(t.why(hands::clamp_hose(true)) == "No hose is fitted.");
  CHECK(t.why(hands::push_hose_on("cup")).find("pail") != std::string::npos);
  t.step({hands::hose_gasket(false)});
  CHECK(t.why(hands::hose_gasket(false)) == "The gasket is out already.");
  t.step({hands::push_hose_on("freezer")});
  CHECK_FALSE(t.state.plant.line.clamped);
  CHECK(t.why(hands::hose_gasket(true)).find("inside the joint") != std::string::npos);
  CHECK(t.why(hands::drain_hose()) == "The hose is empty.");
  t.step({hands::clamp_hose(true), hands::route_hose("high")});
  CHECK(t.why(hands::route_hose("high")) == "It lies that way already.");
  CHECK(t.why(hands::route_hose("round")).find("straight") != std::string::npos);
  t.step({hands::route_hose("straight"), press("stir")}, 60);
  t.step({valve(0.4)}, 100);
  CHECK(t.why(hands::drain_hose()) == "Close the draw valve first.");
  CHECK(t.state.plant.line.leak_L_per_min > 0.0);
  t.step({valve(0.0)}, 20);
  const double held = t.state.plant.line.held.total_kg();
  REQUIRE(held > 0.3);
  Table spilt = t;
  t.step({hands::drain_hose(), hands::remove_hose()});
  CHECK_FALSE(t.happened(EventKind::spilled));
  spilt.step({hands::remove_hose()});
  REQUIRE(spilt.happened(EventKind::spilled));
  CHECK(spilt.state.plant.floor_kg > held);
}

TEST_CASE("an unclamped hose with hot product flies off and burns a person without protection") {
  Table t;
  t.fill(40.0, 80.0);
  t.step({press("stir")}, 60);
  REQUIRE(t.state.plant.well_degC > 70.0);
  t.step({hands::push_hose_on("freezer"), hands::freezer_inlet(false), valve(0.6)});
  for (int i = 0; i < 30 && !t.state.plant.line.jumped; ++i) t.step();
  REQUIRE(t.state.plant.line.jumped);
  CHECK(t.harmed(HarmId::hot_product));
  CHECK(t.state.injured);
}

TEST_CASE("washing by hand: dose, swab, brush, with reasons; concentrate and acid with chlorine hurt") {
  Washer t;
  CHECK(t.why(hands::swab("vat")) == "The lid is closed.");
  CHECK(t.why(hands::swab("roof")).find("vat") != std::string::npos);
  CHECK(t.why(hands::swab("valve")) == "Take the plunger out first.");
  CHECK(t.why(t.dosed("cleaner", 1.0)) == "The lid is closed.");
  t.step({hands::open_lid(), pour("whole_milk", 20.0, 5.0)});
  CHECK(t.why(hands::swab("vat")) == "The vat is not empty.");
  t.step({valve(1.0)}, 3000);
  REQUIRE(t.state.plant.product.total_kg() <= 0.0);
  t.step({hands::swab("vat")});
  CHECK(t.reading("swab_vat_ug") ==
        plant::swab_reading_ug(plant::vat_soil_ug(t.machine.plant, t.state.plant)));
  CHECK(t.reading("swab_vat_ug") > 1.0e4);
  CHECK(t.events.back().text.find("not clean") != std::string::npos);
  for (const char* part : {"valve_handle", "valve_nut", "valve_spring", "valve_plunger"})
    t.step({hands::take_part_off(part)});
  t.step({hands::swab("valve"), hands::pick_up("valve_plunger")});
  CHECK(t.reading("swab_valve_ug") > 3.0e5);
  CHECK(t.why(hands::brush()) == "The wash bucket is empty.");
  t.dress();
  t.step({hands::add_water(5.0), hands::add_chemical("cleaner", 0.25), hands::brush()});
  CHECK(t.state.plant.assembly.items[static_cast<std::size_t>(PartId::valve_plunger)].soil_norm < 0.021);
  CHECK_FALSE(t.state.injured);
  // The same without gloves and goggles.
  Washer bare;
  bare.step({hands::open_lid(), pour("water", 20.0, 40.0), bare.dosed("cleaner", 1.0)});
  CHECK(bare.harmed(HarmId::chemical_burn));
  Washer gas;
  gas.dress();
  gas.step({hands::open_lid(), pour("water", 20.0, 40.0), gas.dosed("sanitiser", 0.5),
            gas.dosed("descaler", 0.5)});
  CHECK(gas.harmed(HarmId::chemical_gas));
}

TEST_CASE("sanitising in the vat is seen by its contact time and by the germs") {
  Washer t;
  t.dress();
  t.state.plant.soil.germs_log10 = 4.0;
  t.step({hands::open_lid(), pour("water", 25.0, 25.0), t.dosed("sanitiser", 0.05), hands::close_lid(),
          press("stir")},
         300);
  CHECK(t.reading("chlorine_ppm") == doctest::Approx(120.0).epsilon(0.02));
  CHECK(t.reading("sanitiser_contact_s") > 20.0);
  CHECK(t.reading("germs_log10") < -0.9);
  Washer weak;
  weak.dress();
  weak.state.plant.soil.germs_log10 = 4.0;
  weak.step({hands::open_lid(), pour("water", 25.0, 25.0), weak.dosed("sanitiser", 0.005), hands::close_lid(),
             press("stir")},
            300);
  CHECK(weak.reading("sanitiser_contact_s") == 0.0);
  CHECK(weak.reading("germs_log10") > t.reading("germs_log10") + 2.0);
}

TEST_CASE(
    "threads and feeler: reached only with the lid open and the shaft at rest, and only with what is in the "
    "way off") {
  Table t;
  t.state.plant.agitator_bushing.play_mm = 0.31;
  CHECK(t.why(turned("agitator", true)) == "It does not sit on a thread.");
  CHECK(t.why(hands::feel_gap("agitator_bushing")) == "The lid is closed.");
  t.step({hands::open_lid()});
  CHECK(t.why(hands::feel_gap("agitator_bushing")) == "Guard cover is in the way. Take it off first.");
  t.step({hands::take_part_off("guard_cover"), hands::feel_gap("agitator_bushing")});
  CHECK(t.events.back().text ==
        "The 0.60 mm blade goes in, the next one does not: 0.300 mm of play to each side. The limit is 0.50 "
        "mm.");
  CHECK(t.why(hands::feel_gap("shaft_end_bushing")) == "Agitator is in the way. Take it off first.");
  t.step({hands::take_part_off("agitator"), hands::take_part_off("sleeve_cap"),
          turned("shaft_end_bushing", false)});
  CHECK(plant::in_place(t.state.plant.assembly, PartId::shaft_end_bushing));
  CHECK(t.events.back().text.find("the other way") != std::string::npos);
  t.step({turned("shaft_end_bushing", true)});
  CHECK_FALSE(plant::in_place(t.state.plant.assembly, PartId::shaft_end_bushing));
}

TEST_CASE("a session may begin with parts left in a bad state, and its journal says so") {
  Table t;
  StartSetup setup;
  setup.parts = {{"oring_front", "dry"},
                 {"oring_rear", "cracked"},
                 {"sleeve_cap", "missing"},
                 {"agitator_bushing", "worn"},
                 {"hose_gasket", "missing"}};
  const State state = initial_state(t.machine, setup);
  const plant::Shortcomings found = plant::look_over(t.machine.plant.assembly, state.plant.assembly);
  CHECK(found.missing == 1);
  CHECK(found.worn == 1);
  CHECK(found.dry == 1);
  CHECK(state.plant.agitator_bushing.play_mm > 0.5);
  CHECK_FALSE(state.plant.line.gasket);
  std::vector<StartSetup::Part> back;
  CHECK(hands::read_parts(hands::parts_text(setup.parts), back));
  REQUIRE(back.size() == setup.parts.size());
  CHECK(back[2].part == "sleeve_cap");
  CHECK(back[2].state == "missing");
  CHECK_FALSE(hands::read_parts("oring_front", back));
  setup.parts = {{"spoon", "worn"}};
  CHECK_THROWS(initial_state(t.machine, setup));
  setup.parts = {{"oring_front", "bent"}};
  CHECK_THROWS(initial_state(t.machine, setup));
  setup.parts = {{"agitator", "swapped"}};
  CHECK_THROWS(initial_state(t.machine, setup));
}

TEST_CASE("pump vanes: replaced in an open, empty machine at rest; new ones pump as before") {
  Table t;
  t.state.plant.vanes.wear_norm = 0.95;
  const Action vanes(*hands::find("replace_vanes"));
  CHECK(t.why(vanes) == "The lid is closed.");
  t.step({hands::open_lid(), pour("water", 20.0, 20.0)});
  CHECK(t.why(vanes) == "The pump stands under product. Drain the vat first.");
  Table empty;
  empty.state.plant.vanes.wear_norm = 0.95;
  empty.step({hands::open_lid(), vanes});
  const bool told = std::any_of(empty.events.begin(), empty.events.end(),
                                [](const Event& e) { return e.text.find("torn off") != std::string::npos; });
  CHECK(told);
  CHECK(empty.state.plant.vanes.wear_norm == 0.0);
}

TEST_CASE("shaft seal: replaced as the vanes are; a new one keeps tight") {
  Table t;
  t.state.plant.seal.wear_norm = 0.9;
  const Action seal(*hands::find("replace_seal"));
  CHECK(t.why(seal) == "The lid is closed.");
  t.step({hands::open_lid(), seal});
  const bool told = std::any_of(t.events.begin(), t.events.end(),
                                [](const Event& e) { return e.text.find("worn flat") != std::string::npos; });
  CHECK(told);
  CHECK(t.state.plant.seal.wear_norm == 0.0);
}
