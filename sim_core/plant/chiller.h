#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// Vapour-compression chiller with R-290 (propane).
namespace stirbench::plant {

// Saturation of R-290, -40..70 degC, fits of the physics reference (section 8) to Lemmon et al. 2009:
// pressure 0.46 %, heat of evaporation +-1.2 kJ/kg, vapour density 0.25 %. Liquid enthalpy (200 kJ/kg at 0
// degC): own cubic through the reference's cycle table, within 0.3 kJ/kg of it for 0..50 degC. Evaluated at
// the nearest of -45..75 degC outside.
double r290_pressure_bar(double t_degC);
double r290_saturation_degC(double pressure_bar);
double r290_evaporation_heat_kJ_per_kg(double t_degC);
double r290_vapour_kg_per_m3(double t_degC);
double r290_liquid_kJ_per_kg(double t_degC);

// Simple cycle: m = eta_v V rho1, eta_v = 1 + c - c (pc/pe)^(1/1.13), Qe = m (h1 - h3),
// W = m w_s / eta, w_s = n/(n-1) p1 v1 [(pc/pe)^((n-1)/n) - 1] with n = 1.06 (chosen against the reference's
// table, within 1.5 % there). Superheated suction vapour: cp 1.75 kJ/(kg K), density -0.5 % per K. eta takes
// the motor in.
struct Cycle {
  double cooling_W = 0.0;
  double power_W = 0.0;
  double cooling_kJ_per_kg = 0.0;
};
Cycle r290_cycle(const ChillerSpec& spec, double evaporating_degC, double condensing_degC);

// Where evaporator, compressor and condenser agree: Qe = UAe (load - Te), Qe + W = UAc (Tc - ambient).
// Above the expansion valve's maximum operating pressure Te stays there and the compressor's capacity is what
// counts.
struct Balance {
  double evaporating_degC = 0.0;
  double condensing_degC = 0.0;
  Cycle cycle;
};
// Quasi-Newton from `start`, `steps` times.
Balance chiller_balance(const ChillerSpec& spec, double load_degC, double ambient_degC, Balance start,
                        int steps);

// Once a second: relays and cut-outs, saturation temperatures (lag 8 s running, 30 s at rest), capacity and
// power. A pressure cut-out opens by itself again when the pressures are back and the minimum rest has
// passed.
void refresh_chiller(const MachineSpec& spec, PlantState& state, bool wanted, double elapsed_s);

// Heat that the refrigerant takes from the evaporator now [W].
double chiller_heat_W(const MachineSpec& spec, const PlantState& state);

}  // namespace stirbench::plant
