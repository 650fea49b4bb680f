#pragma once

#include "sim_core/refrigeration/chiller_spec.h"
#include "sim_core/refrigeration/chiller_state.h"

// The refrigerant circuit: compressor, condenser, expansion valve, evaporator, and the charge that they
// share.
namespace stirbench::refrigeration {

// Compressor: m = eta_v V rho1, eta_v = 1 + c - c (pc/pe)^(1/1.13); work w_s / eta, w_s = n/(n-1) p1 v1
// [(pc/pe)^((n-1)/n) - 1] with n = 1.06 (chosen against the reference's table, within 1.5 % there), eta =
// isentropic_norm [1 - falloff (ln(pc/pe / 3))^2], not below a third of it, the motor's losses included.
// cooling = m (h1 - h3).
struct CycleFigures {
  double kg_per_s = 0.0;
  double cooling_W = 0.0;
  double power_W = 0.0;
  double cooling_kJ_per_kg = 0.0;
  double discharge_degC = 0.0;
};
CycleFigures r290_cycle(const ChillerSpec& spec, double evaporating_degC, double condensing_degC,
                        double superheat_K, double subcooling_K);

// The circuit's boundary conditions, and its health.
struct CycleBoundary {
  double load_degC = 22.0;  // wall of the evaporator
  double air_degC = 22.0;   // air onto the condenser
  double speed_norm = 1.0;  // compressor and fan, by the supply's frequency
  ChillerHealth health;
  // Computed by prepare_condenser():
  double condenser_W_per_K = 0.0;  // of the whole condenser, including the warming of the air
  double air_W_per_K = 0.0;        // heat capacity flow of the air
};
// Condenser: air flow = fan x (1 - 0.7 fouling), at least 5 % of the rated one (draught); UA ~ flow^0.6 x (1
// - 0.3 fouling); effective conductance C (1 - exp(-UA / C)), which is condenser_W_per_K when clean.
void prepare_condenser(const ChillerSpec& spec, CycleBoundary& setting);

// The slow states of a running circuit. dry_norm: share of the evaporator that holds only vapour; below 0 the
// suction gas is wet (-0.1: a tenth of it is liquid).
struct CycleState {
  double evaporating_degC = 22.0;
  double condensing_degC = 22.0;
  double dry_norm = 0.5;
};

// A running circuit at one moment: how it changes, and what gauges show.
//   evaporator: boiling part UA (1 - dry) (load - Te) against m (h_g - h3); dry part: superheat = (load - Te)
//     [1 - exp(-0.15 UA dry / (m cp))] (a gas film conducts about 15 % as well as boiling: choice). Gas that
//     returns hotter than suction_limit_degC is cooled by liquid injected into the suction line, which is
//     then missing in the evaporator.
//   condenser: liquid fills the share s of it, hot gas needs a share of its own (70 % of the condensing film,
//     choice); the rest condenses. Subcooling = (Tc - air) [1 - exp(-0.5 UA s / (m cp))] (choice).
//   charge: what the evaporator (12 % of its boiling part is liquid) and the condensing part (22 %) do not
//     hold collects as liquid in the condenser; when there is none, vapour reaches the valve instead. Shares:
//     choice, of the order of published void fractions at such mass flows.
//   valve: m = A opening sqrt(2 (pc - pe) / v_inlet), v of the mixture; opening = (superheat - static) /
//     gradient, shut above the maximum operating pressure (over a band of 3 K); a restriction is in series.
//   rates: evaporator and condenser have a heat capacity of 8 s times their conductance; the evaporator's
//     falls to a tenth of that as it dries (liquid keeps the pressure up by boiling, gas alone is drawn off
//     within seconds: choice); the evaporator's liquid by its mass balance, which fades out over the last
//     0.02 towards dry 0.998 and -0.3.
struct CycleRate {
  CycleState per_s;
  ChillerGauges gauges;
};
CycleRate cycle_rate(const ChillerSpec& spec, const CycleBoundary& setting, const CycleState& at);

// One Rosenbrock step of second order (two stages, gamma 1 - 1/sqrt 2, so damped for any dt > 0; numerical
// Jacobian), kept within the circuit's legal range: Te -44 .. load, Tc air .. 79 degC (or where it was left
// beyond these after a rest), dry -0.3 .. 0.998. The gauges are those at the end of the step.
ChillerGauges advance_cycle(const ChillerSpec& spec, const CycleBoundary& setting, CycleState& circuit,
                            double dt_s);

}  // namespace stirbench::refrigeration
