#include <algorithm>
#include <cmath>

#include "sim_core/identification/fit.h"

namespace stirbench::identification {

namespace {

// Wald and Wolfowitz: number of runs of one sign against what independent signs would give, in standard
// deviations.
double runs_z(const std::vector<double>& residuals) {
  double positive = 0.0, negative = 0.0, runs = 0.0;
  for (std::size_t i = 0; i < residuals.size(); ++i) {
    (residuals[i] >= 0.0 ? positive : negative) += 1.0;
    if (i == 0 || (residuals[i] >= 0.0) != (residuals[i - 1] >= 0.0)) runs += 1.0;
  }
  const double n = positive + negative;
  if (positive < 1.0 || negative < 1.0) return -std::sqrt(n);
  const double pairs = 2.0 * positive * negative;
  const double variance = pairs * (pairs - n) / (n * n * (n - 1.0));
  return variance > 0.0 ? (runs - pairs / n - 1.0) / std::sqrt(variance) : 0.0;
}

}  // namespace

ResidualReport report_of(const std::vector<LogSample>& samples, const std::vector<double>& residuals,
                         const std::vector<Spell>& spells, double noise) {
  ResidualReport out;
  out.noise_K = noise;
  double squares = 0.0;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    squares += residuals[i] * residuals[i];
    if (std::abs(residuals[i]) <= std::abs(out.most_K)) continue;
    out.most_K = residuals[i];
    out.most_at_s = samples[i].t_s;
  }
  const std::vector<double> own(residuals.begin(),
                                residuals.begin() + static_cast<std::ptrdiff_t>(samples.size()));
  out.rms_K = std::sqrt(squares / std::max(1.0, static_cast<double>(samples.size())));
  out.structure_K = std::sqrt(std::max(0.0, out.rms_K * out.rms_K - noise * noise));
  out.rho = noise_of(own, {0, own.size()}, 0.0).rho;
  out.runs_z = runs_z(own);

  // Five minutes after each switching.
  constexpr double after_s = 300.0;
  for (std::size_t s = 1; s < spells.size(); ++s) {
    double sum = 0.0, count = 0.0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
      const double since_s = samples[i].t_s - spells[s].from_s;
      if (since_s < 0.0 || since_s > after_s) continue;
      sum += own[i];
      count += 1.0;
    }
    if (count < 3.0 || std::abs(sum / count) <= std::abs(out.worst_mean_K)) continue;
    out.worst_mean_K = sum / count;
    out.worst_switching_s = spells[s].from_s;
  }
  return out;
}

}  // namespace stirbench::identification
