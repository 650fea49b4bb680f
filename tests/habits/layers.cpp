#include "tests/habits/layers.h"

#include <algorithm>
#include <filesystem>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <stdexcept>

#include "tests/support/files.h"

namespace stirbench::habits {

namespace {

using Names = std::set<std::string, std::less<>>;
using Table = std::map<std::string, Names, std::less<>>;

// A layer and what it may include of ours, itself aside: everything in `left` and all that those may include.
struct Row {
  const char* layer;
  std::vector<const char*> left;
};

// From left to right; a row names only rows above it.
const std::vector<Row>& rows() {
  static const std::vector<Row> all = {
      {"sim_core/bytes", {}},
      {"sim_core/product", {}},
      {"sim_core/electrics", {}},
      {"sim_core/refrigeration", {}},
      {"sim_core/plant", {"sim_core/product", "sim_core/electrics", "sim_core/refrigeration"}},
      {"sim_core/faults", {"sim_core/plant", "sim_core/bytes"}},
      {"sim_core/control", {"sim_core/plant", "sim_core/bytes"}},
      {"sim_core/machine", {"sim_core/faults", "sim_core/control"}},
      {"sim_core/hands", {"sim_core/machine"}},
      {"sim_core/bench", {"sim_core/hands"}},
      {"sim_core/signals", {"sim_core/bench"}},
      {"sim_core/explore", {"sim_core/signals"}},
      {"sim_core/journal", {"sim_core/signals"}},
      {"sim_core/diagnosis", {"sim_core/explore", "sim_core/journal"}},
      {"sim_core/training", {"sim_core/diagnosis"}},
      {"sim_core/identification", {"sim_core/signals"}},
      // The folder itself holds the library as one value, which the rooms fill; its loader is the only one to
      // see them all.
      {"app/library/reading", {"sim_core/bytes"}},
      {"app/library", {"sim_core/training", "sim_core/diagnosis", "app/library/reading"}},
      {"app/library/machine", {"app/library"}},
      {"app/library/food", {"app/library"}},
      {"app/library/lessons", {"app/library"}},
      {"app/library/guide", {"app/library"}},
      {"app/records",
       {"app/library/machine", "app/library/food", "app/library/lessons", "app/library/guide"}},
      {"app/reports", {"app/records"}},
      {"app/fitting", {"app/records", "sim_core/identification"}},
      {"app/cli", {"app/reports", "app/fitting"}},
      {"app/desk/kit", {}},
      {"app/desk/views",
       {"app/desk/kit", "app/library/machine", "app/library/food", "app/library/lessons",
        "app/library/guide"}},
      {"app/desk/work", {"app/desk/views", "app/fitting"}},
      {"app/desk/screens", {"app/desk/work", "app/reports"}},
      {"app/desk/shell", {"app/desk/screens"}},
      {"app/main.cpp", {"app/desk/shell", "app/cli"}},
  };
  return all;
}

// What each layer may include of ours, itself aside.
const Table& allowed_layers() {
  static const Table table = [] {
    Table made;
    for (const Row& row : rows()) {
      Names& names = made[row.layer];
      for (const char* left : row.left) {
        names.insert(left);
        names.merge(Names(made.at(left)));
      }
    }
    for (const char* room : {"machine", "food", "lessons", "guide"})
      made["app/library"].insert("app/library/" + std::string(room));
    return made;
  }();
  return table;
}

bool is_window_header(std::string_view header) {
  static const std::vector<std::string_view> window = {"imgui", "backends/imgui", "GLFW/", "glad/",
                                                       "GL/",   "X11/",           "stb"};
  return std::any_of(window.begin(), window.end(),
                     [&](std::string_view start) { return header.starts_with(start); });
}

// One include line of a file.
struct Include {
  int line = 0;
  std::string header;
  bool own = false;  // with quotation marks
};

std::vector<Include> includes_of(const SourceFile& file) {
  static const std::regex include_line(R"re(^\s*#\s*include\s*([<"])([^>"]+)[>"])re");
  std::vector<Include> found;
  std::istringstream lines(file.text);
  std::string line;
  for (int number = 1; std::getline(lines, line); ++number) {
    std::smatch match;
    if (line.find("include") != std::string::npos && std::regex_search(line, match, include_line))
      found.push_back({number, match[2], match[1] == "\""});
  }
  return found;
}

// A header of includes and comments alone.
bool only_gathers(const SourceFile& file) {
  std::istringstream lines(file.text);
  for (std::string line; std::getline(lines, line);)
    if (!line.empty() && line[0] != '#' && !line.starts_with("//")) return false;
  return file.path.ends_with(".h");
}

std::string folder_of(std::string_view path) { return std::string(path.substr(0, path.rfind('/'))); }

bool starts_with_any(std::string_view text, const std::vector<std::string>& starts) {
  return std::any_of(starts.begin(), starts.end(),
                     [&](const std::string& start) { return text.starts_with(start); });
}

// Why `layer` may not include this header of a library or of the language, or "" when it may.
std::string reason_against_foreign(std::string_view layer, std::string_view header) {
  static const std::vector<std::string> database = {"soci", "sqlite3"};
  static const Names outside_world = {
      "chrono",     "ctime",         "time.h",       "sys/time.h", "fstream",
      "filesystem", "iostream",      "cstdio",       "stdio.h",    "thread",
      "mutex",      "shared_mutex",  "future",       "atomic",     "condition_variable",
      "unistd.h",   "fcntl.h",       "stop_token",   "random",     "locale",
      "clocale",    "unordered_map", "unordered_set"};
  static const std::vector<std::string> data_files = {"nlohmann/", "valijson/", "CLI/", "spdlog/", "sodium"};

  if (is_window_header(header) && (!layer.starts_with("app/desk/") || layer == "app/desk/work"))
    return "only app/desk may see the window system, and app/desk/work does not draw";
  if (starts_with_any(header, database) && layer != "app/records")
    return "only app/records may see the database";
  if (layer.starts_with("sim_core/") &&
      (outside_world.contains(header) || starts_with_any(header, data_files)))
    return "sim_core has no clock, files, threads, console, hash-ordered containers or data formats";
  return "";
}

// Why `layer` may not include our header, or "".
std::string reason_against_own(const std::string& layer, const std::string& header) {
  const std::string target = layer_of(header);
  if (target.empty() || target == "tests")
    return "\"" + header + "\" is not a header of a layer, named by its path from the root";
  if (may_include(layer, target)) return "";
  return layer + " may not include " + target + " (the arrow runs the other way)";
}

}  // namespace

