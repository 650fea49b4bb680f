#include <doctest/doctest.h>

#include <limits>
#include <set>
#include <stdexcept>

#include "sim_core/journal/session.h"
#include "tests/sim_core/hands/table.h"

using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench;
using namespace stirbench::bench_test;
using hands::Catalogue;
using hands::Hand;
using hands::Parameter;
using hands::Type;

TEST_CASE(
    "the rows are whole: each name once, with words, an effect or a meaning of its own, and parameters with "
    "ranges") {
  std::set<std::string_view> names;
  std::int32_t number = 0;
  for (const Hand* hand : hands::all()) {
    CAPTURE(hand->name);
    names.insert(hand->name);
    CHECK(hand->meaning.size() > 10);
    CHECK(hands::find(hand->name) == hand);
    CHECK(hands::at(number) == hand);
    CHECK(hands::number_of(*hand) == number++);
    std::set<std::string_view> parameters;
    for (const Parameter* parameter : hand->takes()) {
      parameters.insert(parameter->name);
      CHECK(hand->find(parameter->name) == parameter);
      CHECK(parameter->meaning != "");
      CHECK((parameter->words != nullptr) ==
            (parameter->type == Type::text && parameter->catalogue == Catalogue::words));
      if (parameter->type != Type::number) continue;
      CHECK(parameter->low < parameter->high);
      CHECK(parameter->unit != "");
      CHECK_FALSE((parameter->required && parameter->otherwise.has_value()));
    }
    CHECK(parameters.size() == hand->takes().size());
    // What the desk lists by itself has a title, and at most one choice to make.
    if (!hand->listed) continue;
    CHECK(hand->title != "");
    CHECK(hand->takes().size() <= 1);
    if (!hand->takes().empty()) CHECK(hand->takes().front()->type != Type::number);
  }
  CHECK(names.size() == hands::all().size());
  CHECK(hands::find("fly") == nullptr);
  CHECK(hands::at(-1) == nullptr);
  CHECK(hands::at(number) == nullptr);
}

TEST_CASE(
    "a parameter that the hand does not take can neither be set nor read, nor with a value of another type") {
  Action lid = hands::open_lid();
  Action poured = hands::pour("whole_milk", 2.0);
  const Parameter& kg = *hands::pour.find("kg");
  CHECK_THROWS_AS(lid.set(kg, 2.0), std::logic_error);
  CHECK_THROWS_AS(lid.value(kg), std::logic_error);
  CHECK_THROWS_AS(poured.set(kg, true), std::logic_error);
  CHECK_THROWS_AS(poured.set(*hands::dose_vat.find("kg"), 1.0),
                  std::logic_error);  // another hand's kilograms
}

TEST_CASE("what is left out, unknown or out of range is refused by name") {
  Table t;
  t.step({hands::open_lid()});
  CHECK(t.why(Action()) == "There is no such action.");
  Action half(hands::pour);
  half.set(*hands::pour.find("ingredient"), std::string("whole_milk"));
  CHECK(t.why(half) == "pour needs kg.");
  CHECK(t.why(hands::pour("gold", 1.0)) == "There is no ingredient \"gold\" here.");
  CHECK(t.why(hands::pour("whole_milk", 61.0)) == "kg must lie between 0.001 and 60 kg.");
  CHECK(t.why(hands::pour("whole_milk", 1.0, 101.0)) == "degC must lie between -2 and 100 degC.");
  CHECK(hands::unknown_parameter(hands::wipe_floor, "degC") ==
        "\"degC\" is not a parameter of \"wipe_floor\"; it takes nothing");
  CHECK(hands::unknown_parameter(hands::pour, "kilos") ==
        "\"kilos\" is not a parameter of \"pour\"; it takes ingredient, kg, degC");
}

TEST_CASE("pointing at a part is an event with its name that counts one, and changes nothing else") {
  Table pointed;
  Table still;
  pointed.machine.body_parts = {"lid_magnet", "reed_switch"};
  CHECK(pointed.why(hands::point_out("read_switch")) == "There is no part \"read_switch\" here.");
  const Action point = hands::point_out("reed_switch");
  CHECK(pointed.why(point) == "");
  pointed.step({point});
  still.step({});
  REQUIRE(pointed.events.size() == 1);
  CHECK(pointed.events[0].kind == EventKind::acted);
  CHECK(pointed.events[0].name == "reed_switch");
  CHECK(pointed.events[0].number == 1.0);
  pointed.step({}, 100);
  still.step({}, 100);
  CHECK(state_hash(pointed.state) == state_hash(still.state));
}

