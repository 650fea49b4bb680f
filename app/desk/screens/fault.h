#pragma once

#include <memory>

#include "app/desk/screens/desk.h"
#include "app/desk/shell/screen.h"

namespace stirbench::desk {

// Fault finding at the real machine, from symptom to repair.
std::unique_ptr<Screen> make_fault(Desk& desk);

}  // namespace stirbench::desk
