#include <doctest/doctest.h>

#include <string>

#include "app/library/library.h"
#include "app/library/reading/paths.h"
#include "sim_core/journal/journal.h"
#include "sim_core/training/lesson_run.h"
#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// The whole First batch by real clicks on named widgets, from the door to the debrief; the score is the
// actions file's.
namespace {

using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;
namespace journal = stirbench::journal;
namespace machine = stirbench::machine;
namespace training = stirbench::training;
namespace library = stirbench::library;

// Chooses on the shelf, weighs, pours. In guided runs too nothing is on the scale until one weighs.
void pour(DeskDriver& ui, const std::string& ingredient, const std::string& kg) {
  ui->click("scale.ingredient." + ingredient);
  ui->frames(2);
  CHECK_FALSE(ui->widget("scale.pour").enabled);
  ui->fill("scale.kg", kg);
  ui->click("scale.pour");
  const auto poured = [&] {
    for (const auto& event : ui.desk().run->history()) {
      if (event.kind == machine::EventKind::acted && event.name == ingredient) return true;
    }
    return false;
  };
  REQUIRE(ui.run_until(poured));
  ui->frames(10);  // the guide points at the next one and scrolls to it
}

std::string phase(DeskDriver& ui) {
  const auto& control = ui.desk().run->state().control;
  if (control.recipe < 0 || control.phase < 0) return "";
  return ui.desk()
      .run->machine()
      .recipes[static_cast<std::size_t>(control.recipe)]
      .phases[static_cast<std::size_t>(control.phase)]
      .id;
}

void go_to_phase(DeskDriver& ui, const std::string& wanted) {
  for (int i = 0; i < 12 && phase(ui) != wanted; ++i) {
    if (!ui->has("speed.next")) break;
    ui->click("speed.next");
    ui.run_until([&] { return phase(ui) == wanted || !ui->widget("speed.next").enabled; }, 300);
  }
  if (phase(ui) != wanted) ui.shot("stuck-before-" + wanted);
  REQUIRE(phase(ui) == wanted);
}

training::ScoreCard right_actions_card(const stirbench::desk::work::Desk& desk) {
  const auto& lesson = desk.library.lessons.at("first-batch");
  const machine::Machine machine = desk.library.machine(lesson.machine);
  training::LessonRun run(machine, lesson, "practice", STIRBENCH_VERSION, lesson.start.seed);
  training::play_to_end(
      run, library::read_actions(desk.content_dir + "/lessons/first-batch/right.jsonl", machine).actions);
  return run.card();
}

void start_lesson(DeskDriver& ui) {
  ui->click("home.person");
  ui->fill("people.name", "Leilani Adair");
  ui->click("people.add");
  ui.shot("home");
  ui->click("home.train");
  ui.shot("lessons");
  ui->click("lessons.first-batch");
  ui.shot("lesson");
  ui->click("lesson.start");
  ui.shot("train-start");
}

void load_and_run(DeskDriver& ui) {
  ui->click("hand.open_lid");
  ui->click("hand.pour");
  ui->frames(20);
  ui.shot("train-scale");
  pour(ui, "whole_milk", "22.2");
  ui->click("scale.back");
  ui->click("hand.close_lid");
  ui.choose("panel.recipe", "White base, high hold");
  ui->click("panel.key.run");
}

void add_the_rest(DeskDriver& ui) {
  const auto& state = ui.desk().run->state();
  ui->click("panel.key.stop");
  REQUIRE(ui.run_until([&] { return state.plant.flows.agitator_rpm < 1.0; }));
  ui->click("hand.open_lid");
  ui->frames(30);
  ui.shot("train-open");
  CHECK(state.plant.fittings.lid_open);
  CHECK(state.plant.flows.heaters_W == 0.0);
  ui->click("hand.pour");
  const std::pair<const char*, const char*> rest[] = {
      {"sugar", "5.2"},           {"dextrose", "0.8"}, {"skim_milk_powder", "1.8"},
      {"stabiliser_cold", "0.2"}, {"cream_35", "9.7"}, {"vanilla", "0.1"}};
  for (const auto& [ingredient, kg] : rest) pour(ui, ingredient, kg);
  ui->click("scale.back");
  ui->click("hand.close_lid");
  ui->frames(20);
  CHECK_FALSE(stirbench::control::any_latched(state.control));
  ui->click("panel.key.run");
  REQUIRE(ui.run_until([&] { return ui.desk().run->something_runs(); }));
  ui->frames(20);
  ui->click("panel.confirm");
}

void draw_a_part(DeskDriver& ui) {
  ui->click("hand.draw_valve");  // gives the slider the keyboard (and pulls to the middle)
  // The handle follows with the machine's next tick.
  const auto pressed = [&ui](const char* key, const std::string& shows) {
    ui->press(key);
    CHECK(ui->wait_for([&] { return ui->value("hand.draw_valve") == shows; }));
  };
  pressed("Home", "shut");
  pressed("Right", "5\u2009%");
  ui->press("Right");  // two presses within a tick are two steps
  pressed("Right", "15\u2009%");
  pressed("Left", "10\u2009%");
  ui.run_until([&] { return ui.desk().run->state().plant.pail.total_kg() > 1.7; });
  ui.shot("train-draw");
  ui->click("hand.draw_shut");
}

}  // namespace

TEST_CASE("First batch through the window scores as its actions file, is kept, and replays") {
  const TempFolder folder("ui-first-batch");
  DeskDriver ui(folder.file("data"));
  start_lesson(ui);
  load_and_run(ui);
  go_to_phase(ui, "add");
  ui.shot("train-add");
  add_the_rest(ui);
  go_to_phase(ui, "hold");
  ui.shot("train-hold");
  go_to_phase(ui, "chill");
  ui.shot("train-chill");
  go_to_phase(ui, "keep");
  draw_a_part(ui);
  REQUIRE(ui.run_until([&] { return ui->has("debrief.score"); }));
  ui->frames(10);
  ui.shot("debrief");

  const training::ScoreCard expected = right_actions_card(ui.desk());
  const training::ScoreCard got = ui.desk().run->card();
  CHECK(got.passed == expected.passed);
  CHECK(got.score_norm == doctest::Approx(expected.score_norm));
  for (std::size_t i = 0; i < got.criteria.size(); ++i) {
    CAPTURE(got.criteria[i].id);
    CAPTURE(got.criteria[i].why);
    CHECK(got.criteria[i].met == expected.criteria[i].met);
  }

  // Kept in the records; its journal replays to the same state on the command line's code.
  const auto attempts = ui.desk().store->attempts(ui.desk().person.id);
  REQUIRE(attempts.size() == 1);
  CHECK(attempts[0].finished);
  CHECK(attempts[0].passed == got.passed);
  journal::Journal journal;
  const std::string text = library::read_file(ui.desk().store->journal_path(attempts[0]));
  CHECK(journal::read_journal(text, journal).message.empty());
  const machine::Machine machine = ui.desk().library.machine("hm-45");
  const journal::ReplayResult replayed = journal::replay(machine, journal);
  CHECK(replayed.verified);
  CHECK(machine::state_hash(replayed.state) == machine::state_hash(ui.desk().run->state()));

  // Scrub: the debrief's moment follows the slider and a criterion.
  ui->click("debrief.slider");
  ui.shot("debrief-middle");
  ui->click("debrief.side.1");
  ui.shot("debrief-events");
  CHECK(ui->app().registry().duplicates().empty());
}