TEST_CASE("hands are refused with a reason, and the reason is an event") {
  Table t;
  CHECK(t.why(pour("whole_milk", 5.0, 5.0)) == "The lid is closed.");
  CHECK(t.why(hands::reach_in()) == "The lid is closed.");
  CHECK(t.why(hands::rinse(true)) == "The lid is closed.");
  CHECK(t.why(hands::close_lid()) == "The lid is already closed.");
  CHECK(t.why(hands::close_shaft_cover()) == "The shaft cover is already on.");
  CHECK(t.why(hands::remove_hose()) == "No hose is fitted.");
  CHECK(t.why(hands::empty_pail()) == "The pail is empty.");
  CHECK(t.why(hands::reset_overload()) == "The overload relay has not tripped.");
  CHECK(t.why(hands::reset_cutout()) == "The heater cut-out has not tripped.");
  CHECK(t.why(hands::confirm()) == "The display asks for nothing now.");
  CHECK(t.why(choose("nothing")) == "There is no recipe \"nothing\" here.");
  CHECK(t.why(hands::press("go")) == "key is one of: heat, chill, stir, run, stop, rinse.");
  CHECK(t.why(hands::fit_hose("drain")) == "to is one of: pail, freezer.");
  CHECK(t.why(hands::isolate(false)) == "The isolator is already on.");
  t.step({hands::open_lid()});
  CHECK(t.why(hands::open_lid()) == "The lid is already open.");
  CHECK(t.why(pour("gold", 5.0, 5.0)) == "There is no ingredient \"gold\" here.");
  CHECK(t.why(hands::take_sample()) == "The vat is empty.");
  CHECK(t.why(pour("whole_milk", 5.0, 5.0)) == "");
  t.step({hands::rinse(true)});
  CHECK(t.why(hands::rinse(true)) == "The rinse water already runs.");
  CHECK(t.why(hands::close_lid()) == "Shut the rinse water and take the gun out first.");
  t.step({pour("gold", 5.0, 5.0)});
  CHECK(t.happened(EventKind::refused, "gold"));
  CHECK_FALSE(t.happened(EventKind::acted));
}

TEST_CASE("numbers outside their range are refused, also those that are none") {
  Table t;
  t.step({hands::open_lid()});
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double inf = std::numeric_limits<double>::infinity();
  for (const double kg : {-1.0, 0.0, 0.0009, 60.1, nan, inf, -inf}) {
    CHECK(t.why(pour("water", kg, 5.0)) == "kg must lie between 0.001 and 60 kg.");
  }
  for (const double degC : {-2.1, 100.1, nan, inf}) {
    CHECK(t.why(pour("water", 1.0, degC)) == "degC must lie between -2 and 100 degC.");
  }
  for (const double opening : {-0.1, 1.1, nan})
    CHECK(t.why(valve(opening)) == "opening_norm must lie between 0 and 1.");
  for (const double held : {0.0, 0.05, 601.0, nan}) CHECK(t.why(press("stir", held)) != "");
  CHECK(t.why(hands::set_target(130.0)) != "");
  CHECK(t.why(hands::set_target(99.0)) == "That target is outside the machine's range.");
  CHECK(t.why(Action()) == "There is no such action.");
  CHECK(t.why(hands::pour("water", 1.0)) == "");  // at the ingredient's own temperature
}

TEST_CASE("a hose is fitted and taken off with the valve shut only") {
  Table t;
  t.fill();
  t.step({valve(0.5)});
  CHECK(t.why(hands::fit_hose("pail")) == "Close the draw valve first.");
  t.step({valve(0.0), hands::fit_hose("freezer")});
  CHECK(t.state.plant.fittings.hose == plant::HoseEnd::freezer);
  CHECK(t.why(hands::fit_hose("pail")) == "A hose is already fitted.");
  t.step({valve(0.5)});
  CHECK(t.why(hands::remove_hose()) == "Close the draw valve first.");
}

