#pragma once

#include <string>

namespace stirbench::ui_test {

// A second connection to the display that makes pointer and key events as a device would (X test extension).
class XEvents {
 public:
  XEvents();  // throws std::runtime_error when there is no display or no test extension
  ~XEvents();
  XEvents(const XEvents&) = delete;
  XEvents& operator=(const XEvents&) = delete;

  void move(int x, int y);                     // pixels of the screen
  void button(unsigned int which, bool down);  // 1 left, 2 middle, 3 right, 4 wheel up, 5 wheel down
  void key(const std::string& name,
           bool down);  // "shift", "ctrl", "alt", or an X keysym name; throws when the keyboard lacks it
  void character(char letter, bool down);  // with Shift where the keyboard needs it

 private:
  void key_code(unsigned int code, bool down);
  void* display_ = nullptr;
  bool repeated_ = false;  // whether keys repeated before; restored at the end
};

}  // namespace stirbench::ui_test
