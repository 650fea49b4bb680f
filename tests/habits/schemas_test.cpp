#include <doctest/doctest.h>

#include <cstdlib>
#include <string>

#include "tests/support/files.h"
#include "tests/support/skip.h"

using stirbench::test_support::run_program;
using stirbench::test_support::source_root;

// The judge is python3-jsonschema, a general-purpose JSON Schema (draft-07) validator: the schemas are made
// from our reader's tables, so only something outside can show that they are sound schemas and say what the
// reader says.
TEST_CASE("the shipped content satisfies its published schemas") {
  if (!stirbench::test_support::python_module_or_skip("jsonschema", "python3-jsonschema")) return;
  const auto judged =
      run_program({"/usr/bin/python3", "-B", (source_root() / "tests/habits/check_schemas.py").string(),
                   (source_root() / "content").string()});
  INFO(judged.out);
  INFO(judged.err);
  CHECK(judged.exit_code == 0);
  // 15 ingredients, 2 machines, 6 recipes and 3 lessons at the least.
  CHECK(std::atoi(judged.out.c_str()) >= 26);
}
