#include "sim_core/diagnosis/posterior.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace stirbench::diagnosis {

namespace {

constexpr double surprising = 0.03;   // an answer less likely than this beside the rest is worth a word
constexpr double much_better = 10.0;  // and only when the rest is explained so much better without it

// The likelihood of each profile for one finding, and of "this question showed a good machine's answer".
struct Column {
  std::vector<double> answer;
  std::vector<double> normal;
  bool is_normal = false;
  double sure = 1.0;
  double flat = 0.5;  // 1 / outcomes
  double unknown = 0.5;
};

double blend(const Column& column, double p) { return column.sure * p + (1.0 - column.sure) * column.flat; }

Column column_of(const Model& model, const Finding& finding) {
  if (finding.question >= model.question_count() || finding.outcome >= model.outcome_count(finding.question))
    throw std::invalid_argument(
        "posterior: a finding names a question or answer that the model does not have");
  if (!(finding.sure >= 0.0 && finding.sure <= 1.0))
    throw std::invalid_argument("posterior: sure lies in 0 .. 1");
  Column column;
  column.is_normal = finding.outcome == 0;
  column.sure = finding.sure;
  column.flat = 1.0 / static_cast<double>(model.outcome_count(finding.question));
  column.unknown = unknown_likelihood(model, finding.question, finding.outcome);
  for (std::size_t k = 0; k < model.profiles.size(); ++k) {
    column.answer.push_back(model.likelihood(k, finding.question, finding.outcome));
    column.normal.push_back(model.likelihood(k, finding.question, 0));
  }
  return column;
}

// All hypotheses with the logarithm of their prior: profiles, then the unknown, then pairs of profiles.
struct Hypotheses {
  std::vector<double> log_prior;
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  std::size_t singles = 0;  // number of profiles
};

double log_of(double p) { return p > 0.0 ? std::log(p) : -std::numeric_limits<double>::infinity(); }

Hypotheses hypotheses_of(const Model& model, bool pairs) {
  Hypotheses out;
  out.singles = model.profiles.size();
  double rates = 0.0;
  for (const Cause& cause : model.causes) rates += cause.per_year;
  const auto rate = [&](std::size_t k) {
    return model.causes[model.profiles[k].cause].per_year * model.profiles[k].share;
  };
  const auto lasts = [&](std::size_t k) {
    return model.causes[model.profiles[k].cause].kind == faults::FaultKind::misuse ? model.misuse_years
                                                                                   : model.pair_years;
  };
  for (std::size_t k = 0; k < out.singles; ++k) out.log_prior.push_back(log_of(rate(k)));
  out.log_prior.push_back(log_of(rates * model.unknown_norm));
  if (!pairs || model.pair_years <= 0.0) return out;
  for (std::size_t a = 0; a < out.singles; ++a) {
    for (std::size_t b = a + 1; b < out.singles; ++b) {
      if (model.profiles[a].cause == model.profiles[b].cause) continue;
      out.pairs.emplace_back(a, b);
      out.log_prior.push_back(log_of(rate(a) * rate(b) * std::min(lasts(a), lasts(b))));
    }
  }
  return out;
}

// Log-likelihood of the finding under every hypothesis.
std::vector<double> gain_of(const Hypotheses& hypotheses, const Column& column) {
  std::vector<double> gain;
  gain.reserve(hypotheses.log_prior.size());
  for (std::size_t k = 0; k < hypotheses.singles; ++k)
    gain.push_back(log_of(blend(column, column.answer[k])));
  gain.push_back(log_of(blend(column, column.unknown)));
  for (const auto& [a, b] : hypotheses.pairs) {
    const double p = pair_likelihood(column.answer[a], column.normal[a], column.answer[b], column.normal[b],
                                     column.is_normal);
    gain.push_back(log_of(blend(column, p)));
  }
  return gain;
}

// Prior and the gains of all findings that are not withdrawn, but one (Model::npos: of all).
std::vector<double> sum_up(const Hypotheses& hypotheses, const std::vector<Finding>& findings,
                           const std::vector<std::vector<double>>& gains, std::size_t but) {
  std::vector<double> out = hypotheses.log_prior;
  for (std::size_t i = 0; i < findings.size(); ++i) {
    if (i == but || findings[i].withdrawn) continue;
    for (std::size_t h = 0; h < out.size(); ++h) out[h] += gains[i][h];
  }
  return out;
}

double log_sum(const std::vector<double>& log_weight) {
  const double most = *std::max_element(log_weight.begin(), log_weight.end());
  if (!std::isfinite(most)) return most;
  double sum = 0.0;
  for (const double one : log_weight) sum += std::exp(one - most);
  return most + std::log(sum);
}

void fill(const Model& model, const Hypotheses& hypotheses, const std::vector<double>& log_weight,
          std::size_t most_pairs, Posterior& out) {
  const double total = log_sum(log_weight);
  out.cause_p.assign(model.causes.size(), 0.0);
  out.single_p.assign(model.causes.size(), 0.0);
  out.profile_p.assign(hypotheses.singles, 0.0);
  out.explains_p.assign(hypotheses.singles, 0.0);
  const auto p_of = [&](std::size_t h) {
    return std::isfinite(total) ? std::exp(log_weight[h] - total) : 0.0;
  };
  for (std::size_t k = 0; k < hypotheses.singles; ++k) {
    out.profile_p[k] = p_of(k);
    out.single_p[model.profiles[k].cause] += out.profile_p[k];
    out.explains_p[k] = out.profile_p[k];
  }
  // How well each kind alone accounts for the findings, its prior aside.
  const auto gain = [&](std::size_t k) { return log_weight[k] - hypotheses.log_prior[k]; };
  out.cause_p = out.single_p;
  out.unknown_p = std::isfinite(total) ? p_of(hypotheses.singles) : 1.0;
  std::vector<std::vector<double>> pair_p(model.causes.size(), std::vector<double>(model.causes.size(), 0.0));
  for (std::size_t i = 0; i < hypotheses.pairs.size(); ++i) {
    const std::size_t a = model.profiles[hypotheses.pairs[i].first].cause;
    const std::size_t b = model.profiles[hypotheses.pairs[i].second].cause;
    const double p = p_of(hypotheses.singles + 1 + i);
    pair_p[std::min(a, b)][std::max(a, b)] += p;
    out.cause_p[a] += p;
    out.cause_p[b] += p;
    out.pair_p += p;
    const double better = gain(hypotheses.pairs[i].first) - gain(hypotheses.pairs[i].second);
    const double to_first = std::isnan(better) ? 0.5 : 1.0 / (1.0 + std::exp(-better));
    out.explains_p[hypotheses.pairs[i].first] += to_first * p;
    out.explains_p[hypotheses.pairs[i].second] += (1.0 - to_first) * p;
  }
  for (std::size_t a = 0; a < pair_p.size(); ++a) {
    for (std::size_t b = a + 1; b < pair_p.size(); ++b) {
      if (pair_p[a][b] > 0.0) out.pairs.push_back({a, b, pair_p[a][b]});
    }
  }
  std::stable_sort(out.pairs.begin(), out.pairs.end(),
                   [](const PairEntry& x, const PairEntry& y) { return x.p > y.p; });
  if (out.pairs.size() > most_pairs) out.pairs.resize(most_pairs);
}

// Which findings do not go with the others.
void judge_fits(const Hypotheses& hypotheses, const std::vector<Finding>& findings,
                const std::vector<std::vector<double>>& gains, double total, Posterior& out) {
  const double prior_total = log_sum(hypotheses.log_prior);
  double alone = 0.0;
  out.fits.assign(findings.size(), {});
  std::size_t counted = 0;
  for (std::size_t i = 0; i < findings.size(); ++i) {
    if (findings[i].withdrawn) continue;
    ++counted;
    FindingFit& fit = out.fits[i];
    std::vector<double> just = hypotheses.log_prior;
    for (std::size_t h = 0; h < just.size(); ++h) just[h] += gains[i][h];
    const double p_alone = std::exp(log_sum(just) - prior_total);
    alone += std::log(p_alone);
    for (std::size_t j = 0; j < i; ++j) {
      const bool same = findings[j].question == findings[i].question && !findings[j].withdrawn;
      if (same && findings[j].outcome != findings[i].outcome) fit.against = j;
    }
    const double rest = log_sum(sum_up(hypotheses, findings, gains, i));
    fit.p_given_rest = std::isfinite(total) && std::isfinite(rest) ? std::exp(total - rest) : 0.0;
    fit.contradicts = fit.against != Model::npos ||
                      (fit.p_given_rest < surprising && fit.p_given_rest * much_better < p_alone);
    out.contradictory = out.contradictory || fit.contradicts;
  }
  out.log_evidence = total - prior_total;
  out.conflict = counted > 1 ? alone - out.log_evidence : 0.0;
}

}  // namespace

