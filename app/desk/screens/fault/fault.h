#pragma once

#include <memory>

#include "app/desk/screens/screen.h"
#include "app/desk/work/desk.h"

namespace stirbench::desk::screens {

// Fault finding at the real machine, from symptom to repair.
std::unique_ptr<Screen> make_fault(work::Desk& desk);

}  // namespace stirbench::desk::screens
