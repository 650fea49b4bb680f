#include <GLFW/glfw3.h>
#include <doctest/doctest.h>

#include <chrono>
#include <cmath>
#include <set>
#include <string>
#include <thread>
#include <vector>

#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// The solid view by real clicks, wheel and keys: hands on the lid and the handle, looks, turning, and no
// frame when nothing moves.
namespace {

using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;

// A place of the picture where the pointer is over that part, looked for in a region of it (shares of its
// width and height) by moving over it.
ImVec2 find_part(DeskDriver& ui, const std::string& title, float x0, float y0, float x1, float y1) {
  const auto rect = ui->widget("machine.view").visible_rect;
  const float step = 3.0F;
  ImVec2 sum{0.0F, 0.0F};
  float found = 0.0F;
  for (float y = rect.y + y0 * rect.h; y < rect.y + y1 * rect.h; y += step) {
    for (float x = rect.x + x0 * rect.w; x < rect.x + x1 * rect.w; x += step) {
      ui->hover({x, y});
      const std::string label = ui->label("machine.view");
      if (label.size() < title.size() || label.compare(label.size() - title.size(), title.size(), title) != 0)
        continue;
      if (found == 0.0F) sum = {x, y};
      found += 1.0F;
      if (found == 2.0F) return {0.5F * (sum.x + x), 0.5F * (sum.y + y)};
    }
  }
  REQUIRE_MESSAGE(found > 0.0F, "nowhere there: " << title);
  return sum;
}

// Round a place, by this many degrees, clockwise on the screen when positive.
std::vector<ImVec2> circle(ImVec2 centre, float radius, float degrees) {
  std::vector<ImVec2> way{centre};
  for (int i = 0; i <= 12; ++i) {
    const float a = (-90.0F + degrees * static_cast<float>(i) / 12.0F) * 3.14159265F / 180.0F;
    way.push_back({centre.x + radius * std::cos(a), centre.y + radius * std::sin(a)});
  }
  return way;
}

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
    for (const char* part :
         {"valve_handle", "valve_nut", "valve_spring", "valve_plunger", "oring_front", "oring_rear"}) {
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
      REQUIRE(ui.run_until(
          [&] { return !stirbench::plant::in_place(ui.desk().run->state().plant.assembly, place); }, 200));
    }
    return stirbench::plant::look_over(ui.desk().run->machine().plant.assembly,
                                       ui.desk().run->state().plant.assembly);
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

TEST_CASE(
    "solid view by gestures alone: the gun is squeezed while held, a thread goes the way it is turned") {
  const TempFolder folder("ui-gestures");
  DeskDriver ui(folder.file("data"));
  ui->click("home.free");
  ui->frames(10);
  ui->click("train.view");
  ui->frames(10);
  const auto& plant = [&]() -> const auto& { return ui.desk().run->state().plant; };
  ui->click("machine.lid");
  REQUIRE(ui.run_until([&] { return plant().fittings.lid_open; }));
  const ImVec2 gun = find_part(ui, "Rinse gun", 0.57F, 0.22F, 0.66F, 0.4F);
  ui->trace({gun, {gun.x + 8.0F, gun.y}, {gun.x + 12.0F, gun.y}}, false);
  CHECK(ui.run_until([&] { return plant().fittings.rinse_on; }, 60));
  ui->frames(10);
  CHECK(plant().fittings.rinse_on);
  ui.shot("gesture-rinsing");
  ui->let_go();
  CHECK(ui.run_until([&] { return !plant().fittings.rinse_on; }, 60));
  // The nut is behind the handle: that one first, then anticlockwise, since it has a right-hand thread.
  const auto off = [&](const char* part) {
    return !stirbench::plant::in_place(
        plant().assembly, static_cast<stirbench::plant::PartId>(stirbench::plant::find_part(part)));
  };
  ui->click("machine.draw_valve");
  REQUIRE(ui.run_until([&] { return plant().fittings.draw_opening_norm > 0.0; }));
  ui->click("machine.draw_valve");
  REQUIRE(ui.run_until([&] { return plant().fittings.draw_opening_norm == 0.0; }));
  ui->click("machine.part.take_part_off");
  REQUIRE(ui.run_until([&] { return off("valve_handle"); }));
  ui->click("machine.look.apart");
  ui->frames(30);
  ui.shot("gesture-apart");
  const ImVec2 nut = find_part(ui, "Valve nut", 0.665F, 0.70F, 0.70F, 0.75F);
  ui->trace(circle(nut, 40.0F, 150.0F), false);
  ui.shot("gesture-turning");
  ui->let_go();
  ui->frames(20);
  CHECK_FALSE(off("valve_nut"));
  const ImVec2 again = find_part(ui, "Valve nut", 0.64F, 0.66F, 0.73F, 0.78F);
  ui->trace(circle(again, 40.0F, -150.0F));
  CHECK(ui.run_until([&] { return off("valve_nut"); }, 100));
  ui.shot("gesture-nut-off");
}

TEST_CASE(
    "with the solid view no frame is drawn when nothing moves, on the parts screen and in a paused run") {
  const TempFolder folder("ui-body-still");
  DeskDriver ui(folder.file("data"));
  // Frames that the program draws by itself, once it has come to rest.
  // An empty event ends each wait without asking for a frame.
  const auto turn = [&] {
    glfwPostEmptyEvent();
    return ui->app().run_frame();
  };
  const auto count = [&](int turns) {
    int frames = 0;
    for (int i = 0; i < turns; ++i) {
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
      frames += turn() ? 1 : 0;
    }
    return frames;
  };
  const auto drawn = [&](int turns) {
    for (int quiet = 0, i = 0; i < 200 && quiet < 20; ++i) quiet = count(1) > 0 ? 0 : quiet + 1;
    return count(turns);
  };
  ui->click("home.parts");
  ui->frames(40);
  REQUIRE(ui->has("parts.machine.view"));
  CHECK(drawn(40) == 0);
  ui->app().window().request_frame();
  CHECK(count(20) == 1);
  ui->click("bar.back");
  ui->frames(4);
  ui->click("home.free");
  ui->frames(10);
  ui->click("train.view");
  ui->frames(40);
  REQUIRE(ui->has("machine.view"));
  ui->click("speed.pause");
  ui->frames(40);
  CHECK(drawn(40) == 0);
  // Let go on, it is drawn as time goes.
  ui->click("speed.pause");
  ui->click("panel.key.stir");
  CHECK(count(20) > 0);
}
