#pragma once

#include <doctest/doctest.h>

#include "app/library/library.h"
#include "tests/support/files.h"

namespace stirbench::reports_test {

// The shipped content, read once.
inline const library::Library& content() {
  static const library::LoadResult loaded =
      library::load((test_support::source_root() / "content").string(), "");
  REQUIRE(loaded.problems.empty());
  return loaded.library;
}

}  // namespace stirbench::reports_test
