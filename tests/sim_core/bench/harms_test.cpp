#include <doctest/doctest.h>

#include "sim_core/machine/spills.h"
#include "tests/sim_core/hands/safe_table.h"

using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench_test;

TEST_CASE("an injury stops the run: all further actions are refused, and the reason says what happened") {
  SafeTable t;
  t.step({hands::open_lid(), pour("whole_milk", 30.0, 5.0)});
  t.heat(80.0);
  t.step({hands::reach_in(), hands::close_lid()});
  CHECK(t.state.injured);
  CHECK(t.state.injury == HarmId::hot_product);
  CHECK(t.state.plant.fittings.lid_open);  // the second hand came too late
  CHECK(t.why(hands::close_lid()) == "This run has stopped: Skin burnt by hot product.");
  CHECK(t.why(press("stop")) != "");
  // Damage is no injury and stops nothing.
  SafeTable worn;
  worn.state.plant.agitator_bushing.play_mm = 0.6;
  worn.step();
  CHECK(worn.harmed(HarmId::bushing_worn));
  CHECK_FALSE(worn.state.injured);
}

TEST_CASE("torn vanes of the pump are told once, as damage with what to do; glazed ones are not") {
  SafeTable t;
  t.state.plant.vanes.wear_norm = 0.5;
  t.step({}, 20);
  CHECK_FALSE(t.harmed(HarmId::vanes_torn));
  t.state.plant.vanes.wear_norm = 0.95;
  t.step();
  CHECK(t.harmed(HarmId::vanes_torn));
  CHECK_FALSE(t.state.injured);
  CHECK_FALSE(machine::harm_is_injury(HarmId::vanes_torn));
  CHECK(machine::harm_happened(HarmId::vanes_torn).find("circulation") != std::string_view::npos);
}

TEST_CASE("dew on the floor makes it as slippery as spilt product, and is wiped up with it") {
  SafeTable t;
  t.state.plant.floor_water_kg = 0.2;
  t.state.plant.seal.tray_kg = 0.3;
  CHECK(machine::floor_wet(t.state));
  t.step({hands::wipe_floor()});
  CHECK(t.state.plant.floor_water_kg == 0.0);
  CHECK(t.state.plant.seal.tray_kg == 0.0);
  CHECK_FALSE(machine::floor_wet(t.state));
}

TEST_CASE("protective equipment changes the outcome") {
  const auto touch = [](bool gloves, double degC) {
    SafeTable t;
    if (gloves) t.step({hands::put_on("heat_gloves")});
    t.heat(degC);
    t.step({hands::touch_part("draw_valve")});
    return t.state.injured;
  };
  CHECK(touch(false, 70.0));
  CHECK_FALSE(touch(false, 60.0));  // ECMA-287: 65 degC for a second
  CHECK_FALSE(touch(true, 90.0));
  const auto steam = [](bool dressed) {
    SafeTable t;
    t.step({hands::open_lid(), pour("whole_milk", 30.0, 5.0), hands::close_lid()});
    if (dressed) t.step({hands::put_on("heat_gloves"), hands::put_on("face_shield")});
    t.step({press("stir")}, 50);
    t.heat(85.0);
    t.step({hands::open_lid()});
    return t.state.injured;
  };
  CHECK(steam(false));
  CHECK_FALSE(steam(true));
  const auto draw = [](std::vector<const char*> items) {
    SafeTable t;
    t.step({hands::open_lid(), pour("whole_milk", 30.0, 85.0), hands::close_lid()}, 20);
    for (const char* item : items) t.step({hands::put_on(item)});
    t.step({valve(1.0)}, 30);
    return t.harmed(HarmId::hot_product);
  };
  CHECK(draw({}));
  CHECK(draw({"heat_gloves", "apron"}));
  CHECK_FALSE(draw({"heat_gloves", "apron", "eye_protection"}));
  SafeTable t;
  t.step({hands::put_on("heat_gloves")});
  CHECK(t.why(hands::put_on("chemical_gloves")) == "Take the other gloves off first.");
  CHECK(t.why(hands::put_on("crown")) ==
        "item is one of: heat_gloves, chemical_gloves, eye_protection, face_shield, apron, safety_shoes.");
  CHECK(t.why(hands::take_off("apron")) == "You are not wearing it.");
}

