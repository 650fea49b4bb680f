#pragma once

#include "app/library/library.h"
#include "app/library/paths.h"

// The shipped rules, for checks of what content says.
namespace stirbench::tests {

inline const product::Rules& shipped_rules() {
  static const library::LoadResult loaded = library::load(STIRBENCH_SOURCE_DIR "/content", "");
  return loaded.library.rules;
}

}  // namespace stirbench::tests
