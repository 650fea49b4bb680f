#include <doctest/doctest.h>

#include <string>

#include "sim_core/plant/freezer/freezer.h"
#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// A charge through the hose into the batch freezer and out into the tub, by real clicks on what is at hand.
namespace {

using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;
namespace plant = stirbench::plant;

const plant::FreezerState& freezer(DeskDriver& ui) { return ui.desk().run->state().plant.freezer; }

}  // namespace

TEST_CASE("the freezer at hand: hose, inlet, start, gate, tub") {
  const TempFolder folder("ui-freezer");
  DeskDriver ui(folder.file("data"));
  ui->click("home.free");
  ui->frames(10);
  CHECK_FALSE(ui->has("hand.freezer_start"));
  ui->click("hand.open_lid");
  ui->click("hand.pour");
  for (const char* kg : {"22", "18"}) {
    ui->click(std::string("scale.ingredient.") + (std::string(kg) == "22" ? "whole_milk" : "cream_35"));
    ui->fill("scale.kg", kg);
    ui->click("scale.pour");
    ui->frames(10);
  }
  ui->click("scale.back");
  ui->click("hand.close_lid");
  ui->click("panel.key.stir");
  ui->frames(5);
  ui.shot("freezer-hose");
  ui->click("hand.fit_hose_freezer");
  ui->frames(10);
  REQUIRE(ui->has("hand.freezer_start"));
  ui->click("hand.draw_valve");
  ui->press("Home");
  for (int i = 0; i < 4; ++i) ui->press("Right");
  REQUIRE(ui.run_until([&] { return plant::mix_L(freezer(ui)) > 4.0; }));
  ui.shot("freezer-filling");
  ui->click("hand.draw_shut");
  ui->click("hand.freezer_inlet");
  ui->click("hand.freezer_start");
  REQUIRE(ui.run_until([&] { return freezer(ui).running && !freezer(ui).inlet_open; }));
  CHECK(freezer(ui).torque_Nm >= 0.0);
  REQUIRE(ui.run_until([&] { return freezer(ui).refrigeration_W > 0.0; }));
  ui->frames(30);
  ui.shot("freezer-freezing");
  ui->click("speed.60");
  REQUIRE(ui.run_until([&] { return plant::frozen_water_norm(freezer(ui)) > 0.35; }));
  ui->click("speed.1");
  CHECK(freezer(ui).degC < -0.5);
  ui.shot("freezer-frozen");
  ui->click("hand.freezer_draw");
  REQUIRE(ui.run_until([&] { return freezer(ui).tub.total_kg() > 0.2; }));
  ui.shot("freezer-emptying");
  ui->click("hand.freezer_draw");
  ui->click("hand.freezer_stop");
  ui->click("hand.empty_tub");
  REQUIRE(ui.run_until([&] { return freezer(ui).tub.total_kg() == 0.0 && !freezer(ui).running; }));
}
