#pragma once

#include <cassert>
#include <functional>
#include <memory>
#include <string>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/screens/shell.h"

namespace stirbench::desk::screens {

// What stands in the top bar. Tools are drawn by the screen in draw_tools(), right-aligned.
struct TopBar {
  std::string title;
  std::string subtitle;
  std::string back_label;  // empty = "Back"; shown with an arrow when there is somewhere to go
  bool can_leave = true;   // false hides the back button
};

class Screen {
 public:
  virtual ~Screen() = default;
  // Called once by the shell that made the screen, before anything else.
  void belong_to(Shell& shell) { shell_ = &shell; }
  // Name in the screen registry: "home", "train", "settings", ...
  virtual const char* name() const = 0;
  virtual TopBar top_bar(kit::Ui& ui) = 0;
  // Tools at the right of the top bar, from left to right, with same_line() in between. The app measures them
  // once and keeps them right-aligned.
  virtual void draw_tools(kit::Ui&) {}
  // Middle of the top bar, between title and tools (phase beads); `free` is what is left.
  virtual void draw_bar_middle(kit::Ui&, const kit::Rect& /*free*/) {}
  // The content. ui.area is the room below the top bar inside the gutters.
  virtual void draw(kit::Ui& ui) = 0;
  // True while something moves: the window then draws at the display's rate.
  virtual bool animating() const { return false; }
  // Next time (ui.now_s clock) at which something changes without input; < 0 = never.
  virtual double wake_at_s() const { return -1.0; }
  // Asked before leaving by back, home, replace or closing the window. False = stay (the screen shows why,
  // e.g. a dialog; it leaves later by shell().back(true)).
  virtual bool may_leave(kit::Ui&) { return true; }
  virtual void entered(kit::Ui&) {}  // became the top screen (also after back)
  virtual void settings_changed(kit::Ui&) {}

 protected:
  // Where to go, settings: not before belong_to(), so not in a constructor.
  Shell& shell() const {
    assert(shell_ != nullptr);
    return *shell_;
  }

 private:
  Shell* shell_ = nullptr;
};

using ScreenMaker = std::function<std::unique_ptr<Screen>(const ScreenArgs&)>;

}  // namespace stirbench::desk::screens
