#pragma once

#include <string>
#include <vector>

namespace stirbench::desk::shell {

// Paths of the files that were dropped on the window since the last call, in order. There is one window a
// process.
std::vector<std::string> take_dropped_files();

}  // namespace stirbench::desk::shell
