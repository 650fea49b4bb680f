#include "sim_core/diagnosis/next_check.h"

#include <algorithm>

namespace stirbench::diagnosis {

namespace {

// Hypotheses that are weighed: profiles by falling weight until `kept_norm` of the probability is in. A pair
// counts for the cause that explains what was found: after its repair the other, if it is there, is a new
// question.
struct Kept {
  std::vector<std::size_t> profiles;
  std::vector<double> weight;
  double rest = 0.0;
};

Kept keep(const Posterior& posterior, double kept_norm) {
  const std::vector<double>& weight = posterior.explains_p;
  double sum = posterior.unknown_p;
  for (const double w : weight) sum += w;
  std::vector<std::size_t> order(weight.size());
  for (std::size_t k = 0; k < order.size(); ++k) order[k] = k;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return weight[a] > weight[b]; });
  Kept out;
  double in = 0.0;
  for (const std::size_t k : order) {
    if (!(weight[k] > 0.0) || (in >= kept_norm * (sum - posterior.unknown_p) && !out.profiles.empty())) break;
    out.profiles.push_back(k);
    out.weight.push_back(weight[k] / sum);
    in += weight[k];
  }
  out.rest = std::max(0.0, (sum - in) / sum);
  return out;
}

std::size_t index_in(std::vector<std::size_t>& list, std::size_t value) {
  const auto found = std::find(list.begin(), list.end(), value);
  if (found != list.end()) return static_cast<std::size_t>(found - list.begin());
  list.push_back(value);
  return list.size() - 1;
}

Remedy remedy_of(const Model& model, const Cause& cause, const AccessMinutes& change, Who who) {
  if (!may_do(who, cause.who)) return {model.service_min, 0.0, AccessState::running, AccessState::running};
  // Whether it was the one shows only when it is done and tried: all of it is spent whenever one gets to it.
  const double back =
      change[static_cast<std::size_t>(cause.repair_needs)][static_cast<std::size_t>(AccessState::running)];
  return {cause.repair_min + cause.parts_min + back + model.prove_min, 0.0, cause.repair_needs,
          AccessState::running};
}

Test test_of(const Model& model, const Kept& kept, std::size_t question) {
  const Check& check = model.check(question);
  Test test{check.minutes, check.needs, {}};
  const std::size_t outcomes = check.outcomes.size();
  for (std::size_t o = 0; o < outcomes; ++o) {
    std::vector<double> p;
    for (const std::size_t k : kept.profiles) p.push_back(model.likelihood(k, question, o));
    if (kept.rest > 0.0) p.push_back(unknown_likelihood(model, question, o));
    test.p.push_back(std::move(p));
  }
  return test;
}

// Whether hypotheses differ in their answers by more than the noise of counting.
bool may_tell(const Test& test) {
  constexpr double noise = 0.05;
  return std::any_of(test.p.begin(), test.p.end(), [](const std::vector<double>& answer) {
    const auto [least, most] = std::minmax_element(answer.begin(), answer.end());
    return *most - *least > noise;
  });
}

}  // namespace

PosedProblem pose_problem(const Model& model, const std::vector<Finding>& findings,
                          const Constraints& situation, double kept_norm) {
  const Posterior known = posterior(model, findings);
  const Kept kept = keep(known, kept_norm);
  PosedProblem out;
  TroubleshootingProblem& problem = out.problem;
  problem.goal = Goal::repair;
  problem.service_min = model.service_min;
  problem.change = access_change_minutes(model.state_costs);
  problem.start = situation.condition;
  problem.weight = kept.weight;
  for (const std::size_t k : kept.profiles)
    problem.target.push_back(index_in(out.causes, model.profiles[k].cause));
  for (const std::size_t c : out.causes)
    problem.remedies.push_back(remedy_of(model, model.causes[c], problem.change, situation.who));
  if (kept.rest > 0.0) {
    problem.weight.push_back(kept.rest);
    problem.target.push_back(no_target);
  }
  for (std::size_t q = model.symptoms.size(); q < model.question_count(); ++q) {
    const bool asked = std::any_of(findings.begin(), findings.end(), [q](const Finding& f) {
      return f.question == q && !f.withdrawn && f.sure > 0.0;
    });
    const bool impossible = q < situation.impossible.size() && situation.impossible[q];
    if (asked || impossible || !may_do(situation.who, model.check(q).who)) continue;
    Test test = test_of(model, kept, q);
    if (!may_tell(test)) continue;
    out.questions.push_back(q);
    problem.tests.push_back(std::move(test));
  }
  return out;
}

NextSteps next_checks(const Model& model, const std::vector<Finding>& findings, const Constraints& situation,
                      const PlanOptions& options) {
  const PosedProblem posed = pose_problem(model, findings, situation, options.kept_norm);
  Planner planner(posed.problem, 4000);
  planner.follow_only(options.least_reach);
  const SearchNode here = planner.start();
  const CostBounds found =
      options.depth <= 1 ? planner.look_ahead(here, options.candidates) : planner.solve(here, options.depth);
  const CostBounds bounds = planner.worthwhile(here, found, options.least_gain_min);
  NextSteps out;
  out.expected_min = bounds.upper;
  out.at_least_min = bounds.lower;
  out.call_now_min = model.service_min;
  out.repair_now = bounds.best == stop_here;
  for (std::size_t t = 0; t < posed.questions.size(); ++t) {
    if (!planner.tells(here, t)) continue;
    const Planner::Worth worth = planner.worth(here, t);
    CheckAdvice advice{posed.questions[t], planner.test_minutes(here, t), 0.0,
                       worth.net_min,      worth.information_bits,        {}};
    advice.change_min = advice.minutes - posed.problem.tests[t].minutes;
    for (std::size_t o = 0; o < posed.problem.tests[t].p.size(); ++o) {
      advice.outcome_p.push_back(outcome_p(posed.problem.tests[t], here.belief, o));
    }
    out.checks.push_back(std::move(advice));
  }
  const std::size_t best = out.repair_now ? Model::npos : posed.questions[bounds.best];
  std::stable_sort(out.checks.begin(), out.checks.end(), [best](const CheckAdvice& a, const CheckAdvice& b) {
    if ((a.question == best) != (b.question == best)) return a.question == best;
    return a.saves_min > b.saves_min;
  });
  const RepairPlan plan = planner.repairs(here);
  std::vector<double> p(posed.causes.size(), 0.0);
  for (std::size_t h = 0; h < here.belief.size(); ++h) {
    if (posed.problem.target[h] != no_target) p[posed.problem.target[h]] += here.belief[h];
  }
  for (std::size_t i = 0; i < plan.order.size(); ++i) {
    const Remedy& remedy = posed.problem.remedies[plan.order[i]];
    const double way =
        posed.problem
            .change[static_cast<std::size_t>(here.condition)][static_cast<std::size_t>(remedy.needs)];
    out.repairs.push_back({posed.causes[plan.order[i]], p[plan.order[i]],
                           way + remedy.observe_min + remedy.repair_min, i < plan.before_call});
  }
  return out;
}

}  // namespace stirbench::diagnosis
