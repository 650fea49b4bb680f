#include "sim_core/diagnosis/planner.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "sim_core/diagnosis/testability.h"

namespace stirbench::diagnosis {

namespace {

constexpr double hardly = 1.0e-4;  // hypotheses below are left out of what a test is weighed by
constexpr double sure_enough = 1.0 - 1.0e-9;
constexpr unsigned deepest_greedy = 12;
constexpr double endless = std::numeric_limits<double>::infinity();

std::size_t at(AccessState condition) { return static_cast<std::size_t>(condition); }

// Hypotheses with the same answers to all tests get one number.
std::vector<std::size_t> classes_of(const TroubleshootingProblem& problem) {
  std::map<std::vector<std::int64_t>, std::size_t> number;
  std::vector<std::size_t> out;
  for (std::size_t h = 0; h < problem.weight.size(); ++h) {
    std::vector<std::int64_t> answers;
    for (const Test& test : problem.tests) {
      for (const auto& outcome : test.p) answers.push_back(std::llround(outcome[h] * 1.0e12));
    }
    out.push_back(number.emplace(answers, number.size()).first->second);
  }
  return out;
}

// Joins hypotheses of one class or one target until nothing changes.
std::vector<std::size_t> groups_of(const TroubleshootingProblem& problem,
                                   const std::vector<std::size_t>& classes) {
  std::vector<std::size_t> group(classes.size());
  std::iota(group.begin(), group.end(), std::size_t{0});
  for (bool changed = true; changed;) {
    changed = false;
    for (std::size_t a = 0; a < group.size(); ++a) {
      for (std::size_t b = 0; b < a; ++b) {
        const bool same_target = problem.target[a] == problem.target[b] && problem.target[a] != no_target;
        if ((classes[a] != classes[b] && !same_target) || group[a] == group[b]) continue;
        group[a] = group[b] = std::min(group[a], group[b]);
        changed = true;
      }
    }
  }
  return group;
}

}  // namespace

Planner::Planner(const TroubleshootingProblem& problem, std::size_t most_nodes)
    : problem_(problem), most_nodes_(most_nodes) {
  check_troubleshooting_problem(problem);
  const double sum = std::accumulate(problem.weight.begin(), problem.weight.end(), 0.0);
  for (const double w : problem.weight) prior_.push_back(w / sum);
  for (const Test& test : problem.tests) {
    outcomes_ = std::max(outcomes_, test.p.size());
    for (const auto& outcome : test.p) {
      certain_ = certain_ &&
                 std::all_of(outcome.begin(), outcome.end(), [](double p) { return p == 0.0 || p == 1.0; });
    }
  }
  class_ = classes_of(problem);
  group_ = groups_of(problem, class_);
}

SearchNode Planner::start() const {
  return {prior_, problem_.start, std::vector<bool>(problem_.tests.size(), false)};
}

SearchNode Planner::after(const SearchNode& standing, std::size_t test, std::size_t outcome, double p) const {
  SearchNode next{after_outcome(problem_.tests[test], standing.belief, outcome, p),
                  problem_.tests[test].needs, standing.asked};
  next.asked[test] = true;
  return next;
}

bool Planner::tells(const SearchNode& standing, std::size_t test) const {
  if (standing.asked[test]) return false;
  for (const auto& outcome : problem_.tests[test].p) {
    double least = 2.0;
    double most = -1.0;
    for (std::size_t h = 0; h < standing.belief.size(); ++h) {
      if (standing.belief[h] <= no_probability) continue;
      least = std::min(least, outcome[h]);
      most = std::max(most, outcome[h]);
    }
    if (most - least > no_minutes) return true;
  }
  return false;
}

double Planner::test_minutes(const SearchNode& standing, std::size_t test) const {
  return problem_.change[at(standing.condition)][at(problem_.tests[test].needs)] +
         problem_.tests[test].minutes;
}

std::vector<double> Planner::by_target(const Belief& belief) const {
  std::vector<double> out(problem_.remedies.size() + 1, 0.0);
  for (std::size_t h = 0; h < belief.size(); ++h) {
    out[problem_.target[h] == no_target ? problem_.remedies.size() : problem_.target[h]] += belief[h];
  }
  return out;
}

bool Planner::done(const SearchNode& standing) const {
  const std::vector<double> targets = by_target(standing.belief);
  if (std::any_of(targets.begin(), targets.end(), [](double p) { return p >= sure_enough; })) return true;
  for (std::size_t t = 0; t < problem_.tests.size(); ++t) {
    if (tells(standing, t)) return false;
  }
  return true;
}

RepairPlan Planner::repairs(const SearchNode& standing) const {
  const std::vector<double> p = by_target(standing.belief);
  std::vector<RepairStep> steps;
  for (std::size_t t = 0; t < problem_.remedies.size(); ++t) {
    const Remedy& remedy = problem_.remedies[t];
    steps.push_back({p[t], remedy.observe_min + problem_.change[at(standing.condition)][at(remedy.needs)],
                     remedy.repair_min});
  }
  RepairPlan plan = plan_repairs(steps, 0.0, problem_.service_min);
  // The order by p/C from where we stand; its cost with each remedy starting where the one before it has left
  // the machine.
  AccessState condition = standing.condition;
  double still = 1.0;
  double spent = 0.0;
  for (std::size_t k = 0; k < plan.order.size(); ++k) {
    const Remedy& remedy = problem_.remedies[plan.order[k]];
    spent += still * (problem_.change[at(condition)][at(remedy.needs)] + remedy.observe_min) +
             p[plan.order[k]] * remedy.repair_min;
    still = std::max(0.0, still - p[plan.order[k]]);
    condition = remedy.leaves;
    plan.minutes_by_call[k + 1] = spent + (still > no_minutes ? still * problem_.service_min : 0.0);
  }
  plan.before_call = 0;
  for (std::size_t k = 1; k < plan.minutes_by_call.size(); ++k) {
    if (plan.minutes_by_call[k] < plan.minutes_by_call[plan.before_call] - no_minutes) plan.before_call = k;
  }
  plan.minutes = plan.minutes_by_call[plan.before_call];
  return plan;
}

double Planner::stop_minutes(const SearchNode& standing) const {
  if (problem_.goal == Goal::isolate) return done(standing) ? 0.0 : endless;
  return repairs(standing).minutes;
}

CostBounds Planner::worthwhile(const SearchNode& standing, CostBounds bounds, double least_gain_min) const {
  if (problem_.goal != Goal::repair || bounds.best == stop_here) return bounds;
  const double stop = stop_minutes(standing);
  if (stop - bounds.upper < least_gain_min) bounds = {bounds.lower, stop, stop_here};
  return bounds;
}

double Planner::isolate_bound(const SearchNode& standing) const {
  if (done(standing)) return 0.0;
  std::vector<double> costs;
  for (std::size_t t = 0; t < problem_.tests.size(); ++t) {
    if (tells(standing, t)) costs.push_back(problem_.tests[t].minutes);
  }
  // Answers that are not certain may leave doubt for ever: then only the first test is sure to be needed.
  if (!certain_) return *std::min_element(costs.begin(), costs.end());
  std::vector<double> groups(standing.belief.size(), 0.0);
  for (std::size_t h = 0; h < standing.belief.size(); ++h)
    groups[group_[h]] += standing.belief[h] > no_probability ? standing.belief[h] : 0.0;
  return cheapest_sum(costs, huffman_length(groups, outcomes_));
}

double Planner::lower_bound_minutes(const SearchNode& standing) const {
  if (problem_.goal == Goal::isolate) return isolate_bound(standing);
  const std::vector<double> p = by_target(standing.belief);
  double minutes = p.back() * problem_.service_min;
  for (std::size_t t = 0; t < problem_.remedies.size(); ++t) {
    const Remedy& remedy = problem_.remedies[t];
    const double known =
        problem_.change[at(standing.condition)][at(remedy.needs)] + remedy.observe_min + remedy.repair_min;
    minutes += p[t] * std::min(known, problem_.service_min);
  }
  return minutes;
}

Planner::Worth Planner::worth(const SearchNode& standing, std::size_t test) const {
  Worth out;
  out.information_bits = information_bits(standing, test);
  if (problem_.goal == Goal::isolate) return out;
  const double now = repairs(standing).minutes;
  const double then = expected_after(problem_.tests[test], standing.belief, [&](const Belief& belief) {
    return repairs({belief, problem_.tests[test].needs, standing.asked}).minutes;
  });
  // The change of condition counts with the test's minutes, so what follows is compared from here on.
  out.gross_min = std::max(0.0, now - then);
  out.net_min = now - then - test_minutes(standing, test);
  return out;
}

double Planner::information_bits(const SearchNode& standing, std::size_t test) const {
  // I(target; answer) = sum P(o, t) log2 [P(o, t) / (P(o) P(t))], the joint table filled in one pass over the
  // hypotheses.
  const std::vector<double> p_target = by_target(standing.belief);
  double bits = 0.0;
  std::vector<double> joint(p_target.size());
  for (const std::vector<double>& answer : problem_.tests[test].p) {
    std::fill(joint.begin(), joint.end(), 0.0);
    double p_answer = 0.0;
    for (std::size_t h = 0; h < answer.size(); ++h) {
      if (standing.belief[h] < hardly) continue;
      const double p = standing.belief[h] * answer[h];
      joint[problem_.target[h] == no_target ? problem_.remedies.size() : problem_.target[h]] += p;
      p_answer += p;
    }
    for (std::size_t t = 0; t < joint.size(); ++t) {
      if (joint[t] > no_probability) bits += joint[t] * std::log2(joint[t] / (p_answer * p_target[t]));
    }
  }
  return std::max(0.0, bits);
}

std::size_t Planner::greedy_test(const SearchNode& standing) const {
  std::size_t best = stop_here;
  double most = 0.0;
  for (std::size_t t = 0; t < problem_.tests.size(); ++t) {
    if (standing.asked[t]) continue;
    // What tells nothing about the target now may still do so after another test; it is only not the next
    // one.
    const double rate = information_bits(standing, t) / std::max(test_minutes(standing, t), 1.0e-6);
    if (rate > std::max(no_minutes, most * (1.0 + no_minutes))) {
      best = t;
      most = rate;
    }
  }
  return best;
}

double Planner::greedy_minutes(const SearchNode& standing, double reach) {
  return greedy(standing, 0, reach);
}

double Planner::greedy(const SearchNode& standing, unsigned depth, double reach) {
  const double stop = stop_minutes(standing);
  if (stop <= no_minutes || (problem_.goal == Goal::repair && depth >= deepest_greedy)) return stop;
  if (problem_.goal == Goal::repair) {
    if (reach < least_reach_) return stop;
    double cheapest = endless;
    for (std::size_t t = 0; t < problem_.tests.size(); ++t) {
      if (!standing.asked[t]) cheapest = std::min(cheapest, test_minutes(standing, t));
    }
    // Even knowing the cause would not pay for the cheapest test.
    if (stop - lower_bound_minutes(standing) <= cheapest) return stop;
  }
  const Key here = key(standing);
  if (const auto found = greedy_seen_.find(here); found != greedy_seen_.end()) return found->second;
  double minutes = stop;
  if (const std::size_t test = greedy_test(standing); test != stop_here) {
    double then = test_minutes(standing, test);
    for (std::size_t k = 0; k < problem_.tests[test].p.size(); ++k) {
      const double p = outcome_p(problem_.tests[test], standing.belief, k);
      if (p > no_probability) then += p * greedy(after(standing, test, k, p), depth + 1, reach * p);
    }
    minutes = std::min(stop, then);
  }
  greedy_seen_.emplace(here, minutes);
  return minutes;
}

Planner::Key Planner::key(const SearchNode& standing) const {
  Key out;
  out.push_back(static_cast<std::int64_t>(at(standing.condition)));
  for (std::size_t t = 0; t < standing.asked.size(); ++t) {
    if (!standing.asked[t]) continue;
    SearchNode again = standing;
    again.asked[t] = false;
    if (tells(again, t)) out.push_back(static_cast<std::int64_t>(t));
  }
  out.push_back(-1);
  for (const double p : standing.belief) out.push_back(std::llround(p * 1.0e12));
  return out;
}

}  // namespace stirbench::diagnosis
