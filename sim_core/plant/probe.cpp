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

void follow_probe(const MachineSpec& spec, PlantState& state, bool covered, double round_degC, double dt_s) {
  const double room_degC = state.environment.ambient_degC;
  const double stays = (1.0 - state.coefficients.probe_stem_norm) * (1.0 - state.health.probe_air_norm);
  const double tip_degC = room_degC + stays * (round_degC - room_degC);
  const double x = dt_s / (covered ? spec.probe.tau_s : air_lag_factor * spec.probe.tau_s);
  const double share = spec.probe.pocket_share_norm;
  const double step_K = (tip_degC - state.probe_pocket_degC) * share_of_step(x / share);
  state.probe_degC += (state.probe_pocket_degC + 0.5 * step_K - state.probe_degC) *
                      share_of_step(x / ((1.0 - share) * state.health.probe_tau_factor));
  state.probe_pocket_degC += step_K;
}

}  // namespace stirbench::plant
