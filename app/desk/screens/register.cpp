#include "app/desk/screens/fault/fault.h"
#include "app/desk/screens/screens.h"

#include "app/desk/screens/sheets/machine_sheet.h"

namespace stirbench::desk::screens {

void register_screens(shell::App& app, work::Desk& desk) {
  app.add_screen("home", [&desk](const ScreenArgs&) { return make_home(desk); });
  app.add_screen("lessons", [&desk](const ScreenArgs&) { return make_lessons(desk); });
  app.add_screen("lesson", [&desk](const ScreenArgs& args) {
    const auto id = args.find("lesson");
    return make_lesson(desk, id == args.end() ? "first-batch" : id->second);
  });
  app.add_screen("train", [&desk](const ScreenArgs&) { return make_train(desk); });
  app.add_screen("debrief", [&desk](const ScreenArgs&) { return make_debrief(desk); });
  app.add_screen("recipes", [&desk](const ScreenArgs&) { return make_recipes(desk); });
  app.add_screen("attempts", [&desk](const ScreenArgs&) { return make_attempts(desk); });
  app.add_screen("people", [&desk](const ScreenArgs&) { return make_people(desk); });
  app.add_screen("certify", [&desk](const ScreenArgs&) { return make_certify(desk); });
  app.add_screen("demand", [&desk](const ScreenArgs& args) {
    const auto id = args.find("demand");
    return make_demand(desk, id == args.end() ? "start-alone" : id->second);
  });
  app.add_screen("board", [&desk](const ScreenArgs& args) {
    const auto id = args.find("demand");
    return make_board(desk, id == args.end() ? "start-alone" : id->second);
  });
  app.add_screen("settings", [&desk](const ScreenArgs&) { return make_settings(desk); });
  app.add_screen("parts", [&desk](const ScreenArgs&) { return make_parts(desk); });
  app.add_screen("machine-sheet", make_machine_sheet);
  app.add_screen("fault", [&desk](const ScreenArgs&) { return make_fault(desk); });
  app.add_screen("help", [&desk](const ScreenArgs&) { return make_help(desk); });
}

}  // namespace stirbench::desk::screens
