#include <doctest/doctest.h>

#include <filesystem>
#include <string>
#include <vector>

#include <imgui.h>

#include "app/desk/kit/text/text.h"
#include "app/desk/work/run/pointing.h"
#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// Every screen opens, in every theme, at double text size and in the lengthened test language; the recipe
// bench saves only what runs.
namespace {

using stirbench::desk::kit::ThemeKind;
using stirbench::desk::screens::Settings;
using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;

const char* const screens[] = {"home",  "lessons", "lesson",  "recipes", "attempts", "people", "settings",
                               "parts", "help",    "certify", "demand",  "fault",    "own"};

// Whatever stands in the top bar can be read and clicked: inside the window, and nothing over another.
void check_top_bar(DeskDriver& ui) {
  const auto& io = ImGui::GetIO();
  std::vector<const stirbench::desk::kit::Widget*> bar;
  const auto& all = ui->app().registry().all();
  for (const auto& widget : all) {
    if (widget.kind != "toast" && widget.rect.bottom() <= ui->app().theme().control_height() * 1.5F)
      bar.push_back(&widget);
  }
  for (std::size_t i = 0; i < bar.size(); ++i) {
    CAPTURE(bar[i]->id);
    CHECK(bar[i]->rect.x >= 0.0F);
    CHECK(bar[i]->rect.right() <= io.DisplaySize.x);
    for (std::size_t j = i + 1; j < bar.size(); ++j) {
      CAPTURE(bar[j]->id);
      CHECK((bar[i]->rect.right() <= bar[j]->rect.x || bar[j]->rect.right() <= bar[i]->rect.x));
    }
  }
}

void visit_all(DeskDriver& ui, const std::string& label) {
  for (const char* screen : screens) {
    CAPTURE(std::string(screen));
    ui->app().home(true);
    ui->frames(2);
    if (std::string(screen) != "home") ui->app().push(screen);
    ui->frames(6);
    CHECK(std::string(ui->app().top()->name()) == screen);
    CHECK(ui->app().registry().all().size() > 1);
    CHECK(ui->app().registry().duplicates().empty());
    for (const auto& widget : ui->app().registry().all()) {
      if (!widget.enabled) CHECK_FALSE(widget.reason.empty());
    }
    check_top_bar(ui);
    ui.shot(label + "-" + screen);
  }
}

}  // namespace

TEST_CASE(
    "every screen opens in light, dark and high contrast, at 100 and 200 %, and in the long test language") {
  const TempFolder folder("ui-screens");
  DeskDriver ui(folder.file("data"));
  ui.desk().person = ui.desk().store->add_person("Tomas Vell");
  visit_all(ui, "light");
  Settings settings = ui->app().settings();
  settings.theme = ThemeKind::dark;
  ui->app().change_settings(settings);
  visit_all(ui, "dark");
  settings.theme = ThemeKind::contrast;
  settings.text_percent = 200;
  ui->app().change_settings(settings);
  visit_all(ui, "large");
  ui->app().home(true);
  ui->frames(2);
  ui->app().registry().scroll_to("home.free");
  ui->frames(10);
  ui.shot("large-home-foot");
  ui->click("home.free");
  ui->frames(6);
  check_top_bar(ui);
  ui.shot("large-train");
  ui->app().back(true);
  ui->frames(4);
  settings.theme = ThemeKind::light;
  settings.text_percent = 100;
  settings.language = "x-test";
  ui->app().change_settings(settings);
  visit_all(ui, "long");
}

TEST_CASE(
    "recipe bench: a shipped recipe stays, a copy over the brim is not saved and says why, a good one is") {
  const TempFolder folder("ui-recipes");
  DeskDriver ui(folder.file("data"), "recipes");
  ui->click("recipes.item.white-base-high");
  CHECK_FALSE(ui->widget("recipes.save").enabled);
  CHECK_FALSE(ui->widget("recipes.start.0.kg").enabled);
  ui->click("recipes.copy");
  ui->fill("recipes.start.0.kg", "55");
  CHECK(ui->has("recipes.problem.0"));
  CHECK_FALSE(ui->widget("recipes.save").enabled);
  CHECK(ui->widget("recipes.save").reason.size() > 20);
  ui.shot("recipes-bad");
  ui->fill("recipes.start.0.kg", "21.5");
  CHECK_FALSE(ui->has("recipes.problem.0"));
  CHECK(ui->widget("recipes.save").enabled);
  ui->click("recipes.save");
  CHECK(std::filesystem::exists(folder.file("data/recipes/white-base-high-2.json")));
  CHECK(ui.desk().library.own_recipes.count("white-base-high-2") == 1);
  ui.shot("recipes-saved");
  // The estimate arrives from beside the drawing thread.
  CHECK(ui.run_until([&] {
    return ui->has("recipes.figure.finish") &&
           ui->label("recipes.figure.finish").find(':') != std::string::npos;
  }));
}

