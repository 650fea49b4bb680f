#pragma once

#include <map>
#include <string>

#include "app/desk/screens/settings.h"

namespace stirbench::desk::screens {

using ScreenArgs = std::map<std::string, std::string>;

// What a screen may ask of the shell that shows it. Where to go and new settings are requests: they are
// carried out between two frames, in order.
class Shell {
 public:
  // A screen by its name in all_screens(): over this one, or in place of it.
  virtual void push(const std::string& name, const ScreenArgs& args = {}) = 0;
  virtual void replace(const std::string& name, const ScreenArgs& args = {}) = 0;
  // To the screen below; `without_asking` leaves even when Screen::may_leave() would stay.
  virtual void back(bool without_asking = false) = 0;

  virtual const Settings& settings() const = 0;
  // Saved at once; fonts are built again when the text size changes.
  virtual void change_settings(const Settings& settings) = 0;

  // The window's clock [s], rising; the same that Ui::now_s was read from.
  virtual double now_s() const = 0;
  // Lets the window draw a frame; may be called from any thread.
  virtual void wake() const = 0;

 protected:
  Shell() = default;
  ~Shell() = default;
  Shell(const Shell&) = default;
  Shell& operator=(const Shell&) = default;
};

}  // namespace stirbench::desk::screens
