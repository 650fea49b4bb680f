#include "sim_core/identification/causes.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "sim_core/identification/trial_model.h"

namespace stirbench::identification {

namespace {

// Two curves nearer than this are one to a logger.
constexpr double seen_K = 0.2;

// One hypothesis on its way.
struct Case {
  Explanation explanation;
  Trial trial;
  double severity_low = 1.0;
  double severity_high = 1.0;
  std::vector<double> residuals;
  struct Tried {
    double severity = 0.0;
    double rms_K = 0.0;
  };
  std::vector<Tried> tried;
  bool possible = false;
  bool graded() const { return severity_low < severity_high; }
};

Trial with(const Case& one, double severity, double start) {
  Trial out = one.trial;
  if (one.explanation.kind == Explains::fault)
    out.course.start.faults.push_back({one.explanation.id, severity});
  set_start_degC(out.course, start);
  return out;
}

double rms(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double value : values) sum += value * value;
  return values.empty() ? 0.0 : std::sqrt(sum / static_cast<double>(values.size()));
}

// Residuals of the product's samples; false when the start is impossible.
bool look(const Trial& trial, const BatchLog& log, std::vector<double>& residuals) {
  std::vector<double> predicted;
  if (!predict(trial, log, predicted)) return false;
  residuals.clear();
  for (std::size_t i = 0; i < log.samples.size(); ++i)
    residuals.push_back(predicted[i] - log.samples[i].product_degC);
  return true;
}

// At the ends and the middle of its severities, with the start temperature as read.
void try_out(Case& one, const BatchLog& log, double start) {
  const std::vector<double> severities =
      one.graded() ? std::vector<double>{one.severity_low, 0.5 * (one.severity_low + one.severity_high),
                                         one.severity_high}
                   : std::vector<double>{one.severity_high};
  for (const double severity : severities) {
    std::vector<double> residuals;
    if (!look(with(one, severity, start), log, residuals)) continue;
    const double here_K = rms(residuals);
    one.tried.push_back({severity, here_K});
    if (one.possible && here_K >= one.explanation.rms_K) continue;
    one.possible = true;
    one.explanation.severity = severity;
    one.explanation.rms_K = here_K;
    one.residuals = std::move(residuals);
  }
}

// Severity and start temperature by least squares.
void refine(Case& one, const BatchLog& log, double start) {
  LeastSquaresProblem problem;
  for (const LogSample& sample : log.samples) problem.measured.push_back(sample.product_degC);
  problem.series = {{0, problem.measured.size()}};
  const QuantityEntry& of_start = entry(Quantity::start);
  problem.start = {start};
  problem.step = {of_start.step};
  problem.low = {of_start.low};
  problem.high = {of_start.high};
  if (one.graded()) {
    problem.start.push_back(one.explanation.severity);
    problem.step.push_back(0.02 * (one.severity_high - one.severity_low));
    problem.low.push_back(one.severity_low);
    problem.high.push_back(one.severity_high);
  }
  problem.most_evaluations = 25;
  problem.model = [&](const std::vector<double>& theta, std::vector<double>& predicted) {
    const double severity = one.graded() ? theta[1] : one.explanation.severity;
    BatchLog product;
    product.samples = log.samples;
    return predict(with(one, severity, theta[0]), product, predicted);
  };
  const Estimate best = estimate(problem);
  if (!best.found || rms(best.residuals) > one.explanation.rms_K) return;
  one.residuals = best.residuals;
  one.explanation.rms_K = rms(best.residuals);
  if (one.graded()) one.explanation.severity = best.theta[1];
  one.tried.push_back({one.explanation.severity, one.explanation.rms_K});
}

std::vector<Case> cases_of(const Hypotheses& hypotheses, const Trial& as_it_is) {
  std::vector<Case> out;
  out.push_back(
      {{Explains::nothing_wrong, "sound", "Nothing wrong: the machine as its file says"}, as_it_is});
  for (const faults::Fault& fault : as_it_is.machine.faults)
    out.push_back(
        {{Explains::fault, fault.id, fault.title}, as_it_is, fault.severity_low, fault.severity_high});
  Trial open = as_it_is;
  open.course.lid_left_open = true;
  out.push_back(
      {{Explains::lid_left_open, "lid_left_open", "Lid left open, its switch defeated"}, std::move(open)});
  for (const machine::Machine* other : hypotheses.others) {
    Trial trial = as_it_is;
    trial.machine = *other;
    out.push_back({{Explains::other_machine, other->plant.id, "Another machine: " + other->plant.title},
                   std::move(trial)});
  }
  return out;
}

double bic_of(double rms_K, double free, double pieces) {
  return pieces * std::log(rms_K * rms_K + model_error_K * model_error_K) + free * std::log(pieces);
}

void weigh(std::vector<Case>& cases, double rho, const BatchLog& log, Explanations& out) {
  const double count = static_cast<double>(cases.front().residuals.size());
  const double pieces = std::max(
      2.0, std::min(count * (1.0 - rho) / (1.0 + rho), (log.end_s() - log.begin_s()) / model_error_lasts_s));
  out.unexplained_bic = bic_of(noise_K(log), unexplained_free, pieces);
  double least = 1.0e99;
  for (Case& one : cases) {
    const double free = one.graded() ? 2.0 : 1.0;
    one.explanation.bic = bic_of(one.explanation.rms_K, free, pieces);
    for (const Case::Tried& tried : one.tried)
      one.explanation.grades.push_back({tried.severity, bic_of(tried.rms_K, free, pieces)});
    if (one.explanation.kind == Explains::nothing_wrong) out.sound_bic = one.explanation.bic;
    least = std::min(least, one.explanation.bic);
  }
  double sum = 0.0;
  for (Case& one : cases) sum += one.explanation.weight = std::exp(-0.5 * (one.explanation.bic - least));
  for (Case& one : cases) one.explanation.weight /= sum;
}

// The log's spells, with the moments that it leaves open moved to where some machine's curve meets them: a
// minute of a steep curve is more than most causes do.
std::vector<Spell> spells_as_fitted(const FitRequest& request) {
  FitRequest quick = request;
  quick.profiles = false;
  Fit fitted = fit(quick);
  return fitted.done ? std::move(fitted.trial.course.spells) : std::move(fitted.spells.spells);
}

}  // namespace

