#include <doctest/doctest.h>

#include <set>
#include <string>

#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// A technician at a dead machine: symptom by a misspelt word, the advised check, its answer, the repair, the
// hand-off page.
namespace {

using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;

// Where the advised check has a picture: the right part or the right terminals, how to do it, and back to the
// same check.
void look_at_picture(DeskDriver& ui, std::set<std::string>& kinds) {
  if (!ui->has("fault.check.picture")) return;
  const std::string kind = ui->label("fault.check.picture");
  if (!kinds.insert(kind).second) return;
  ui->click("fault.check.picture");
  ui->frames(4);
  CHECK(ui->label("fault.aid.title").size() > 3);
  CHECK(ui->has("fault.aid.expected"));
  for (const auto& id : ui->app().registry().duplicates()) CHECK_MESSAGE(false, "registered twice: " << id);
  ui.shot("fault-picture-" + std::to_string(kinds.size()));
  ui->click("fault.aid.close");
  ui->frames(2);
  CHECK(ui->has("fault.check"));
}

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
  // Follow the advice with the answers that an open element would give, until it says to repair that; other
  // repairs are in vain.
  const auto found = [&] {
    return ui->has("fault.repair") && ui->label("fault.repair") == "Heating element 1 open";
  };
  std::set<std::string> pictures;
  for (int step = 0; step < 40 && !found(); ++step) {
    look_at_picture(ui, pictures);
    std::string chosen = ui->has("fault.in_vain") ? "fault.in_vain" : "";
    for (const char* id :
         {"fault.answer.high-3", "fault.answer.high-12", "fault.answer.slow", "fault.answer.cool"}) {
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
  CHECK(pictures.size() == 2);  // the machine, and the wiring diagram
  // The same cause in a simulated machine: it heats with two elements of three.
  ui->click("fault.simulate");
  REQUIRE(ui.run_until([&] { return ui.desk().run != nullptr && ui->has("panel.key.heat"); }));
  ui->click("panel.key.heat");
  REQUIRE(ui.run_until([&] { return ui.desk().run->state().plant.flows.heaters_W > 0.0; }));
  const auto& elements = ui.desk().run->machine().plant.elements;
  CHECK(ui.desk().run->state().plant.flows.heaters_W < 0.8 * elements.count * elements.rated_W_each);
  ui.shot("fault-simulated");
}
