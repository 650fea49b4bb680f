#include "tests/support/skip.h"

#include <doctest/doctest.h>

#include <cstdio>
#include <filesystem>
#include <utility>

#include "tests/support/files.h"

namespace stirbench::test_support {

namespace {

struct Running {
  std::string name;
  bool skipped = false;
};

Running& running() {
  static Running one;
  return one;
}

// doctest does not tell a test its own name; a listener hears it.
struct NameListener : doctest::IReporter {
  explicit NameListener(const doctest::ContextOptions&) {}
  void report_query(const doctest::QueryData&) override {}
  void test_run_start() override {}
  void test_run_end(const doctest::TestRunStats&) override {}
  void test_case_start(const doctest::TestCaseData& one) override { running() = {one.m_name, false}; }
  void test_case_reenter(const doctest::TestCaseData&) override {}
  void test_case_end(const doctest::CurrentTestCaseStats&) override {}
  void test_case_exception(const doctest::TestCaseException&) override {}
  void subcase_start(const doctest::SubcaseSignature&) override {}
  void subcase_end() override {}
  void log_assert(const doctest::AssertData&) override {}
  void log_message(const doctest::MessageData&) override {}
  void test_case_skipped(const doctest::TestCaseData&) override {}
};

REGISTER_LISTENER("names", 1, NameListener);

}  // namespace

void skip(const std::string& left_out, const std::string& package) {
  if (std::exchange(running().skipped, true)) return;
  const std::string remedy = package.empty() ? "" : " (package " + package + ")";
  std::printf("SKIPPED: %s: %s%s\n", running().name.c_str(), left_out.c_str(), remedy.c_str());
  std::fflush(stdout);
}

std::string program_or_skip(const std::string& program, const std::string& package) {
  for (const char* folder : {"/usr/bin/", "/usr/local/bin/", "/bin/"}) {
    if (std::filesystem::exists(folder + program)) return folder + program;
  }
  skip(program + " is not installed", package);
  return {};
}

bool python_module_or_skip(const std::string& module, const std::string& package) {
  const std::string python = program_or_skip("python3", package);
  if (python.empty()) return false;
  if (run_program({python, "-c", "import " + module}).exit_code == 0) return true;
  skip("python3 has no module " + module, package);
  return false;
}

}  // namespace stirbench::test_support
