#include <doctest/doctest.h>

#include <string>

#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// A technician at a dead machine: symptom by a misspelt word, the advised check, its answer, the repair, the hand-off page.
namespace {

using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;

}  // namespace

TEST_CASE("find a fault: from a misspelt symptom to the repair with real keys and clicks") {
  const TempFolder folder("ui-fault");
  DeskDriver ui(folder.file("data"));
  ui->click("home.fault");
  REQUIRE(std::string(ui->app().top()->name()) == "fault");
  CHECK_FALSE(ui->widget("fault.undo").enabled);
  ui.shot("fault-start");
  ui->fill("fault.search", "heets slowlly");
  CHECK(ui->has("fault.symptom.heats-slowly"));
  ui.shot("fault-search");
  ui->click("fault.symptom.heats-slowly");
  CHECK(ui->has("fault.seen.heats-slowly"));
  CHECK(ui->has("fault.check"));
  ui.shot("fault-first-check");
  ui.choose("fault.who", "licensed electrician");
  ui->frames(2);
  // The same as a tree: where one is, and back.
  ui->click("fault.tree.show");
  ui->frames(2);
  CHECK(ui->has("fault.tree.here"));
  ui.shot("fault-tree");
  ui->click("fault.tree.show");
  ui->frames(2);
  CHECK(ui->has("fault.check"));
  // Follow the advice with the answers that an open element would give, until it says to repair that; other repairs are in vain.
  const auto found = [&] { return ui->has("fault.repair") && ui->label("fault.repair") == "Heating element 1 open"; };
  for (int step = 0; step < 40 && !found(); ++step) {
    std::string chosen = ui->has("fault.in_vain") ? "fault.in_vain" : "";
    for (const char* id : {"fault.answer.high-3", "fault.answer.high-12", "fault.answer.slow", "fault.answer.cool"}) {
      if (chosen.empty() && ui->has(id)) chosen = id;
    }
    // Everything else is as on a good machine: the first answer.
    for (const auto& widget : ui->app().registry().all()) {
      if (chosen.empty() && widget.id.rfind("fault.answer.", 0) == 0) chosen = widget.id;
    }
    REQUIRE_FALSE(chosen.empty());
    ui->click(chosen);
    ui->frames(2);
    ui.shot("fault-step-" + std::to_string(step));
  }
  REQUIRE(ui->has("fault.repair"));
  CHECK(ui->label("fault.repair") == "Heating element 1 open");
  ui.shot("fault-repair");
  ui->click("fault.hand_off");
  ui->frames(2);
  CHECK(ui->has("fault.hand.text"));
  ui.shot("fault-hand-off");
  ui->click("fault.hand.close");
  ui->frames(2);
  ui->click("fault.repaired");
  ui->frames(2);
  CHECK(ui->has("fault.solved"));
  ui.shot("fault-solved");
  ui->click("fault.undo");
  ui->frames(2);
  CHECK(ui->has("fault.repair"));
}
