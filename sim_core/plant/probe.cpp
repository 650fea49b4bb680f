#include "sim_core/plant/probe.h"

#include <cmath>

#include "sim_core/plant/drive.h"
#include "sim_core/plant/plant.h"

namespace stirbench::plant {
namespace {

// 1 - exp(-x) as x / (1 + x/2 + x^2/12): 1e-6 off at most for ticks.
double share_of_step(double x) { return x / (1.0 + x * (0.5 + x / 12.0)); }

}  // namespace

double stem_share_norm(const ProbeSpec& spec, double film_W_per_m2K) {
  const double outer = spec.pocket_outer_m;
  const double inner = outer - 2.0 * spec.pocket_wall_m;
  const double m2 = 4.0 * film_W_per_m2K * outer / (pocket_W_per_mK * (outer * outer - inner * inner));
  return 1.0 / std::cosh(std::sqrt(m2) * spec.immersed_m);
}

void refresh_probe(const MachineSpec& spec, PlantState& state) {
  const bool stirred = state.shaft_rad_per_s > 0.3 * rated_agitator_rad_per_s(spec.drive);
  const bool covered = fill_L(state) >= spec.probe.covered_L;
  const double film = !covered ? air_film_W_per_m2K : stirred ? stirred_film_W_per_m2K : still_film_W_per_m2K;
  state.coefficients.probe_stem_norm = stem_share_norm(spec.probe, film);
}

double around_probe_degC(const MachineSpec& spec, const PlantState& state, bool covered) {
  const double share = spec.probe.vat_share_norm;
  const double product_degC =
      covered ? share * state.vat_degC + (1.0 - share) * state.well_degC : state.head_space_degC;
  // The stem's share, then that of a probe that slipped out of its pocket.
  const double stays = (1.0 - state.coefficients.probe_stem_norm) * (1.0 - state.health.probe_air_norm);
  return state.environment.ambient_degC + stays * (product_degC - state.environment.ambient_degC);
}

void follow_probe(const MachineSpec& spec, PlantState& state, bool covered, double around_degC, double dt_s) {
  const double tau_s = covered ? spec.probe.tau_s : air_lag_factor * spec.probe.tau_s;
  const double pocket_s = spec.probe.pocket_share_norm * tau_s;
  const double element_s = (1.0 - spec.probe.pocket_share_norm) * tau_s * state.health.probe_tau_factor;
  const double before_degC = state.probe_pocket_degC;
  state.probe_pocket_degC += (around_degC - before_degC) * share_of_step(dt_s / pocket_s);
  const double wall_degC = 0.5 * (before_degC + state.probe_pocket_degC);
  state.probe_degC += (wall_degC - state.probe_degC) * share_of_step(dt_s / element_s);
}

}  // namespace stirbench::plant
