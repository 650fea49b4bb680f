#include <doctest/doctest.h>

#include <string>

#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// Help by rungs, amounts that the person sets, and a run taken back after an injury, by real clicks.
namespace {

namespace machine = stirbench::machine;
namespace work = stirbench::desk::work;
using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;

void begin(DeskDriver& ui, const std::string& lesson, int mode) {
  ui->click("home.person");
  ui->fill("people.name", "Leilani Adair");
  ui->click("people.add");
  ui->click("home.train");
  ui->click("lessons." + lesson);
  ui->click("lesson.mode." + std::to_string(mode));
  ui->click("lesson.start");
  REQUIRE(ui.run_until([&] { return ui.desk().run != nullptr && ui->has("hand.open_lid"); }));
  ui->frames(5);
}

}  // namespace

TEST_CASE("practice: one rung at a time, the ring with the place and the amount only with the hand") {
  const TempFolder folder("ui-rungs");
  DeskDriver ui(folder.file("data"));
  begin(ui, "first-batch", 1);
  const auto& registry = ui->app().registry();
  CHECK_FALSE(ui->has("now.goal"));
  CHECK_FALSE(ui->has("now.step"));
  ui->click("now.hint");
  ui->frames(4);
  CHECK(ui->has("now.goal"));
  CHECK_FALSE(ui->has("now.why_line"));
  ui.shot("help-goal");
  ui->click("now.hint");
  ui->frames(4);
  CHECK(ui->has("now.why_line"));
  CHECK(registry.pointed().empty());
  ui.shot("help-cue");
  ui->click("now.hint");
  ui->frames(4);
  CHECK(registry.pointed() == "hand.open_lid");
  CHECK_FALSE(ui->has("now.step"));
  ui.shot("help-place");
  ui->click("now.hint");
  ui->frames(4);
  CHECK(ui->label("now.step") == "Open the lid.");
  CHECK_FALSE(ui->has("now.hint"));
  ui.shot("help-step");
  // The next step begins with nothing said.
  ui->click("hand.open_lid");
  REQUIRE(ui.run_until([&] { return ui.desk().run->current_step() == 1; }));
  ui->frames(4);
  CHECK_FALSE(ui->has("now.step"));
  CHECK(ui->has("now.hint"));
  // Nothing is on the scale until somebody weighs.
  ui->click("hand.pour");
  ui->click("scale.ingredient.whole_milk");
  ui->frames(4);
  CHECK_FALSE(ui->widget("scale.pour").enabled);
}

TEST_CASE("guided: an injury can be taken back by 30 s, a test cannot") {
  const TempFolder folder("ui-rewind");
  DeskDriver ui(folder.file("data"));
  begin(ui, "first-batch", 0);
  CHECK(ui->has("now.step"));
  ui.shot("help-guided-first");
  ui->click("hand.open_lid");
  ui->click("speed.10");
  REQUIRE(ui.run_until([&] { return machine::time_s(ui.desk().run->state()) > 60.0; }));
  ui->click("speed.1");
  REQUIRE(ui.get_hurt());
  ui->frames(5);
  ui.shot("injury-rewind");
  const std::uint64_t hurt = ui.desk().run->state().tick;
  ui->click("injury.rewind");
  ui->frames(4);
  CHECK_FALSE(ui->has("injury.again"));
  CHECK_FALSE(ui.desk().run->state().injured);
  CHECK(ui.desk().run->mode() == work::RunMode::retry);
  CHECK(ui.desk().run->state().tick >= hurt - 300);
  CHECK(ui.desk().run->state().tick < hurt);
  CHECK(ui.desk().run->state().plant.fittings.lid_open);
  CHECK(ui->has("now.step"));
  ui.shot("after-rewind");
  const auto kept = ui.desk().store->attempts(ui.desk().person.id);
  REQUIRE(kept.size() == 2);
  CHECK(kept[1].finished);  // the one that hurt; the newest is first
  CHECK(kept[1].mode == "guided");
  CHECK(kept[0].mode == "retry");
}

TEST_CASE("test: what hurt stands") {
  const TempFolder folder("ui-rewind-test");
  DeskDriver ui(folder.file("data"));
  begin(ui, "first-batch", 2);
  CHECK_FALSE(ui->has("now.hint"));
  REQUIRE(ui.get_hurt());
  ui->frames(5);
  CHECK(ui->has("injury.again"));
  CHECK_FALSE(ui->has("injury.rewind"));
}
