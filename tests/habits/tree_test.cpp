#include <doctest/doctest.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "tests/habits/layers.h"
#include "tests/support/files.h"

namespace fs = std::filesystem;
using stirbench::habits::layer_of;
using stirbench::habits::read_sources;
using stirbench::test_support::read_file;
using stirbench::test_support::run_program;
using stirbench::test_support::source_root;

namespace {

// Whether `word` stands in the text, and not as a part of a longer path or name.
bool stands_alone_in(const std::string& text, const std::string& word) {
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const char before = at == 0 ? ' ' : text[at - 1];
    const bool goes_on = std::isalnum(static_cast<unsigned char>(before)) != 0 ||
                         std::string_view("_./-").find(before) != std::string_view::npos;
    if (!goes_on) return true;
  }
  return false;
}

// Every regular file of the tree but build/, .git and binaries, as (path from the root, text).
std::vector<std::pair<std::string, std::string>> text_files() {
  std::vector<std::pair<std::string, std::string>> files;
  for (fs::recursive_directory_iterator it(source_root()), end; it != end; ++it) {
    const std::string path = it->path().lexically_relative(source_root()).generic_string();
    if (path == "build" || path == ".git") {
      it.disable_recursion_pending();
      continue;
    }
    if (!it->is_regular_file()) continue;
    std::string text = read_file(it->path());
    if (text.find('\0') == std::string::npos) files.emplace_back(path, std::move(text));
  }
  return files;
}

}  // namespace

TEST_CASE("the top level holds only what the house has rooms for") {
  const std::set<std::string> known = {
      "CMakeLists.txt", "CMakePresets.json", "README.md", "DEVELOPERS.md", "app",
      "sim_core",       "content",           "assets",    "tests",         "third_party_notes",
      "build"};
  for (const auto& entry : fs::directory_iterator(source_root())) {
    const std::string name = entry.path().filename().string();
    CAPTURE(name);
    CHECK((name.starts_with(".") || known.contains(name)));
  }
}

TEST_CASE("source files stay under 400 lines") {
  for (const auto& file : read_sources()) {
    CAPTURE(file.path);
    CHECK(std::count(file.text.begin(), file.text.end(), '\n') <= 400);
  }
}

TEST_CASE("headers guard themselves and live in their folder's namespace") {
  for (const auto& file : read_sources()) {
    if (!file.path.ends_with(".h")) continue;
    CAPTURE(file.path);
    CHECK(file.text.find("#pragma once\n") != std::string::npos);
    const std::string layer = layer_of(file.path);
    const bool only_gathers = file.text.find("\nnamespace ") == std::string::npos &&
                              file.text.find("\nstruct ") == std::string::npos &&
                              file.text.find("\nclass ") == std::string::npos &&
                              file.text.find("\ninline ") == std::string::npos;
    if (layer == "tests" || layer.empty() || only_gathers) continue;
    // The desk's layers have each their own, the library's rooms share one: check_desk_namespaces() looks
    // closer at the desk.
    const std::string room = layer.starts_with("app/library") ? "library" : layer.substr(layer.find('/') + 1);
    const std::string name =
        "namespace stirbench::" + (room.starts_with("desk/") ? "desk::" + room.substr(5) : room);
    CHECK(file.text.find(name) != std::string::npos);
  }
}

TEST_CASE("nothing in the tree names the machine it was written on, or postpones work") {
  // Put together here, so that this file does not find itself.
  const std::vector<std::string> banned = {std::string("/wo") + "rk/", std::string("/ro") + "ot/",
                                           std::string("/tmp/") + "brief", std::string("TO") + "DO",
                                           std::string("FIX") + "ME"};
  for (const auto& [path, text] : text_files()) {
    for (const std::string& word : banned) {
      CAPTURE(path);
      CAPTURE(word);
      CHECK_FALSE(stands_alone_in(text, word));
    }
  }
}

TEST_CASE("every test file belongs to a group") {
  const std::string groups = read_file(fs::path(STIRBENCH_TEST_DIR) / "groups.txt");
  std::vector<std::string> folders = {"tests/support/", "tests/bench/", "tests/fuzz/", "tests/tools/"};
  std::istringstream lines(groups);
  for (std::string line; std::getline(lines, line);) {
    const std::size_t first = line.find('|');
    if (first != std::string::npos)
      folders.push_back("tests/" + line.substr(first + 1, line.rfind('|') - first - 1) + "/");
  }
  for (const auto& file : read_sources()) {
    if (!file.path.starts_with("tests/") || !file.path.ends_with(".cpp")) continue;
    CAPTURE(file.path);
    CHECK(std::any_of(folders.begin(), folders.end(),
                      [&](const std::string& folder) { return file.path.starts_with(folder); }));
  }
}

TEST_CASE("the scripts can be started and are sound bash") {
  for (const char* script : {"app/run", "tests/run", ".ci/run", "app/setup"}) {
    CAPTURE(script);
    const fs::path path = source_root() / script;
    REQUIRE(fs::exists(path));
    if (std::string(script) != "app/setup")
      CHECK((fs::status(path).permissions() & fs::perms::owner_exec) != fs::perms::none);
    CHECK(run_program({"/bin/bash", "-n", path.string()}).err == "");
  }
}

TEST_CASE("each package that is installed is explained in third_party_notes") {
  const std::string setup = read_file(source_root() / "app/setup");
  const std::string notes = read_file(source_root() / "third_party_notes/README.md");
  int packages = 0;
  for (const char* name : {"app_packages=(", "test_packages=("}) {
    const std::size_t begin = setup.find(name);
    REQUIRE(begin != std::string::npos);
    const std::size_t open = setup.find('(', begin) + 1;
    std::istringstream words(setup.substr(open, setup.find(')', open) - open));
    for (std::string package; words >> package; ++packages) {
      CAPTURE(package);
      CHECK(notes.find("`" + package + "`") != std::string::npos);
    }
  }
  CHECK(packages > 10);
}

TEST_CASE("the scripts explain themselves and refuse what they do not know") {
  for (const char* script : {"app/run", "tests/run"}) {
    CAPTURE(script);
    const std::string path = (source_root() / script).string();
    const auto help = run_program({path, "--help"});
    CHECK(help.exit_code == 0);
    CHECK(help.out.starts_with(script));
    const auto refused = run_program({path, "--no-such-option"}, {}, "/");
    CHECK(refused.exit_code == 2);
    CHECK(refused.out == "");
    CHECK(refused.err.find("\"--no-such-option\"") != std::string::npos);
  }
}
