#include <doctest/doctest.h>

#include <filesystem>
#include <regex>
#include <set>
#include <sstream>
#include <string>

#include "tests/habits/layers.h"
#include "tests/support/files.h"
#include "tests/support/skip.h"

namespace fs = std::filesystem;
using stirbench::habits::read_sources;
using stirbench::test_support::read_file;
using stirbench::test_support::run_program;

TEST_CASE("every file of ours is compiled without contraction and without fast-math") {
  std::istringstream lines(read_file(fs::path(STIRBENCH_TEST_DIR).parent_path() / "compile_commands.json"));
  int files = 0;
  for (std::string line; std::getline(lines, line);) {
    if (line.find("\"command\":") == std::string::npos) continue;
    // Batches of files are .cxx; the generated OpenGL loader is C and has no arithmetic.
    if (line.find(".cpp") == std::string::npos && line.find(".cxx") == std::string::npos) continue;
    ++files;
    CAPTURE(line);
    CHECK(line.find(" -ffp-contract=off") != std::string::npos);
    CHECK(line.find(" -Werror") != std::string::npos);
    for (const char* flag :
         {"-ffast-math", "-Ofast", "-funsafe-math", "-march=native", "-DNDEBUG", "-mfpmath=387"})
      CHECK(line.find(flag) == std::string::npos);
  }
  CHECK(files > 5);
}

// Writable memory outside State would make two runs differ: nothing of sim_core may live in .data or .bss. A
// function's own constant table, built at first use, is the one exception; that it is constant is read from
// the source below.
TEST_CASE("sim_core has no variables of its own") {
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
  stirbench::test_support::skip("the sanitiser adds variables of its own; the plain builds prove it", "");
#else
  // Columns: name | value | class | type | size | line | section. The name may hold "|" (operator|), so read
  // from the end.
  const auto result = run_program({"/usr/bin/nm", "--demangle", "--format=sysv", STIRBENCH_SIM_CORE});
  REQUIRE(result.exit_code == 0);
  std::set<std::string> built_once;
  std::istringstream guards(result.out);
  for (std::string line; std::getline(guards, line);) {
    const std::string start = "guard variable for ";
    if (line.starts_with(start)) built_once.insert(line.substr(start.size(), line.find('|') - start.size()));
  }
  std::istringstream lines(result.out);
  int functions = 0;
  for (std::string line; std::getline(lines, line);) {
    const std::size_t bar = line.rfind('|');
    if (line.starts_with("guard variable for ") || built_once.contains(line.substr(0, line.find('|'))))
      continue;
    if (bar == std::string::npos) continue;
    const std::string section = line.substr(bar + 1);
    if (section.starts_with(".text")) ++functions;
    // Read-only after loading, or the compiler's own reference to its exception handler.
    if (section.starts_with(".data.rel.ro") || section.find("__gxx_personality") != std::string::npos)
      continue;
    CAPTURE(line);
    for (const char* writable : {".data", ".bss", ".tdata", ".tbss", "*COM*"})
      CHECK_FALSE(section.starts_with(writable));
  }
  CHECK(functions > 0);
#endif
}

TEST_CASE("what a function of sim_core keeps between calls is constant") {
  const auto wrong_line = [](const std::string& text) {
    static const std::regex kept(R"(^\s+(static|thread_local)\s+(?!const\b|constexpr\b))");
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);)
      if (std::regex_search(line, kept)) return line;
    return std::string();
  };
  for (const auto& file : read_sources()) {
    if (!file.path.starts_with("sim_core/") || !file.path.ends_with(".cpp")) continue;
    CAPTURE(file.path);
    CHECK(wrong_line(file.text) == "");
  }
  CHECK(wrong_line("int f() {\n  static std::vector<int> seen;\n}\n") != "");
  CHECK(wrong_line("int f() {\n  thread_local int calls = 0;\n}\n") != "");
  CHECK(wrong_line("int f() {\n  static const std::vector<int> rows = {1};\n}\n") == "");
}
