#include <doctest/doctest.h>

#include <string>

#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// Whoever needs letters twice as large does the same work: a fault is looked up, a part is pointed at, a
// terminal is measured. A click of the driver fails where the control cannot be brought into view.
namespace {

using stirbench::desk::kit::ThemeKind;
using stirbench::desk::screens::Settings;
using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;

void double_text(DeskDriver& ui) {
  Settings settings = ui->app().settings();
  settings.text_percent = 200;
  settings.theme = ThemeKind::light;
  ui->app().change_settings(settings);
  ui->frames(4);
}

}  // namespace

TEST_CASE("at 200 %: from a symptom to a check, its picture, the tree and the hand-off page") {
  const TempFolder folder("ui-large-fault");
  DeskDriver ui(folder.file("data"));
  double_text(ui);
  ui->click("home.fault");
  ui->click("fault.symptom.heats-slowly");
  ui->click("fault.part.1");
  ui.shot("double-fault-check");
  ui->click("fault.check.picture");
  ui->frames(4);
  CHECK(ui->has("fault.aid.expected"));
  ui.shot("double-fault-picture");
  ui->click("fault.aid.close");
  ui.choose("fault.pages", "Show the tree");
  ui->frames(4);
  CHECK(ui->has("fault.tree.here"));
  ui.shot("double-fault-tree");
  ui.choose("fault.pages", "Back to the checks");
  ui.choose("fault.pages", "Hand-off page");
  ui->frames(4);
  CHECK(ui->label("fault.hand.text").find("Heats slowly") != std::string::npos);
  ui.shot("double-hand-off");
  ui->click("fault.hand.close");
  ui->click("fault.part.2");
  ui.shot("double-fault-causes");
}

TEST_CASE("at 200 %: a part is chosen and pointed at, by the list, and no tool lies over another") {
  const TempFolder folder("ui-large-train");
  DeskDriver ui(folder.file("data"));
  double_text(ui);
  ui->click("home.train");
  ui.shot("double-lessons");
  ui->click("lessons.round-the-machine");
  ui->click("lesson.start");
  REQUIRE(ui.run_until([&] { return ui->has("hand.point.search"); }));
  ui->frames(10);
  ui.shot("double-point");
  ui.choose("machine.look", "Taken apart");
  ui->frames(30);
  ui.shot("double-apart");
  ui.choose("machine.look", "Cut open");
  ui->fill("hand.point.search", "stop");
  ui->click("hand.point.emergency_stop");
  ui->click("hand.point");
  ui->frames(4);
  CHECK(ui.desk().run->current_step() == 1);
  ui.shot("double-pointed");
}
