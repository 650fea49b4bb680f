#pragma once

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <map>
#include <thread>
#include <vector>

#include "app/library/guide.h"
#include "sim_core/bench/random.h"
#include "sim_core/diagnosis/next_check.h"

// How good is a fault guide on broken machines that its tables have never seen? Machines are drawn by how often each cause happens, one
// of their symptoms is reported, and then the advice is followed with the answers of the simulated machine.
namespace stirbench::fault_trial {

using namespace diagnosis;

struct Case {
  std::size_t cause = 0;
  std::size_t symptom = Model::npos;   // reported; npos: it shows none
  std::vector<std::size_t> answers;
};

struct Result {
  std::size_t cause = 0, said = 0;
  bool first = false, third = false, grouped = false;
  double said_p = 0.0, brier = 0.0;
  double guide_min = 0.0, repair_min = 0.0, least_min = 0.0;
  std::size_t checks = 0;
  std::vector<Finding> findings;
};

// `seed` must be another than the evidence's. Machines without a symptom are drawn anew (nobody would look for a fault) and counted.
inline std::vector<Case> draw_cases(const bench::Machine& machine, const library::Guide& guide, const Model& model, std::size_t machines,
                                    std::uint64_t seed, unsigned threads, std::size_t& silent) {
  const BrokenMachines broken(machine, model, guide.protocols);
  double rates = 0.0;
  for (const Cause& cause : model.causes) rates += cause.per_year;
  std::vector<Case> cases(machines);
  std::vector<std::size_t> quiet(threads, 0);
  const auto work = [&](std::size_t from) {
    for (std::size_t i = from; i < cases.size(); i += threads) {
      bench::Random random{seed + i};
      while (cases[i].symptom == Model::npos) {
        double u = random.uniform() * rates;
        std::size_t c = 0;
        while (c + 1 < model.causes.size() && u >= model.causes[c].per_year) u -= model.causes[c++].per_year;
        cases[i].cause = c;
        const faults::Fault& fault = guide.faults[c];
        cases[i].answers = broken.answer_all(draw_machine(c, fault.severity_low, fault.severity_high, random.next()));
        std::vector<std::size_t> shown;
        for (std::size_t s = 0; s < model.symptoms.size(); ++s) {
          if (cases[i].answers[s] == 1) shown.push_back(s);
        }
        if (shown.empty()) ++quiet[from];
        else cases[i].symptom = shown[static_cast<std::size_t>(random.uniform() * static_cast<double>(shown.size()))];
      }
    }
  };
  std::vector<std::thread> pool;
  for (unsigned t = 1; t < threads; ++t) pool.emplace_back(work, t);
  work(0);
  for (std::thread& one : pool) one.join();
  for (const std::size_t one : quiet) silent += one;
  return cases;
}

// Minutes of repairs in this order until the true cause is met, service where the plan says so.
inline double repair_minutes(const Model& model, const Next& next, std::size_t truth) {
  double minutes = 0.0;
  for (const RepairAdvice& one : next.repairs) {
    if (!one.before_call) break;
    minutes += one.minutes;
    if (one.cause == truth) return minutes;
  }
  return minutes + model.service_min;
}

inline double check_minutes(const Model& model, const ConditionMatrix& change, Condition& condition, std::size_t question) {
  const Check& check = model.check(question);
  const double minutes = change[static_cast<std::size_t>(condition)][static_cast<std::size_t>(check.needs)] + check.minutes;
  condition = check.needs;
  return minutes;
}

// Follows the advice; what was asked before is remembered, since thousands of machines share their first answers.
class Follower {
 public:
  Follower(const Model& model, Who who, std::vector<std::vector<std::size_t>> groups) : model_(model), who_(who), groups_(std::move(groups)) {}

  Result follow(const Case& one) {
    const ConditionMatrix change = condition_minutes(model_.state_costs);
    Result out;
    out.cause = one.cause;
    Condition condition = Condition::standing;
    out.findings = {{one.symptom, 1}};
    for (;;) {
      const Next& next = advice(out.findings, condition);
      if (out.checks == 0) {
        out.least_min = next.at_least_min;
        out.repair_min = repair_minutes(model_, next, one.cause);
      }
      if (next.repair_now || next.checks.empty()) break;
      const std::size_t q = next.checks.front().question;
      out.guide_min += check_minutes(model_, change, condition, q);
      out.findings.push_back({q, one.answers[q]});
      ++out.checks;
    }
    out.guide_min += repair_minutes(model_, advice(out.findings, condition), one.cause);
    judge(one, out);
    return out;
  }
  double slowest_ms() const { return slowest_ms_; }
  const Next& advice(const std::vector<Finding>& findings, Condition condition) {
    Key key{static_cast<std::size_t>(condition)};
    for (const Finding& finding : findings) key.insert(key.end(), {finding.question, finding.outcome});
    const auto found = known_.find(key);
    if (found != known_.end()) return found->second;
    const auto began = std::chrono::steady_clock::now();
    Next next = next_checks(model_, findings, {who_, condition, {}});
    slowest_ms_ = std::max(slowest_ms_, std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - began).count());
    return known_.emplace(std::move(key), std::move(next)).first->second;
  }

 private:
  using Key = std::vector<std::size_t>;

  void judge(const Case& one, Result& out) {
    Key key;
    for (const Finding& finding : out.findings) key.insert(key.end(), {finding.question, finding.outcome});
    auto found = posteriors_.find(key);
    if (found == posteriors_.end()) found = posteriors_.emplace(std::move(key), posterior(model_, out.findings)).first;
    const Posterior& known = found->second;
    const auto ranked = known.ranked();
    out.said = ranked[0].cause;
    out.first = ranked[0].cause == one.cause;
    out.third = out.first || ranked[1].cause == one.cause || ranked[2].cause == one.cause;
    out.said_p = ranked[0].p;
    for (std::size_t c = 0; c < model_.causes.size(); ++c) out.brier += std::pow(known.cause_p[c] - (c == one.cause ? 1.0 : 0.0), 2);
    for (const auto& group : groups_) out.grouped = out.grouped || std::find(group.begin(), group.end(), one.cause) != group.end();
  }

  const Model& model_;
  Who who_;
  std::vector<std::vector<std::size_t>> groups_;
  std::map<Key, Next> known_;
  std::map<Key, Posterior> posteriors_;
  double slowest_ms_ = 0.0;
};

}  // namespace stirbench::fault_trial
