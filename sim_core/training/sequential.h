#pragma once

#include <cstddef>
#include <vector>

// "Competent", "not yet" or "go on" after each sealed test: Wald's sequential probability ratio test.
//
// Source: A. Wald, Sequential Analysis, Wiley, 1947. H0: passes a sealed test with probability p_not; H1:
// with p_competent.
//   LLR += ln(p_competent / p_not) for a pass, ln((1 - p_competent) / (1 - p_not)) for a fail
//   competent when LLR >= ln((1 - beta) / alpha); not yet when LLR <= ln(beta / (1 - alpha)); else go on
// alpha: probability of answering "competent" for a person who passes with p_not only. beta: probability of
// answering "not yet" for one who passes with p_competent. Both are Wald's approximations; the true rates are
// a little lower, because the ratio overshoots its bounds.
//
// Truncated: after `most` tests without a decision the answer is "not yet" (the safe one). Only independent
// tests of the same kind may be counted together. Must-pass items are not part of it.
namespace stirbench::training {

enum class SequentialAnswer : unsigned char { go_on, competent, not_yet };

struct SequentialPlan {
  double p_not = 0.6;         // 0 .. 1, below p_competent
  double p_competent = 0.85;  // 0 .. 1
  double alpha = 0.05;        // 0 .. 0.5
  double beta = 0.05;         // 0 .. 0.5
  int most = 40;              // largest number of tests, 1 ..; 0: no limit
};

// Throws std::invalid_argument naming the number that is out of its range.
void check(const SequentialPlan& plan);

// What follows from a plan. LLR in natural units; the lines are in tests passed against tests taken.
struct SequentialBounds {
  double per_pass = 0.0;  // added to the LLR
  double per_fail = 0.0;
  double competent = 0.0;  // A
  double not_yet = 0.0;    // B
  double slope =
      0.0;  // competent when passed >= slope * taken + over; not yet when passed <= slope * taken + under
  double over = 0.0;
  double under = 0.0;
  double mean_tests_competent = 0.0;  // Wald's approximate expected number of tests when H1 is true
  double mean_tests_not = 0.0;        // when H0 is true
  int fewest_to_competent = 0;        // passes in a row from the start
  int fewest_to_not_yet = 0;          // fails in a row from the start
};
SequentialBounds bounds(const SequentialPlan& plan);

struct SequentialResult {
  SequentialAnswer answer = SequentialAnswer::go_on;
  double llr = 0.0;               // when decided, or now
  std::size_t decided_after = 0;  // tests; 0: not decided
  bool truncated = false;         // "not yet" only because `most` was reached
  std::vector<double> path;       // LLR after each test that was counted, for the chart
};

// The same rule test by test, for judging many people: the bounds are computed once.
class SequentialTest {
 public:
  explicit SequentialTest(const SequentialPlan& plan) : plan_(plan), bounds_(bounds(plan)) {}
  // Takes one more test and returns the answer. A decision is final: later tests count in taken() only.
  SequentialAnswer take(bool passed);
  void restart();
  SequentialAnswer answer() const { return answer_; }
  double llr() const { return llr_; }
  int taken() const { return taken_; }
  bool truncated() const { return truncated_; }

 private:
  SequentialPlan plan_;
  SequentialBounds bounds_;
  SequentialAnswer answer_ = SequentialAnswer::go_on;
  double llr_ = 0.0;
  int taken_ = 0;
  bool truncated_ = false;
};

// `passed`: sealed tests, oldest first. Tests after the decision are ignored.
SequentialResult judge(const SequentialPlan& plan, const std::vector<bool>& passed);

}  // namespace stirbench::training
