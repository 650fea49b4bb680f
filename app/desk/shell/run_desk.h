#pragma once

#include <string>

#include "app/desk/work/desk.h"

namespace stirbench::desk::shell {

// The window from start to close. `first_screen`: a name in screens::all_screens(); empty: the debrief of the
// journal that `options` name, else home. Exit code: 0, 2 bad input, 4 no window; messages go to stderr.
int run_desk(const work::DeskOptions& options, const std::string& first_screen);

}  // namespace stirbench::desk::shell
