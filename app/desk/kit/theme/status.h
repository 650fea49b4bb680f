#pragma once

#include <cstdint>

namespace stirbench::desk::kit {

// How something stands. Every state has its own shape and word beside its colour.
enum class Status : std::uint8_t { none, info, good, due, bad, not_yet };

}  // namespace stirbench::desk::kit
