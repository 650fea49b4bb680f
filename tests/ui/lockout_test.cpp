#include <doctest/doctest.h>

#include <string>

#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// Locking out by real clicks on what is at hand, and what the desk says when an injury stops the run.
namespace {

namespace machine = stirbench::machine;
using stirbench::desk::kit::ThemeKind;
using stirbench::desk::screens::Settings;
using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;

void small_targets_none(DeskDriver& ui) {
  CHECK(ui->app().registry().duplicates().empty());
  for (const auto& widget : ui->app().registry().all()) {
    CAPTURE(widget.id);
    if (!widget.enabled) CHECK_FALSE(widget.reason.empty());
  }
}

}  // namespace

TEST_CASE("lock-out at hand: isolator, own padlock, key, tag, and the board says how far it is") {
  const TempFolder folder("ui-lockout");
  DeskDriver ui(folder.file("data"));
  ui->click("home.free");
  ui->frames(5);
  ui->click("hand.group.safety");
  ui->frames(5);
  CHECK(ui->label("lockout.isolator") == "Isolator ON: the machine can start");
  ui->click("hand.lockout.read_energies");
  ui->click("hand.lockout.tell_lockout");
  ui->click("panel.key.stop");
  ui->frames(10);
  ui->click("hand.isolate");
  ui->frames(10);
  ui->click("hand.lockout.fit_lock");
  ui->frames(10);
  const machine::Lockout& lockout = ui.desk().run->state().lockout;
  CHECK(lockout.yours.key_in);
  CHECK(ui->label("lockout.yours") == "You: padlock, no tag, key in it");
  ui->click("hand.lockout.take_key");
  ui->frames(10);
  ui->click("hand.lockout.fit_tag");
  ui->frames(10);
  CHECK(ui->label("lockout.yours") == "You: padlock and tag");
  CHECK(machine::isolator_held(lockout));
  CHECK(ui->label("lockout.isolator") == "Isolator OFF");
  small_targets_none(ui);
  ui.shot("lockout-locked");
  for (const ThemeKind theme : {ThemeKind::dark, ThemeKind::contrast}) {
    Settings settings = ui->app().settings();
    settings.theme = theme;
    ui->app().change_settings(settings);
    ui->frames(5);
    ui.shot(theme == ThemeKind::dark ? "lockout-dark" : "lockout-contrast");
  }
  ui->click("hand.group.cleaning");
  ui->frames(5);
  ui->click("hand.clean.wear_eye_protection");
  ui->frames(10);
  CHECK(ui.desk().run->state().wearing.has(machine::PpeItem::eye_protection));
  small_targets_none(ui);
  ui.shot("cleaning-contrast");
}

TEST_CASE(
    "an injury stops the run: the sheet explains what, why and what to do instead; trying again starts a new "
    "run") {
  const TempFolder folder("ui-injury");
  DeskDriver ui(folder.file("data"));
  ui->click("home.free");
  ui->frames(5);
  REQUIRE(ui.get_hurt());
  CHECK(ui.desk().run->state().injured);
  CHECK(ui.desk().run->state().injury == machine::HarmId::live_terminals);
  CHECK(ui->label("injury.instead") ==
        "Isolate, own lock and tag on, wait the time on the label, prove the meter, measure, prove it again. "
        "Only licensed people "
        "work inside the panel.");
  const std::uint64_t stopped_at = ui.desk().run->state().tick;
  ui->frames(20);
  CHECK(ui.desk().run->state().tick == stopped_at);
  ui.shot("injury");
  Settings settings = ui->app().settings();
  settings.theme = ThemeKind::dark;
  settings.text_percent = 150;
  ui->app().change_settings(settings);
  ui->frames(5);
  ui.shot("injury-dark-large");
  ui->click("injury.again");
  ui->frames(10);
  CHECK_FALSE(ui->has("injury.again"));
  CHECK_FALSE(ui.desk().run->state().injured);
  CHECK(ui.desk().run->state().tick < stopped_at + 200);
  // Once more, and this time back to the score.
  ui->click("hand.group.safety");
  ui->frames(5);
  ui->click("hand.lockout.take_panel_off");
  ui->frames(10);
  ui->click("hand.lockout.work_panel");
  REQUIRE(ui.run_until([&] { return ui->has("injury.look_back"); }));
  ui->click("injury.look_back");
  CHECK(ui.run_until([&] { return std::string(ui->app().top()->name()) == "debrief"; }));
}

TEST_CASE("help shows every sign with its number and meaning") {
  const TempFolder folder("ui-signs");
  DeskDriver ui(folder.file("data"));
  for (const ThemeKind theme : {ThemeKind::light, ThemeKind::dark, ThemeKind::contrast}) {
    Settings settings = ui->app().settings();
    settings.theme = theme;
    ui->app().change_settings(settings);
    ui->app().home(true);
    ui->app().push("help");
    ui->frames(6);
    REQUIRE(ui->has("help.panel"));
    ui->wheel("help.panel", 7);
    ui->frames(10);
    ui.shot(theme == ThemeKind::light  ? "signs-light"
            : theme == ThemeKind::dark ? "signs-dark"
                                       : "signs-contrast");
  }
}
