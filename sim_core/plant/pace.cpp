#include "sim_core/plant/pace.h"

#include <algorithm>
#include <cmath>

#include "sim_core/plant/chiller.h"
#include "sim_core/plant/coefficients.h"
#include "sim_core/plant/drive.h"
#include "sim_core/plant/zones.h"
#include "sim_core/product/pools.h"

namespace stirbench::plant {
namespace {

constexpr double first_s = 0.1;          // interval after something was switched
constexpr double growth = 1.5;           // at most, from one interval to the next
constexpr double longest_s = 10.0;       // of the coefficients: beyond it a refresh costs next to nothing
constexpr double hurried_s = 1.0;        // while contents change by themselves
constexpr double quick_air_norm = 0.02;  // so far from where it goes, air changes the level within seconds
constexpr double loose_norm = 2.0e-3;    // of the product: grains, which thicken it by a hundredth, dissolve
constexpr double chiller_s = 2.0;        // gauges and pressure switches look at least this often
constexpr double chiller_tolerance_K = 0.01;

NodeTemperatures nodes(const PlantState& s) {
  return {s.element_degC,  s.well_wall_degC,  s.well_degC, s.vat_degC,
          s.vat_wall_degC, s.evaporator_degC, s.lid_degC};
}

// Relays but those of the heat, and the compressor, in one number, the room in another.
double power_number(const PlantState& state, const Actuators& relays) {
  const double drive = relays.drive_forward_norm + 1.5 * relays.drive_backward_norm;
  return (relays.chiller_on ? 2.0 : 0.0) + (state.compressor_on ? 4.0 : 0.0) +
         (state.circuit.fan_on ? 0.0 : 8.0) + (relays.from_circuit() ? 16.0 * drive : 0.0);
}
double room_number(const Environment& e) {
  return e.ambient_degC + 1.0e3 * e.humidity_norm + 1.0e6 * e.supply_norm + 1.0e7 * e.frequency_Hz;
}

// A shaft on its way to another speed takes the coefficients along; they have no trend of their own then.
bool spins_up(const MachineSpec& spec, const PlantState& s) {
  return std::abs(s.shaft_rad_per_s - s.pace.seen_rad_per_s) > 0.01 * rated_agitator_rad_per_s(spec.drive);
}

// Further than this from where the coefficients were computed they are not trusted, whatever their trend
// said.
bool moved(const MachineSpec& spec, const PlantState& s) {
  const NodeTemperatures& seen = s.pace.seen_degC;
  return std::abs(s.well_wall_degC - seen[1]) > 4.0 || std::abs(s.well_degC - seen[2]) > 1.0 ||
         std::abs(s.vat_degC - seen[3]) > 1.0 || std::abs(s.vat_wall_degC - seen[4]) > 2.0 ||
         std::abs(s.lid_degC - seen[6]) > 2.0 || spins_up(spec, s);
}

double longest_interval_s(const PlantState& s) {
  const Coefficients& c = s.coefficients;
  const bool primes = s.prime_norm > 0.0 && s.prime_norm < 1.0;
  const bool hurries = primes || c.draw_kg_per_s > 0.0 || s.fittings.rinse_on || s.wall_ice_kg > 0.0 ||
                       product::undissolved_kg(s.product) > loose_norm * s.product.total_kg() ||
                       std::abs(s.product.air_norm - c.drawn_air_norm) > quick_air_norm;
  return hurries ? hurried_s : longest_s;
}

// By how much the straight line missed a coefficient, as a temperature: its share of the difference across.
double missed_K(double before, double slope, double after, double age_s, double across_K) {
  const double most = std::max(std::abs(after), std::abs(before));
  return most > 0.0 ? std::abs(before + slope * age_s - after) / most * std::abs(across_K) : 0.0;
}

// Largest error of the interval that ends here; sets the trend for the next.
double learn(Pace& p, const Coefficients& was, const PlantState& s) {
  const Coefficients& is = s.coefficients;
  const double age_s = p.coefficients_age_s;
  const auto follow = [&](double Trend::*slope, double Coefficients::*value, double across_K) {
    double& per_s = p.trend.*slope;
    const double miss_K = missed_K(was.*value, per_s, is.*value, age_s, across_K);
    per_s = (is.*value - was.*value) / age_s;
    return miss_K;
  };
  const double surface_K = s.vat_degC - (s.fittings.lid_open ? s.environment.ambient_degC : s.lid_degC);
  // The lid also follows its room, so it is off by a part of that only.
  const double miss[] = {
      follow(&Trend::well_wall_W_per_K, &Coefficients::well_wall_W_per_K, s.well_wall_degC - s.well_degC),
      follow(&Trend::vat_wall_W_per_K, &Coefficients::vat_wall_W_per_K, s.vat_degC - s.vat_wall_degC),
      follow(&Trend::exchange_kg_per_s, &Coefficients::exchange_kg_per_s, s.well_degC - s.vat_degC),
      follow(&Trend::surface_W_per_K, &Coefficients::surface_W_per_K, 0.3 * surface_K),
      follow(&Trend::lid_room_W_per_K, &Coefficients::lid_room_W_per_K,
             0.5 * (s.lid_degC - s.environment.ambient_degC)),
      follow(&Trend::evaporation_kg_per_s, &Coefficients::evaporation_kg_per_s, 1.0),
      follow(&Trend::lid_drip_kg_per_s, &Coefficients::lid_drip_kg_per_s, 0.1 * surface_K),
      follow(&Trend::dew_W, &Coefficients::dew_W, 0.1)};
  return *std::max_element(std::begin(miss), std::end(miss));
}

// A line misses with the square of the interval.
double next_interval_s(double age_s, double miss_K, double aim_K, double most_s, double dt_s) {
  const double factor = miss_K > 0.0 ? 0.9 * std::sqrt(aim_K / miss_K) : growth;
  return std::clamp(age_s * std::clamp(factor, 0.3, growth), dt_s, most_s);
}

void refresh_coefficients(const MachineSpec& spec, PlantState& state, double dt_s) {
  Pace& p = state.pace;
  const bool follows =
      !p.disturbed && p.coefficients_age_s > 0.5 * dt_s && !spins_up(spec, state) && zones(state).present;
  const Coefficients was = state.coefficients;
  refresh(spec, state);
  const double most_s = longest_interval_s(state);
  const bool heat_turned = p.coefficients_due_s == 0.0;
  if (follows && !heat_turned) {
    const double miss_K = learn(p, was, state);
    p.coefficients_due_s = next_interval_s(p.coefficients_age_s, miss_K, tolerance_K, most_s, dt_s);
  } else {
    Trend fresh;
    fresh.evaporating_degC = p.trend.evaporating_degC;
    fresh.evaporator_W_per_K = p.trend.evaporator_W_per_K;
    p.trend = fresh;
    p.coefficients_due_s = zones(state).present && !(follows && heat_turned) ? first_s : hurried_s;
  }
  p.coefficients_age_s = 0.0;
  p.seen_degC = nodes(state);
  p.seen_rad_per_s = state.shaft_rad_per_s;
  p.shaft_steady = false;
}

void refresh_refrigerant(const MachineSpec& spec, PlantState& state, bool wanted, double dt_s) {
  Pace& p = state.pace;
  const double age_s = p.chiller_age_s;
  const double was_degC = state.coefficients.evaporating_degC;
  const double was_W_per_K = state.chiller.gauges.evaporator_W_per_K;
  const bool ran = state.compressor_on;
  refresh_chiller(spec, state, wanted, age_s);
  const double is_degC = state.coefficients.evaporating_degC;
  const double is_W_per_K = state.chiller.gauges.evaporator_W_per_K;
  if (ran && state.compressor_on && !p.disturbed && age_s > 0.5 * dt_s) {
    const double miss_K =
        std::abs(was_degC + age_s * p.trend.evaporating_degC - is_degC) +
        missed_K(was_W_per_K, p.trend.evaporator_W_per_K, is_W_per_K, age_s, state.evaporator_degC - is_degC);
    p.trend.evaporating_degC = (is_degC - was_degC) / age_s;
    p.trend.evaporator_W_per_K = (is_W_per_K - was_W_per_K) / age_s;
    p.chiller_due_s = next_interval_s(age_s, miss_K, chiller_tolerance_K, chiller_s, dt_s);
  } else {
    p.trend.evaporating_degC = p.trend.evaporator_W_per_K = 0.0;
    p.chiller_due_s = state.compressor_on ? dt_s : hurried_s;
  }
  p.chiller_age_s = 0.0;
  p.chiller_load_degC = state.evaporator_degC;
}

}  // namespace

void invalidate_pace(PlantState& state) {
  Pace& p = state.pace;
  p.disturbed = true;
  p.before_s = 0.0;
  p.shaft_steady = false;
}

void detect_switching(PlantState& state, const Actuators& relays) {
  Pace& p = state.pace;
  const double fittings = fittings_number(state, relays.drive_on);
  const double power = power_number(state, relays);
  const double room = room_number(state.environment);
  Coefficients& c = state.coefficients;
  // Heat alone bends the temperatures' course and leaves every coefficient where it is.
  if (relays.heat_norm != p.seen_heat_norm) p.coefficients_due_s = 0.0;
  p.seen_heat_norm = relays.heat_norm;
  if (fittings == c.seen_fittings && power == p.seen_power && room == p.seen_room) return;
  c.seen_fittings = fittings;
  p.seen_power = power;
  p.seen_room = room;
  // The trends belong to the time before the switching; the temperatures themselves continue.
  p.coefficients_due_s = 0.0;
  p.coefficients_age_s = 0.0;
  p.chiller_due_s = 0.0;
  p.shaft_steady = false;
}

void refresh_when_due(const MachineSpec& spec, PlantState& state, const Actuators& relays,
                      double before_rad_per_s, double dt_s) {
  Pace& p = state.pace;
  if (p.disturbed || p.coefficients_age_s + 0.5 * dt_s > p.coefficients_due_s || moved(spec, state)) {
    const double after_rad_per_s = state.shaft_rad_per_s;
    state.shaft_rad_per_s = 0.5 * (before_rad_per_s + after_rad_per_s);
    refresh_coefficients(spec, state, dt_s);
    state.shaft_rad_per_s = after_rad_per_s;
  } else if (state.since_refresh_s + 0.5 * dt_s > hurried_s) {
    advance_kinetics(spec, state);
  }
  const bool starts = relays.chiller_on && !state.compressor_on && !state.pressure_tripped &&
                      state.compressor_off_s >= spec.chiller.minimum_off_s;
  if (p.disturbed || starts || p.chiller_age_s + 0.5 * dt_s > p.chiller_due_s)
    refresh_refrigerant(spec, state, relays.chiller_on, dt_s);
  p.disturbed = false;
}

void advance_ages(PlantState& state, double dt_s) {
  Pace& p = state.pace;
  p.coefficients_age_s += dt_s;
  p.chiller_age_s += dt_s;
  state.since_refresh_s += dt_s;
}

}  // namespace stirbench::plant
