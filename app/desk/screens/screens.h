#pragma once

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

}  // namespace stirbench::desk::screens
