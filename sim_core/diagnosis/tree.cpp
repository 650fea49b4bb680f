#include "sim_core/diagnosis/tree.h"

#include <algorithm>

namespace stirbench::diagnosis {

namespace {

class Compiler {
 public:
  Compiler(const PosedProblem& posed, const TreeOptions& options)
      : posed_(posed),
        options_(options),
        planner_(posed.problem, options.most_nodes),
        exact_depth_(options.exact_depth) {
    planner_.follow_only(options.least_reach);
    if (posed.problem.tests.size() > options.exact_tests) exact_depth_ = 0;
  }

  Tree run() {
    const SearchNode root = planner_.start();
    const CostBounds bounds =
        planner_.worthwhile(root, planner_.solve(root, exact_depth_), options_.least_gain_min);
    tree_.at_least_min = bounds.lower;
    grow(root, 1.0, 0, exact_depth_ > 0 ? bounds.best : choose(root, 1.0, 0));
    tree_.expected_min = tree_.nodes.front().expected_min;
    tree_.exact = tree_.expected_min <= tree_.at_least_min * (1.0 + 1.0e-9);
    return std::move(tree_);
  }

 private:
  std::size_t choose(const SearchNode& standing, double p, std::size_t depth) {
    if (p < options_.least_p || depth >= options_.deepest) return stop_here;
    const CostBounds ahead = planner_.worthwhile(standing, planner_.look_ahead(standing, options_.candidates),
                                                 options_.least_gain_min);
    if (exact_depth_ == 0) return ahead.best;
    // What the search at the root has found out about this place may be better.
    const CostBounds searched = planner_.worthwhile(
        standing,
        planner_.search(standing, depth < exact_depth_ ? static_cast<unsigned>(exact_depth_ - depth) : 0U),
        options_.least_gain_min);
    return searched.upper < ahead.upper ? searched.best : ahead.best;
  }

  void end(const SearchNode& standing, TreeNode& node) {
    const RepairPlan plan = planner_.repairs(standing);
    std::vector<double> p(posed_.causes.size(), 0.0);
    for (std::size_t h = 0; h < standing.belief.size(); ++h) {
      if (posed_.problem.target[h] != no_target) p[posed_.problem.target[h]] += standing.belief[h];
    }
    constexpr double worth_a_line = 0.01;
    for (std::size_t i = 0; i < plan.order.size(); ++i) {
      const std::size_t t = plan.order[i];
      if (p[t] < worth_a_line && i >= plan.before_call) continue;
      const Remedy& remedy = posed_.problem.remedies[t];
      const double way =
          posed_.problem
              .change[static_cast<std::size_t>(standing.condition)][static_cast<std::size_t>(remedy.needs)];
      node.repairs.push_back({posed_.causes[t], p[t], way + remedy.observe_min, i < plan.before_call});
    }
    node.expected_min = plan.minutes;
  }

  // One end for all of these answers; returns what it adds to the minutes of the check.
  double leave(const SearchNode& standing, std::size_t test, double p, const std::vector<std::size_t>& rare,
               std::vector<std::size_t>& children) {
    if (rare.empty()) return 0.0;
    TreeNode node;
    node.unusual = true;
    node.p = 0.0;
    double minutes = 0.0;
    for (const std::size_t o : rare) {
      const double here = outcome_p(posed_.problem.tests[test], standing.belief, o);
      minutes += here * planner_.stop_minutes(planner_.after(standing, test, o, here));
      node.p += p * here;
      children[o] = tree_.nodes.size();
    }
    node.expected_min = minutes * p / node.p;
    tree_.nodes.push_back(std::move(node));
    return minutes;
  }

  std::size_t grow(const SearchNode& standing, double p, std::size_t depth, std::size_t test) {
    const std::size_t index = tree_.nodes.size();
    tree_.nodes.emplace_back();
    tree_.nodes[index].p = p;
    tree_.depth = std::max(tree_.depth, depth);
    if (test == stop_here) {
      end(standing, tree_.nodes[index]);
      return index;
    }
    const Test& asked = posed_.problem.tests[test];
    tree_.nodes[index].question = posed_.questions[test];
    tree_.nodes[index].minutes = planner_.test_minutes(standing, test);
    double minutes = tree_.nodes[index].minutes;
    std::vector<std::size_t> children(asked.p.size(), Model::npos);
    std::vector<std::size_t> rare;
    for (std::size_t o = 0; o < asked.p.size(); ++o) {
      const double here = outcome_p(asked, standing.belief, o);
      if (here <= 1.0e-12) continue;
      if (here < options_.usual_p && p * here < options_.least_p) {
        rare.push_back(o);
        continue;
      }
      const SearchNode next = planner_.after(standing, test, o, here);
      children[o] = grow(next, p * here, depth + 1, choose(next, p * here, depth + 1));
      minutes += here * tree_.nodes[children[o]].expected_min;
    }
    minutes += leave(standing, test, p, rare, children);
    tree_.nodes[index].child = std::move(children);
    tree_.nodes[index].expected_min = minutes;
    return index;
  }

  const PosedProblem& posed_;
  const TreeOptions& options_;
  Planner planner_;
  unsigned exact_depth_;
  Tree tree_;
};

}  // namespace

Tree compile_tree(const Model& model, const std::vector<Finding>& findings, const Constraints& situation,
                  const TreeOptions& options) {
  const PosedProblem posed = pose_problem(model, findings, situation, options.kept_norm);
  Tree tree = Compiler(posed, options).run();
  tree.findings = findings;
  return tree;
}

TreePosition locate_in_tree(const Tree& tree, const std::vector<Finding>& findings) {
  TreePosition out;
  for (bool moved = true; moved && tree.nodes[out.node].question != Model::npos;) {
    moved = false;
    const TreeNode& node = tree.nodes[out.node];
    for (const Finding& finding : findings) {
      if (finding.withdrawn || finding.question != node.question) continue;
      if (finding.outcome >= node.child.size() || node.child[finding.outcome] == Model::npos) continue;
      out.node = node.child[finding.outcome];
      ++out.used;
      moved = true;
      break;
    }
  }
  return out;
}

}  // namespace stirbench::diagnosis
