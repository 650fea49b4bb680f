#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// Lessons and the quiz that ask for parts: by the picture, by the list, by keys alone.
namespace {

using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;

void begin(DeskDriver& ui) {
  ui->click("home.train");
  ui->fill("lessons.search", "round the machine");
  ui->click("lessons.round-the-machine");
  ui->click("lesson.mode.2");
  ui->click("lesson.start");
  REQUIRE(ui.run_until([&] { return ui.desk().run != nullptr && ui->has("hand.point.search"); }));
  ui->frames(10);
}

// Looks the part up by a word of its name, chooses it in the list and points at it.
void point_by_list(DeskDriver& ui, const std::string& word, const std::string& part, bool keys) {
  const int step = ui.desk().run->current_step();
  ui->fill("hand.point.search", word);
  ui->frames(2);
  for (const std::string& id : {"hand.point." + part, std::string("hand.point")}) {
    CAPTURE(id);
    REQUIRE(ui->has(id));
    if (keys) {
      ui->app().registry().request_focus(id);
      ui->frames(3);
      ui->press("Return");
    } else {
      ui->click(id);
    }
    ui->frames(2);
  }
  REQUIRE(ui.run_until([&] { return ui.desk().run->current_step() == step + 1; }));
}

struct Asked {
  const char* word;
  const char* part;
};
const std::vector<Asked> asked = {{"emergency stop", "emergency_stop"},
                                  {"isolator", "isolator"},
                                  {"reed", "reed_switch"},
                                  {"shaft cover", "shaft_cover"},
                                  {"cut-out", "cutout"},
                                  {"elements", "elements"},
                                  {"probe", "probe"},
                                  {"circulation", "pump"},
                                  {"sleeve", "shaft_sleeve"},
                                  {"agitator bush", "agitator_bushing"},
                                  {"end bush", "shaft_end_bushing"},
                                  {"front o-ring", "oring_front"},
                                  {"spring", "valve_spring"},
                                  {"evaporator", "evaporator"},
                                  {"grille", "grille"}};

double played(DeskDriver& ui, bool keys) {
  begin(ui);
  for (const Asked& one : asked) point_by_list(ui, one.word, one.part, keys);
  REQUIRE(ui->has("now.finish"));
  ui->click("now.finish");
  REQUIRE(ui.run_until([&] { return ui->has("debrief.again") || !ui->has("now.finish"); }));
  const auto card = ui.desk().run->card();
  CHECK(card.passed);
  return card.score_norm;
}

}  // namespace

TEST_CASE("round the machine as a test, by mouse and by keys alone: the same score") {
  const TempFolder mouse_folder("ui-point-mouse");
  const TempFolder keys_folder("ui-point-keys");
  double by_mouse = 0.0;
  {
    DeskDriver ui(mouse_folder.file("data"));
    by_mouse = played(ui, false);
    ui->frames(6);
    ui.shot("point-debrief");
  }
  DeskDriver ui(keys_folder.file("data"));
  CHECK(played(ui, true) == by_mouse);
  CHECK(by_mouse == 1.0);
}

TEST_CASE(
    "in a lesson that asks for parts the picture names nothing, a click only chooses, and a wrong one is "
    "told") {
  const TempFolder folder("ui-point-picture");
  DeskDriver ui(folder.file("data"));
  begin(ui);
  ui.shot("point-start");
  REQUIRE(ui->has("machine.view"));
  const auto& fittings = [&]() -> const auto& { return ui.desk().run->state().plant.fittings; };
  ui->click("machine.lid");  // its named place: chosen, not opened
  ui->frames(20);
  CHECK_FALSE(fittings().lid_open);
  CHECK(ui->label("machine.view").find(':') == std::string::npos);
  REQUIRE(ui->has("machine.part.point_out"));
  CHECK_FALSE(ui->widget("hand.point").enabled);  // the list does not name what was chosen in the picture
  ui.shot("point-chosen");
  const int step = ui.desk().run->current_step();
  ui->click("machine.part.point_out");
  REQUIRE(ui.run_until([&] {
    return !ui.desk().run->history().empty() && ui.desk().run->history().back().name == "lid_handle";
  }));
  ui->frames(4);
  ui.shot("point-wrong");
  CHECK(ui.desk().run->current_step() == step);
  CHECK_FALSE(fittings().lid_open);
}

TEST_CASE("parts screen: where a part is met opens the lesson, and the quiz asks until it is enough") {
  const TempFolder folder("ui-quiz");
  DeskDriver ui(folder.file("data"));
  ui->click("home.parts");
  ui->frames(20);
  ui->click("parts.part.lid");
  ui->frames(12);
  REQUIRE(ui->has("parts.use.first-batch"));
  ui.shot("parts-uses");
  ui->click("parts.ask");
  ui->frames(12);
  REQUIRE(ui->has("parts.quiz.show"));
  ui.shot("parts-quiz");
  const auto words = [&] { return ui->label("parts.quiz.words"); };
  // The right one, found by what it is for.
  std::string right;
  for (const auto& part : ui.desk().library.bodies.at(ui.desk().machine_id).parts)
    if (words() == part.purpose) right = part.id;
  REQUIRE(right != "");
  const std::string first = words();
  const std::string wrong = right == "pail" ? "vat" : "pail";
  ui->click("hand.point." + wrong);
  ui->click("hand.point");
  ui->frames(4);
  CHECK(words() == first);
  ui->click("hand.point." + right);
  ui->click("hand.point");
  ui->frames(4);
  CHECK(words() != first);
  const std::string second = words();
  ui->click("parts.quiz.show");
  ui->frames(6);
  CHECK(words() != second);
  ui->click("parts.quiz.end");
  ui->frames(4);
  CHECK_FALSE(ui->has("parts.quiz.show"));
  ui->click("parts.part.lid");
  ui->frames(6);
  ui->click("parts.use.first-batch");
  REQUIRE(ui.run_until([&] { return ui->has("lesson.start"); }));
}
