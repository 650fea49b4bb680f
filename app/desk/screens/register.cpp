#include "app/desk/screens/own_screen.h"
#include "app/desk/screens/screens.h"

namespace stirbench::desk::screens {

std::map<std::string, ScreenMaker> all_screens(work::Desk& desk) {
  std::map<std::string, ScreenMaker> makers;
  makers["home"] = [&desk](const ScreenArgs&) { return make_home(desk); };
  makers["lessons"] = [&desk](const ScreenArgs&) { return make_lessons(desk); };
  makers["lesson"] = [&desk](const ScreenArgs& args) {
    const auto id = args.find("lesson");
    return make_lesson(desk, id == args.end() ? "first-batch" : id->second);
  };
  makers["train"] = [&desk](const ScreenArgs&) { return make_train(desk); };
  makers["debrief"] = [&desk](const ScreenArgs&) { return make_debrief(desk); };
  makers["recipes"] = [&desk](const ScreenArgs&) { return make_recipes(desk); };
  makers["attempts"] = [&desk](const ScreenArgs&) { return make_attempts(desk); };
  makers["people"] = [&desk](const ScreenArgs&) { return make_people(desk); };
  makers["certify"] = [&desk](const ScreenArgs&) { return make_certify(desk); };
  makers["demand"] = [&desk](const ScreenArgs& args) {
    const auto id = args.find("demand");
    return make_demand(desk, id == args.end() ? "start-alone" : id->second);
  };
  makers["board"] = [&desk](const ScreenArgs& args) {
    const auto id = args.find("demand");
    return make_board(desk, id == args.end() ? "start-alone" : id->second);
  };
  makers["settings"] = [&desk](const ScreenArgs&) { return make_settings(desk); };
  makers["parts"] = [&desk](const ScreenArgs&) { return make_parts(desk); };
  makers["machine-sheet"] = make_machine_sheet;
  makers["sheet"] = make_control_sheet;
  makers["fault"] = [&desk](const ScreenArgs&) { return make_fault(desk); };
  makers["own"] = [&desk](const ScreenArgs& args) {
    const auto log = args.find("log");
    return make_own(desk, log == args.end() ? "" : log->second);
  };
  makers["help"] = [&desk](const ScreenArgs&) { return make_help(desk); };
  return makers;
}

}  // namespace stirbench::desk::screens
