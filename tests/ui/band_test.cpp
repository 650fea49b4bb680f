#include <doctest/doctest.h>

#include <string>

#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// What the model leaves open, behind the trend's line: in a free run and in looking back, not in a test.
namespace {

using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;

// Switches on and waits for the runs; they take what time they take, and frames go by meanwhile.
void switch_on(DeskDriver& ui, const std::string& id, const std::string& name) {
  ui->click(id);
  REQUIRE(ui.run_until([&] { return ui->has(name); }, 200000));
  CHECK(ui->label(name).find("what the model leaves open: ") == 0);
  CHECK(ui->label(id) == "Band");
  CHECK(ui->value(id) == "selected");
}

}  // namespace

TEST_CASE("the band of a free run, and of the same run in looking back") {
  const TempFolder folder("ui-band");
  DeskDriver ui(folder.file("data"));
  ui->click("home.free");
  ui->frames(10);
  ui->click("hand.open_lid");
  ui->click("hand.pour");
  ui->click("scale.ingredient.whole_milk");
  ui->fill("scale.kg", "30");
  ui->click("scale.pour");
  ui->frames(10);
  ui->click("scale.back");
  ui->click("hand.close_lid");
  ui->click("panel.key.heat");
  ui->click("speed.300");
  REQUIRE(ui.run_until([&] { return ui.desk().run->state().tick > 12000; }));
  ui->click("panel.key.chill");
  REQUIRE(ui.run_until([&] { return ui.desk().run->state().tick > 36000; }));
  ui->click("speed.1");
  CHECK_FALSE(ui->has("trend.spread"));  // off until it is asked for
  switch_on(ui, "train.band", "trend.spread");
  ui->move_to("trend.chart");
  ui.shot("band-free");
  ui->click("train.band");
  ui->frames(3);
  CHECK_FALSE(ui->has("trend.spread"));
  CHECK(ui->value("train.band").empty());

  ui->click("bar.back");
  ui->frames(10);
  ui->click("train.leave.score");
  REQUIRE(ui.run_until([&] { return ui->has("debrief.band"); }));
  CHECK_FALSE(ui->has("debrief.trend.spread"));
  switch_on(ui, "debrief.band", "debrief.trend.spread");
  ui.shot("band-debrief");
}

TEST_CASE("a lesson's run has no band, and a test has none in looking back either") {
  const TempFolder folder("ui-band-test");
  DeskDriver ui(folder.file("data"));
  auto& desk = ui.desk();
  for (const auto mode : {stirbench::desk::work::RunMode::practice, stirbench::desk::work::RunMode::test}) {
    stirbench::desk::work::LiveRun::Setup setup;
    const auto& lesson = desk.library.lessons.at("first-batch");
    setup.machine = desk.library.machine(lesson.machine);
    setup.lesson = lesson;
    setup.mode = mode;
    setup.program = "test";
    desk.run = std::make_unique<stirbench::desk::work::LiveRun>(setup);
    ui->app().push("train");
    REQUIRE(ui.run_until([&] { return ui->has("trend.chart") && desk.run->state().tick > 20; }));
    CHECK_FALSE(ui->has("train.band"));
    desk.run->finish();
    desk.debrief = debrief_of(*desk.run);
    ui->app().push("debrief");
    REQUIRE(ui.run_until([&] { return ui->has("debrief.trend.chart"); }));
    CHECK(ui->has("debrief.band") == (mode == stirbench::desk::work::RunMode::practice));
  }
}
