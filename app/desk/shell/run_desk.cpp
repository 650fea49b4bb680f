#include "app/desk/shell/run_desk.h"

#include <algorithm>
#include <cstdio>
#include <memory>
#include <stdexcept>
#include <vector>

#include "app/desk/screens/screens.h"
#include "app/desk/shell/app.h"
#include "app/desk/shell/window.h"

namespace stirbench::desk::shell {

int run_desk(const work::DeskOptions& options, const std::string& first_screen) {
  std::unique_ptr<work::Desk> desk;
  try {
    desk = work::open_desk(options);
  } catch (const std::runtime_error& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 2;
  }
  WindowOptions window_options;
  Window window(window_options);
  if (!window.error().empty()) {
    std::fprintf(stderr, "%s\n", window.error().c_str());
    return 4;
  }
  work::open_records(*desk);  // only now: without a window nothing is written
  AppOptions app_options;
  app_options.content_dir = desk->content_dir;
  app_options.data_dir = desk->data_dir;
  app_options.first_screen = !first_screen.empty() ? first_screen : desk->debrief ? "debrief" : "home";
  App app(window, app_options);
  if (!app.error().empty()) {
    std::fprintf(stderr, "%s\n", app.error().c_str());
    return 2;
  }
  app.add_screens(screens::all_screens(*desk));
  const std::vector<std::string> names = app.screen_names();
  if (std::find(names.begin(), names.end(), app_options.first_screen) == names.end()) {
    std::string known;
    for (const auto& name : names) known += (known.empty() ? "" : ", ") + name;
    std::fprintf(stderr, "--screen: expected one of %s, found \"%s\"\n", known.c_str(),
                 app_options.first_screen.c_str());
    return 2;
  }
  // The one who used the desk last is still at it, until another name is chosen; who has a PIN shows it
  // again.
  if (desk->store) {
    for (const auto& person : desk->store->people()) {
      const bool open = !person.has_pin && !desk->store->managed();
      if (open && std::to_string(person.id) == app.settings().last_person) desk->person = person;
    }
  }
  app.start();
  app.run();
  if (desk->run) desk->run->finish();
  return 0;
}

}  // namespace stirbench::desk::shell
