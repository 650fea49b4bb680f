#include "sim_core/refrigeration/refrigerant_cycle.h"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "sim_core/refrigeration/r290.h"

namespace stirbench::refrigeration {
namespace {

constexpr double driest_norm = 0.998;
constexpr double wettest_norm = -0.3;
constexpr double dry_film = 0.15;
constexpr double gas_film = 0.7;
constexpr double liquid_film = 0.5;
constexpr double liquid_in_evaporator = 0.12;
constexpr double liquid_in_condenser = 0.22;
constexpr double liquid_cp_kJ_per_kgK = 2.8;

struct Compressed {
  double kg_per_s, work_kJ_per_kg;
};

// `suction_kg_per_m3`: gas (and mist) that the cylinder meets.
Compressed compress(const ChillerSpec& spec, double pe_bar, double pc_bar, double suction_kg_per_m3,
                    double speed_norm) {
  constexpr double n = 1.06;
  const double ln_ratio = std::log(std::max(1.0, pc_bar / pe_bar));
  const double filling =
      std::max(0.02, 1.0 + spec.clearance_norm - spec.clearance_norm * std::exp(ln_ratio / 1.13));
  const double off = ln_ratio - 1.0986;
  const double efficiency =
      spec.isentropic_norm * std::max(1.0 / 3.0, 1.0 - spec.isentropic_falloff_norm * off * off);
  return {
      filling * speed_norm * spec.swept_m3_per_h / 3600.0 * suction_kg_per_m3,
      n / (n - 1.0) * 100.0 * pe_bar / suction_kg_per_m3 * std::expm1(ln_ratio * (n - 1.0) / n) / efficiency};
}

// Where the charge stands: share of the condenser under liquid, and the vapour share that leaves it when the
// liquid does not suffice to seal it (both smooth through the point between).
struct Charge {
  double flooded_norm, vapour_norm, filled_norm;
};

Charge share_charge(const ChillerSpec& spec, const ChillerHealth& health, const CycleState& at,
                    double vapour_e, double vapour_c, double liquid_c) {
  const double mean = liquid_in_condenser * liquid_c + (1.0 - liquid_in_condenser) * vapour_c;
  const double condensing_kg = spec.condenser_m3 * mean;
  const double evaporator_kg =
      liquid_in_evaporator * 528.0 * spec.evaporator_m3 * (1.0 - at.dry_norm) + spec.evaporator_m3 * vapour_e;
  const double per_share_kg = spec.condenser_m3 * (liquid_c - mean);
  const double raw = (health.charge_norm * spec.charge_kg - evaporator_kg - condensing_kg) / per_share_kg;
  const double root = std::sqrt(raw * raw + 1.0e-4);
  const double lack_kg = 0.5 * (root - raw) * per_share_kg;
  // Less than both sides hold as vapour: all of it is gas, and thinner than saturated.
  const double gas_kg = spec.condenser_m3 * vapour_c + spec.evaporator_m3 * vapour_e;
  return {std::min(0.9, 0.5 * (raw + root)), std::min(0.9, lack_kg / (1.7 * condensing_kg)),
          std::min(1.0, health.charge_norm * spec.charge_kg / gas_kg)};
}

double valve_opening(const ChillerSpec& spec, const ChillerHealth& health, double superheat_K,
                     double evaporating_degC) {
  if (health.valve_stuck_norm >= 0.0) return std::min(1.0, health.valve_stuck_norm);
  const double by_bulb =
      std::clamp((superheat_K - spec.valve_static_superheat_K) / spec.valve_gradient_K, 0.0, 1.0);
  const double by_pressure =
      std::clamp((spec.maximum_evaporating_degC + 1.5 - evaporating_degC) / 3.0, 0.0, 1.0);
  return std::max(0.02, by_bulb * by_pressure);  // it never seals quite
}

double series_m2(double valve_m2, double line_m2) {
  return valve_m2 * line_m2 / std::hypot(valve_m2, line_m2);
}

// Saturated states at the circuit's two temperatures.
struct Saturated {
  double pe_bar, pc_bar, vapour_e, vapour_c, liquid_c, liquid_kJ_per_kg, hfg_e, hfg_c;
};

Saturated saturated(const CycleState& at) {
  Saturated s{};
  s.pe_bar = r290_pressure_bar(at.evaporating_degC);
  s.pc_bar = std::max(s.pe_bar, r290_pressure_bar(at.condensing_degC));
  s.vapour_e = r290_vapour_kg_per_m3(at.evaporating_degC);
  s.vapour_c = r290_vapour_kg_per_m3(at.condensing_degC);
  s.liquid_c = r290_liquid_kg_per_m3(at.condensing_degC);
  s.liquid_kJ_per_kg = r290_liquid_kJ_per_kg(at.condensing_degC);
  s.hfg_e = r290_evaporation_heat_kJ_per_kg(at.evaporating_degC);
  s.hfg_c = r290_evaporation_heat_kJ_per_kg(at.condensing_degC);
  return s;
}

// Evaporator's dry part, and what the cylinders make of what it gives them.
struct LowSide {
  double span_K, film_W_per_K, dry_norm, dry_share, superheat_K, suction_K;
  double kg_per_s, work_kJ_per_kg;
  double boiled_kJ_per_kg, suction_kJ_per_kg;  // enthalpy out of the boiling part, into the compressor
};

LowSide low_side(const ChillerSpec& spec, const CycleBoundary& s, const CycleState& at,
                 const Saturated& sat) {
  LowSide low{};
  low.span_K = std::max(0.0, s.load_degC - at.evaporating_degC);
  low.film_W_per_K = spec.evaporator_W_per_K * (1.0 - s.health.evaporator_fouling_norm);
  low.dry_norm = std::max(0.0, at.dry_norm);
  const double quality = 1.0 + std::min(0.0, at.dry_norm);
  const double rated_kg_per_s = 0.9 * s.speed_norm * spec.swept_m3_per_h / 3600.0 * sat.vapour_e;
  low.dry_share = -std::expm1(-dry_film * low.film_W_per_K * low.dry_norm /
                              (1000.0 * rated_kg_per_s * r290_suction_cp_kJ_per_kgK));
  low.superheat_K = low.span_K * low.dry_share;
  low.suction_K = std::min(low.superheat_K, std::max(0.0, spec.suction_limit_degC - at.evaporating_degC));
  const Compressed c = compress(spec, sat.pe_bar, sat.pc_bar,
                                sat.vapour_e * r290_superheated_share(low.suction_K) / quality, s.speed_norm);
  // Gas that leaks back past the valves was compressed for nothing and is compressed again.
  low.kg_per_s = c.kg_per_s * (1.0 - s.health.compressor_leak_norm);
  low.work_kJ_per_kg = c.work_kJ_per_kg / (1.0 - 0.7 * s.health.compressor_leak_norm);
  low.boiled_kJ_per_kg = r290_liquid_kJ_per_kg(at.evaporating_degC) + quality * sat.hfg_e;
  low.suction_kJ_per_kg = low.boiled_kJ_per_kg + r290_suction_cp_kJ_per_kgK * low.suction_K;
  return low;
}

struct Condenser {
  double subcooling_K, leaving_kJ_per_kg, hot_K, hot_W, condensed_W, to_condense_W, subcooled_W;
};

Condenser condenser(const CycleBoundary& s, const CycleState& at, const Saturated& sat, const LowSide& low,
                    const Charge& charge) {
  Condenser c{};
  const double over_air_K = std::max(0.0, at.condensing_degC - s.air_degC);
  const double flow_W_per_K = 1000.0 * low.kg_per_s * liquid_cp_kJ_per_kgK;
  c.subcooling_K =
      over_air_K * -std::expm1(-liquid_film * s.condenser_W_per_K * charge.flooded_norm / flow_W_per_K);
  c.subcooled_W = flow_W_per_K * c.subcooling_K;
  c.leaving_kJ_per_kg =
      sat.liquid_kJ_per_kg - liquid_cp_kJ_per_kgK * c.subcooling_K + charge.vapour_norm * sat.hfg_c;
  const double cp = r290_discharge_cp_kJ_per_kgK(at.condensing_degC);
  const double entering_kJ_per_kg = low.suction_kJ_per_kg + low.work_kJ_per_kg;
  c.hot_K = std::max(0.0, (entering_kJ_per_kg - sat.liquid_kJ_per_kg - sat.hfg_c) / cp);
  c.hot_W = 1000.0 * low.kg_per_s * cp * c.hot_K;
  const double hot_norm =
      c.hot_W / (gas_film * s.condenser_W_per_K * std::max(2.0, over_air_K + 0.5 * c.hot_K));
  const double condensing_norm = std::max(0.05, 1.0 - charge.flooded_norm - hot_norm);
  c.condensed_W = s.condenser_W_per_K * condensing_norm * over_air_K;
  c.to_condense_W = 1000.0 * low.kg_per_s * sat.hfg_c * (1.0 - charge.vapour_norm);
  return c;
}

double valve_kg_per_s(const ChillerSpec& spec, const ChillerHealth& health, const Saturated& sat,
                      const Charge& charge, double opening, double subcooling_K) {
  const double line_m2 = 4.0 * spec.valve_area_m2 * std::max(1.0e-3, 1.0 - health.restriction_norm);
  const double area_m2 = series_m2(opening * spec.valve_area_m2, line_m2);
  const double inlet_m3_per_kg = (1.0 - charge.vapour_norm) / (sat.liquid_c * (1.0 + 0.003 * subcooling_K)) +
                                 charge.vapour_norm / sat.vapour_c;
  return area_m2 * charge.filled_norm * charge.filled_norm *
         std::sqrt(2.0e5 * (sat.pc_bar - sat.pe_bar) / inlet_m3_per_kg);
}

// An evaporator that is nearly dry gives no more liquid than the valve lets in, and one that is full passes
// on what comes: towards its ends the share of liquid moves ever more slowly.
double room_norm(double dry_norm, double per_s) {
  return std::clamp((per_s > 0.0 ? driest_norm - dry_norm : dry_norm - wettest_norm) / 0.02, 0.0, 1.0);
}

// Liquid holds the pressure up by boiling; gas alone is drawn off within seconds.
double evaporator_J_per_K(const ChillerSpec& spec, double dry_norm) {
  return 8.0 * spec.evaporator_W_per_K * (1.0 - 0.9 * dry_norm);
}

double& part(CycleState& c, Eigen::Index i) {
  return i == 0 ? c.evaporating_degC : i == 1 ? c.condensing_degC : c.dry_norm;
}

// The slopes hold near the point only: far from balance the way is shortened.
CycleState moved(const CycleBoundary& setting, const CycleState& from, const Eigen::Vector3d& move) {
  CycleState to;
  to.evaporating_degC = std::clamp(from.evaporating_degC + std::clamp(move[0], -6.0, 6.0), -44.0,
                                   std::max({-44.0, setting.load_degC, from.evaporating_degC}));
  to.condensing_degC = std::clamp(from.condensing_degC + std::clamp(move[1], -6.0, 6.0),
                                  std::min({79.0, setting.air_degC, from.condensing_degC}), 79.0);
  to.dry_norm = std::clamp(from.dry_norm + std::clamp(move[2], -0.1, 0.1), wettest_norm, driest_norm);
  return to;
}

}  // namespace

CycleFigures r290_cycle(const ChillerSpec& spec, double evaporating_degC, double condensing_degC,
                        double superheat_K, double subcooling_K) {
  const double suction = r290_vapour_kg_per_m3(evaporating_degC) * r290_superheated_share(superheat_K);
  const Compressed c =
      compress(spec, r290_pressure_bar(evaporating_degC), r290_pressure_bar(condensing_degC), suction, 1.0);
  const double h1 = r290_liquid_kJ_per_kg(evaporating_degC) +
                    r290_evaporation_heat_kJ_per_kg(evaporating_degC) +
                    r290_suction_cp_kJ_per_kgK * superheat_K;
  const double dew =
      r290_liquid_kJ_per_kg(condensing_degC) + r290_evaporation_heat_kJ_per_kg(condensing_degC);
  CycleFigures out;
  out.kg_per_s = c.kg_per_s;
  out.cooling_kJ_per_kg = h1 - r290_liquid_kJ_per_kg(condensing_degC - subcooling_K);
  out.cooling_W = 1000.0 * c.kg_per_s * out.cooling_kJ_per_kg;
  out.power_W = 1000.0 * c.kg_per_s * c.work_kJ_per_kg;
  out.discharge_degC =
      condensing_degC + (h1 + c.work_kJ_per_kg - dew) / r290_discharge_cp_kJ_per_kgK(condensing_degC);
  return out;
}

void prepare_condenser(const ChillerSpec& spec, CycleBoundary& s) {
  const ChillerHealth& k = s.health;
  const double rated_W_per_K = 1200.0 * spec.condenser_air_m3_per_s;  // 1.2 kg/m3, 1 kJ/(kg K)
  const double clean_ua =
      -rated_W_per_K * std::log1p(-std::min(0.95, spec.condenser_W_per_K / rated_W_per_K));
  const double flow = std::max(0.05, s.speed_norm * k.fan_norm * (1.0 - 0.7 * k.condenser_fouling_norm));
  const double ua = clean_ua * std::pow(flow, 0.6) * (1.0 - 0.3 * k.condenser_fouling_norm);
  s.air_W_per_K = rated_W_per_K * flow;
  s.condenser_W_per_K = -s.air_W_per_K * std::expm1(-ua / s.air_W_per_K);
}

CycleRate cycle_rate(const ChillerSpec& spec, const CycleBoundary& s, const CycleState& at) {
  const Saturated sat = saturated(at);
  const LowSide low = low_side(spec, s, at, sat);
  const Charge charge = share_charge(spec, s.health, at, sat.vapour_e, sat.vapour_c, sat.liquid_c);
  const Condenser high = condenser(s, at, sat, low, charge);

  // Liquid into the suction line cools what returns too hot; the evaporator gets the rest.
  const double returned_kJ_per_kg = low.boiled_kJ_per_kg + r290_suction_cp_kJ_per_kgK * low.superheat_K;
  const double injected =
      (returned_kJ_per_kg - low.suction_kJ_per_kg) / (returned_kJ_per_kg - high.leaving_kJ_per_kg);
  const double through_kg_per_s = low.kg_per_s * (1.0 - injected);
  const double boiling_W_per_K = low.film_W_per_K * (1.0 - low.dry_norm);
  const double boiling_need_W = 1000.0 * through_kg_per_s * (low.boiled_kJ_per_kg - high.leaving_kJ_per_kg);
  const double opening = valve_opening(spec, s.health, low.superheat_K, at.evaporating_degC);
  const double valve = valve_kg_per_s(spec, s.health, sat, charge, opening, high.subcooling_K);

  CycleRate out;
  out.per_s.evaporating_degC =
      (boiling_W_per_K * low.span_K - boiling_need_W) / evaporator_J_per_K(spec, low.dry_norm);
  out.per_s.condensing_degC = (high.to_condense_W - high.condensed_W) / (8.0 * spec.condenser_W_per_K);
  const double drying_per_s =
      (through_kg_per_s - valve) / (liquid_in_evaporator * 528.0 * spec.evaporator_m3);
  out.per_s.dry_norm = drying_per_s * room_norm(at.dry_norm, drying_per_s);

  ChillerGauges& g = out.gauges;
  g.evaporating_degC = at.evaporating_degC;
  g.condensing_degC = at.condensing_degC;
  g.suction_bar = sat.pe_bar;
  g.discharge_bar = sat.pc_bar;
  g.superheat_K = low.superheat_K;
  g.suction_degC = at.evaporating_degC + low.suction_K;
  g.subcooling_K = high.subcooling_K;
  g.discharge_degC = at.condensing_degC + high.hot_K;
  g.valve_norm = opening;
  g.flash_norm = charge.vapour_norm;
  g.flow_kg_per_s = low.kg_per_s;
  g.evaporator_W_per_K =
      boiling_W_per_K + 1000.0 * through_kg_per_s * r290_suction_cp_kJ_per_kgK * low.dry_share;
  g.cooling_W = 1000.0 * low.kg_per_s * (low.suction_kJ_per_kg - high.leaving_kJ_per_kg);
  g.compressor_W = 1000.0 * low.kg_per_s * low.work_kJ_per_kg;
  g.air_on_degC = s.air_degC;
  g.air_off_degC = s.air_degC + (high.condensed_W + high.hot_W + high.subcooled_W) / s.air_W_per_K;
  return out;
}

ChillerGauges advance_cycle(const ChillerSpec& spec, const CycleBoundary& setting, CycleState& circuit,
                            double dt_s) {
  constexpr double gamma = 1.0 - 0.70710678118654752;
  const CycleRate now = cycle_rate(spec, setting, circuit);
  // 1 - gamma dt J, the Jacobian by differences.
  Eigen::Matrix3d a;
  const Eigen::Vector3d nudge(-0.02, 0.02, 0.001);
  for (Eigen::Index j = 0; j < 3; ++j) {
    CycleState beside = circuit;
    part(beside, j) += nudge[j];
    CycleRate there = cycle_rate(spec, setting, beside);
    CycleRate here = now;
    for (Eigen::Index i = 0; i < 3; ++i)
      a(i, j) = -gamma * dt_s * (part(there.per_s, i) - part(here.per_s, i)) / nudge[j];
    a(j, j) += 1.0;
  }
  const Eigen::PartialPivLU<Eigen::Matrix3d> factored(a);
  const auto stage = [&](const CycleState& rate, const Eigen::Vector3d& less) -> Eigen::Vector3d {
    return factored.solve(Eigen::Vector3d(rate.evaporating_degC, rate.condensing_degC, rate.dry_norm) - less);
  };
  const Eigen::Vector3d first = stage(now.per_s, Eigen::Vector3d::Zero());
  const CycleState there = moved(setting, circuit, dt_s * first);
  const Eigen::Vector3d second = stage(cycle_rate(spec, setting, there).per_s, 2.0 * first);
  circuit = moved(setting, circuit, dt_s * (1.5 * first + 0.5 * second));
  return cycle_rate(spec, setting, circuit).gauges;
}

}  // namespace stirbench::refrigeration
