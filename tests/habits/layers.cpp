#include "tests/habits/layers.h"

#include <algorithm>
#include <filesystem>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "tests/support/files.h"

namespace stirbench::habits {

namespace {

using Names = std::set<std::string, std::less<>>;

// What each layer may include of ours, itself aside.
const std::map<std::string, Names, std::less<>>& allowed_layers() {
  static const Names core = {"sim_core/bytes",  "sim_core/product", "sim_core/refrigeration", "sim_core/plant",    "sim_core/faults",
                             "sim_core/control", "sim_core/bench",  "sim_core/training",      "sim_core/diagnosis"};
  static const auto with = [](Names names, std::initializer_list<const char*> more) {
    for (const char* name : more) names.insert(name);
    return names;
  };
  static const std::map<std::string, Names, std::less<>> table = {
      {"sim_core/bytes", {}},
      {"sim_core/product", {}},
      {"sim_core/refrigeration", {}},
      {"sim_core/plant", {"sim_core/product", "sim_core/refrigeration"}},
      {"sim_core/faults", {"sim_core/bytes", "sim_core/product", "sim_core/refrigeration", "sim_core/plant"}},
      {"sim_core/control", {"sim_core/bytes", "sim_core/product", "sim_core/refrigeration", "sim_core/plant"}},
      {"sim_core/bench", {"sim_core/bytes", "sim_core/product", "sim_core/refrigeration", "sim_core/plant", "sim_core/faults", "sim_core/control"}},
      {"sim_core/training",
       {"sim_core/bytes", "sim_core/product", "sim_core/refrigeration", "sim_core/plant", "sim_core/faults", "sim_core/control", "sim_core/bench"}},
      {"sim_core/diagnosis",
       {"sim_core/bytes", "sim_core/product", "sim_core/refrigeration", "sim_core/plant", "sim_core/faults", "sim_core/control", "sim_core/bench"}},
      {"app/library", core},
      {"app/records", with(core, {"app/library"})},
      {"app/reports", with(core, {"app/library", "app/records"})},
      {"app/desk", with(core, {"app/library", "app/records", "app/reports"})},
      {"app/cli", with(core, {"app/library", "app/records", "app/reports"})},
      {"app/main.cpp", with(core, {"app/library", "app/records", "app/reports", "app/desk", "app/cli"})},
  };
  return table;
}

bool starts_with_any(std::string_view text, const std::vector<std::string>& starts) {
  return std::any_of(starts.begin(), starts.end(), [&](const std::string& start) { return text.starts_with(start); });
}

// Why `layer` may not include this header of a library or of the language, or "" when it may.
std::string reason_against_foreign(std::string_view layer, std::string_view header) {
  static const std::vector<std::string> window = {"imgui", "backends/imgui", "GLFW/", "glad/", "GL/", "X11/", "stb"};
  static const std::vector<std::string> database = {"soci", "sqlite3"};
  static const Names outside_world = {
      "chrono", "ctime",    "time.h", "sys/time.h", "fstream", "filesystem", "iostream", "cstdio",
      "stdio.h", "thread",  "mutex",  "shared_mutex", "future", "atomic",    "condition_variable", "unistd.h",
      "fcntl.h", "stop_token", "random", "locale", "clocale", "unordered_map", "unordered_set"};
  static const std::vector<std::string> data_files = {"nlohmann/", "valijson/", "CLI/", "spdlog/", "sodium"};

  if (starts_with_any(header, window) && layer != "app/desk") return "only app/desk may see the window system";
  if (starts_with_any(header, database) && layer != "app/records") return "only app/records may see the database";
  if (layer.starts_with("sim_core/") && (outside_world.contains(header) || starts_with_any(header, data_files)))
    return "sim_core has no clock, files, threads, console, hash-ordered containers or data formats";
  return "";
}

// Why `layer` may not include our header, or "".
std::string reason_against_own(const std::string& layer, const std::string& header) {
  const std::string target = layer_of(header);
  if (target.empty() || target == "tests") return "\"" + header + "\" is not a header of a layer, named by its path from the root";
  if (target == layer || allowed_layers().at(layer).contains(target)) return "";
  return layer + " may not include " + target + " (the arrow runs the other way)";
}

}  // namespace

std::string layer_of(std::string_view path) {
  if (path.starts_with("tests/")) return "tests";
  if (path == "app/main.cpp") return std::string(path);
  const std::size_t first = path.find('/');
  if (first == std::string_view::npos) return "";
  const std::size_t second = path.find('/', first + 1);
  if (second == std::string_view::npos) return "";
  const std::string layer(path.substr(0, second));
  return allowed_layers().contains(layer) ? layer : "";
}

std::vector<Violation> check_layers(const std::vector<SourceFile>& files) {
  static const std::regex include_line(R"re(^\s*#\s*include\s*([<"])([^>"]+)[>"])re");
  std::vector<Violation> violations;
  for (const SourceFile& file : files) {
    const std::string layer = layer_of(file.path);
    if (layer == "tests") continue;  // tests may look at everything
    if (layer.empty()) {
      violations.push_back({file.path, 1, "belongs to no layer of the house"});
      continue;
    }
    std::istringstream lines(file.text);
    std::string line;
    for (int number = 1; std::getline(lines, line); ++number) {
      std::smatch match;
      if (!std::regex_search(line, match, include_line)) continue;
      const bool is_own = match[1] == "\"";
      const std::string why =
          is_own ? reason_against_own(layer, match[2]) : reason_against_foreign(layer, match[2].str());
      if (!why.empty()) violations.push_back({file.path, number, why});
      // Our own headers in angle brackets would slip past the arrow.
      if (!is_own && !layer_of(match[2].str()).empty())
        violations.push_back({file.path, number, "our own headers are included with quotation marks"});
    }
  }
  return violations;
}

std::vector<Violation> check_function_length(const SourceFile& file, int most_lines) {
  // Our layout puts what stands at namespace level into the first column: a body opens on a line that starts there and ends
  // with "{", and closes with "}" in the first column. Types and tables close with "};" and are not counted.
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
      if (at_margin && (line.starts_with("namespace") || line.starts_with("}") || line.starts_with("extern \"C\" {"))) {
        began = 0;
        continue;
      }
      if (at_margin && began == 0) began = number;
      if (began != 0 && line.ends_with('{')) in_body = true;
      if (began != 0 && !in_body && (line.ends_with(';') || line.ends_with('}'))) began = 0;
    } else if (line[0] == '}') {
      const int length = number - began + 1;
      if (line == "}" && length > most_lines)
        violations.push_back({file.path, began, "function of " + std::to_string(length) + " lines, at most " +
                                                    std::to_string(most_lines)});
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
      files.push_back({entry.path().lexically_relative(root).generic_string(), test_support::read_file(entry.path())});
    }
  }
  std::sort(files.begin(), files.end(), [](const SourceFile& a, const SourceFile& b) { return a.path < b.path; });
  return files;
}

}  // namespace stirbench::habits
