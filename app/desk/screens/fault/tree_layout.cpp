#include "app/desk/screens/fault/tree_layout.h"

#include <algorithm>
#include <utility>

namespace stirbench::desk::screens {

using diagnosis::Model;

namespace {

// Where a node's answers lead, each place once (several answers may share an end), with the first answer that
// leads there.
std::vector<std::pair<std::size_t, std::size_t>> ways_on(const diagnosis::TreeNode& node) {
  std::vector<std::pair<std::size_t, std::size_t>> out;
  for (std::size_t o = 0; o < node.child.size(); ++o) {
    const std::size_t child = node.child[o];
    const bool known =
        std::any_of(out.begin(), out.end(), [child](const auto& one) { return one.first == child; });
    if (child != Model::npos && !known) out.emplace_back(child, o);
  }
  return out;
}

// Ends below each node. Children come after their parents.
std::vector<int> ends_below(const diagnosis::Tree& tree) {
  std::vector<int> out(tree.nodes.size(), 0);
  for (std::size_t i = tree.nodes.size(); i-- > 0;) {
    for (const auto& [child, outcome] : ways_on(tree.nodes[i])) out[i] += out[child];
    out[i] = std::max(out[i], 1);
  }
  return out;
}

}  // namespace

TreeLayout lay_out(const diagnosis::Tree& tree) {
  TreeLayout out;
  out.places.resize(tree.nodes.size());
  const std::vector<int> ends = ends_below(tree);
  for (std::size_t i = 0; i < tree.nodes.size(); ++i) {
    auto children = ways_on(tree.nodes[i]);
    std::stable_sort(children.begin(), children.end(), [&](const auto& a, const auto& b) {
      return std::pair(ends[a.first], tree.nodes[a.first].unusual) <
             std::pair(ends[b.first], tree.nodes[b.first].unusual);
    });
    float row = out.places[i].row;
    for (const auto& [child, outcome] : children) {
      out.places[child] = {out.places[i].column + 1.0F, row, i, outcome};
      row += static_cast<float>(ends[child]);
    }
    out.columns = std::max(out.columns, static_cast<int>(out.places[i].column) + 1);
  }
  out.rows = tree.nodes.empty() ? 0 : ends.front();
  return out;
}

std::vector<std::size_t> way_to(const TreeLayout& layout, std::size_t node) {
  std::vector<std::size_t> out;
  for (std::size_t at = node; at != Model::npos; at = layout.places[at].parent) out.push_back(at);
  std::reverse(out.begin(), out.end());
  return out;
}

}  // namespace stirbench::desk::screens
