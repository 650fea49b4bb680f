#include "sim_core/product/lethality.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace stirbench::product {

namespace {

using std::numbers::ln10;
// Below this nothing in the content dies at a rate that shows: 1e-4 of a second a second at most.
constexpr double harmless_degC = 45.0;

}  // namespace

double lethal_seconds(double from_degC, double to_degC, double dt_s, double reference_degC, double z_K) {
  const double a = std::exp(ln10 * (from_degC - reference_degC) / z_K);
  const double slope = ln10 * (to_degC - from_degC) / z_K;
  // (e^x - 1) / x, with its limit where the line is flat.
  return a * dt_s * (std::fabs(slope) > 1.0e-9 ? std::expm1(slope) / slope : 1.0 + 0.5 * slope);
}

double D_at_s(const Inactivation& organism, double t_degC) {
  return organism.D_s * std::exp(ln10 * (organism.at_degC - t_degC) / organism.z_K);
}

LethalityWatch::LethalityWatch(const std::vector<Inactivation>& organisms)
    : organisms_(&organisms), log10_(organisms.size(), 0.0) {}

void LethalityWatch::see(const VatSample& now) {
  if (seen_ && added_between(before_, now)) {
    const double new_kg = now.brought_kg - before_.brought_kg;
    const double old_kg = before_.mass_kg < least_batch_kg ? 0.0 : before_.mass_kg;
    for (double& log10 : log10_) {
      // Survivors as a share: old_kg at 10^-log10, what came in at 1.
      const double share = (old_kg * std::exp(-ln10 * log10) + new_kg) / (old_kg + new_kg);
      log10 = std::max(0.0, -std::log10(share));
    }
  } else if (seen_ && now.mass_kg >= least_batch_kg &&
             std::max(before_.coldest_degC(), now.coldest_degC()) > harmless_degC) {
    const double dt_s = now.t_s - before_.t_s;
    for (std::size_t i = 0; i < log10_.size(); ++i) {
      const Inactivation& one = (*organisms_)[i];
      log10_[i] +=
          lethal_seconds(before_.coldest_degC(), now.coldest_degC(), dt_s, one.at_degC, one.z_K) / one.D_s;
    }
  }
  before_ = now;
  seen_ = true;
}

}  // namespace stirbench::product
