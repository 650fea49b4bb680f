#pragma once

#include <optional>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/screens/fault/tree_layout.h"
#include "app/desk/work/fault/fault_search.h"

// The diagnostic tree of what is seen, drawn as a graph, with the way so far and where one is.
namespace stirbench::desk::screens {

class FaultTree {
 public:
  void draw(kit::Ui& ui, const work::FaultSearch& search, const kit::Rect& rect);

 private:
  // Compiles the tree when symptoms, person or repairs in vain have changed.
  void follow(const work::FaultSearch& search);
  void draw_head(kit::Ui& ui, const work::FaultSearch& search);
  void draw_box(kit::Ui& ui, const work::FaultSearch& search, std::size_t node, const kit::Rect& box);

  std::optional<diagnosis::Tree> tree_;
  TreeLayout layout_;
  std::vector<std::size_t> symptoms_;
  std::vector<double> rates_;
  diagnosis::Who who_ = diagnosis::Who::count;
  std::size_t here_ = 0;
  std::vector<bool> on_way_;
  int first_column_ = 0;
  bool go_there_ = false;  // scroll to where one is in the next frame
};

}  // namespace stirbench::desk::screens
