#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace stirbench::habits {

// A source file as the checks see it: path from the root of the tree, and its text.
struct SourceFile {
  std::string path;
  std::string text;
};

// One line that breaks a rule.
struct Violation {
  std::string path;
  int line = 0;
  std::string why;

  std::string text() const { return path + ":" + std::to_string(line) + ": " + why; }
};

// The layer a path belongs to ("sim_core/plant", "app/desk", "app/main.cpp", "tests"), or "" when it has none.
std::string layer_of(std::string_view path);

// The one-arrow rule over the include lines of all files: desk, cli -> reports -> records -> library -> sim_core, and inside
// sim_core training, diagnosis -> bench -> faults, control -> plant -> product. Also: which layers may see the window
// system, the database and the clock, and that our own headers are named by their path from the root.
std::vector<Violation> check_layers(const std::vector<SourceFile>& files);

// Functions at namespace level longer than `most_lines` (signature to closing brace).
std::vector<Violation> check_function_length(const SourceFile& file, int most_lines);

// The checked part of the tree: every .h and .cpp under sim_core/, app/ and tests/.
std::vector<SourceFile> read_sources();

}  // namespace stirbench::habits
