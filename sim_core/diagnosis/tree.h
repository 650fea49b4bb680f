#pragma once

#include <cstddef>
#include <vector>

#include "sim_core/diagnosis/next_check.h"

// A diagnostic tree that a person can follow: at each branch a check, at each end the repairs in order.
// Compiled once for a symptom.
namespace stirbench::diagnosis {

struct TreeNode {
  std::size_t question = Model::npos;  // a check; npos: an end
  double minutes = 0.0;                // of the check, from the condition before it
  double p = 1.0;                      // of getting here
  std::vector<std::size_t> child;      // by outcome; npos: that answer cannot come here
  std::vector<RepairAdvice>
      repairs;                // at an end, most likely reached first; service after those with before_call
  double expected_min = 0.0;  // from here to a working machine
  // The end of all answers of its parent that hardly come here: what was said before does not fit them. The
  // tree leaves them to the guide, which weighs everything anew, and to service.
  bool unusual = false;
};

struct Tree {
  std::vector<TreeNode>
      nodes;  // nodes[0] is the root; children come after their parents, so that there is no cycle
  std::vector<Finding> findings;  // that it starts from
  double expected_min = 0.0;
  double at_least_min = 0.0;  // no tree can do better (bound of the search at the root)
  bool exact = false;         // it is the best there is for the weighed causes
  std::size_t depth = 0;      // checks on the longest way
};

struct TreeOptions {
  double kept_norm = 0.97;
  double least_p = 0.01;  // answers rarer than this end at once,
  double usual_p =
      0.03;  // and as unusual ones where they are rarer than this for the one who stands at the check
  unsigned exact_depth = 2;      // checks that the search looks ahead where it can afford it:
  std::size_t exact_tests = 16;  // with at most so many checks that can tell anything
  double least_reach =
      0.05;  // ways that are less likely from where one stands end with repairs, for the look-ahead
  std::size_t most_nodes = 300;  // of the search at the root
  std::size_t candidates = 4;
  std::size_t deepest = 14;
  double least_gain_min = 0.05;  // as PlanOptions
};

Tree compile_tree(const Model& model, const std::vector<Finding>& findings, const Constraints& situation,
                  const TreeOptions& options = {});

// Walks the tree by the findings made after its own; the node reached, and how many of them were on the way.
struct TreePosition {
  std::size_t node = 0;
  std::size_t used = 0;
};
TreePosition locate_in_tree(const Tree& tree, const std::vector<Finding>& findings);

}  // namespace stirbench::diagnosis
