#include <doctest/doctest.h>

#include <string>

#include "sim_core/plant/freezer/freezer.h"
#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// The lesson of filling a freezer in the test mode: once with the mouse alone, once with keys alone; the same
// score.
namespace {

using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;
namespace plant = stirbench::plant;

class Hands {
 public:
  Hands(DeskDriver& ui, bool keys) : ui_(ui), keys_(keys) {}

  void press(const std::string& id) {
    REQUIRE(ui_.run_until([&] { return ui_->has(id); }));
    if (!keys_) {
      ui_->click(id);
      return;
    }
    ui_->app().registry().request_focus(id);
    ui_->frames(3);
    ui_->press("Return");
  }
  // About a third of the handle.
  void open_valve() {
    if (keys_) {
      ui_->app().registry().request_focus("hand.draw_valve");
      ui_->frames(3);
      ui_->press("Home");
      for (int i = 0; i < 6; ++i) ui_->press("Right");
      return;
    }
    ui_->drag("hand.draw_valve", -0.2F * ui_->widget("hand.draw_valve").rect.w, 0.0F);
  }

 private:
  DeskDriver& ui_;
  bool keys_;
};

double played(DeskDriver& ui, bool keys) {
  Hands hands(ui, keys);
  const auto& state = [&]() -> const plant::PlantState& { return ui.desk().run->state().plant; };
  hands.press("home.train");
  hands.press("lessons.fill-a-freezer");
  hands.press("lesson.mode.2");
  hands.press("lesson.start");
  REQUIRE(ui.run_until([&] { return ui.desk().run != nullptr; }));
  hands.press("speed.1");
  hands.press("hand.hose.gasket");
  REQUIRE(ui.run_until([&] { return state().line.gasket; }));
  hands.press("hand.hose.push_freezer");
  hands.press("hand.hose.clamp");
  REQUIRE(
      ui.run_until([&] { return state().line.clamped && state().fittings.hose == plant::HoseEnd::freezer; }));
  if (!keys) ui.shot("fill-clamped");
  hands.press("hand.freezer_lid");
  hands.press("hand.freezer_water");
  REQUIRE(ui.run_until([&] { return plant::mix_L(state().freezer) > 1.5; }));
  if (!keys) ui.shot("fill-rinsing");
  hands.press("hand.freezer_drain");
  REQUIRE(ui.run_until([&] { return state().freezer.drain_open; }));
  if (!keys) ui.shot("fill-draining");
  REQUIRE(ui.run_until([&] { return state().freezer.product.total_kg() == 0.0; }));
  hands.press("hand.freezer_drain");
  hands.press("hand.freezer_lid");
  REQUIRE(ui.run_until([&] { return !state().freezer.drain_open && !state().freezer.lid_open; }));
  hands.press("panel.key.stir");
  REQUIRE(ui.run_until([&] { return state().flows.agitator_rpm > 60.0; }));
  hands.open_valve();
  REQUIRE(ui.run_until([&] { return plant::mix_L(state().freezer) > 3.6; }));
  if (!keys) ui.shot("fill-running");
  hands.press("hand.draw_shut");
  hands.press("panel.key.stop");
  REQUIRE(ui.run_until(
      [&] { return state().fittings.draw_opening_norm == 0.0 && state().flows.agitator_rpm < 1.0; }));
  hands.press("hand.hose.drain");
  REQUIRE(ui.run_until([&] { return state().line.held.total_kg() == 0.0; }));
  hands.press("hand.remove_hose");
  hands.press("hand.freezer_inlet");
  hands.press("hand.freezer_start");
  REQUIRE(ui.run_until([&] { return state().freezer.running && !state().freezer.inlet_open; }));
  hands.press("speed.60");
  REQUIRE(ui.run_until([&] { return plant::freezer_mode(state().freezer) == plant::FreezerMode::ready; }));
  hands.press("speed.1");
  hands.press("hand.freezer_draw");
  hands.press("speed.10");
  REQUIRE(ui.run_until([&] { return state().freezer.tub.total_kg() > 2.2; }));
  if (!keys) ui.shot("fill-drawn");
  hands.press("hand.freezer_draw");
  hands.press("hand.freezer_stop");
  REQUIRE(ui.run_until([&] { return ui.desk().run->finished() || ui.desk().run->over(); }));
  const auto card = ui.desk().run->card();
  for (const auto& criterion : card.criteria)
    CHECK_MESSAGE(criterion.met, criterion.id << ": " << criterion.why);
  CHECK(card.passed);
  return card.score_norm;
}

}  // namespace

TEST_CASE("a freezer filled by mouse alone and by keys alone: the same score") {
  const TempFolder folder("ui-fill");
  double by_mouse = 0.0;
  {
    DeskDriver ui(folder.file("mouse"));
    by_mouse = played(ui, false);
  }
  DeskDriver ui(folder.file("keys"));
  CHECK(played(ui, true) == by_mouse);
  CHECK(by_mouse == 1.0);
}