std::string layer_of(std::string_view path) {
  if (path.starts_with("tests/")) return "tests";
  if (path == "app/main.cpp") return std::string(path);
  std::string layer = folder_of(path);
  const bool has_rooms = path.starts_with("app/desk/") || path.starts_with("app/library/");
  std::size_t end = 0;
  for (int parts = has_rooms ? 3 : 2; parts > 0 && end != std::string::npos; --parts)
    end = layer.find('/', end == 0 ? 0 : end + 1);
  if (end != std::string::npos) layer.resize(end);
  return allowed_layers().contains(layer) ? layer : "";
}

std::vector<std::string> layers() {
  std::vector<std::string> names;
  for (const Row& row : rows()) names.emplace_back(row.layer);
  return names;
}

std::vector<std::string> left_of(std::string_view layer) {
  for (const Row& row : rows())
    if (row.layer == layer) return {row.left.begin(), row.left.end()};
  throw std::out_of_range("no layer \"" + std::string(layer) + "\"");
}

bool may_include(std::string_view layer, std::string_view target) {
  if (layer == target) return true;
  const auto row = allowed_layers().find(layer);
  return row != allowed_layers().end() && row->second.contains(target);
}

std::vector<LayerIncludes> includes_between_layers(const std::vector<SourceFile>& files) {
  std::map<std::pair<std::string, std::string>, int> counts;
  for (const SourceFile& file : files) {
    const std::string from = layer_of(file.path);
    if (from.empty() || from == "tests") continue;
    for (const Include& include : includes_of(file)) {
      const std::string to = include.own ? layer_of(include.header) : "";
      if (!to.empty() && to != "tests" && to != from) ++counts[{from, to}];
    }
  }
  std::vector<LayerIncludes> found;
  for (const auto& [ends, count] : counts) found.push_back({ends.first, ends.second, count});
  return found;
}

std::vector<Violation> check_layers(const std::vector<SourceFile>& files) {
  std::vector<Violation> violations;
  for (const SourceFile& file : files) {
    const std::string layer = layer_of(file.path);
    if (layer == "tests") continue;  // tests may look at everything
    if (layer.empty()) {
      violations.push_back({file.path, 1, "belongs to no layer of the house"});
      continue;
    }
    for (const Include& include : includes_of(file)) {
      const std::string why = include.own ? reason_against_own(layer, include.header)
                                          : reason_against_foreign(layer, include.header);
      if (!why.empty()) violations.push_back({file.path, include.line, why});
      // Our own headers in angle brackets would slip past the arrow.
      if (!include.own && !layer_of(include.header).empty())
        violations.push_back({file.path, include.line, "our own headers are included with quotation marks"});
    }
  }
  return violations;
}

std::vector<Violation> check_drawing_is_out_of_reach(const std::vector<SourceFile>& files,
                                                     std::string_view layer) {
  std::map<std::string, const SourceFile*, std::less<>> by_path;
  for (const SourceFile& file : files) by_path[file.path] = &file;
  std::vector<Violation> violations;
  for (const SourceFile& start : files) {
    if (layer_of(start.path) != layer) continue;
    // Breadth first, each header with the way that led to it.
    std::vector<std::pair<const SourceFile*, std::string>> way = {{&start, ""}};
    Names seen = {start.path};
    for (std::size_t i = 0; i < way.size(); ++i) {
      const auto [file, led] = way[i];
      for (const Include& include : includes_of(*file)) {
        if (!include.own && is_window_header(include.header))
          violations.push_back({start.path, 1, "reaches <" + include.header + ">" + led});
        const auto next = by_path.find(include.header);
        if (include.own && next != by_path.end() && seen.insert(include.header).second)
          way.emplace_back(next->second, led + " through " + include.header);
      }
    }
  }
  return violations;
}

