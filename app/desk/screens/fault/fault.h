#pragma once

#include <memory>

#include "app/desk/screens/screen.h"
#include "app/desk/work/desk.h"

namespace stirbench::desk {

// Fault finding at the real machine, from symptom to repair.
std::unique_ptr<Screen> make_fault(Desk& desk);

}  // namespace stirbench::desk