TEST_CASE("gloves do not make a hand in hot product or a turning vat safe") {
  SafeTable t;
  t.step({hands::open_lid(), pour("whole_milk", 30.0, 5.0), hands::put_on("heat_gloves")});
  t.heat(70.0);
  t.step({hands::reach_in()});
  CHECK(t.harmed(HarmId::hot_product));
}

TEST_CASE("a wet floor: walking on it causes a fall, safety shoes help with little water, wiping ends it") {
  const auto walk = [](double floor_kg, bool shoes, bool wiped) {
    SafeTable t;
    t.state.plant.floor_kg = floor_kg;
    if (shoes) t.step({hands::put_on("safety_shoes")});
    if (wiped) t.step({hands::wipe_floor()});
    t.step({hands::walk_round()});
    return t.harmed(HarmId::slipped);
  };
  CHECK_FALSE(walk(0.05, false, false));
  CHECK(walk(0.5, false, false));
  CHECK_FALSE(walk(0.5, true, false));
  CHECK(walk(2.0, true, false));
  CHECK_FALSE(walk(2.0, false, true));
  // Carrying a pail is walking too.
  SafeTable t;
  t.step({hands::open_lid(), pour("whole_milk", 30.0, 5.0), hands::close_lid(), valve(1.0)}, 20);
  t.step({valve(0.0)});
  REQUIRE(t.state.plant.pail.total_kg() > 0.0);
  t.state.plant.floor_kg = 0.5;
  t.step({hands::empty_pail()});
  CHECK(t.harmed(HarmId::slipped));
  // Others walk there as well; the sign warns them.
  for (const bool sign : {false, true}) {
    Scenario situation;
    situation.second_person_s = 10.0;
    StartSetup setup;
    setup.situation = situation;
    SafeTable other(setup);
    other.state.plant.floor_kg = 0.5;
    if (sign) other.step({hands::put_up_sign()});
    other.step({hands::isolate(true)});
    other.wait_s(20.0);
    CHECK(other.state.lockout.second_came);
    CHECK(other.harmed(HarmId::slipped) == !sign);
  }
}

TEST_CASE("chlorine gas from acid and sanitiser: by the reaction, in ppm") {
  // OCl- + Cl- + 2 H+ -> Cl2 + H2O. One gram of available chlorine, 0.0141 mol, in 30 m3 at 24.47 L/mol: 11.5
  // ppm.
  Bucket bucket;
  bucket.water_kg = 5.0;
  bucket.chlorine_mol = 1.0 / 70.906;
  CHECK(chlorine_gas_ppm(bucket) == 0.0);
  bucket.acid_mol = 1.0;
  CHECK(chlorine_gas_ppm(bucket) == doctest::Approx(11.5).epsilon(0.01));
  bucket.acid_mol = 1.0 / 70.906;  // acid for half of it only
  CHECK(chlorine_gas_ppm(bucket) == doctest::Approx(5.75).epsilon(0.01));

  const std::vector<hands::Action> dressed = {hands::put_on("chemical_gloves"),
                                              hands::put_on("eye_protection")};
  SafeTable t;
  t.step(dressed);
  t.step({hands::add_water(5.0), hands::add_chemical("chlorine", 0.1)});
  CHECK_FALSE(t.state.injured);
  SafeTable rinsed = t;
  t.step({hands::add_chemical("acid", 0.1)});
  CHECK(t.harmed(HarmId::chemical_gas));
  rinsed.step({hands::empty_bucket(), hands::add_water(5.0), hands::add_chemical("acid", 0.1)});
  CHECK_FALSE(rinsed.state.injured);
}

