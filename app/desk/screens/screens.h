#pragma once

#include <map>
#include <memory>
#include <string>

#include "app/desk/screens/screen.h"
#include "app/desk/work/desk.h"

// One maker a screen. Each screen lives in its own file; this list is the only place that names them all.
namespace stirbench::desk::screens {

std::unique_ptr<Screen> make_home(work::Desk& desk);
std::unique_ptr<Screen> make_lessons(work::Desk& desk);
std::unique_ptr<Screen> make_lesson(work::Desk& desk, const std::string& lesson_id);
std::unique_ptr<Screen> make_train(work::Desk& desk);
std::unique_ptr<Screen> make_debrief(work::Desk& desk);
std::unique_ptr<Screen> make_recipes(work::Desk& desk);
std::unique_ptr<Screen> make_attempts(work::Desk& desk);
std::unique_ptr<Screen> make_people(work::Desk& desk);
std::unique_ptr<Screen> make_certify(work::Desk& desk);
std::unique_ptr<Screen> make_demand(work::Desk& desk, const std::string& demand_id);
std::unique_ptr<Screen> make_board(work::Desk& desk, const std::string& demand_id);
std::unique_ptr<Screen> make_settings(work::Desk& desk);
std::unique_ptr<Screen> make_parts(work::Desk& desk);
std::unique_ptr<Screen> make_help(work::Desk& desk);
// Fault finding at the real machine, from symptom to repair.
std::unique_ptr<Screen> make_fault(work::Desk& desk);

// For looking and measuring, opened by `--screen` only. "sheet": all controls on one page. "machine-sheet":
// the machine in several states side by side, with panel and trend; the argument "state" shows one of them
// large.
std::unique_ptr<Screen> make_control_sheet(const ScreenArgs& args);
std::unique_ptr<Screen> make_machine_sheet(const ScreenArgs& args);

// All of them under their names.
std::map<std::string, ScreenMaker> all_screens(work::Desk& desk);

}  // namespace stirbench::desk::screens
