#pragma once

#include <string>

#include "app/cli/common.h"

namespace stirbench::cli {

struct ExploreOptions {
  std::string machine;
  std::string fault;    // only this one; empty: sound parts, then each fault
  std::string promela;  // write the Promela model here and stop
  std::string without;  // Promela: leave this rule out, as a seeded violation
  std::string table;    // write the table of faults and fallen invariants here
};

// `stirbench explore`: every reachable state, the invariants by name, and which of them fall with which
// fault. Exit 0 when all hold with sound parts, 1 when not.
int explore(const CommonOptions& common, const ExploreOptions& options);

}  // namespace stirbench::cli
