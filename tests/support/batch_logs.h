#pragma once

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "sim_core/hands/handles.h"
#include "sim_core/identification/course.h"
#include "sim_core/identification/fit.h"
#include "sim_core/machine/random.h"

// Logs as a logger at a simulated machine would write them: one batch heated, left to coast and chilled.
namespace stirbench::batch_logs {

using namespace stirbench::identification;

struct Plan {
  std::string ingredient = "whole_milk";
  double kg = 40.0;
  double start_degC = 6.0;
  double ambient_degC = 22.0;
  double heat_s = 60.0;
  double off_s = 2000.0;
  double chill_s = 2600.0;
  double until_s = 6600.0;
  double every_s = 10.0;
};

// Normal, by Box and Muller.
inline double normal(machine::Random& random) {
  const double radius = std::sqrt(-2.0 * std::log(1.0 - random.uniform()));
  return radius * std::cos(2.0 * std::numbers::pi * random.uniform());
}

// The batch with the moments of its switchings known.
inline Course course_of(const Plan& plan) {
  Course out;
  out.start.environment.ambient_degC = plan.ambient_degC;
  out.start.loaded = {{plan.ingredient, plan.kg, plan.start_degC}};
  out.spells = {{0.0, Doing::stir},
                {plan.heat_s, Doing::heat},
                {plan.off_s, Doing::stir},
                {plan.chill_s, Doing::chill}};
  out.until_s = plan.until_s;
  return out;
}

// The same done by a person's keys, for a fit that is told the actions.
inline std::vector<hands::TimedAction> actions_of(const Plan& plan) {
  const auto at = [](double s, hands::Action action) {
    return hands::TimedAction{s, {}, 0.0, std::move(action)};
  };
  return {at(1.0, hands::open_lid()),
          at(2.0, hands::pour(plan.ingredient, plan.kg, plan.start_degC)),
          at(4.0, hands::close_lid()),
          at(6.0, hands::set_target(95.0)),
          at(8.0, hands::press("stir", 0.3)),
          at(plan.heat_s, hands::press("heat", 0.3)),
          at(plan.off_s, hands::press("stir", 0.3)),
          at(plan.chill_s - 2.0, hands::set_target(1.0)),
          at(plan.chill_s, hands::press("chill", 0.3))};
}

struct Logger {
  double sigma_K = 0.1;
  double rounding_K = 0.1;
  double clock_s = 0.0;  // the log's time less the batch's
  bool power = false;    // a column of the whole machine's power
};

inline BatchLog log_of(const machine::Machine& machine, const Course& course, const Plan& plan,
                       const Logger& logger, std::uint64_t seed) {
  const Curves curves = run(machine, course);
  machine::Random random{seed};
  BatchLog out;
  for (double t = 0.0; t <= plan.until_s; t += plan.every_s) {
    double value = at(curves.product_degC, t) + logger.sigma_K * normal(random);
    if (logger.rounding_K > 0.0) value = logger.rounding_K * std::round(value / logger.rounding_K);
    out.samples.push_back({t + logger.clock_s, value});
    if (!logger.power) continue;
    const bool heats = t >= plan.heat_s && t < plan.off_s;
    out.power_W.t_s.push_back(t + logger.clock_s);
    out.power_W.value.push_back(heats ? 6300.0 : t >= plan.chill_s ? 1400.0 : 300.0);
  }
  return out;
}

// The file of a logger at this machine with its elements at so much of their rated power: times, temperatures
// and the whole machine's power, each 20 s.
inline std::string csv_of(const machine::Machine& machine, double power_norm) {
  Plan plan;
  plan.every_s = 20.0;
  Trial truth{machine, course_of(plan), 0.0};
  set_value(truth, Quantity::element_power, power_norm * value(truth, Quantity::element_power));
  const BatchLog log = log_of(truth.machine, truth.course, plan, {0.1, 0.1, 0.0, true}, 7);
  std::string out = "time [s],product [degC],power [W]\n";
  for (std::size_t i = 0; i < log.samples.size(); ++i) {
    char line[80];
    std::snprintf(line, sizeof line, "%.0f,%.1f,%.0f\n", log.samples[i].t_s, log.samples[i].product_degC,
                  log.power_W.value[i]);
    out += line;
  }
  return out;
}

}  // namespace stirbench::batch_logs
