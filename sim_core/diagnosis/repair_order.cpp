#include "sim_core/diagnosis/repair_order.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <stdexcept>

namespace stirbench::diagnosis {

namespace {

constexpr double tie = 1.0e-9;

// Efficiency p/C; a step that costs nothing comes first when it can help at all.
double efficiency(double p, double minutes) {
  if (minutes > 0.0) return p / minutes;
  return p > 0.0 ? std::numeric_limits<double>::max() : 0.0;
}

double remaining(const std::vector<double>& p, std::uint32_t cured) {
  double left = 0.0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    if ((cured >> i & 1U) == 0) left += p[i];
  }
  return left;
}

void check_shared(const std::vector<double>& p, const std::vector<SharedAction>& actions) {
  constexpr std::size_t most_actions = 16;
  constexpr std::size_t most_causes = 32;
  if (p.size() > most_causes || actions.size() > most_actions)
    throw std::invalid_argument("plan_shared: expected at most 16 actions and 32 causes, found " +
                                std::to_string(actions.size()) + " and " + std::to_string(p.size()));
}

}  // namespace

RepairPlan plan_repairs(const std::vector<RepairStep>& steps, double prove_min, double service_min) {
  RepairPlan plan;
  // Picked one by one: a sort with a tolerance would not be an order.
  std::vector<std::size_t> left(steps.size());
  std::iota(left.begin(), left.end(), std::size_t{0});
  while (!left.empty()) {
    auto best = left.begin();
    for (auto it = left.begin(); it != left.end(); ++it) {
      const double a = efficiency(steps[*it].p, steps[*it].observe_min);
      const double b = efficiency(steps[*best].p, steps[*best].observe_min);
      if (a > b * (1.0 + tie)) best = it;
    }
    plan.order.push_back(*best);
    left.erase(best);
  }
  double still = 1.0;
  double spent = 0.0;
  plan.minutes_by_call.push_back(service_min);
  for (const std::size_t i : plan.order) {
    spent += still * steps[i].observe_min + steps[i].p * (steps[i].repair_min + prove_min);
    still = std::max(0.0, still - steps[i].p);
    plan.minutes_by_call.push_back(spent + (still > tie ? still * service_min : 0.0));
  }
  for (std::size_t k = 1; k < plan.minutes_by_call.size(); ++k) {
    if (plan.minutes_by_call[k] < plan.minutes_by_call[plan.before_call] - tie) plan.before_call = k;
  }
  plan.minutes = plan.minutes_by_call[plan.before_call];
  return plan;
}

double expected_minutes(const std::vector<RepairStep>& steps, const std::vector<std::size_t>& order,
                        double prove_min, double service_min) {
  double still = 1.0;
  double spent = 0.0;
  for (const std::size_t i : order) {
    spent += still * steps[i].observe_min + steps[i].p * (steps[i].repair_min + prove_min);
    still = std::max(0.0, still - steps[i].p);
  }
  return spent + (still > tie ? still * service_min : 0.0);
}

SharedPlan plan_shared(const std::vector<double>& p, const std::vector<SharedAction>& actions) {
  check_shared(p, actions);
  const std::size_t sets = std::size_t{1} << actions.size();
  std::vector<double> best(sets, 0.0);
  std::vector<std::size_t> choice(sets, 0);
  // From "all done" downwards: what is left to spend when the set has been done in vain.
  for (std::size_t set = sets; set-- > 0;) {
    std::uint32_t cured = 0;
    for (std::size_t a = 0; a < actions.size(); ++a) {
      if ((set >> a & 1U) != 0) cured |= actions[a].cures;
    }
    const double left = remaining(p, cured);
    if (left <= tie || set + 1 == sets) continue;
    best[set] = std::numeric_limits<double>::infinity();
    for (std::size_t a = 0; a < actions.size(); ++a) {
      if ((set >> a & 1U) != 0) continue;
      const double minutes = left * actions[a].minutes + best[set | std::size_t{1} << a];
      if (minutes < best[set] - tie) {
        best[set] = minutes;
        choice[set] = a;
      }
    }
  }
  SharedPlan plan;
  plan.minutes = best[0];
  for (std::size_t set = 0; best[set] > 0.0; set |= std::size_t{1} << choice[set])
    plan.order.push_back(choice[set]);
  return plan;
}

SharedPlan plan_shared_greedily(const std::vector<double>& p, const std::vector<SharedAction>& actions) {
  check_shared(p, actions);
  SharedPlan plan;
  std::uint32_t cured = 0;
  std::vector<bool> done(actions.size(), false);
  while (remaining(p, cured) > tie && plan.order.size() < actions.size()) {
    std::size_t best = actions.size();
    double most = -1.0;
    for (std::size_t a = 0; a < actions.size(); ++a) {
      if (done[a]) continue;
      const double gain = remaining(p, cured) - remaining(p, cured | actions[a].cures);
      const double rate = efficiency(gain, actions[a].minutes);
      if (best == actions.size() || rate > most * (1.0 + tie)) {
        best = a;
        most = rate;
      }
    }
    plan.minutes += remaining(p, cured) * actions[best].minutes;
    cured |= actions[best].cures;
    done[best] = true;
    plan.order.push_back(best);
  }
  return plan;
}

}  // namespace stirbench::diagnosis
