#pragma once

#include <memory>
#include <string>

#include "app/desk/screens/screen.h"
#include "app/desk/work/desk.h"

namespace stirbench::desk::screens {

// "Own machine": a log of a batch beside the simulated machine, what it tells, and the machine kept as one of
// this site. `log`: path to begin with; may be empty.
std::unique_ptr<Screen> make_own(work::Desk& desk, const std::string& log);

}  // namespace stirbench::desk::screens
