#pragma once

#include <cstdlib>
#include <filesystem>
#include <memory>
#include <string>

#include "app/desk/screens/screens.h"
#include "app/desk/work/desk.h"
#include "tests/ui/support/driver.h"

namespace stirbench::ui_test {

// The whole desk with its screens on a data folder of the test's own.
class DeskDriver {
 public:
  explicit DeskDriver(const std::string& data_dir, const std::string& first_screen = "home") {
    desk::work::DeskOptions options;
    options.data_dir = data_dir;
    desk_ = desk::work::open_desk(options);
    desk_->usual_draws = true;
    desk::work::open_records(*desk_);
    DriverOptions driver;
    driver.data_dir = data_dir;
    driver.content_dir = desk_->content_dir;
    driver.first_screen = first_screen;
    driver.set_up = [this](desk::shell::App& app) { app.add_screens(desk::screens::all_screens(*desk_)); };
    driver_ = std::make_unique<Driver>(driver);
  }

  Driver* operator->() { return driver_.get(); }
  Driver& driver() { return *driver_; }
  desk::work::Desk& desk() { return *desk_; }

  // A picture for people to look at, when STIRBENCH_SHOTS names a folder.
  void shot(const std::string& name) {
    const char* folder = std::getenv("STIRBENCH_SHOTS");
    if (folder == nullptr) return;
    std::filesystem::create_directories(folder);
    driver_->screenshot(std::string(folder) + "/" + name + ".png");
  }

  // Opens a menu and presses the item with these words.
  void choose(const std::string& menu, const std::string& words) {
    driver_->click(menu);
    driver_->wait_for([&] { return driver_->has(menu + ".0"); });
    for (const auto& widget : driver_->app().registry().all()) {
      if (widget.id.rfind(menu + ".", 0) == 0 && widget.label == words) {
        const std::string id = widget.id;
        driver_->click(id);
        return;
      }
    }
    throw std::runtime_error("No item \"" + words + "\" in " + menu);
  }

  // Hands into a cabinet under voltage, and the injury that follows.
  bool get_hurt() {
    driver_->click("hand.group.safety");
    driver_->frames(5);
    driver_->click("hand.lockout.take_panel_off");
    driver_->frames(10);
    driver_->click("hand.lockout.work_panel");
    return run_until([&] { return driver_->has("injury.again"); });
  }

  // Runs simulated time until the predicate holds.
  bool run_until(const std::function<bool()>& predicate, int max_frames = 12000) {
    return driver_->wait_for(predicate, max_frames);
  }

 private:
  std::unique_ptr<desk::work::Desk> desk_;
  std::unique_ptr<Driver> driver_;
};

}  // namespace stirbench::ui_test
