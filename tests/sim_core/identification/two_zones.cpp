#include "tests/sim_core/identification/two_zones.h"

#include <array>
#include <cmath>
#include <numbers>

#include "sim_core/machine/random.h"

namespace stirbench::identification_test {

namespace {

using Nodes = std::array<double, 3>;  // well, vat, sensor

Nodes rates(const TwoZones& m, const Nodes& t, double heat_W, bool chill) {
  const double capacity = 1000.0 * m.capacity_kJ_per_K;
  const double loss_W = m.loss_W_per_K * (t[1] - 24.0);
  const double coil_W = chill ? m.coil_W_per_K * (t[1] - m.coil_degC) : 0.0;
  const double exchange_W = 4048.0 * m.flow_L_per_s * (t[0] - t[1]);
  Nodes out{};
  if (m.one_zone) {
    out[0] = out[1] = (heat_W - loss_W - coil_W) / capacity;
  } else {
    out[0] = (heat_W - exchange_W) / (capacity * 7.0 / 45.0);
    out[1] = (exchange_W - loss_W - coil_W) / (capacity * 38.0 / 45.0);
  }
  out[2] = (t[0] - t[2]) / m.lag_s;
  return out;
}

Nodes plus(const Nodes& t, const Nodes& rate, double dt) {
  return {t[0] + dt * rate[0], t[1] + dt * rate[1], t[2] + dt * rate[2]};
}

}  // namespace

std::vector<double> readings(const TwoZones& m) {
  std::vector<double> out;
  Nodes t = {m.start_degC, m.start_degC, m.start_degC};
  for (int second = 0; second <= 6000; ++second) {
    if (second % 10 == 0) out.push_back(t[2]);
    const double heat_W = second < 2250 ? m.power_W : 0.0;
    const bool chill = second >= 3450;
    const Nodes a = rates(m, t, heat_W, chill);
    const Nodes b = rates(m, plus(t, a, 0.5), heat_W, chill);
    const Nodes c = rates(m, plus(t, b, 0.5), heat_W, chill);
    const Nodes d = rates(m, plus(t, c, 1.0), heat_W, chill);
    for (std::size_t i = 0; i < t.size(); ++i) t[i] += (a[i] + 2.0 * b[i] + 2.0 * c[i] + d[i]) / 6.0;
  }
  return out;
}

TwoZones machine_of(const std::vector<double>& theta) {
  return {6000.0,           theta[capacity], theta[loss], theta[coil],
          theta[coil_degC], theta[flow],     theta[lag],  theta[start_degC]};
}

identification::LeastSquaresProblem two_zone_problem(std::vector<double> measured) {
  identification::LeastSquaresProblem problem;
  problem.series = {{0, measured.size()}};
  problem.measured = std::move(measured);
  problem.start = {160.0, 8.0, 130.0, -5.0, 0.2, 10.0, 10.0};
  problem.step = {0.2, 0.05, 0.5, 0.05, 0.002, 0.2, 0.05};
  problem.low = {50.0, 0.1, 20.0, -30.0, 0.02, 2.0, -5.0};
  problem.high = {500.0, 60.0, 600.0, 10.0, 2.0, 200.0, 40.0};
  problem.model = [](const std::vector<double>& theta, std::vector<double>& predicted) {
    predicted = readings(machine_of(theta));
    return true;
  };
  return problem;
}

std::vector<double> with_noise(std::vector<double> values, double sigma, double rho, std::uint64_t seed) {
  machine::Random random{seed};
  double before = 0.0;
  bool first = true;
  for (double& value : values) {
    // Box and Muller.
    const double radius = std::sqrt(-2.0 * std::log(1.0 - random.uniform()));
    const double fresh = radius * std::cos(2.0 * std::numbers::pi * random.uniform());
    before = first ? fresh : rho * before + std::sqrt(1.0 - rho * rho) * fresh;
    first = false;
    value += sigma * before;
  }
  return values;
}

}  // namespace stirbench::identification_test