TEST_CASE("guards stop it, by clicks: the alarm stays until Stop, closing the lid starts nothing") {
  const TempFolder folder("ui-guards");
  DeskDriver ui(folder.file("data"));
  ui->click("home.train");
  ui->click("lessons.guards-stop-it");
  ui->click("lesson.mode.1");
  ui->click("lesson.start");
  ui->click("panel.key.stir");
  const auto& state = ui.desk().run->state();
  REQUIRE(ui.run_until([&] { return state.plant.flows.agitator_rpm > 40.0; }));
  ui->click("machine.lid");
  REQUIRE(ui.run_until([&] { return state.plant.flows.agitator_rpm < 0.5; }));
  CHECK(stirbench::control::any_latched(state.control));
  ui.shot("guards-open");
  ui->click("machine.lid");
  ui->click("speed.10");
  ui.run_until([&] { return false; }, 60);
  CHECK(state.plant.flows.agitator_rpm < 0.5);
  CHECK(stirbench::control::any_latched(state.control));
  ui->click("panel.key.stir");
  ui->frames(30);
  CHECK(state.plant.flows.agitator_rpm < 0.5);
  ui->click("panel.key.stop");
  REQUIRE(ui.run_until([&] { return !stirbench::control::any_latched(state.control); }));
  CHECK(state.plant.flows.agitator_rpm < 0.5);
  ui->click("panel.key.stir");
  CHECK(ui.run_until([&] { return state.plant.flows.agitator_rpm > 40.0; }));
  // Leaving asks; ending leads to the debrief.
  ui->click("bar.back");
  ui->click("train.leave.score");
  CHECK(ui.run_until([&] { return ui->has("debrief.score"); }));
  // What the batch is like: rows of the chosen place only, and the standing sentence.
  ui->click("debrief.side.2");
  ui->frames(4);
  CHECK(ui->has("debrief.pasteuriser"));
  CHECK(ui->has("debrief.row.uk_mix_79_4c_15s"));
  CHECK(ui->has("debrief.row.us_mix_80c_25s"));
  ui.shot("debrief-treatment");
  Settings settings = ui->app().settings();
  settings.rules_of = "United Kingdom";
  ui->app().change_settings(settings);
  ui->frames(4);
  CHECK(ui->has("debrief.row.uk_mix_79_4c_15s"));
  CHECK_FALSE(ui->has("debrief.row.us_mix_80c_25s"));
  CHECK(ui->has("debrief.cooling.uk_7_2c_1h30"));
  // One organism alone, with what is taken of it.
  CHECK(ui->has("debrief.lethality.listeria_mix"));
  CHECK(ui->has("debrief.lethality.coxiella_milk"));
  ui->click("debrief.organism");
  ui->click("debrief.organism.4");
  ui->frames(4);
  CHECK_FALSE(ui->has("debrief.lethality.listeria_mix"));
  CHECK(ui->has("debrief.lethality.coxiella_milk"));
  CHECK(ui->has("debrief.organism.data"));
  ui.shot("debrief-organism");
}

TEST_CASE(
    "each lesson, guided: the first step is said and points at something in sight, or asks where it is; dry "
    "running shows at the bushing") {
  const TempFolder folder("ui-lessons");
  DeskDriver ui(folder.file("data"));
  std::vector<std::string> lessons;
  for (const auto& [id, lesson] : ui.desk().library.lessons) lessons.push_back(id);
  for (const std::string& lesson : lessons) {
    CAPTURE(lesson);
    ui->app().home(true);
    ui->frames(3);
    ui->click("home.train");
    ui->click("lessons." + lesson);
    ui->click("lesson.start");
    ui->frames(6);
    CHECK(ui->widget("now.step").label.size() > 5);
    const std::string pointed = ui->app().registry().pointed();
    const auto& first = ui.desk().library.lessons.at(lesson).steps.front();
    if (first.point_at.empty()) {
      CHECK(pointed.empty());
      CHECK(stirbench::desk::work::asks_to_point(
          first));  // it asks where something is: pointing there would be the answer
    } else {
      REQUIRE_FALSE(pointed.empty());
      CHECK(ui->widget(pointed).visible);
    }
    if (lesson == "never-dry") {
      ui->click("panel.key.stir");
      ui->click("speed.10");
      const auto& plant = ui.desk().run->state().plant;
      CHECK(ui.run_until([&] {
        return plant.agitator_bushing.temperature_degC > 35.0 ||
               plant.shaft_end_bushing.temperature_degC > 35.0;
      }));
      ui.shot("never-dry");
    }
    ui->click("bar.back");
    ui->click("train.leave.go");
  }
}
