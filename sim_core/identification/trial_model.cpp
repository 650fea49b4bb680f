#include "sim_core/identification/trial_model.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace stirbench::identification {

double theta_of(const Trial& from, Quantity quantity, double wanted) {
  switch (entry(quantity).scale) {
    case Scale::factor: return std::log(wanted / value(from, quantity));
    case Scale::resistance: return value(from, quantity) / wanted;
    case Scale::own: break;
  }
  return wanted;
}

double value_of(const Trial& from, Quantity quantity, double theta) {
  switch (entry(quantity).scale) {
    case Scale::factor: return value(from, quantity) * std::exp(theta);
    case Scale::resistance: return value(from, quantity) / theta;
    case Scale::own: break;
  }
  return theta;
}

Trial moved(const Trial& from, const Unknowns& unknowns, const std::vector<double>& theta) {
  Trial out = from;
  for (std::size_t k = 0; k < unknowns.quantities.size(); ++k)
    set_value(out, unknowns.quantities[k], value_of(from, unknowns.quantities[k], theta[k]));
  for (std::size_t i = 0; i < unknowns.switchings.size(); ++i)
    out.course.spells[unknowns.switchings[i]].from_s += theta[unknowns.quantities.size() + i];
  return out;
}

bool predict(const Trial& trial, const BatchLog& log, std::vector<double>& predicted) {
  const Curves curves = run(trial.machine, trial.course);
  if (!curves.whole) return false;
  predicted.clear();
  for (const LogSample& sample : log.samples)
    predicted.push_back(at(curves.product_degC, sample.t_s - trial.clock_s));
  const std::pair<const LogColumn*, const std::vector<double>*> others[] = {
      {&log.wall_degC, &curves.wall_degC},
      {&log.element_degC, &curves.element_degC},
      {&log.condensing_degC, &curves.condensing_degC}};
  for (const auto& [column, curve] : others)
    for (const double t_s : column->t_s) predicted.push_back(at(*curve, t_s - trial.clock_s));
  return true;
}

LeastSquaresProblem problem_of(const Trial& from, const Unknowns& unknowns, const BatchLog& log) {
  LeastSquaresProblem out;
  for (const LogSample& sample : log.samples) out.measured.push_back(sample.product_degC);
  out.series = {{0, out.measured.size()}};
  for (const LogColumn* column : {&log.wall_degC, &log.element_degC, &log.condensing_degC}) {
    if (column->empty()) continue;
    const std::size_t begin = out.measured.size();
    out.measured.insert(out.measured.end(), column->value.begin(), column->value.end());
    out.series.push_back({begin, out.measured.size()});
  }
  for (const Quantity quantity : unknowns.quantities) {
    const QuantityEntry& one = entry(quantity);
    out.start.push_back(theta_of(from, quantity, value(from, quantity)));
    out.step.push_back(one.step);
    out.low.push_back(one.low);
    out.high.push_back(one.high);
  }
  for (std::size_t i = 0; i < unknowns.switchings.size(); ++i) {
    out.start.push_back(0.0);
    out.step.push_back(3.0);
    out.low.push_back(-unknowns.doubt_s);
    out.high.push_back(unknowns.doubt_s);
  }
  out.model = [from, unknowns, &log](const std::vector<double>& theta, std::vector<double>& predicted) {
    return predict(moved(from, unknowns, theta), log, predicted);
  };
  return out;
}

std::vector<std::size_t> uncertain_switchings(const std::vector<Spell>& spells) {
  constexpr std::size_t most = 6;
  const auto works = [](Doing doing) { return doing == Doing::heat || doing == Doing::chill; };
  std::vector<std::size_t> out;
  // The first spell begins with the log: nothing before it tells when.
  for (std::size_t i = 1; i < spells.size() && out.size() < most; ++i)
    if (works(spells[i].doing) || works(spells[i - 1].doing)) out.push_back(i);
  return out;
}

}  // namespace stirbench::identification
