#include <doctest/doctest.h>

#include "sim_core/plant/freezer/freezer.h"
#include "tests/sim_core/hands/table.h"

// Hands at the freezer, at its hose and at the open jet.
using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench_test;

TEST_CASE(
    "a slow stream through a hose into the pail hurts nobody, a strong one does until the hose's end is "
    "covered") {
  const auto draw_hot = [](double handle, const char* hose, double pail_kg) {
    Table t;
    t.fill(30.0, 85.0);
    t.step({}, 20);
    t.state.plant.pail.mass_kg[product::Component::water] = pail_kg;
    if (*hose != 0) t.step({hands::fit_hose(hose)});
    t.step({valve(handle)}, 30);
    return t.harmed(HarmId::hot_product);
  };
  CHECK(draw_hot(0.1, "", 0.0));
  CHECK_FALSE(draw_hot(0.05, "pail", 0.0));
  CHECK(draw_hot(0.4, "pail", 0.0));
  CHECK_FALSE(draw_hot(0.4, "pail", 4.0));
}

TEST_CASE("actions at the freezer: their effects and refusals") {
  Table t;
  t.fill(40.0, 5.0);
  CHECK(t.why(hands::freezer_inlet(true)) == "The freezer's inlet is already open.");
  CHECK(t.why(hands::freezer_stop()) == "The freezer is at rest.");
  CHECK(t.why(hands::reset_freezer()) == "The dasher's overload protection has not tripped.");
  CHECK(t.why(hands::empty_tub()) == "The tub is empty.");
  CHECK(t.why(hands::freezer_draw(1.5)) == "opening_norm must lie between 0 and 1.");
  t.step({hands::fit_hose("freezer"), valve(0.3)}, 600);
  const plant::FreezerState& f = t.state.plant.freezer;
  CHECK(f.product.total_kg() > 1.0);
  CHECK(f.product.total_kg() + t.state.plant.line.held.total_kg() ==
        doctest::Approx(t.state.plant.masses.drawn_kg).epsilon(1e-9));
  t.step({valve(0.0), hands::freezer_inlet(false), hands::freezer_start()});
  CHECK(f.running);
  CHECK_FALSE(f.inlet_open);
  CHECK(t.why(hands::freezer_start()) == "The freezer already runs.");
  CHECK(t.why(hands::freezer_inlet(false)) == "The freezer's inlet is already shut.");
  // The machine's isolator does not stop the freezer beside it.
  t.step({hands::isolate(true)}, 20);
  CHECK(f.running);
  t.step({hands::freezer_stop(), hands::freezer_draw(1.0)}, 20);
  CHECK_FALSE(f.running);
  CHECK(f.tub.total_kg() > 0.0);
  t.step({hands::empty_tub()});
  CHECK(f.tub.total_kg() < 0.05);
  t.state.plant.freezer.tripped = true;
  CHECK(t.why(hands::freezer_start()) ==
        "The dasher's overload protection has tripped. Let it cool, then reset it.");
  t.state.plant.freezer.motor_heat_norm = 1.0;
  t.step({hands::reset_freezer()});
  CHECK(t.happened(EventKind::refused));
  t.state.plant.freezer.motor_heat_norm = 0.1;
  t.step({hands::reset_freezer()});
  CHECK_FALSE(f.tripped);
  t.state.plant.environment.supply_norm = 0.0;
  CHECK(t.why(hands::freezer_start()) == "The freezer has no power.");
}

TEST_CASE("a hose that is under pressure sprays when it comes off, and burns when the product is hot") {
  for (const double degC : {20.0, 80.0}) {
    CAPTURE(degC);
    Table t;
    t.fill(40.0, degC);
    t.step({}, 320);  // the line fills
    t.step({hands::freezer_inlet(false), hands::fit_hose("freezer"), valve(0.3)}, 30);
    CHECK(t.state.plant.flows.draw_L_per_min == 0.0);
    t.step({valve(0.0)}, 20);
    CHECK(t.state.plant.freezer.line_bar > 0.02);
    t.step({hands::remove_hose()});
    CHECK(t.happened(EventKind::spilled));
    CHECK(t.state.plant.floor_kg > 0.0);
    CHECK(t.harmed(HarmId::hot_product) == (degC > 60.0));
  }
  // Opened first, it has nothing left to spray.
  Table t;
  t.fill(40.0, 80.0);
  t.step({}, 320);
  t.step({hands::freezer_inlet(false), hands::fit_hose("freezer"), valve(0.3)}, 30);
  t.step({valve(0.0), hands::freezer_inlet(true)}, 20);
  t.step({hands::remove_hose()});
  CHECK_FALSE(t.harmed(HarmId::hot_product));
}

TEST_CASE("the freezer's lid, drain and selector: refused and done as a person would expect") {
  Table t;
  const plant::FreezerState& f = t.state.plant.freezer;
  CHECK(t.why(hands::freezer_water(2.0)) == "The freezer's lid is shut.");
  CHECK(t.why(hands::freezer_setting("whip")) == "setting is one of: freeze, dasher, keep.");
  CHECK(t.why(hands::freezer_setting("freeze")) == "The freezer's selector stands there already.");
  t.step({hands::freezer_lid(true)});
  CHECK(t.why(hands::freezer_start()) == "The freezer's lid is open: its guard holds the dasher.");
  t.step({hands::freezer_water(2.0)});
  CHECK(f.product.total_kg() == doctest::Approx(2.0));
  // 2 kg through the drain: seconds, not minutes, and all of it is booked.
  t.step({hands::freezer_drain(true)}, 600);
  CHECK(f.product.total_kg() == 0.0);
  CHECK(f.ledger.drained_kg == doctest::Approx(2.0).epsilon(1e-9));
  CHECK(plant::freezer_mass_residual_kg(f) == doctest::Approx(0.0).epsilon(1e-9));
  t.step({hands::freezer_lid(false), hands::freezer_setting("dasher"), hands::freezer_start()}, 20);
  CHECK(f.running);
  CHECK(f.refrigeration_W == 0.0);
  // The guard stops it; shutting the lid does not start it again.
  t.step({hands::freezer_lid(true)}, 5);
  CHECK_FALSE(f.running);
  t.step({hands::freezer_lid(false)}, 20);
  CHECK_FALSE(f.running);
}

TEST_CASE("rinse water is poured with its kilograms and at its temperature, each as given") {
  const auto poured = [](const Action& water) {
    Table t;
    t.step({hands::freezer_lid(true), water});
    return std::pair{t.state.plant.freezer.product.total_kg(), t.state.plant.freezer.degC};
  };
  const auto [cold_kg, cold_degC] = poured(hands::freezer_water(2.0, 10.0));
  const auto [hot_kg, hot_degC] = poured(hands::freezer_water(2.0, 60.0));
  const auto [usual_kg, usual_degC] = poured(hands::freezer_water(2.0));
  const auto [same_kg, same_degC] = poured(hands::freezer_water(2.0, 15.0));
  CHECK(cold_kg == doctest::Approx(2.0));
  CHECK(hot_kg == doctest::Approx(2.0));
  CHECK(cold_degC == doctest::Approx(10.0).epsilon(0.02));
  CHECK(hot_degC == doctest::Approx(60.0).epsilon(0.02));
  CHECK(usual_kg == same_kg);
  CHECK(usual_degC == same_degC);
}
