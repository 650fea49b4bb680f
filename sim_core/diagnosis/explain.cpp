#include <algorithm>
#include <cmath>
#include <numeric>

#include "sim_core/diagnosis/posterior.h"

// What a posterior says about questions, findings and groups of causes.
namespace stirbench::diagnosis {

std::vector<double> predict(const Model& model, const Posterior& posterior, std::size_t question) {
  const std::size_t outcomes = model.outcome_count(question);
  std::vector<double> p(outcomes, 0.0);
  // Pairs are predicted by their likelier half: enough for a forecast of the next answer.
  double known = posterior.unknown_p;
  for (double& one : p) one += posterior.unknown_p / static_cast<double>(outcomes);
  for (std::size_t k = 0; k < model.profiles.size(); ++k) {
    const double single = posterior.single_p[model.profiles[k].cause];
    const double share = single > 0.0 ? posterior.profile_p[k] / single : model.profiles[k].share;
    const double weight = posterior.cause_p[model.profiles[k].cause] * share;
    known += weight;
    for (std::size_t o = 0; o < outcomes; ++o) p[o] += weight * model.likelihood(k, question, o);
  }
  for (double& one : p) one = known > 0.0 ? one / known : 1.0 / static_cast<double>(outcomes);
  return p;
}

std::vector<WeightOfEvidence> weights_of_evidence(const Model& model, const std::vector<Finding>& findings,
                                                  std::size_t cause) {
  std::vector<WeightOfEvidence> out;
  for (std::size_t i = 0; i < findings.size(); ++i) {
    if (findings[i].withdrawn) continue;
    const double flat = 1.0 / static_cast<double>(model.outcome_count(findings[i].question));
    const auto blend = [&](double p) { return findings[i].sure * p + (1.0 - findings[i].sure) * flat; };
    const double under = blend(cause_likelihood(model, cause, findings[i].question, findings[i].outcome));
    // Against what was thought before anybody looked, not against what is believed now: else a cause that is
    // nearly certain has no reason.
    double rates = 0.0;
    double average = 0.0;
    for (std::size_t c = 0; c < model.causes.size(); ++c) {
      if (c == cause) continue;
      rates += model.causes[c].per_year;
      average += model.causes[c].per_year *
                 blend(cause_likelihood(model, c, findings[i].question, findings[i].outcome));
    }
    if (!(rates > 0.0) || !(average > 0.0) || !(under > 0.0)) continue;
    out.push_back({i, std::log10(under * rates / average)});
  }
  std::stable_sort(out.begin(), out.end(), [](const WeightOfEvidence& a, const WeightOfEvidence& b) {
    return std::fabs(a.log10_ratio) > std::fabs(b.log10_ratio);
  });
  return out;
}

std::vector<std::vector<std::size_t>> ambiguity_groups(const Model& model, const std::vector<bool>& may_ask,
                                                       double overlap) {
  const std::size_t n = model.causes.size();
  // P(outcome | cause) once for all pairs.
  std::vector<std::vector<std::vector<double>>> p(n);
  for (std::size_t c = 0; c < n; ++c) {
    for (std::size_t q = 0; q < model.question_count(); ++q) {
      p[c].emplace_back();
      for (std::size_t o = 0; o < model.outcome_count(q); ++o)
        p[c].back().push_back(cause_likelihood(model, c, q, o));
    }
  }
  std::vector<std::size_t> group(n);
  std::iota(group.begin(), group.end(), std::size_t{0});
  for (std::size_t a = 0; a < n; ++a) {
    for (std::size_t b = a + 1; b < n; ++b) {
      double common = 1.0;
      for (std::size_t q = 0; q < model.question_count() && common >= overlap; ++q) {
        if (!may_ask.empty() && !may_ask[q]) continue;
        double same = 0.0;
        for (std::size_t o = 0; o < p[a][q].size(); ++o) same += std::sqrt(p[a][q][o] * p[b][q][o]);
        common *= same;
      }
      if (common < overlap || group[a] == group[b]) continue;
      const std::size_t gone = group[b];
      for (std::size_t& one : group) one = one == gone ? group[a] : one;
    }
  }
  std::vector<std::vector<std::size_t>> out;
  for (std::size_t g = 0; g < n; ++g) {
    std::vector<std::size_t> members;
    for (std::size_t c = 0; c < n; ++c) {
      if (group[c] == g) members.push_back(c);
    }
    if (members.size() > 1) out.push_back(members);
  }
  return out;
}

}  // namespace stirbench::diagnosis