TEST_CASE("a solution too strong burns bare hands; water comes first") {
  const auto scrub = [](double lye_kg, bool gloves) {
    SafeTable t;
    t.step({hands::put_on("chemical_gloves"), hands::put_on("eye_protection")});
    t.step({hands::add_water(10.0), hands::add_chemical("lye", lye_kg)});
    if (!gloves) t.step({hands::take_off("chemical_gloves")});
    t.step({hands::scrub()});
    return t.harmed(HarmId::chemical_burn);
  };
  CHECK_FALSE(scrub(0.4, false));  // 0.38 % of lye: below the 0.5 % that irritates
  CHECK(scrub(0.8, false));
  CHECK_FALSE(scrub(0.8, true));
  SafeTable bare;
  bare.step({hands::add_water(10.0), hands::add_chemical("lye", 0.4)});
  CHECK(bare.harmed(HarmId::chemical_burn));  // concentrate without goggles and gloves
  SafeTable wrong_way;
  wrong_way.step({hands::put_on("chemical_gloves"), hands::put_on("eye_protection"),
                  hands::add_chemical("lye", 1.0), hands::take_off("eye_protection"), hands::add_water(5.0)});
  CHECK(wrong_way.harmed(HarmId::chemical_burn));
  SafeTable full;
  full.step({hands::add_water(12.0)});
  CHECK(full.why(hands::add_water(1.0)) == "The bucket holds 12 kg; that would run over.");
  CHECK(full.why(hands::add_chemical("vinegar", 1.0)) == "There is no chemical \"vinegar\" here.");
}

TEST_CASE("the draw valve's spring, and the refrigerant") {
  const auto take_out = [](std::vector<hands::Action> before) {
    SafeTable t;
    t.step(std::move(before));
    t.step({hands::take_valve_out()});
    return t.harmed(HarmId::valve_spring);
  };
  CHECK(take_out({}));
  CHECK_FALSE(take_out({hands::release_energy("spring")}));
  CHECK_FALSE(take_out({hands::put_on("eye_protection")}));
  SafeTable t;
  t.step({hands::release_energy("spring"), hands::take_valve_out()});
  CHECK(t.why(valve(0.5)) == "The draw valve is out. Put it back first.");
  t.step({hands::put_valve_back()});
  CHECK_FALSE(t.state.lockout.spring_eased);  // it is under load again
  t.step({hands::open_refrigerant()});
  CHECK(t.harmed(HarmId::refrigerant));
}

TEST_CASE(
    "a hand that stays in the vat is caught when the machine starts; the guard alone is what prevents it") {
  SafeTable t;
  t.step({hands::open_lid(), pour("whole_milk", 30.0, 5.0), hands::begin_work("vat")});
  CHECK_FALSE(t.state.injured);
  t.state.plant.shaft_rad_per_s = 6.0;  // as with a defeated guard
  t.step();
  CHECK(t.harmed(HarmId::moving_agitator));
}

TEST_CASE("each injury has a title, a sign, what happened, why, and what to do instead") {
  for (std::size_t i = 0; i < harm_count; ++i) {
    const auto id = static_cast<HarmId>(i);
    CAPTURE(harm_key(id));
    CHECK(harm_title(id).size() > 5);
    CHECK(harm_happened(id).size() > 20);
    CHECK(harm_why(id).size() > 15);
    CHECK(harm_instead(id).size() > 30);
    CHECK(harm_sign(id).size() == 4);
    CHECK(harm_text(id).find(harm_why(id)) != std::string_view::npos);
  }
  CHECK(harm_detail(HarmId::hot_product, 80.0) == "At 80 °C wet skin burns to its full depth at once.");
  CHECK(harm_detail(HarmId::hot_product, 60.0) == "At 60 °C wet skin burns to its full depth in 5 s.");
  CHECK(harm_detail(HarmId::slipped, 1.0) == "");
}