TEST_CASE("a key is down for as long as it is held, and no longer") {
  Table t;
  t.step({press("stir", 0.3)});
  CHECK(t.state.control.key_down[2]);
  t.step({}, 2);
  CHECK(t.state.control.key_down[2]);
  t.step();
  CHECK_FALSE(t.state.control.key_down[2]);
  CHECK(t.state.control.mode == control::Mode::stirring);
}

TEST_CASE(
    "opening the lid on a moving machine takes the power in the same tick; nothing restarts by itself") {
  Table t;
  t.fill();
  t.step({press("heat")}, 50);
  REQUIRE(t.state.plant.flows.heaters_W > 0.0);
  t.step({hands::open_lid()});
  CHECK(t.happened(EventKind::alarm_raised, "lid_guard"));
  CHECK(t.state.plant.flows.heaters_W == 0.0);
  t.step({hands::close_lid()}, 100);
  CHECK(t.state.plant.flows.heaters_W == 0.0);
  t.step({press("heat")}, 10);
  CHECK(t.happened(EventKind::refused, "heat"));
  t.step({press("stop")}, 10);
  CHECK(t.happened(EventKind::alarm_cleared, "lid_guard"));
  CHECK(t.state.plant.flows.heaters_W == 0.0);
  t.step({press("heat")}, 10);
  CHECK(t.state.plant.flows.heaters_W > 0.0);
}

TEST_CASE("filling in standby, closing the lid, choosing and Run needs no Stop") {
  Table t;
  t.fill();
  t.step({choose("white_base")});
  t.step({press("run")}, 5);
  CHECK(t.happened(EventKind::phase_began, "warm"));
  CHECK(t.state.control.mode == control::Mode::running);
}

TEST_CASE("a hand in the vat: turning agitator, hot product, steam") {
  Table t;
  t.fill();
  t.step({press("stir")}, 50);
  t.step({hands::open_lid(), hands::reach_in()});  // the shaft still turns
  CHECK(t.harmed(HarmId::moving_agitator));
  CHECK_FALSE(t.harmed(HarmId::hot_product));
  CHECK(t.state.harms[0].severity > 5.0);

  Table still;
  still.fill();
  still.step({hands::open_lid(), hands::reach_in()});
  CHECK_FALSE(still.happened(EventKind::harm));
  still.heat_product(65.0);
  still.step({hands::reach_in()});
  CHECK(still.harmed(HarmId::hot_product));
  CHECK_FALSE(still.harmed(HarmId::hot_steam));
  Table steaming;
  steaming.fill();
  steaming.step({hands::open_lid()});
  steaming.heat_product(80.0);
  steaming.step({hands::reach_in()});
  CHECK(steaming.harmed(HarmId::hot_steam));
}

TEST_CASE("opening the lid at 40 degC hurts nobody; at 85 degC with the agitator turning it does") {
  for (const double degC : {40.0, 79.0, 85.0}) {
    CAPTURE(degC);
    Table t;
    t.fill();
    t.step({press("stir")}, 50);
    t.heat_product(degC);
    t.step({hands::open_lid()});
    CHECK(t.harmed(HarmId::hot_steam) == (degC > 80.0));
  }
  Table stopped;
  stopped.fill();
  stopped.heat_product(85.0);
  stopped.step({hands::open_lid()});
  CHECK_FALSE(stopped.happened(EventKind::harm));
  CHECK(stopped.events[0].text != "");  // told to stand aside
}

TEST_CASE("hot metal burns a bare hand") {
  // ECMA-287 touch table: about 65 degC for contact under one second (secondary text).
  for (const char* bare : {"rim", "draw_valve", "drain", "pump"}) {
    CAPTURE(bare);
    Table t;
    t.fill();
    t.heat_product(60.0);
    t.step({hands::touch_part(bare)});
    CHECK_FALSE(t.harmed(HarmId::hot_wall));
    t.heat_product(70.0);
    t.step({hands::touch_part(bare)});
    CHECK(t.harmed(HarmId::hot_wall));
  }
  // The insulated outside never burns at what a vat can hold.
  Table t;
  t.fill();
  t.heat_product(95.0);
  t.step({hands::touch_wall()});
  CHECK_FALSE(t.harmed(HarmId::hot_wall));
}

