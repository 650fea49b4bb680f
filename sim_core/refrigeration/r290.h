#pragma once

// R-290 (propane): saturation, and the vapour properties that a simple cycle needs.
namespace stirbench::refrigeration {

// Saturation, -40..70 degC, fits of the physics reference (section 8) to Lemmon et al. 2009: pressure 0.46 %,
// heat of evaporation +-1.2 kJ/kg, vapour density 0.25 %. Liquid enthalpy (200 kJ/kg at 0 degC): own cubic
// through the reference's cycle table, within 0.3 kJ/kg of it for 0..50 degC; liquid density: own quadratic
// through its saturation table, 0.4 %. Evaluated at the nearest of -45..80 degC outside.
double r290_pressure_bar(double t_degC);
double r290_saturation_degC(double pressure_bar);
double r290_evaporation_heat_kJ_per_kg(double t_degC);
double r290_vapour_kg_per_m3(double t_degC);
double r290_liquid_kJ_per_kg(double t_degC);
double r290_liquid_kg_per_m3(double t_degC);

// Superheated vapour near saturation: cp 1.75 kJ/(kg K) at suction; density falls by 0.53 % per K.
inline constexpr double r290_suction_cp_kJ_per_kgK = 1.75;
double r290_superheated_share(double superheat_K);
// cp of hot gas at discharge, by the condensing temperature: 2.12 + 0.0165 (Tc - 35) kJ/(kg K), through the
// discharge temperatures of the reference's cycle table, within 1.5 K of them.
double r290_discharge_cp_kJ_per_kgK(double condensing_degC);

// Pressure of gas alone at room temperature, for a circuit without liquid: p V = m 188.6 J/(kg K) T (ideal).
double r290_gas_pressure_bar(double kg, double m3, double t_degC);

}  // namespace stirbench::refrigeration
