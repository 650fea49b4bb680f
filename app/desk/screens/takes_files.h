#pragma once

#include <string>

namespace stirbench::desk::screens {

// A screen that does something with a file dropped on the window. On another screen the shell opens "own".
class TakesFiles {
 public:
  virtual void take_file(const std::string& path) = 0;

 protected:
  TakesFiles() = default;
  ~TakesFiles() = default;
  TakesFiles(const TakesFiles&) = default;
  TakesFiles& operator=(const TakesFiles&) = default;
};

}  // namespace stirbench::desk::screens
