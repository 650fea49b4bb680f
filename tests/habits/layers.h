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

// The layer a path belongs to ("sim_core/plant", "app/desk/kit", "app/library/food", "app/main.cpp",
// "tests"), or "" when it has none. Deeper folders belong to the layer above them.
std::string layer_of(std::string_view path);

// All layers, each after those that it may include.
std::vector<std::string> layers();

// The layers that the row of `layer` names: those just left of it. Throws std::out_of_range when there is
// none of that name.
std::vector<std::string> left_of(std::string_view layer);

// Whether a file of `layer` may include a header of `target`.
bool may_include(std::string_view layer, std::string_view target);

// How many include lines of one layer name headers of another; tests aside. By `from`, then `to`.
struct LayerIncludes {
  std::string from;
  std::string to;
  int count = 0;
};
std::vector<LayerIncludes> includes_between_layers(const std::vector<SourceFile>& files);

// The one-arrow rule over the include lines of all files: desk, cli -> reports -> records -> library ->
// sim_core; inside sim_core training, diagnosis -> explore, journal -> signals -> bench -> hands -> machine
// -> faults, control -> plant -> electrics, refrigeration, product; inside the desk shell -> screens -> work
// -> views -> kit, and of the rest kit sees nothing, views see the library, work the records too, screens the
// reports too. Also: which layers may see the window system, the database and the clock, and that our own
// headers are named by their path from the root.
std::vector<Violation> check_layers(const std::vector<SourceFile>& files);

// Files of `layer` that reach a header of the window system, however many of our own headers lie between.
std::vector<Violation> check_drawing_is_out_of_reach(const std::vector<SourceFile>& files,
                                                     std::string_view layer);

// Folders below `top` ("app/desk/") that include each other both ways.
std::vector<Violation> check_folders_both_ways(const std::vector<SourceFile>& files, std::string_view top);

// Folders below `top` with more than `most` source files.
std::vector<Violation> check_folder_sizes(const std::vector<SourceFile>& files, std::string_view top,
                                          std::size_t most);

// Files of the desk that open another namespace than stirbench::desk::LAYER, or LAYER::FOLDER where a folder
// of the layer has one of its own.
std::vector<Violation> check_desk_namespaces(const std::vector<SourceFile>& files);

// Functions at namespace level longer than `most_lines` (signature to closing brace).
std::vector<Violation> check_function_length(const SourceFile& file, int most_lines);

// The checked part of the tree: every .h and .cpp under sim_core/, app/ and tests/.
std::vector<SourceFile> read_sources();

}  // namespace stirbench::habits
