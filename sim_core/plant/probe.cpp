#include "sim_core/plant/probe.h"

#include <cmath>

#include "sim_core/plant/drive.h"
#include "sim_core/plant/plant.h"

namespace stirbench::plant {
namespace {

// 1 - exp(-x) for x = dt / tau as x / (1 + x/2 + x^2/12), times tau^2 above and below: 1e-6 off at most for
// ticks.
double share_of_step(double dt_s, double tau_s) {
  return 12.0 * dt_s * tau_s / (tau_s * (12.0 * tau_s + 6.0 * dt_s) + dt_s * dt_s);
}

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
  const double tau_s = covered ? spec.probe.tau_s : air_lag_factor * spec.probe.tau_s;
  const double share = spec.probe.pocket_share_norm;
  const double element_tau_s = (1.0 - share) * state.health.probe_tau_factor * tau_s;
  const double step_K = (tip_degC - state.probe_pocket_degC) * share_of_step(dt_s, share * tau_s);
  state.probe_degC +=
      (state.probe_pocket_degC + 0.5 * step_K - state.probe_degC) * share_of_step(dt_s, element_tau_s);
  state.probe_pocket_degC += step_K;
}

}  // namespace stirbench::plant