Explanations explain(const Hypotheses& hypotheses) {
  const FitRequest& request = *hypotheses.request;
  Explanations out;
  Trial as_it_is{request.machine, request.course, 0.0};
  BatchLog log = request.log;
  as_it_is.course.until_s = std::max(log.end_s(), 1.0);
  if (as_it_is.course.actions.empty()) {
    as_it_is.course.spells = spells_as_fitted(request);
    as_it_is.course.lid = log.lid;
    leave_out_settling(as_it_is.course.spells, log);
  }
  const double start =
      as_it_is.course.actions.empty() ? log.samples.front().product_degC : start_degC(as_it_is.course);
  std::vector<Case> cases = cases_of(hypotheses, as_it_is);
  const double turns = static_cast<double>(cases.size() + 3 * hypotheses.refined);
  double turn = 0.0;
  const auto go_on = [&](double cost) {
    const bool going = !hypotheses.watch || hypotheses.watch(turn / turns);
    turn += cost;
    return going;
  };
  for (Case& one : cases) {
    if (!go_on(1.0)) return {};
    try_out(one, log, start);
  }
  if (!cases.front().possible) return out;

  // What does not move the curve at its worst cannot be seen.
  const std::vector<double> sound = cases.front().residuals;
  std::vector<Case> seen;
  for (Case& one : cases) {
    if (!one.possible) continue;
    std::vector<double> apart = one.residuals;
    for (std::size_t i = 0; i < apart.size(); ++i) apart[i] -= sound[i];
    if (one.explanation.kind == Explains::fault && rms(apart) < seen_K && !one.graded()) {
      out.not_seen.push_back(one.explanation.id);
      continue;
    }
    seen.push_back(std::move(one));
  }
  const auto nearer = [](const Case& a, const Case& b) { return a.explanation.rms_K < b.explanation.rms_K; };
  std::stable_sort(seen.begin(), seen.end(), nearer);
  for (std::size_t i = 0; i < std::min(hypotheses.refined, seen.size()); ++i) {
    if (!go_on(3.0)) return {};
    refine(seen[i], log, start);
  }
  std::stable_sort(seen.begin(), seen.end(), nearer);
  weigh(seen, noise_of(seen.front().residuals, {0, seen.front().residuals.size()}, 0.0).rho, log, out);
  std::stable_sort(seen.begin(), seen.end(),
                   [](const Case& a, const Case& b) { return a.explanation.bic < b.explanation.bic; });
  for (const Case& one : seen) out.ranked.push_back(one.explanation);
  return out;
}

}  // namespace stirbench::identification
