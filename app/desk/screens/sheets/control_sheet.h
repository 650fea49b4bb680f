#pragma once

#include <memory>

#include "app/desk/screens/screen.h"

namespace stirbench::desk::screens {

// All controls on one page, for looking at them and for measuring a frame. Opened by `--screen sheet` only.
std::unique_ptr<Screen> make_sheet(const ScreenArgs& args);

}  // namespace stirbench::desk::screens
