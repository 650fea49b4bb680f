#include <doctest/doctest.h>

#include <string>

#include "tests/support/batch_logs.h"
#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// Somebody brings a logger's file: what is wrong with it is said; a good one is compared, and the machine
// kept and run.
namespace {

using namespace stirbench;
using test_support::TempFolder;
using ui_test::DeskDriver;

void no_two_alike(DeskDriver& ui) {
  for (const auto& id : ui->app().registry().duplicates()) CHECK_MESSAGE(false, "registered twice: " << id);
}

}  // namespace

TEST_CASE("own machine: reached from home, refuses a file that is no log, says where") {
  const TempFolder folder("ui-own");
  test_support::write_file(folder.file("batch.csv"), "time [s],product\n0,8\n10,9\n");
  DeskDriver ui(folder.file("data"));
  ui->click("home.own");
  REQUIRE(std::string(ui->app().top()->name()) == "own");
  CHECK_FALSE(ui->widget("own.start").enabled);
  ui.shot("own-empty");
  ui->fill("own.path", folder.file("batch.csv"));
  ui->frames(2);
  CHECK(ui->widget("own.start").enabled);
  ui->click("own.start");
  ui->frames(4);
  CHECK(ui->has("own.problem.0"));
  CHECK_FALSE(ui->has("own.busy"));
  ui.shot("own-problem");
  no_two_alike(ui);
}

TEST_CASE("own machine: a log is compared, the machine kept, and free run takes it") {
  const TempFolder folder("ui-own-good");
  DeskDriver ui(folder.file("data"));
  test_support::write_file(folder.file("batch.csv"),
                           batch_logs::csv_of(ui.desk().library.machine("hm-45"), 0.93));
  ui->app().push("own", {{"log", folder.file("batch.csv")}});
  ui->frames(4);
  ui->click("own.room");
  ui->frames(2);
  ui->fill("own.title", "Line 2");
  ui->click("own.start");
  REQUIRE(ui->wait_for([&] { return ui->has("own.fits") || ui->has("own.wrong"); }, 1000000));
  CHECK(ui->has("own.fits"));
  ui->frames(2);
  ui.shot("own-answer");
  no_two_alike(ui);
  ui->click("own.keep");
  ui->frames(4);
  CHECK(ui.desk().machine_id == "line-2");
  CHECK(ui.desk().library.machines.count("line-2") == 1);
  CHECK_FALSE(ui->widget("own.keep").enabled);
  desk::screens::Settings settings = ui->app().settings();
  settings.text_percent = 200;
  ui->app().change_settings(settings);
  ui->frames(6);
  ui.shot("own-answer-double");
  ui->click("own.part.0");
  ui->frames(3);
  ui.shot("own-form-double");
  ui->app().home(true);
  ui->frames(4);
  ui->click("home.free");
  REQUIRE(std::string(ui->app().top()->name()) == "train");
  CHECK(ui.desk().run->machine().plant.id == "line-2");
}

TEST_CASE("find a fault: the dialog for a log opens, says what is missing, and closes") {
  const TempFolder folder("ui-fault-log");
  DeskDriver ui(folder.file("data"));
  ui->click("home.fault");
  ui->click("fault.log");
  ui->frames(3);
  CHECK_FALSE(ui->widget("fault.log.start").enabled);
  ui->fill("fault.log.path", folder.file("none.csv"));
  ui->frames(2);
  ui->click("fault.log.start");
  ui->frames(4);
  CHECK(ui->has("fault.log.problem.0"));
  ui.shot("fault-log");
  no_two_alike(ui);
  ui->click("fault.log.leave");
  ui->frames(3);
  CHECK_FALSE(ui->has("fault.log.start"));
}
