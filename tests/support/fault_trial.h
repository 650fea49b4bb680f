#pragma once

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <map>
#include <numeric>
#include <thread>
#include <vector>

#include "app/library/guide/guide.h"
#include "sim_core/diagnosis/next_check.h"
#include "sim_core/machine/random.h"

// How good is a fault guide on broken machines that its tables have never seen? Machines are drawn by how
// often each cause happens, one of their symptoms is reported, and then the advice is followed with the
// answers of the simulated machine.
namespace stirbench::fault_trial {

using namespace diagnosis;

struct Case {
  std::size_t cause = 0;
  std::size_t symptom = Model::npos;  // reported; npos: it shows none
  std::vector<std::size_t> answers;
};

struct Result {
  std::size_t cause = 0, said = 0;
  bool first = false, third = false, grouped = false;
  double said_p = 0.0, brier = 0.0;
  double guide_min = 0.0, repair_min = 0.0, least_min = 0.0;
  double checks_min = 0.0;  // of guide_min: checks and the changes of condition for them
  double known_min = 0.0;   // to a working machine by somebody who knows the cause
  std::size_t checks = 0;
  AccessState after_checks = AccessState::standing;
  std::vector<Finding> findings;
};

// `seed` must be another than the evidence's. Machines without a symptom are drawn anew (nobody would look
// for a fault) and counted.
inline std::vector<Case> draw_cases(const machine::Machine& machine, const library::FaultGuide& guide,
                                    const Model& model, std::size_t machines, std::uint64_t seed,
                                    unsigned threads, std::size_t& silent) {
  const FaultyMachines broken(machine, model, guide.protocols);
  double rates = 0.0;
  for (const Cause& cause : model.causes) rates += cause.per_year;
  std::vector<Case> cases(machines);
  std::vector<std::size_t> quiet(threads, 0);
  const auto work = [&](std::size_t from) {
    for (std::size_t i = from; i < cases.size(); i += threads) {
      machine::Random random{seed + i};
      while (cases[i].symptom == Model::npos) {
        double u = random.uniform() * rates;
        std::size_t c = 0;
        while (c + 1 < model.causes.size() && u >= model.causes[c].per_year) u -= model.causes[c++].per_year;
        cases[i].cause = c;
        const faults::Fault& fault = guide.causes[c];
        cases[i].answers =
            broken.answer_all(random_machine(c, fault.severity_low, fault.severity_high, random.next()));
        std::vector<std::size_t> shown;
        for (std::size_t s = 0; s < model.symptoms.size(); ++s) {
          if (cases[i].answers[s] == 1) shown.push_back(s);
        }
        if (shown.empty())
          ++quiet[from];
        else
          cases[i].symptom =
              shown[static_cast<std::size_t>(random.uniform() * static_cast<double>(shown.size()))];
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
inline double repair_minutes(const Model& model, const NextSteps& next, std::size_t truth) {
  double minutes = 0.0;
  for (const RepairAdvice& one : next.repairs) {
    if (!one.before_call) break;
    minutes += one.minutes;
    if (one.cause == truth) return minutes;
  }
  return minutes + model.service_min;
}

inline double check_minutes(const Model& model, const AccessMinutes& change, AccessState& condition,
                            std::size_t question) {
  const Check& check = model.check(question);
  const double minutes =
      change[static_cast<std::size_t>(condition)][static_cast<std::size_t>(check.needs)] + check.minutes;
  condition = check.needs;
  return minutes;
}

// From a machine that stands, supply on, to a working one, when the cause is known: way, repair, parts, way
// back, proof; service where it is not this person's work. What a plan takes beyond that is the price of not
// knowing: "minutes to cause".
inline double known_minutes(const Model& model, const AccessMinutes& change, std::size_t truth, Who who) {
  const Cause& cause = model.causes[truth];
  if (!may_do(who, cause.who)) return model.service_min;
  const auto needs = static_cast<std::size_t>(cause.repair_needs);
  const double there = change[static_cast<std::size_t>(AccessState::standing)][needs];
  const double back = change[needs][static_cast<std::size_t>(AccessState::running)];
  return std::min(model.service_min, there + cause.repair_min + cause.parts_min + back + model.prove_min);
}

// Follows the advice; what was asked before is remembered, since thousands of machines share their first
// answers.
class Follower {
 public:
  Follower(const Model& model, Who who, std::vector<std::vector<std::size_t>> groups)
      : model_(model), who_(who), groups_(std::move(groups)) {}

  Result follow(const Case& one) {
    const AccessMinutes change = access_change_minutes(model_.state_costs);
    Result out;
    out.cause = one.cause;
    AccessState condition = AccessState::standing;
    out.findings = {{one.symptom, 1}};
    for (;;) {
      if (keep_stated) note_stated(one, out.findings);
      const NextSteps& next = advice(out.findings, condition);
      if (out.checks == 0) {
        out.least_min = next.at_least_min;
        out.repair_min = repair_minutes(model_, next, one.cause);
      }
      if (next.repair_now || next.checks.empty()) break;
      const std::size_t q = next.checks.front().question;
      out.checks_min += check_minutes(model_, change, condition, q);
      out.findings.push_back({q, one.answers[q]});
      ++out.checks;
    }
    out.after_checks = condition;
    out.known_min = known_minutes(model_, change, one.cause, who_);
    out.guide_min = out.checks_min + repair_minutes(model_, advice(out.findings, condition), one.cause);
    judge(one, out);
    return out;
  }
  // Every probability of 1 % or more that was stated on the way, from the symptom on, and whether it came
  // true: all causes, all machines followed with `keep_stated`.
  struct Stated {
    double p = 0.0;
    bool came_true = false;
  };
  bool keep_stated = false;
  std::vector<Stated> stated;
  double slowest_ms() const { return slowest_ms_; }
  const NextSteps& advice(const std::vector<Finding>& findings, AccessState condition) {
    Key key{static_cast<std::size_t>(condition)};
    for (const Finding& finding : findings) key.insert(key.end(), {finding.question, finding.outcome});
    const auto found = known_.find(key);
    if (found != known_.end()) return found->second;
    const auto began = std::chrono::steady_clock::now();
    NextSteps next = next_checks(model_, findings, {who_, condition, {}});
    slowest_ms_ =
        std::max(slowest_ms_,
                 std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - began).count());
    return known_.emplace(std::move(key), std::move(next)).first->second;
  }

 private:
  using Key = std::vector<std::size_t>;

  const Posterior& known_of(const std::vector<Finding>& findings) {
    Key key;
    for (const Finding& finding : findings) key.insert(key.end(), {finding.question, finding.outcome});
    auto found = posteriors_.find(key);
    if (found == posteriors_.end())
      found = posteriors_.emplace(std::move(key), posterior(model_, findings)).first;
    return found->second;
  }

  void note_stated(const Case& one, const std::vector<Finding>& findings) {
    const Posterior& known = known_of(findings);
    for (std::size_t c = 0; c < known.cause_p.size(); ++c) {
      if (known.cause_p[c] >= 0.01) stated.push_back({known.cause_p[c], c == one.cause});
    }
  }

  void judge(const Case& one, Result& out) {
    const Posterior& known = known_of(out.findings);
    const auto ranked = known.ranked();
    out.said = ranked[0].cause;
    out.first = ranked[0].cause == one.cause;
    out.third = out.first || ranked[1].cause == one.cause || ranked[2].cause == one.cause;
    out.said_p = ranked[0].p;
    for (std::size_t c = 0; c < model_.causes.size(); ++c)
      out.brier += std::pow(known.cause_p[c] - (c == one.cause ? 1.0 : 0.0), 2);
    for (const auto& group : groups_)
      out.grouped = out.grouped || std::find(group.begin(), group.end(), one.cause) != group.end();
  }

  const Model& model_;
  Who who_;
  std::vector<std::vector<std::size_t>> groups_;
  std::map<Key, NextSteps> known_;
  std::map<Key, Posterior> posteriors_;
  double slowest_ms_ = 0.0;
};

// Checks in a fixed order, as a book lists them for a symptom: what can tell anything there, the least
// intrusive first, quick ones before long ones, until one cause is nearly certain.
class ByTheBook {
 public:
  ByTheBook(const Model& model, Who who)
      : model_(model), who_(who), change_(access_change_minutes(model.state_costs)) {}
  double checks_min = 0.0;  // of all machines so far: checks and changes of condition

  double minutes(const Case& one, Follower& follower) {
    AccessState condition = AccessState::standing;
    std::vector<Finding> findings = {{one.symptom, 1}};
    std::vector<double> weight = weights_of(one.symptom);
    double minutes = 0.0;
    for (const std::size_t q : order_of(one.symptom)) {
      if (likeliest(weight) > 0.9) break;
      minutes += check_minutes(model_, change_, condition, q);
      findings.push_back({q, one.answers[q]});
      for (std::size_t k = 0; k < weight.size(); ++k) weight[k] *= model_.likelihood(k, q, one.answers[q]);
      const double sum = std::accumulate(weight.begin(), weight.end(), 0.0);
      for (double& w : weight) w /= sum;
    }
    checks_min += minutes;
    return minutes + repair_minutes(model_, follower.advice(findings, condition), one.cause);
  }

 private:
  std::vector<double> weights_of(std::size_t symptom) const {
    std::vector<double> weight;
    for (std::size_t k = 0; k < model_.profiles.size(); ++k) {
      const Profile& profile = model_.profiles[k];
      weight.push_back(model_.causes[profile.cause].per_year * profile.share *
                       model_.likelihood(k, symptom, 1));
    }
    const double sum = std::accumulate(weight.begin(), weight.end(), 0.0);
    for (double& w : weight) w /= sum;
    return weight;
  }
  double likeliest(const std::vector<double>& weight) const {
    std::vector<double> cause(model_.causes.size(), 0.0);
    for (std::size_t k = 0; k < weight.size(); ++k) cause[model_.profiles[k].cause] += weight[k];
    return *std::max_element(cause.begin(), cause.end());
  }
  const std::vector<std::size_t>& order_of(std::size_t symptom) {
    const auto found = orders_.find(symptom);
    if (found != orders_.end()) return found->second;
    const std::vector<double> weight = weights_of(symptom);
    std::vector<std::size_t> order;
    for (std::size_t q = model_.symptoms.size(); q < model_.question_count(); ++q) {
      if (!may_do(who_, model_.check(q).who)) continue;
      double good = 0.0;
      for (std::size_t k = 0; k < weight.size(); ++k) good += weight[k] * model_.likelihood(k, q, 0);
      if (good > 0.02 && good < 0.98) order.push_back(q);
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return std::pair(model_.check(a).needs, model_.check(a).minutes) <
             std::pair(model_.check(b).needs, model_.check(b).minutes);
    });
    return orders_.emplace(symptom, std::move(order)).first->second;
  }

  const Model& model_;
  Who who_;
  AccessMinutes change_;
  std::map<std::size_t, std::vector<std::size_t>> orders_;
};

}  // namespace stirbench::fault_trial
