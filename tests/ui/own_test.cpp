#include <doctest/doctest.h>

#include <string>

#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// Somebody brings a logger's file: what is wrong with it is said; nothing is begun without one.
namespace {
using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;
}  // namespace

TEST_CASE("own machine: reached from home, refuses a file that is no log, says where") {
  const TempFolder folder("ui-own");
  stirbench::test_support::write_file(folder.file("batch.csv"), "time [s],product\n0,8\n10,9\n");
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
  ui.shot("own-problem");
  for (const auto& id : ui->app().registry().duplicates()) CHECK_MESSAGE(false, "registered twice: " << id);
}
