#pragma once

#include <cstddef>
#include <vector>

#include "sim_core/diagnosis/tree.h"

// Where the boxes of a diagnostic tree stand: a column for each check on the way, a row for each end; short
// ways first and a check in the row of the first, so that what follows on it stands beside it and lines do
// not cross.
namespace stirbench::desk::screens {

struct TreePlace {
  float column = 0.0F;
  float row = 0.0F;
  std::size_t parent = diagnosis::Model::npos;
  std::size_t outcome = 0;  // of the parent's check that leads here
};

struct TreeLayout {
  std::vector<TreePlace> places;  // by node
  int columns = 0;
  int rows = 0;
};
TreeLayout lay_out(const diagnosis::Tree& tree);

// Nodes from the root to this one, both included.
std::vector<std::size_t> way_to(const TreeLayout& layout, std::size_t node);

}  // namespace stirbench::desk::screens
