#include <doctest/doctest.h>

#include "app/desk/screens/fault/tree_layout.h"

using namespace stirbench;
using desk::screens::TreeLayout;
using diagnosis::Model;

namespace {

// A root with two answers; the first leads to a branch with three ends, one of which cannot come.
diagnosis::Tree sample() {
  diagnosis::Tree tree;
  tree.nodes.resize(5);
  tree.nodes[0].child = {1, 4};
  tree.nodes[0].question = 7;
  tree.nodes[1].child = {2, Model::npos, 3};
  tree.nodes[1].question = 8;
  return tree;
}

}  // namespace

TEST_CASE("boxes of a tree: columns by check, rows by end, short ways first, nothing on top of anything") {
  const TreeLayout layout = desk::screens::lay_out(sample());
  CHECK(layout.columns == 3);
  CHECK(layout.rows == 3);
  CHECK(layout.places[0].column == 0.0F);
  CHECK(layout.places[1].column == 1.0F);
  CHECK(layout.places[3].column == 2.0F);
  // The end (node 4) comes before the branch (node 1), which begins in the row under it, beside its own first
  // end.
  CHECK(layout.places[0].row == 0.0F);
  CHECK(layout.places[4].row == 0.0F);
  CHECK(layout.places[1].row == 1.0F);
  CHECK(layout.places[2].row == 1.0F);
  CHECK(layout.places[3].row == 2.0F);
  CHECK(layout.places[3].outcome == 2);
  CHECK(layout.places[4].parent == 0);
  for (std::size_t a = 0; a < layout.places.size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      const bool apart =
          layout.places[a].column != layout.places[b].column || layout.places[a].row != layout.places[b].row;
      CHECK(apart);
    }
  }
  CHECK(desk::screens::way_to(layout, 3) == std::vector<std::size_t>{0, 1, 3});
  CHECK(desk::screens::way_to(layout, 0) == std::vector<std::size_t>{0});
}

TEST_CASE("answers that share an end share a box") {
  diagnosis::Tree tree = sample();
  tree.nodes[1].child = {3, 2, 3};
  tree.nodes[3].unusual = true;
  const TreeLayout layout = desk::screens::lay_out(tree);
  CHECK(layout.rows == 3);
  CHECK(layout.places[3].parent == 1);
  CHECK(layout.places[3].outcome == 0);
}
