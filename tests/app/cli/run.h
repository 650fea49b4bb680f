#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/support/files.h"

namespace stirbench::cli_test {

// A folder that nobody can make, root included.
inline constexpr const char* impossible_folder = "/dev/null/stirbench";

// The built program with these arguments, away from the person's own folders and from any display.
inline test_support::ProgramResult run(std::vector<std::string> arguments,
                                       const std::string& data_dir = impossible_folder) {
  arguments.insert(arguments.begin(), STIRBENCH_PROGRAM);
  return test_support::run_program(arguments, {{"STIRBENCH_DATA", data_dir},
                                               {"DISPLAY", test_support::unset_variable},
                                               {"WAYLAND_DISPLAY", test_support::unset_variable}});
}

inline nlohmann::json json_of(const test_support::ProgramResult& result) {
  return nlohmann::json::parse(result.out);
}

inline bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace stirbench::cli_test
