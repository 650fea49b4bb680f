#include "app/desk/work/desk.h"

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <stdexcept>

#include "app/desk/shell/window.h"
#include "app/library/paths.h"

namespace stirbench::desk::work {

void Desk::reload() {
  library::LoadResult loaded = library::load(content_dir, data_dir);
  content_problem.clear();
  for (const auto& problem : loaded.problems) content_problem += (content_problem.empty() ? "" : "\n") + problem.text();
  if (loaded.problems.empty()) library = std::move(loaded.library);
}

namespace {

// Shipped content must be good; a broken recipe of one's own must not keep the desk shut.
void load_content(Desk& desk) {
  desk.reload();
  if (desk.content_problem.empty()) return;
  const std::string own_problem = desk.content_problem;
  library::LoadResult shipped = library::load(desk.content_dir, "");
  if (!shipped.problems.empty()) {
    std::string all;
    for (const auto& problem : shipped.problems) all += (all.empty() ? "" : "\n") + problem.text();
    throw std::runtime_error(all);
  }
  desk.library = std::move(shipped.library);
  desk.content_problem = own_problem;
}

}  // namespace

void open_records(Desk& desk) {
  try {
    desk.store = std::make_unique<records::Store>(desk.data_dir);
  } catch (const records::StoreError& error) {
    desk.store_problem = error.text;
  }
}

records::Access who_is_here(const Desk& desk) {
  if (!desk.store) return {};
  if (desk.person.id != 0 && desk.access.person == desk.person.id) {
    records::Access access = desk.access;
    access.open = !desk.store->managed();
    return access;
  }
  records::Access access = desk.store->nobody();
  // Nobody has to show a PIN in records without a manager; the name is still known.
  if (access.open && desk.person.id != 0) {
    access.person = desk.person.id;
    access.uid = desk.person.uid;
  }
  return access;
}

std::unique_ptr<Desk> open_desk(const DeskOptions& options) {
  auto desk = std::make_unique<Desk>();
  desk->content_dir = options.content_dir.empty() ? library::content_dir() : options.content_dir;
  desk->data_dir = library::data_dir(options.data_dir);
  load_content(*desk);
  if (!options.open_journal.empty()) {
    desk->debrief = DebriefRequest{library::read_file(options.open_journal), options.open_journal};
  }
  return desk;
}

int run_desk(const DeskOptions& options) {
  std::unique_ptr<Desk> desk;
  try {
    desk = open_desk(options);
  } catch (const std::runtime_error& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 2;
  }
  shell::WindowOptions window_options;
  shell::Window window(window_options);
  if (!window.error().empty()) {
    std::fprintf(stderr, "%s\n", window.error().c_str());
    return 4;
  }
  open_records(*desk);  // only now: without a window nothing is written
  shell::AppOptions app_options;
  app_options.content_dir = desk->content_dir;
  app_options.data_dir = desk->data_dir;
  app_options.first_screen = !options.first_screen.empty() ? options.first_screen
                             : desk->debrief               ? "debrief"
                                                           : "home";
  shell::App app(window, app_options);
  if (!app.error().empty()) {
    std::fprintf(stderr, "%s\n", app.error().c_str());
    return 2;
  }
  register_screens(app, *desk);
  const std::vector<std::string> names = app.screen_names();
  if (std::find(names.begin(), names.end(), app_options.first_screen) == names.end()) {
    std::string known;
    for (const auto& name : names) known += (known.empty() ? "" : ", ") + name;
    std::fprintf(stderr, "--screen: expected one of %s, found \"%s\"\n", known.c_str(), app_options.first_screen.c_str());
    return 2;
  }
  // The one who used the desk last is still at it, until another name is chosen; who has a PIN shows it again.
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

std::string utc_now() {
  const std::time_t now = std::time(nullptr);
  std::tm utc{};
  gmtime_r(&now, &utc);
  char buffer[32];
  std::strftime(buffer, sizeof buffer, "%Y-%m-%dT%H:%M:%SZ", &utc);
  return buffer;
}

}  // namespace stirbench::desk::work
