#include "sim_core/product/growth.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace stirbench::product {

namespace {

using std::numbers::ln10;
constexpr double no_lag_ln_q = 50.0;  // q/(1+q) is 1 to the last digit

double cardinal_log10_per_h(const Growth& g, double t) {
  const double below = t - g.lowest_degC;
  const double range = g.best_degC - g.lowest_degC;
  const double under = range * (range * (t - g.best_degC) -
                                (g.best_degC - g.highest_degC) * (g.best_degC + g.lowest_degC - 2.0 * t));
  return g.best_log10_per_h * (t - g.highest_degC) * below * below / under;
}

}  // namespace

double growth_log10_per_h(const Growth& g, double t_degC) {
  if (!(t_degC > g.lowest_degC && t_degC < g.highest_degC)) return 0.0;
  if (g.law == GrowthLaw::cardinal) return std::max(0.0, cardinal_log10_per_h(g, t_degC));
  const double bend = g.bend_per_K > 0.0 ? -std::expm1(g.bend_per_K * (t_degC - g.highest_degC)) : 1.0;
  const double root = g.root_per_h_K * (t_degC - g.lowest_degC) * bend;
  return root * root;
}

Population fresh_population(const Growth& organism) {
  return {0.0, organism.h0 > 0.0 ? -std::log(std::expm1(organism.h0)) : no_lag_ln_q};
}

void advance_population(Population& p, const Growth& organism, double rate_log10_per_h, double dt_s) {
  const double work = ln10 * rate_log10_per_h * dt_s / 3600.0;  // mu dt
  if (!(work > 0.0)) return;
  // Integral of mu q/(1+q): ln((1 + q e^work) / (1 + q)), written so that a large q does not overflow.
  const double adjusted =
      p.ln_q > 30.0 ? work : std::log1p(std::exp(p.ln_q + work)) - std::log1p(std::exp(p.ln_q));
  p.ln_q = std::min(no_lag_ln_q, p.ln_q + work);
  // Logistic limit, exact for the adjusted time.
  const double room = std::exp(ln10 * (organism.start_log10 + p.grown_log10 - organism.most_log10));
  p.grown_log10 += (adjusted - std::log1p(std::expm1(adjusted) * room)) / ln10;
}

GrowthWatch::GrowthWatch(const std::vector<Growth>& organisms) : organisms_(&organisms) {
  for (const Growth& one : organisms) now_.push_back(fresh_population(one));
}

void GrowthWatch::see(const VatSample& now) {
  const bool new_batch = seen_ && before_.mass_kg < least_batch_kg && now.mass_kg >= least_batch_kg;
  const bool hot = now.coldest_degC() >= growth_restart_degC;
  if (new_batch || hot) {
    for (std::size_t i = 0; i < now_.size(); ++i) now_[i] = fresh_population((*organisms_)[i]);
  } else if (seen_ && now.mass_kg >= least_batch_kg) {
    const double dt_s = now.t_s - before_.t_s;
    // The middle of the step: temperatures are linear in it, and dt is short compared with the lag.
    const double well_degC = 0.5 * (before_.well_degC + now.well_degC);
    const double vat_degC = 0.5 * (before_.vat_degC + now.vat_degC);
    for (std::size_t i = 0; i < now_.size(); ++i) {
      const Growth& one = (*organisms_)[i];
      const double rate = std::max(growth_log10_per_h(one, well_degC), growth_log10_per_h(one, vat_degC));
      advance_population(now_[i], one, rate, dt_s);
    }
  }
  before_ = now;
  seen_ = true;
}

}  // namespace stirbench::product
