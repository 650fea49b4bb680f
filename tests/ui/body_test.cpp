#include <doctest/doctest.h>

#include <set>
#include <string>

#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// The solid view by real clicks, wheel and keys: hands on the lid and the handle, looks, turning, and no frame when nothing moves.
namespace {

using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;

}  // namespace

TEST_CASE("solid view in a run: lid and handle by click, looks, turning and coming near") {
  const TempFolder folder("ui-body");
  DeskDriver ui(folder.file("data"));
  ui->click("home.free");
  ui->frames(10);
  CHECK(ui->value("train.view") == "schematic");
  ui->click("train.view");
  ui->frames(10);
  REQUIRE(ui->has("machine.view"));
  CHECK(ui->value("train.view") == "solid");
  ui.shot("body-train");
  const auto& fittings = [&]() -> const auto& { return ui.desk().run->state().plant.fittings; };
  ui->click("machine.lid");
  REQUIRE(ui.run_until([&] { return fittings().lid_open; }));
  ui->frames(30);
  ui.shot("body-lid-open");
  ui->click("machine.lid");
  REQUIRE(ui.run_until([&] { return !fittings().lid_open; }));
  ui->click("machine.draw_valve");
  REQUIRE(ui.run_until([&] { return fittings().draw_opening_norm == 0.5; }));
  ui->click("machine.draw_valve");
  REQUIRE(ui.run_until([&] { return fittings().draw_opening_norm == 0.0; }));
  for (const char* look : {"whole", "see_through", "apart", "cutaway"}) {
    ui->click(std::string("machine.look.") + look);
    ui->frames(12);
    ui.shot(std::string("body-look-") + look);
  }
  // Turned and brought near: the lid's place moves in the window.
  const auto before = ui->widget("machine.lid").rect;
  ui->drag("machine.view", 160.0F, 20.0F);
  ui->frames(6);
  const auto turned = ui->widget("machine.lid").rect;
  CHECK(std::abs(turned.x - before.x) + std::abs(turned.y - before.y) > 4.0F);
  CHECK_FALSE(fittings().lid_open);  // a drag is no click
  ui->click("machine.fit");
  ui->frames(6);
  ui->click("train.view");
  ui->frames(6);
  CHECK_FALSE(ui->has("machine.view"));
  CHECK(ui->has("machine.lid"));  // the schematic's own
}

TEST_CASE("parts screen: a part chosen in the list is shown, for both machines, and by keys as well") {
  const TempFolder folder("ui-body-parts");
  DeskDriver ui(folder.file("data"));
  ui->click("home.parts");
  ui->frames(20);
  ui.shot("body-parts");
  ui->click("parts.part.lid");
  ui->frames(12);
  CHECK(ui->value("parts.machine.view") == "lid");
  ui.shot("body-parts-lid");
  ui->click("parts.part.lid");  // again: the whole machine
  ui->frames(6);
  CHECK(ui->value("parts.machine.view") == "");
  // By keys.
  ui->app().registry().request_focus("parts.part.lid");
  ui->frames(3);
  ui->press("Return");
  ui->frames(6);
  CHECK(ui->value("parts.machine.view") == "lid");
  ui->click("parts.machine.hm-20");
  ui->frames(20);
  CHECK(ui.desk().machine_id == "hm-20");
  REQUIRE(ui->has("parts.machine.view"));
  ui.shot("body-parts-small");
}
