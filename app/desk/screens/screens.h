#pragma once

#include <memory>
#include <string>

#include "app/desk/screens/screen.h"
#include "app/desk/work/desk.h"

// One maker a screen. Each screen lives in its own file; this list is the only place that names them all.
namespace stirbench::desk {

std::unique_ptr<Screen> make_home(Desk& desk);
std::unique_ptr<Screen> make_lessons(Desk& desk);
std::unique_ptr<Screen> make_lesson(Desk& desk, const std::string& lesson_id);
std::unique_ptr<Screen> make_train(Desk& desk);
std::unique_ptr<Screen> make_debrief(Desk& desk);
std::unique_ptr<Screen> make_recipes(Desk& desk);
std::unique_ptr<Screen> make_attempts(Desk& desk);
std::unique_ptr<Screen> make_people(Desk& desk);
std::unique_ptr<Screen> make_certify(Desk& desk);
std::unique_ptr<Screen> make_demand(Desk& desk, const std::string& demand_id);
std::unique_ptr<Screen> make_board(Desk& desk, const std::string& demand_id);
std::unique_ptr<Screen> make_settings(Desk& desk);
std::unique_ptr<Screen> make_parts(Desk& desk);
std::unique_ptr<Screen> make_help(Desk& desk);

}  // namespace stirbench::desk
