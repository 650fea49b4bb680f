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
  // The card of the chosen part: off, taken up (its place shows), home again.
  const auto& assembly = [&]() -> const auto& { return ui.desk().run->state().plant.assembly; };
  constexpr auto handle = stirbench::plant::PartId::valve_handle;
  ui->click("machine.part.take_part_off");
  REQUIRE(ui.run_until([&] { return !stirbench::plant::in_place(assembly(), handle); }));
  ui->frames(12);
  ui.shot("body-handle-off");
  ui->click("machine.part.pick_up");
  REQUIRE(ui.run_until([&] { return assembly().hand == static_cast<int>(handle); }));
  ui->frames(12);
  ui.shot("body-handle-ghost");
  ui->click("machine.part.put_part_on");
  REQUIRE(ui.run_until([&] { return stirbench::plant::in_place(assembly(), handle); }));
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

TEST_CASE("draw valve stripped by clicks and by keys alone: the same parts off, the same look over") {
  const TempFolder folder("ui-strip");
  const auto strip = [&](DeskDriver& ui, bool keys) {
    ui->click("home.free");
    ui->frames(10);
    ui->click("hand.group.parts");
    ui->frames(4);
    for (const char* part : {"valve_handle", "valve_nut", "valve_spring", "valve_plunger", "oring_front", "oring_rear"}) {
      const std::string id = std::string("hand.parts.take_part_off.") + part;
      CAPTURE(id);
      REQUIRE(ui.run_until([&] { return ui->has(id); }, 200));
      if (keys) {
        ui->app().registry().request_focus(id);
        ui->frames(3);
        ui->press("Return");
      } else {
        ui->click(id);
      }
      const auto place = static_cast<stirbench::plant::PartId>(stirbench::plant::find_part(part));
      REQUIRE(ui.run_until([&] { return !stirbench::plant::in_place(ui.desk().run->state().plant.assembly, place); }, 200));
    }
    return stirbench::plant::look_over(ui.desk().run->machine().plant.assembly, ui.desk().run->state().plant.assembly);
  };
  stirbench::plant::Shortcomings by_click;
  {
    DeskDriver ui(folder.file("click"));
    by_click = strip(ui, false);
    ui->click("train.view");
    ui->frames(12);
    ui.shot("body-valve-stripped");
  }
  DeskDriver ui(folder.file("keys"));
  const auto by_keys = strip(ui, true);
  CHECK(by_click.missing == 6);
  CHECK(by_keys.missing == by_click.missing);
  CHECK(by_keys.left_over == by_click.left_over);
}
