#include "sim_core/identification/fit.h"

#include <algorithm>
#include <cmath>

#include "sim_core/identification/trial_model.h"

namespace stirbench::identification {

namespace {

// A factor known to worse than this is not known: +- 50 % at 95 %.
constexpr double vague_se = 0.25;
constexpr double tied_correlation = 0.9;

bool any(const std::vector<Spell>& spells, Doing doing) {
  return std::any_of(spells.begin(), spells.end(), [doing](const Spell& one) { return one.doing == doing; });
}

// Heating and chilling as the actions bring them about are seen in the simulated run alone; a log with
// actions is taken to have what its curve shows.
bool shows(const Fit& fit, Doing doing) { return any(fit.spells.spells, doing); }

std::vector<Quantity> asked(const FitRequest& request, Fit& out) {
  std::vector<Quantity> list;
  const auto ask = [&](Quantity quantity, bool possible, const char* why_not) {
    const bool held = std::find(request.held.begin(), request.held.end(), quantity) != request.held.end();
    if (held) {
      out.not_found.push_back({quantity, "held as asked"});
    } else if (!possible) {
      out.not_found.push_back({quantity, why_not});
    } else {
      list.push_back(quantity);
    }
  };
  const bool heats = shows(out, Doing::heat), chills = shows(out, Doing::chill);
  const bool mass_asked = request.power_known && !request.mass_known;
  if (mass_asked) {
    ask(Quantity::mass, heats, "the log shows no heating");
  } else {
    ask(Quantity::element_power, heats, "the log shows no heating");
  }
  ask(Quantity::losses, true, "");
  ask(Quantity::chiller, chills, "the log shows no chilling");
  ask(Quantity::condenser, chills && !request.log.condensing_degC.empty(),
      "a product's curve shows one capacity; displacement and condensing side share it");
  ask(Quantity::probe_lag, heats || chills, "nothing is switched in the log");
  ask(Quantity::wall_scale, !request.log.wall_degC.empty() || !request.log.element_degC.empty(),
      "behind constant power a deposit only delays the curve, as the probe's lag and the start temperature "
      "do");
  ask(Quantity::start, true, "");
  if (request.clock_unknown && !request.course.actions.empty()) list.push_back(Quantity::clock);
  return list;
}

// Samples of the time in which the vat was filled say little about the machine, and much about where the
// probe hung: the log counts from a minute after what is poured first.
constexpr double after_filling_s = 60.0;

void leave_out_before(double from_s, BatchLog& log) {
  std::erase_if(log.samples, [from_s](const LogSample& one) { return one.t_s < from_s; });
  for (LogColumn* column : {&log.wall_degC, &log.element_degC, &log.condensing_degC}) {
    LogColumn kept;
    for (std::size_t i = 0; i < column->t_s.size(); ++i) {
      if (column->t_s[i] < from_s) continue;
      kept.t_s.push_back(column->t_s[i]);
      kept.value.push_back(column->value[i]);
    }
    *column = std::move(kept);
  }
}

void leave_out_filling(const Trial& trial, BatchLog& log) {
  leave_out_before(filled_s(trial.course) + after_filling_s + trial.clock_s, log);
}

// The clock's offset at which the machine as it is comes nearest to the log: a search among local minima.
void find_clock(Trial& trial, const BatchLog& log) {
  const Curves curves = run(trial.machine, trial.course);
  if (!curves.whole) return;
  double best = 1.0e99;
  const double range_s = entry(Quantity::clock).high - 60.0;
  for (double offset_s = -range_s; offset_s <= range_s; offset_s += 15.0) {
    double squares = 0.0;
    for (const LogSample& sample : log.samples)
      squares += std::pow(at(curves.product_degC, sample.t_s - offset_s) - sample.product_degC, 2);
    if (squares >= best) continue;
    best = squares;
    trial.clock_s = offset_s;
  }
}

bool may_be_vague(Quantity quantity) {
  return quantity == Quantity::start || quantity == Quantity::clock || quantity == Quantity::wall_scale ||
         quantity == Quantity::probe_lag;
}

// The quantity that is known worst by these errors, as a share of its value, when it is too badly known; else
// past the end.
std::size_t worst(const Trial& trial, const Unknowns& unknowns, const std::vector<double>& se) {
  std::size_t found = unknowns.quantities.size();
  double most = vague_se;
  for (std::size_t k = 0; k < unknowns.quantities.size(); ++k) {
    const Quantity quantity = unknowns.quantities[k];
    const double share = entry(quantity).scale == Scale::own ? se[k] / value(trial, quantity) : se[k];
    if (may_be_vague(quantity) || !(share > most)) continue;
    most = share;
    found = k;
  }
  return found;
}

void leave_out(Unknowns& unknowns, std::size_t k, Fit& out) {
  const Quantity quantity = unknowns.quantities[k];
  out.not_found.push_back({quantity, "this log leaves it open by more than half of its value"});
  unknowns.quantities.erase(unknowns.quantities.begin() + static_cast<std::ptrdiff_t>(k));
}

LeastSquaresProblem watched(const FitRequest& request, LeastSquaresProblem problem) {
  if (!request.watch) return problem;
  problem.model = [watch = request.watch, model = std::move(problem.model)](const std::vector<double>& theta,
                                                                            std::vector<double>& predicted) {
    return watch() && model(theta, predicted);
  };
  return problem;
}

// Leaves out what the log cannot tell, judged by J at the start and the log's own noise: a decision by the
// kind of batch, not by its outcome, so that the intervals of the rest mean what they say.
// `jacobian` is then that of the rest.
bool screen(const FitRequest& request, const Trial& trial, Unknowns& unknowns, Fit& out, Matrix& jacobian) {
  const LeastSquaresProblem problem = watched(request, problem_of(trial, unknowns, out.log));
  Estimate here = examine(problem);
  out.evaluations += here.evaluations;
  if (!here.found) {
    out.trouble = here.trouble;
    return false;
  }
  const std::vector<Noise> noise(problem.series.size(), Noise{out.residuals.noise_K, 0.0});
  while (true) {
    const std::size_t k = worst(trial, unknowns, covariance_of(here.jacobian, problem.series, noise).se);
    if (k == unknowns.quantities.size()) {
      jacobian = std::move(here.jacobian);
      return true;
    }
    leave_out(unknowns, k, out);
    for (std::vector<double>& row : here.jacobian) row.erase(row.begin() + static_cast<std::ptrdiff_t>(k));
  }
}

void put_found(const Trial& from, const Unknowns& unknowns, const LeastSquaresProblem& problem,
               const Estimate& best, bool profiles, Fit& out) {
  const double t = student_95(static_cast<double>(problem.measured.size() - best.theta.size()));
  for (std::size_t k = 0; k < unknowns.quantities.size(); ++k) {
    const Quantity quantity = unknowns.quantities[k];
    const QuantityEntry& one = entry(quantity);
    Found found{.quantity = quantity, .before = value(from, quantity)};
    const double half = t * best.covariance.se[k];
    Limits limits{best.theta[k] - half, best.theta[k] + half};
    bool is_tied = false;
    for (std::size_t m = 0; m < unknowns.quantities.size(); ++m) {
      const double r = best.covariance.correlation[k][m];
      if (m == k || !(std::abs(r) > tied_correlation)) continue;
      is_tied = true;
      if (m > k) out.tied.push_back({quantity, unknowns.quantities[m], r});
    }
    if (is_tied && profiles) {
      const Limits by_profile = profile(problem, best, k);
      found.profiled = by_profile.low < by_profile.high;
      if (found.profiled) limits = by_profile;
    }
    found.value = value_of(from, quantity, best.theta[k]);
    found.low = value_of(from, quantity, std::max(limits.low, problem.low[k]));
    found.high = value_of(from, quantity, std::min(limits.high, problem.high[k]));
    if (found.low > found.high) std::swap(found.low, found.high);
    const double margin = 1.0e-6 * (problem.high[k] - problem.low[k]);
    const bool at_low = best.theta[k] <= problem.low[k] + margin;
    // No deposit at all is a result, not the end of the search; so is a lag that is too short to show.
    const bool may_be_none = quantity == Quantity::wall_scale || quantity == Quantity::probe_lag;
    found.at_bound = (at_low && !may_be_none) ||
                     (quantity != Quantity::wall_scale && best.theta[k] >= problem.high[k] - margin);
    if (at_low && quantity == Quantity::probe_lag && found.low <= found.before && found.before <= found.high)
      found.value = found.before;
    const double scale = one.compared ? found.before : 1.0;
    found.plausible = found.high >= one.plausible_low * scale && found.low <= one.plausible_high * scale;
    out.found.push_back(found);
  }
}

void object(const BatchLog& log, Fit& out) {
  const double second_s = second_batch_s(log);
  if (second_s >= 0.0) {
    out.objections.push_back(
        {Misfit::second_batch, "a second batch begins at " + std::to_string(std::lround(second_s)) + " s"});
  }
  if (out.residuals.structure_K > model_error_K)
    out.objections.push_back(
        {Misfit::residuals, "no values of the quantities make the simulated curve follow the log"});
  for (const Found& found : out.found) {
    const std::string title(entry(found.quantity).title);
    if (found.at_bound) {
      out.objections.push_back({Misfit::at_bound, title + ": the search ran into the end of its range"});
    } else if (!found.plausible) {
      out.objections.push_back(
          {Misfit::implausible, title + ": outside of what a sound machine of this kind has"});
    }
  }
}

}  // namespace

void leave_out_settling(const std::vector<Spell>& spells, BatchLog& log) {
  if (!spells.empty() && spells.front().from_s > log.begin_s())
    leave_out_before(spells.front().from_s + after_filling_s, log);
}

Thresholds thresholds_of(const machine::Machine& machine, double mass) {
  const plant::MachineSpec& spec = machine.plant;
  const double elements_W = spec.elements.count * spec.elements.rated_W_each;
  const double capacity_J_per_K = 3800.0 * std::max(1.0, mass);
  // Half of the pace of one element alone; chilling: faster than any standing loss.
  return {0.3 * elements_W, spec.drive.rated_W + 2.0 * spec.chiller.fan_W,
          0.15 * elements_W / capacity_J_per_K, -0.07 * elements_W / capacity_J_per_K};
}

Fit fit(const FitRequest& request) {
  Fit out;
  out.trial = {request.machine, request.course, 0.0};
  Trial& trial = out.trial;
  out.log = request.log;
  out.spells = spells_of(out.log, thresholds_of(request.machine, mass_kg(request.course)));
  trial.course.until_s = std::max(out.log.end_s(), 1.0);
  Unknowns unknowns;
  if (request.course.actions.empty()) {
    trial.course.spells = out.spells.spells;
    trial.course.lid = out.log.lid;
    unknowns.switchings = uncertain_switchings(trial.course.spells);
    unknowns.doubt_s = out.spells.doubt_s;
    leave_out_settling(trial.course.spells, out.log);
  } else {
    out.spells.from = SpellsFrom::actions;
    if (request.clock_unknown) find_clock(trial, out.log);
    trial.course.until_s += std::abs(trial.clock_s) + 60.0;
    leave_out_filling(trial, out.log);
  }
  if (out.log.samples.size() < least_samples) {
    out.trouble = "fewer than " + std::to_string(least_samples) + " samples of the batch are left";
    return out;
  }
  out.residuals.noise_K = noise_K(out.log);
  unknowns.quantities = asked(request, out);
  Matrix jacobian;
  if (!screen(request, trial, unknowns, out, jacobian)) return out;

  const Trial from = trial;
  LeastSquaresProblem problem = watched(request, problem_of(from, unknowns, out.log));
  problem.jacobian = std::move(jacobian);
  const Estimate best = estimate(problem);
  out.evaluations += best.evaluations;
  if (!best.found) {
    out.trouble = best.trouble;
    return out;
  }
  trial = moved(from, unknowns, best.theta);
  out.condition = best.covariance.condition;
  put_found(from, unknowns, problem, best, request.profiles, out);
  const std::size_t count = out.log.samples.size();
  out.residuals_K.assign(best.residuals.begin(), best.residuals.begin() + static_cast<std::ptrdiff_t>(count));
  for (std::size_t i = 0; i < count; ++i)
    out.simulated_degC.push_back(out.log.samples[i].product_degC + out.residuals_K[i]);
  out.residuals = report_of(out.log.samples, out.residuals_K, out.spells.spells, out.residuals.noise_K);
  object(request.log, out);
  out.done = true;
  return out;
}

}  // namespace stirbench::identification
