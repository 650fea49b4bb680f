#include <algorithm>
#include <limits>

#include "sim_core/diagnosis/planner.h"

// The search of the planner: AND over outcomes, OR over tests and stopping, bounded from both sides.
namespace stirbench::diagnosis {

std::vector<Planner::Move> Planner::moves(const SearchNode& standing) const {
  std::vector<Move> out;
  for (std::size_t t = 0; t < problem_.tests.size(); ++t) {
    if (!tells(standing, t)) continue;
    Move move{t, test_minutes(standing, t), 0.0};
    move.lower = move.minutes;
    for (std::size_t k = 0; k < problem_.tests[t].p.size(); ++k) {
      const double p = outcome_p(problem_.tests[t], standing.belief, k);
      if (p > no_probability) move.lower += p * lower_bound_minutes(after(standing, t, k, p));
    }
    out.push_back(move);
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Move& a, const Move& b) { return a.lower < b.lower - no_minutes; });
  return out;
}

void Planner::try_move(const SearchNode& standing, const Move& move, unsigned depth, CostBounds& bounds,
                       double& least) {
  double lower = move.minutes;
  double upper = move.minutes;
  const Test& test = problem_.tests[move.test];
  for (std::size_t k = 0; k < test.p.size(); ++k) {
    const double p = outcome_p(test, standing.belief, k);
    if (p <= no_probability) continue;
    const CostBounds then = search(after(standing, move.test, k, p), depth - 1);
    lower += p * then.lower;
    upper += p * then.upper;
  }
  least = std::min(least, std::max(lower, move.lower));
  if (upper < bounds.upper - no_minutes) {
    bounds.upper = upper;
    bounds.best = move.test;
  }
}

CostBounds Planner::search(const SearchNode& standing, unsigned depth) {
  CostBounds bounds{lower_bound_minutes(standing), stop_minutes(standing), stop_here};
  if (bounds.exact()) return {bounds.upper, bounds.upper, stop_here};
  const Key here = key(standing);
  if (const auto found = seen_.find(here);
      found != seen_.end() && (found->second.depth >= depth || found->second.bounds.exact()))
    return found->second.bounds;
  const std::vector<Move> all = moves(standing);
  double least = bounds.upper;  // stopping is a move too
  if (depth == 0 || opened_ >= most_nodes_) {
    for (const Move& move : all) least = std::min(least, move.lower);
    const double greedy_cost = greedy_minutes(standing);
    if (greedy_cost < bounds.upper - no_minutes) {
      bounds.upper = greedy_cost;
      bounds.best = greedy_test(standing);
    }
  } else {
    ++opened_;
    for (const Move& move : all) {
      if (move.lower >= bounds.upper - no_minutes) {
        least = std::min(least, move.lower);
        break;  // sorted: the rest is no better
      }
      try_move(standing, move, depth, bounds, least);
    }
  }
  bounds.lower = std::min(std::max(bounds.lower, least), bounds.upper);
  seen_[here] = {bounds, depth};
  return bounds;
}

CostBounds Planner::solve(const SearchNode& standing, unsigned deepest) {
  CostBounds bounds = search(standing, 0);
  for (unsigned depth = 1; depth <= deepest && !bounds.exact() && opened_ < most_nodes_; ++depth) {
    const CostBounds deeper = search(standing, depth);
    bounds.lower = std::max(bounds.lower, deeper.lower);
    if (deeper.upper <= bounds.upper + no_minutes) {
      bounds.upper = deeper.upper;
      bounds.best = deeper.best;
    }
  }
  return bounds;
}

CostBounds Planner::look_ahead(const SearchNode& standing, std::size_t candidates) {
  CostBounds bounds{lower_bound_minutes(standing), stop_minutes(standing), stop_here};
  if (bounds.exact()) return {bounds.upper, bounds.upper, stop_here};
  struct Candidate {
    Move move;
    double rate = 0.0;
  };
  std::vector<Candidate> all;
  for (const Move& move : moves(standing)) {
    all.push_back({move, information_bits(standing, move.test) / std::max(move.minutes, 1.0e-6)});
  }
  std::stable_sort(all.begin(), all.end(), [](const Candidate& a, const Candidate& b) {
    return a.rate > b.rate * (1.0 + no_minutes);
  });
  double least = bounds.upper;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Move& move = all[i].move;
    if (i >= candidates || move.lower >= bounds.upper - no_minutes) {
      least = std::min(least, move.lower);
      continue;
    }
    double upper = move.minutes;
    const Test& test = problem_.tests[move.test];
    for (std::size_t k = 0; k < test.p.size(); ++k) {
      const double p = outcome_p(test, standing.belief, k);
      if (p > no_probability) upper += p * greedy_minutes(after(standing, move.test, k, p), p);
    }
    least = std::min(least, move.lower);
    if (upper < bounds.upper - no_minutes) {
      bounds.upper = upper;
      bounds.best = move.test;
    }
  }
  bounds.lower = std::min(std::max(bounds.lower, least), bounds.upper);
  return bounds;
}

}  // namespace stirbench::diagnosis
