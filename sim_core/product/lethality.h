#pragma once

#include <cstddef>
#include <vector>

#include "sim_core/product/rules.h"
#include "sim_core/product/vat_sample.h"

// Lethality by the general method (Bigelow): F = integral of 10^((T - T_ref) / z) dt on the coldest zone,
// log10 reduction = F / D. Between samples T is linear and the integral is exact, so a ramp is exact whatever
// the sampling. An addition brings in untreated organisms: the survivors of both parts add up by mass. The
// figure says what heat has done, not that a law is met: heat-treatment rules are judged separately
// (heat_rule_watch.h).
namespace stirbench::product {

// Integral of the lethal rate over dt_s while T goes linearly from `from_degC` to `to_degC` [s at the
// reference].
double lethal_seconds(double from_degC, double to_degC, double dt_s, double reference_degC, double z_K);

// D at another temperature [s].
double D_at_s(const Inactivation& organism, double t_degC);

class LethalityWatch {
 public:
  explicit LethalityWatch(
      const std::vector<Inactivation>& organisms);  // must outlive the watch and its copies
  void see(const VatSample& sample);
  double log10(std::size_t organism) const { return log10_[organism]; }
  std::size_t size() const { return log10_.size(); }

 private:
  const std::vector<Inactivation>* organisms_;
  std::vector<double> log10_;
  VatSample before_;
  bool seen_ = false;
};

}  // namespace stirbench::product
