#include <doctest/doctest.h>

#include <map>
#include <string>

#include "app/library/library.h"
#include "sim_core/bench/step.h"
#include "sim_core/hands/handles.h"
#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// The safety lessons played in the window: each action of a lesson's right run as a click on the control that
// a person would use, in the test mode, at the times of the run. The score must be a full one, as it is for
// the actions file.
namespace {

namespace hands = stirbench::hands;
namespace machine = stirbench::machine;
using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;

// The control that does an action; in which of the three lists at hand it stands, if in one.
struct Control {
  std::string id;
  std::string list;
};

Control control_of(const hands::Action& action) {
  if (action.is(hands::press)) return {"panel.key." + first_text(action), ""};
  const std::vector<std::pair<const hands::Hand*, Control>> controls = {
      {&hands::confirm, {"panel.confirm", ""}},
      {&hands::acknowledge, {"panel.acknowledge", ""}},
      {&hands::press_emergency_stop, {"panel.emergency_stop", ""}},
      {&hands::release_emergency_stop, {"panel.emergency_stop", ""}},
      {&hands::open_lid, {"hand.open_lid", "machine"}},
      {&hands::close_lid, {"hand.close_lid", "machine"}},
      {&hands::take_sample, {"hand.sample", "machine"}},
      {&hands::isolate, {"hand.isolate", "safety"}},
      {&hands::fit_lock, {"hand.lockout.fit_lock", "safety"}},
      {&hands::remove_lock, {"hand.lockout.remove_lock", "safety"}},
      {&hands::take_key, {"hand.lockout.take_key", "safety"}},
      {&hands::fit_tag, {"hand.lockout.fit_tag", "safety"}},
      {&hands::tell_people, {"hand.lockout.tell_lockout", "safety"}},
      {&hands::test_overload, {"hand.test_overload", "safety"}},
      {&hands::test_cutout, {"hand.test_cutout", "safety"}},
      {&hands::test_pressure, {"hand.test_pressure", "safety"}},
      {&hands::reset_overload, {"hand.reset_overload", "safety"}},
      {&hands::reset_cutout, {"hand.reset_cutout", "safety"}},
  };
  for (const auto& [hand, control] : controls) {
    if (action.is(*hand)) return control;
  }
  return {};
}

// Looked up by its name in the list of parts.
void click_part(DeskDriver& ui, const std::string& part) {
  ui->click("hand.group.point");
  ui->frames(2);
  for (const auto& one : ui.desk().library.bodies.at(ui.desk().run->machine().plant.id).parts)
    if (one.id == part) ui->fill("hand.point.search", one.title);
  ui->frames(2);
  ui->click("hand.point." + part);
  ui->frames(2);
  ui->click("hand.point");
}

void click_action(DeskDriver& ui, const hands::Action& action) {
  if (action.is(hands::point_out)) return click_part(ui, first_text(action));
  const Control control = control_of(action);
  CAPTURE(action.hand()->name);
  REQUIRE_FALSE(control.id.empty());
  if (!control.list.empty()) {
    ui->click("hand.group." + control.list);
    ui->frames(2);
  }
  ui->click(control.id);
}

// Runs at ten times, and at sixty times where nothing is to be done for more than a minute.
void wait_until(DeskDriver& ui, double at_s) {
  const auto now = [&] { return machine::time_s(ui.desk().run->state()); };
  if (at_s - now() > 60.0) {
    ui->click("speed.60");
    REQUIRE(ui.run_until([&] { return now() > at_s - 20.0; }));
  }
  ui->click("speed.10");
  REQUIRE(ui.run_until([&] { return now() >= at_s; }));
}

// When an action that waits for a phase is due.
double phase_at_s(DeskDriver& ui, const hands::TimedAction& timed) {
  const auto here = [&] {
    const auto& state = ui.desk().run->state().control;
    const auto& recipes = ui.desk().run->machine().recipes;
    const auto* phase = state.recipe < 0 ? nullptr
                                         : stirbench::control::current_phase(
                                               &recipes[static_cast<std::size_t>(state.recipe)], state);
    return phase != nullptr && phase->id == timed.at_phase;
  };
  ui->click("speed.60");
  REQUIRE(ui.run_until(here));
  return machine::time_s(ui.desk().run->state()) + timed.after_s;
}

void play_by_clicks(const std::string& lesson) {
  const TempFolder folder("ui-" + lesson);
  DeskDriver ui(folder.file("data"));
  ui->click("home.train");
  ui->click("lessons." + lesson);
  ui->click("lesson.mode.2");
  ui->click("lesson.start");
  REQUIRE(ui.desk().run);
  const auto file = stirbench::test_support::source_root() / "content/lessons" / lesson / "right.jsonl";
  const auto read = stirbench::library::read_actions(file.string(), ui.desk().run->machine());
  REQUIRE(read.problems.empty());
  int number = 0;
  for (const auto& timed : read.actions) {
    if (!ui.desk().run || ui.desk().run->finished()) break;  // a lesson may end before its file does
    wait_until(ui, timed.at_phase.empty() ? timed.at_s : phase_at_s(ui, timed));
    if (!ui.desk().run || ui.desk().run->finished()) break;
    click_action(ui, timed.action);
    ui->frames(3);
    ui.shot("lesson-" + lesson + "-" + std::to_string(number++));
  }
  if (ui->has("speed.300")) ui->click("speed.300");
  REQUIRE(
      ui.run_until([&] { return ui.desk().run && (ui.desk().run->finished() || ui.desk().run->over()); }));
  const auto card = ui.desk().run->card();
  for (const auto& criterion : card.criteria)
    CHECK_MESSAGE(criterion.met, lesson << ": " << criterion.id << ": " << criterion.why);
  CHECK(card.passed);
  ui->frames(5);
  ui.shot("lesson-" + lesson + "-end");
}

}  // namespace

TEST_CASE("strange starts, by clicks") { play_by_clicks("strange-starts"); }
TEST_CASE("a defeated switch, by clicks") { play_by_clicks("defeated-switch"); }
TEST_CASE("clearing an alarm, by clicks") { play_by_clicks("clearing-an-alarm"); }
TEST_CASE("a power cut in mid-batch, by clicks") { play_by_clicks("power-cut"); }