double pair_likelihood(double p_first, double normal_first, double p_second, double normal_second,
                       bool normal) {
  if (normal) return normal_first * normal_second;
  return p_first * normal_second + normal_first * p_second +
         0.5 * (p_first * (1.0 - normal_second) + p_second * (1.0 - normal_first));
}

std::vector<Ranked> Posterior::ranked() const {
  std::vector<Ranked> out;
  for (std::size_t c = 0; c < cause_p.size(); ++c) out.push_back({c, cause_p[c]});
  std::stable_sort(out.begin(), out.end(), [](const Ranked& a, const Ranked& b) { return a.p > b.p; });
  return out;
}

Posterior posterior(const Model& model, const std::vector<Finding>& findings,
                    const PosteriorOptions& options) {
  const Hypotheses hypotheses = hypotheses_of(model, options.pairs);
  std::vector<std::vector<double>> gains;
  gains.reserve(findings.size());
  for (const Finding& finding : findings) gains.push_back(gain_of(hypotheses, column_of(model, finding)));
  const std::vector<double> log_weight = sum_up(hypotheses, findings, gains, Model::npos);
  Posterior out;
  fill(model, hypotheses, log_weight, options.most_pairs, out);
  judge_fits(hypotheses, findings, gains, log_sum(log_weight), out);
  return out;
}

}  // namespace stirbench::diagnosis
