#pragma once

#include <cstdint>
#include <map>
#include <vector>

#include "sim_core/diagnosis/problem.h"
#include "sim_core/diagnosis/repair_order.h"

// What to do next and what it will cost. Exact by dynamic programming with bounds (AND/OR search) where the
// problem is small enough, look-ahead over a greedy policy where not; either way with an interval that holds
// the optimum.
namespace stirbench::diagnosis {

inline constexpr std::size_t stop_here = static_cast<std::size_t>(-1);
// The planner takes probabilities and minutes up to these for none.
inline constexpr double no_probability = 1.0e-12;
inline constexpr double no_minutes = 1.0e-9;

// Expected minutes from here. The optimum lies in lower..upper; `best` (a test, or stop_here: repair now)
// leads to at most `upper`.
struct CostBounds {
  double lower = 0.0;
  double upper = 0.0;
  std::size_t best = stop_here;
  bool exact() const { return upper < 1.0e300 && upper - lower <= 1.0e-9 * (1.0 + upper); }
};

// A belief that tests have led to.
struct SearchNode {
  Belief belief;
  AccessState condition = AccessState::running;
  std::vector<bool> asked;
};

class Planner {
 public:
  // Keeps a reference to the problem. `most_nodes`: states that a search may open before it falls back on
  // bounds. Throws std::invalid_argument (check_troubleshooting_problem).
  explicit Planner(const TroubleshootingProblem& problem, std::size_t most_nodes = 200000);

  SearchNode start() const;
  SearchNode after(const SearchNode& standing, std::size_t test, std::size_t outcome, double p) const;
  // The test can change what is believed here, and was not asked yet.
  bool tells(const SearchNode& standing, std::size_t test) const;
  // Minutes of the test from here, the change of condition included.
  double test_minutes(const SearchNode& standing, std::size_t test) const;

  // No more tests: isolate 0 where done and infinite where not; repair: the plan of remedies and service
  // call.
  double stop_minutes(const SearchNode& standing) const;
  RepairPlan repairs(const SearchNode& standing) const;
  // Below any policy: knowing the cause at once (repair), Huffman's bound over the cheapest tests (isolate,
  // certain answers).
  double lower_bound_minutes(const SearchNode& standing) const;

  // Asking by information per minute until nothing can pay for itself, stopping wherever that is better.
  // `reach` is the probability of getting here: ways rarer than least_reach are not followed further but
  // stopped (still a policy, so still an upper bound).
  double greedy_minutes(const SearchNode& standing, double reach = 1.0);
  std::size_t greedy_test(const SearchNode& standing) const;
  // Bits that the test tells about the target.
  double information_bits(const SearchNode& standing, std::size_t test) const;
  void follow_only(double least_reach) { least_reach_ = least_reach; }

  // Value of one answer, repairs decided at once after it (myopic): gross = what it saves, never below 0; net
  // = gross - its minutes.
  struct Worth {
    double gross_min = 0.0;
    double net_min = 0.0;
    double information_bits = 0.0;  // about which target it is
  };
  Worth worth(const SearchNode& standing, std::size_t test) const;

  // Depth-limited optimum: `depth` tests ahead exactly, the greedy policy and the lower bound beyond. Ask
  // deeper until exact.
  CostBounds search(const SearchNode& standing, unsigned depth);
  // search() deepened until it is exact, depth reaches `deepest` or most_nodes were opened.
  CostBounds solve(const SearchNode& standing, unsigned deepest = 64);
  // As search with depth 1, but only the `candidates` tests of most information per minute are weighed; the
  // others keep their bound.
  CostBounds look_ahead(const SearchNode& standing, std::size_t candidates);

  // What to do about these bounds when a test has to save at least `least_gain_min` (nobody goes on measuring
  // for seconds): with less to gain the repairs come now.
  CostBounds worthwhile(const SearchNode& standing, CostBounds bounds, double least_gain_min) const;

  const TroubleshootingProblem& problem() const { return problem_; }
  std::size_t nodes() const { return opened_; }

 private:
  // Belief in steps of 1e-12, condition, and which tests that could still tell have been asked.
  using Key = std::vector<std::int64_t>;
  struct Seen {
    CostBounds bounds;
    unsigned depth = 0;
  };
  struct Move {
    std::size_t test = 0;
    double minutes = 0.0;
    double lower = 0.0;
  };
  Key key(const SearchNode& standing) const;
  bool done(const SearchNode& standing) const;
  std::vector<double> by_target(const Belief& belief) const;
  std::vector<Move> moves(const SearchNode& standing) const;
  double greedy(const SearchNode& standing, unsigned depth, double reach);
  void try_move(const SearchNode& standing, const Move& move, unsigned depth, CostBounds& bounds,
                double& least);
  double isolate_bound(const SearchNode& standing) const;

  const TroubleshootingProblem& problem_;
  std::size_t most_nodes_;
  std::size_t opened_ = 0;
  double least_reach_ = 0.0;
  std::size_t outcomes_ = 2;        // most of any test
  bool certain_ = true;             // every answer is 0 or 1
  std::vector<std::size_t> class_;  // hypotheses that no test tells apart share one
  std::vector<std::size_t>
      group_;  // classes joined with targets: what cannot be split further or need not be
  Belief prior_;
  std::map<Key, Seen> seen_;
  std::map<Key, double> greedy_seen_;
};

}  // namespace stirbench::diagnosis
