#include "tests/ui/support/x_events.h"

#include <X11/XKBlib.h>
#include <X11/Xlib.h>
#include <X11/extensions/XTest.h>
#include <X11/keysym.h>

#include <stdexcept>

namespace stirbench::ui_test {

namespace {

Display* of(void* display) { return static_cast<Display*>(display); }

// Names of the keysyms of characters that are not letters or digits.
KeySym symbol_of(char letter) {
  // Latin-1 characters are their own keysyms.
  return static_cast<KeySym>(static_cast<unsigned char>(letter));
}

}  // namespace

XEvents::XEvents() {
  Display* display = XOpenDisplay(nullptr);
  if (display == nullptr)
    throw std::runtime_error(
        "No display for pointer and key events. Set DISPLAY, or start through tests/run.");
  int ignored = 0;
  if (XTestQueryExtension(display, &ignored, &ignored, &ignored, &ignored) == False) {
    XCloseDisplay(display);
    throw std::runtime_error("The display lacks the X test extension.");
  }
  display_ = display;
  // On a busy computer a key can stay down longer than the server's repeat delay; one press must be one
  // press.
  XKeyboardState state{};
  XGetKeyboardControl(display, &state);
  repeated_ = state.global_auto_repeat == AutoRepeatModeOn;
  XAutoRepeatOff(display);
  XSync(display, False);
}

XEvents::~XEvents() {
  if (display_ == nullptr) return;
  if (repeated_) XAutoRepeatOn(of(display_));
  XCloseDisplay(of(display_));
}

void XEvents::move(int x, int y) {
  XTestFakeMotionEvent(of(display_), -1, x, y, CurrentTime);
  XSync(of(display_), False);
}

void XEvents::button(unsigned int which, bool down) {
  XTestFakeButtonEvent(of(display_), which, down ? True : False, CurrentTime);
  XSync(of(display_), False);
}

void XEvents::key_code(unsigned int code, bool down) {
  XTestFakeKeyEvent(of(display_), code, down ? True : False, CurrentTime);
  XSync(of(display_), False);
}

void XEvents::key(const std::string& name, bool down) {
  KeySym symbol = NoSymbol;
  if (name == "shift") symbol = XK_Shift_L;
  if (name == "ctrl") symbol = XK_Control_L;
  if (name == "alt") symbol = XK_Alt_L;
  if (symbol == NoSymbol) symbol = XStringToKeysym(name.c_str());
  const KeyCode code = symbol == NoSymbol ? KeyCode{0} : XKeysymToKeycode(of(display_), symbol);
  if (code == 0) throw std::runtime_error("The keyboard has no key \"" + name + "\".");
  key_code(code, down);
}

void XEvents::character(char letter, bool down) {
  const KeySym symbol = symbol_of(letter);
  const KeyCode code = XKeysymToKeycode(of(display_), symbol);
  if (code == 0) throw std::runtime_error(std::string("The keyboard has no key for '") + letter + "'.");
  const bool shifted = XkbKeycodeToKeysym(of(display_), code, 0, 0) != symbol;
  if (shifted && down) key("shift", true);
  key_code(code, down);
  if (shifted && !down) key("shift", false);
}

}  // namespace stirbench::ui_test