TEST_CASE("drawing product above 60 degC splashes; cold or into a closed hose it does not") {
  // Moritz & Henriques 1947 series, secondary table: 60 degC burns deeply in 3..5 s.
  const auto draw_at = [](double degC, const char* hose) {
    Table t;
    t.fill(30.0, degC);
    t.step({}, 20);
    if (*hose != 0) t.step({hands::fit_hose(hose)});
    t.step({valve(1.0)}, 30);
    return t.harmed(HarmId::hot_product);
  };
  CHECK(draw_at(85.0, ""));
  CHECK(draw_at(85.0, "pail"));
  CHECK_FALSE(draw_at(85.0, "freezer"));
  CHECK_FALSE(draw_at(20.0, ""));
}

TEST_CASE("a spoonful: temperature, and the taste in words") {
  Table t;
  t.fill();
  t.state.plant.product.scorched_kg = 0.01;
  t.step({hands::open_lid(), hands::take_sample()});
  CHECK(t.state.sample_degC == doctest::Approx(t.state.plant.vat_degC).epsilon(0.01));
  REQUIRE(t.happened(EventKind::acted));
  bool tasted = false;
  for (const Event& event : t.events) tasted = tasted || event.text == "It tastes burnt.";
  CHECK(tasted);
}

TEST_CASE("damage is told once") {
  Table t;
  t.fill();
  t.state.plant.agitator_bushing.play_mm = 0.6;
  t.step();
  CHECK(t.happened(EventKind::harm, "bushing_worn"));
  t.state.plant.product.egg_curd_norm = 0.5;
  t.step();
  CHECK(t.happened(EventKind::harm, "product_curdled"));
  CHECK_FALSE(t.happened(EventKind::harm, "bushing_worn"));
  t.step({}, 20);
  CHECK_FALSE(t.happened(EventKind::harm));
  CHECK(t.state.harms[static_cast<std::size_t>(HarmId::bushing_worn)].severity >= 0.6);
}

TEST_CASE("each harm says what it is, what it does and what to do") {
  for (std::size_t i = 0; i < harm_count; ++i) {
    const auto id = static_cast<HarmId>(i);
    CHECK(harm_key(id) != "");
    CHECK(harm_text(id).size() > 80);
    CHECK(harm_text(id).find('!') == std::string_view::npos);
    CHECK(harm_is_injury(id) == (id <= HarmId::colleague_hurt));
  }
}

TEST_CASE("isolating takes everything; coming back starts nothing") {
  Table t;
  t.fill();
  t.step({choose("white_base")});
  t.step({press("run")}, 50);
  t.step({hands::isolate(true)});
  CHECK(t.state.control.mode == control::Mode::off);
  CHECK(t.state.plant.flows.heaters_W == 0.0);
  CHECK(t.why(choose("white_base")) == "The display is dark: there is no supply.");
  t.step({hands::isolate(false)}, 20);
  CHECK(t.happened(EventKind::alarm_raised, "power_returned"));
  CHECK(t.state.control.mode == control::Mode::paused);
  CHECK(t.state.plant.flows.heaters_W == 0.0);
}

TEST_CASE("a start that the machine cannot have is refused by name") {
  const Machine machine = small_kitchen_machine();
  const auto message = [&](const StartSetup& setup) {
    try {
      (void)initial_state(machine, setup);
    } catch (const std::invalid_argument& error) {
      return std::string(error.what());
    }
    return std::string();
  };
  StartSetup setup;
  CHECK(message(setup) == "");
  setup.loaded = {{"gold", 1.0, 5.0}};
  CHECK(message(setup).find("\"gold\"") != std::string::npos);
  setup.loaded = {{"water", 80.0, 5.0}};
  CHECK(message(setup).find("brim") != std::string::npos);
  setup.loaded = {{"water", -1.0, 5.0}};
  CHECK(message(setup).find("-1.0") != std::string::npos);
  setup.loaded = {};
  setup.recipe = "soup";
  CHECK(message(setup).find("\"soup\"") != std::string::npos);
  setup.recipe.clear();
  setup.environment.ambient_degC = std::numeric_limits<double>::quiet_NaN();
  CHECK(message(setup).find("ambient_degC") != std::string::npos);
}
