#pragma once

#include <string>

#include "app/desk/kit/theme/status.h"

namespace stirbench::desk::kit {

// What controls and pictures may ask of the window that shows them.
class Host {
 public:
  // Another frame at once (motion inside a control).
  virtual void animate() = 0;
  // A frame at a time of Ui::now_s's clock, even without input.
  virtual void wake_at(double time_s) = 0;
  // A message over the screen for a while.
  virtual void toast(Status state, const std::string& words, double seconds = 5.0) = 0;

 protected:
  Host() = default;
  ~Host() = default;
  Host(const Host&) = default;
  Host& operator=(const Host&) = default;
};

}  // namespace stirbench::desk::kit
