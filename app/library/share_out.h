#pragma once

#include <cstddef>
#include <functional>

namespace stirbench::library {

// Does work(0) .. work(count - 1) on several threads (0: as many as the computer has), the caller's among
// them; the first exception comes out, after which no new work is begun.
void share_out(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& work);

}  // namespace stirbench::library
