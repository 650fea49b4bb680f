#pragma once

#include <memory>

#include "app/desk/screens/screen.h"

namespace stirbench::desk::screens {

// The machine in several states side by side, with panel and trend, for looking and measuring: `--screen
// machine-sheet`. The argument "state" shows one of them large.
std::unique_ptr<Screen> make_machine_sheet(const ScreenArgs& args);

}  // namespace stirbench::desk::screens
