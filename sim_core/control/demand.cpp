#include <algorithm>
#include <cmath>

#include "sim_core/control/controller_internal.h"

// On-off control with hysteresis that looks ahead along the probe's slope; heat tapers towards the target or,
// by the machine's option, is proportioned to what is wanting.
namespace stirbench::control {

namespace {

// Between `on` and `off` the demand stays as it was. For heat on < off, for cold on > off.
struct Band {
  double on_degC;
  double off_degC;
};

bool heat_switch(bool before, double ahead_degC, Band band) {
  if (ahead_degC < band.on_degC) return true;
  if (ahead_degC >= band.off_degC) return false;
  return before;
}

bool chill_switch(bool before, double ahead_degC, Band band) {
  if (ahead_degC > band.on_degC) return true;
  if (ahead_degC <= band.off_degC) return false;
  return before;
}

// Part of a cycle that the elements are on, by what is still wanting.
double heat_share(const ControlSpec& spec, double wanting_K) {
  if (!(spec.heat_taper_K > 0.0)) return 1.0;
  const double full = spec.heat_least_norm + (1.0 - spec.heat_least_norm) * wanting_K / spec.heat_taper_K;
  return std::clamp(full, spec.heat_least_norm, 1.0);
}

// Whether the elements are on at this moment of the cycle.
bool heat_passes(const Scan& scan) {
  const ControlState& state = scan.state;
  if (!state.heat_demand) return false;
  const double cycle_s = scan.context.spec.heat_cycle_s;
  if (scan.heat_share_norm >= 1.0 || !(cycle_s > 0.0)) return true;
  const double at_s = std::fmod(static_cast<double>(state.heat_ticks) * scan.context.tick_s, cycle_s);
  return at_s < scan.heat_share_norm * cycle_s;
}

// Proportional with integral action. The integral stands still while the share is full or nothing and would
// go on in that direction, so that it is not wound up on the way; the share is continuous where the band
// begins.
void want_share(Scan& scan, double aim_degC, double ahead_degC) {
  const ControlSpec& spec = scan.context.spec;
  ControlState& state = scan.state;
  const double off = (aim_degC - ahead_degC) / spec.hold_band_K;
  const double share = off + state.heat_integral_norm;
  const bool moves = off > 0.0 ? share < 1.0 : share > 0.0;
  if (moves)
    state.heat_integral_norm =
        std::clamp(state.heat_integral_norm + off * scan.context.tick_s / spec.hold_reset_s, 0.0, 1.0);
  state.heat_demand = off > -1.0;
  scan.heat_share_norm = std::clamp(share, 0.0, 1.0);
}

// Along the probe's slope. No fill that may be run warms or chills faster than 6 K a minute (full power on
// the least fill of the shipped machines): what is quicker comes of a pour and ends with it.
double ahead_degC(const Scan& scan, double lead_s) {
  constexpr double fastest_K_per_s = 0.1;
  const double rate = std::clamp(scan.state.probe_rate_K_per_s, -fastest_K_per_s, fastest_K_per_s);
  return scan.readings.probe_degC + lead_s * rate;
}

void want_heat(Scan& scan, Band band) {
  ControlState& state = scan.state;
  const double ahead = ahead_degC(scan, scan.context.spec.heat_lead_s);
  if (scan.context.spec.hold_control == HoldControl::proportional) {
    want_share(scan, 0.5 * (band.on_degC + band.off_degC), ahead);
    state.chill_demand = false;
    return;
  }
  state.heat_demand = heat_switch(state.heat_demand, ahead, band);
  scan.heat_share_norm = heat_share(scan.context.spec, band.off_degC - ahead);
  state.chill_demand = false;
}

void want_cold(Scan& scan, Band band) {
  ControlState& state = scan.state;
  const double ahead = ahead_degC(scan, scan.context.spec.chill_lead_s);
  state.chill_demand = chill_switch(state.chill_demand, ahead, band);
  state.heat_demand = false;
  state.heat_integral_norm = scan.context.spec.hold_bias_norm;  // the next batch begins afresh
}

// On the way to a hold and in it: the whole band lies above the target, so the hold does not chatter below
// it.
Band hold_band(const Recipe& recipe, double target_degC) {
  const double aim_K = std::max(recipe.overshoot_K, 0.1);
  return {target_degC + 0.5 * aim_K, target_degC + aim_K};
}

// Kept warm at or above the target; reached cold at or below it. A phase that waits for the target thus
// always gets there.
Band warm_band(const Scan& scan, double target_degC) {
  return {target_degC, target_degC + scan.context.spec.heat_hysteresis_K};
}
Band cold_band(const Scan& scan, double target_degC) {
  return {target_degC, target_degC - scan.context.spec.chill_hysteresis_K};
}
// Storage: from the target up, so that the wall is not driven into freezing to hold a line that was reached
// before.
Band storage_band(const Scan& scan, double target_degC) {
  return {target_degC + scan.context.spec.chill_hysteresis_K, target_degC};
}

// While waiting for an addition the batch is kept cold if the phase comes after cooling, else warm.
bool came_from_cold(const Recipe& recipe, std::int32_t phase) {
  for (std::int32_t i = phase - 1; i >= 0; --i) {
    const PhaseKind kind = recipe.phases[static_cast<std::size_t>(i)].kind;
    if (kind != PhaseKind::add) return kind != PhaseKind::heat && kind != PhaseKind::hold;
  }
  return false;
}

// Stirring share of age and keep: so long on, so long off. The chiller never runs on a resting product: ice
// would grow.
bool cycle_stirs(const Scan& scan) {
  const ControlSpec& spec = scan.context.spec;
  const double period_s = spec.age_stir_on_s + spec.age_stir_off_s;
  if (!(period_s > 0.0)) return true;
  const double at_s = std::fmod(static_cast<double>(scan.state.cycle_ticks) * scan.context.tick_s, period_s);
  return at_s < spec.age_stir_on_s;
}

// Whether the agitator turns in this phase at this moment.
bool demand_of_phase(Scan& scan, const Recipe& recipe, const Phase& phase) {
  switch (phase.kind) {
    case PhaseKind::heat:
    case PhaseKind::hold: want_heat(scan, hold_band(recipe, phase.target_degC)); return true;
    case PhaseKind::add:
      if (came_from_cold(recipe, scan.state.phase))
        want_cold(scan, storage_band(scan, phase.target_degC));
      else
        want_heat(scan, warm_band(scan, phase.target_degC));
      return true;
    case PhaseKind::chill: want_cold(scan, cold_band(scan, phase.target_degC)); return true;
    case PhaseKind::age:
    case PhaseKind::keep:
      want_cold(scan, storage_band(scan, phase.target_degC));
      return scan.state.chill_demand || cycle_stirs(scan);
  }
  return false;
}

}  // namespace

void update_probe_rate(Scan& scan) {
  // First-order smoothing: long enough not to jump at a pour, short against the minutes in which a vat warms.
  constexpr double smoothing_s = 5.0;
  ControlState& state = scan.state;
  const double probe_degC = scan.readings.probe_degC;
  if (state.probe_seen) {
    const double rate = (probe_degC - state.probe_before_degC) / scan.context.tick_s;
    const double share = scan.context.tick_s / (smoothing_s + scan.context.tick_s);
    state.probe_rate_K_per_s += share * (rate - state.probe_rate_K_per_s);
  } else {
    state.probe_rate_K_per_s = 0.0;
  }
  state.probe_before_degC = probe_degC;
  state.probe_seen = true;
}

Outputs demand(Scan& scan) {
  ControlState& state = scan.state;
  bool drive = false;
  switch (state.mode) {
    case Mode::off:
    case Mode::standby:
    case Mode::paused: return {};
    case Mode::heating:
      want_heat(scan, warm_band(scan, state.heat_target_degC));
      drive = true;
      break;
    case Mode::chilling:
      want_cold(scan, cold_band(scan, state.chill_target_degC));
      drive = true;
      break;
    case Mode::stirring:
    case Mode::rinsing: drive = true; break;
    case Mode::running: {
      const Recipe* recipe = scan.recipe();
      const Phase* phase = current_phase(recipe, state);
      if (phase == nullptr) return {};
      drive = demand_of_phase(scan, *recipe, *phase);
      break;
    }
  }
  if (state.heat_demand && !scan.ruled(InterlockRule::heat_commands_drive)) drive = false;
  state.heat_ticks = state.heat_demand ? state.heat_ticks + 1 : 0;
  return {.heat_norm = heat_passes(scan) ? 1.0 : 0.0, .drive = drive, .chill = state.chill_demand};
}

}  // namespace stirbench::control
