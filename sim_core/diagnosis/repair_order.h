#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

// In which order to try repairs, and when to call somebody in instead. One fault; a step shows at once
// whether it was the one; costs do not depend on the order (Heckerman, Breese and Rommelse, CACM 38(3),
// 1995).
namespace stirbench::diagnosis {

struct RepairStep {
  double p = 0.0;  // that this is the fault; all together at most 1
  double observe_min =
      0.0;  // spent whenever one gets to it. A part that cannot be looked at: its whole repair stands here
  double repair_min = 0.0;  // spent only if it is the fault
};

struct RepairPlan {
  std::vector<std::size_t>
      order;  // all steps by falling p / observe_min; ties within 1e-9 keep the steps' order
  std::size_t before_call = 0;          // how many of them to do before calling service
  double minutes = 0.0;                 // expected, with that call
  std::vector<double> minutes_by_call;  // expected when calling after 0, 1 ... n steps
};

// ECR = sum_i [(1 - sum_{j<i} p_j) Co_i + p_i (Cr_i + Ct)] + (1 - sum p) Cs along the order, the call put
// where it is least. prove_min: trying the machine after a repair. Ties between call places keep the earlier
// call.
RepairPlan plan_repairs(const std::vector<RepairStep>& steps, double prove_min, double service_min);

// ECR of one given order with the call after all of its steps.
double expected_minutes(const std::vector<RepairStep>& steps, const std::vector<std::size_t>& order,
                        double prove_min, double service_min);

// Actions that may each cure several causes: then p/C is not optimal (the problem is NP-hard, Vomlelova and
// Vomlel 2003).
struct SharedAction {
  double minutes = 0.0;
  std::uint32_t cures = 0;  // bit i: cures cause i
};
struct SharedPlan {
  std::vector<std::size_t> order;
  double minutes = 0.0;
};
// Best order by dynamic programming over sets of actions done: exact. At most 16 actions and 32 causes, else
// std::invalid_argument.
SharedPlan plan_shared(const std::vector<double>& p, const std::vector<SharedAction>& actions);
// The order that recomputed p/C gives: a fast one, not always the best.
SharedPlan plan_shared_greedily(const std::vector<double>& p, const std::vector<SharedAction>& actions);

}  // namespace stirbench::diagnosis