std::vector<Violation> check_folders_both_ways(const std::vector<SourceFile>& files, std::string_view top) {
  std::map<std::pair<std::string, std::string>, Violation>
      first;  // from folder, to folder: its first include
  for (const SourceFile& file : files) {
    if (!file.path.starts_with(top)) continue;
    for (const Include& include : includes_of(file)) {
      if (!include.own || !include.header.starts_with(top)) continue;
      const std::string from = folder_of(file.path);
      const std::string to = folder_of(include.header);
      if (from != to)
        first.try_emplace({from, to},
                          Violation{file.path, include.line, from + " and " + to + " include each other"});
    }
  }
  std::vector<Violation> violations;
  for (const auto& [ends, violation] : first)
    if (first.contains({ends.second, ends.first})) violations.push_back(violation);
  return violations;
}

std::vector<Violation> check_folder_sizes(const std::vector<SourceFile>& files, std::string_view top,
                                          std::size_t most) {
  std::map<std::string, std::size_t> counts;
  for (const SourceFile& file : files)
    if (file.path.starts_with(top)) ++counts[folder_of(file.path)];
  std::vector<Violation> violations;
  for (const auto& [folder, count] : counts)
    if (count > most)
      violations.push_back(
          {folder, 0, std::to_string(count) + " source files, at most " + std::to_string(most)});
  return violations;
}

std::vector<Violation> check_desk_namespaces(const std::vector<SourceFile>& files) {
  static const std::regex opening(R"re(^namespace (stirbench[\w:]*) \{)re");
  std::vector<Violation> violations;
  for (const SourceFile& file : files) {
    if (!file.path.starts_with("app/desk/")) continue;
    std::string layer = layer_of(file.path);
    if (layer.empty()) continue;  // check_layers reports it
    const std::string space = "stirbench::desk::" + layer.substr(layer.rfind('/') + 1);
    const std::string folder = folder_of(file.path);
    const std::string own = folder == layer ? space : space + "::" + folder.substr(folder.rfind('/') + 1);
    bool any = false;
    std::istringstream lines(file.text);
    std::string line;
    for (int number = 1; std::getline(lines, line); ++number) {
      std::smatch match;
      if (!std::regex_search(line, match, opening)) continue;
      any = true;
      if (match[1] != space && match[1] != own)
        violations.push_back({file.path, number, "opens " + match[1].str() + ", its folder's is " + space});
    }
    if (!any && !only_gathers(file))
      violations.push_back({file.path, 1, "opens no namespace, its folder's is " + space});
  }
  return violations;
}

std::vector<Violation> check_function_length(const SourceFile& file, int most_lines) {
  // Our layout puts what stands at namespace level into the first column: a body opens on a line that starts
  // there and ends with "{", and closes with "}" in the first column. Types and tables close with "};" and
  // are not counted.
  std::vector<Violation> violations;
  std::istringstream lines(file.text);
  std::string line;
  int began = 0;
  bool in_body = false;
  for (int number = 1; std::getline(lines, line); ++number) {
    if (line.empty()) {
      if (!in_body) began = 0;
      continue;
    }
    const bool at_margin = line[0] != ' ' && line[0] != '#' && !line.starts_with("//");
    if (!in_body) {
      if (at_margin &&
          (line.starts_with("namespace") || line.starts_with("}") || line.starts_with("extern \"C\" {"))) {
        began = 0;
        continue;
      }
      if (at_margin && began == 0) began = number;
      if (began != 0 && line.ends_with('{')) in_body = true;
      if (began != 0 && !in_body && (line.ends_with(';') || line.ends_with('}'))) began = 0;
    } else if (line[0] == '}') {
      const int length = number - began + 1;
      if (line == "}" && length > most_lines)
        violations.push_back(
            {file.path, began,
             "function of " + std::to_string(length) + " lines, at most " + std::to_string(most_lines)});
      in_body = false;
      began = 0;
    }
  }
  return violations;
}

std::vector<SourceFile> read_sources() {
  const std::filesystem::path root = test_support::source_root();
  std::vector<SourceFile> files;
  for (const char* top : {"sim_core", "app", "tests"}) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root / top)) {
      const std::string extension = entry.path().extension().string();
      if (!entry.is_regular_file() || (extension != ".h" && extension != ".cpp")) continue;
      files.push_back(
          {entry.path().lexically_relative(root).generic_string(), test_support::read_file(entry.path())});
    }
  }
  std::sort(files.begin(), files.end(),
            [](const SourceFile& a, const SourceFile& b) { return a.path < b.path; });
  return files;
}

}  // namespace stirbench::habits
