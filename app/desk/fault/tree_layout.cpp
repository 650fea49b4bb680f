#include "app/desk/fault/tree_layout.h"

#include <algorithm>

namespace stirbench::desk {

using diagnosis::Model;

TreeLayout lay_out(const diagnosis::Tree& tree) {
  TreeLayout out;
  out.places.resize(tree.nodes.size());
  // Parents come before their children, so columns run forwards; in depth-first order ends come in the order of their rows.
  for (std::size_t i = 0; i < tree.nodes.size(); ++i) {
    bool leads_on = false;
    for (std::size_t o = 0; o < tree.nodes[i].child.size(); ++o) {
      const std::size_t child = tree.nodes[i].child[o];
      if (child == Model::npos) continue;
      out.places[child] = {out.places[i].column + 1.0F, 0.0F, i, o};
      leads_on = true;
    }
    if (!leads_on) out.places[i].row = static_cast<float>(out.rows++);
    out.columns = std::max(out.columns, static_cast<int>(out.places[i].column) + 1);
  }
  for (std::size_t i = tree.nodes.size(); i-- > 0;) {
    float least = 1.0e9F;
    float most = -1.0F;
    for (const std::size_t child : tree.nodes[i].child) {
      if (child == Model::npos) continue;
      least = std::min(least, out.places[child].row);
      most = std::max(most, out.places[child].row);
    }
    if (most >= 0.0F) out.places[i].row = 0.5F * (least + most);
  }
  return out;
}

std::vector<std::size_t> way_to(const TreeLayout& layout, std::size_t node) {
  std::vector<std::size_t> out;
  for (std::size_t at = node; at != Model::npos; at = layout.places[at].parent) out.push_back(at);
  std::reverse(out.begin(), out.end());
  return out;
}

}  // namespace stirbench::desk
