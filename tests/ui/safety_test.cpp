#include <doctest/doctest.h>

#include <string>

#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// Emergency stop, alarms and test buttons by real clicks: what is acknowledged is not cleared, what is set
// free starts nothing.
namespace {

namespace control = stirbench::control;
using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;

void every_reason_is_told(DeskDriver& ui) {
  CHECK(ui->app().registry().duplicates().empty());
  for (const auto& widget : ui->app().registry().all()) {
    CAPTURE(widget.id);
    if (!widget.enabled) CHECK_FALSE(widget.reason.empty());
  }
}

// A free run with the agitator turning.
void start_stirring(DeskDriver& ui) {
  ui->click("home.free");
  ui->frames(5);
  ui->click("panel.key.stir");
  REQUIRE(ui.run_until([&] { return ui.desk().run->state().plant.flows.agitator_rpm > 40.0; }));
}

}  // namespace

TEST_CASE(
    "emergency stop by clicks: it cuts at once, turning it free starts nothing, Stop clears, a start key "
    "starts") {
  const TempFolder folder("ui-emergency");
  DeskDriver ui(folder.file("data"));
  start_stirring(ui);
  const auto& state = ui.desk().run->state();
  ui->click("panel.emergency_stop");
  REQUIRE(ui.run_until([&] { return state.plant.flows.agitator_rpm < 0.5; }));
  ui->frames(60);  // letting go of the mouse is no turning
  CHECK(ui->value("panel.emergency_stop") == "in");
  CHECK(control::any_latched(state.control));
  every_reason_is_told(ui);
  ui.shot("emergency-stop-in");
  ui->click("panel.key.stop");  // the cause is still there
  ui->frames(40);
  CHECK(control::any_latched(state.control));
  ui->click("panel.emergency_stop");
  ui->frames(40);
  CHECK(ui->value("panel.emergency_stop").empty());
  CHECK(control::any_latched(state.control));
  CHECK(state.plant.flows.agitator_rpm < 0.5);
  ui->click("panel.key.stop");
  REQUIRE(ui.run_until([&] { return !control::any_latched(state.control); }));
  ui->frames(40);
  CHECK(state.plant.flows.agitator_rpm < 0.5);
  ui->click("panel.key.stir");
  CHECK(ui.run_until([&] { return state.plant.flows.agitator_rpm > 40.0; }));
}

TEST_CASE(
    "alarms by clicks: acknowledged is not cleared, the first out is named, the journal keeps each step") {
  const TempFolder folder("ui-alarms");
  DeskDriver ui(folder.file("data"));
  start_stirring(ui);
  const auto& state = ui.desk().run->state();
  ui->click("hand.group.safety");
  ui->frames(3);
  ui->click("hand.test_overload");
  REQUIRE(ui.run_until([&] { return control::any_latched(state.control); }));
  ui->click("panel.emergency_stop");
  ui->frames(20);
  CHECK(ui->has("panel.acknowledge"));
  ui->click("panel.alarms");
  ui->frames(5);
  CHECK(ui->label("alarms.drive_overload").find("came first") != std::string::npos);
  CHECK(ui->label("alarms.emergency_stop").find("came first") == std::string::npos);
  every_reason_is_told(ui);
  ui.shot("alarms-sheet");
  ui->click("alarms.drive_overload.acknowledge");
  ui->frames(20);
  const auto& overload = state.control.alarms[static_cast<std::size_t>(control::AlarmId::drive_overload)];
  CHECK_FALSE(overload.unacknowledged);
  CHECK(overload.stands());
  ui->click("alarms.close");
  ui->frames(5);
  CHECK_FALSE(ui->has("alarms.drive_overload"));
  ui->click("panel.acknowledge");
  ui->frames(20);
  CHECK_FALSE(control::any_unacknowledged(state.control));
  CHECK_FALSE(ui->has("panel.acknowledge"));
  CHECK(control::any_latched(state.control));
  CHECK(ui.desk().run->alarm_log().occurrences().size() == 2);
}
