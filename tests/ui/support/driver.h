#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "app/desk/shell/app.h"
#include "app/desk/shell/window.h"

// Runs the desk in this process and works it as a person does: real X events (XTest) at the middle of named
// widgets, real keys. Needs a display; tests/run gives it one.
namespace stirbench::ui_test {

struct DriverOptions {
  int width = 1280;
  int height = 800;
  std::string data_dir;  // where settings and attempts go: a folder of the test's own
  std::string content_dir;
  std::string first_screen = "sheet";
  desk::screens::ScreenArgs first_args;
  // Time goes by frames (16 ms each), not by the wall: a run goes as far between two clicks on a busy machine
  // as on an idle one.
  bool time_by_frames = true;
  std::function<void(desk::shell::App&)> set_up;  // registers screens
};

struct FrameStats {
  int frames = 0;
  double median_ms = 0.0;
  double p95_ms = 0.0;
  double build_median_ms = 0.0;
};

class Driver {
 public:
  // Throws std::runtime_error with the reason when the window or the display for events cannot be opened.
  explicit Driver(const DriverOptions& options);
  ~Driver();
  Driver(const Driver&) = delete;
  Driver& operator=(const Driver&) = delete;

  desk::shell::App& app();
  desk::shell::Window& window();

  // Draws frames, whether anything asks for them or not.
  void frames(int count);
  // Draws frames until the predicate holds; false when it did not within max_frames.
  bool wait_for(const std::function<bool()>& predicate, int max_frames = 400);

  // The widget, once it is drawn, in view and at rest. Throws std::runtime_error that lists the ids drawn
  // when it does not come.
  desk::kit::Widget widget(std::string_view id, int max_frames = 400);
  bool has(std::string_view id);
  std::string value(std::string_view id) { return widget(id).value; }
  std::string label(std::string_view id) { return widget(id).label; }
  std::string focused() { return app().registry().focused_id(); }

  // The pointer. Each scrolls the widget into view first. A click waits a moment for a control that is not
  // yet allowed, and takes away a message that lies over it.
  void move_to(std::string_view id);
  void click(std::string_view id);
  void drag(std::string_view id, float by_x, float by_y);
  // Presses at the first and lets go at the second.
  void drag_to(std::string_view id, std::string_view target);
  void wheel(std::string_view id, int notches_down);
  // The pointer over a place of the window; a press at the first place, through the others, let go at the
  // last when `release`.
  void hover(ImVec2 at);
  void trace(const std::vector<ImVec2>& way, bool release = true);
  void let_go();

  // Keys. "Tab", "shift+Tab", "Return", "space", "ctrl+a", "Left", ... (X keysym names). Only characters that
  // the keyboard has.
  void press(std::string_view key);
  void type(std::string_view text);
  // Clicks a field, replaces what is in it, and leaves it with Tab.
  void fill(std::string_view id, std::string_view text);

  void screenshot(const std::string& file);
  // Draws `count` frames without vsync and returns their times.
  FrameStats measure(int count);

 private:
  void press_and_release();

  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace stirbench::ui_test
