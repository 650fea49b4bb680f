#pragma once

#include <cstddef>
#include <cstdint>

// What each program under tests/fuzz defines and libFuzzer or replay_main.cpp calls with one input. 0: done
// with it.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);
