#pragma once

#include <string>

// The chiller as content describes it: compressor, evaporator, condenser, valve, switches. Constant during a
// session.
namespace stirbench::refrigeration {

struct ChillerSpec {
  std::string refrigerant;      // "R-290"
  double swept_m3_per_h = 0.0;  // displacement of the compressor
  double clearance_norm = 0.0;
  double isentropic_norm = 0.0;     // overall isentropic efficiency incl. motor
  double evaporator_W_per_K = 0.0;  // refrigerant to evaporator wall
  double evaporator_mass_kg = 0.0;
  double evaporator_cp_J_per_kgK = 0.0;
  double wall_W_per_K = 0.0;  // evaporator to vat/well wall contact
  double condenser_W_per_K = 0.0;
  double isentropic_falloff_norm = 0.0;  // loss of efficiency away from a pressure ratio of 3
  double evaporator_m3 = 0.0;            // what the refrigerant has for room
  double condenser_m3 = 0.0;
  double charge_kg = 0.0;
  double condenser_air_m3_per_s = 0.0;
  double valve_area_m2 = 0.0;             // expansion valve fully open, discharge coefficient included
  double valve_static_superheat_K = 0.0;  // superheat at which it begins to open
  double valve_gradient_K = 0.0;          // from there to fully open
  double suction_limit_degC = 0.0;        // liquid is let into the suction line when the gas returns hotter
  double equalise_s = 0.0;                // pressures at rest, through valve and bleed
  double compressor_idle_A = 0.0;         // magnetising current
  double high_pressure_cutout_bar = 0.0;  // absolute
  double low_pressure_cutout_bar = 0.0;
  double fan_W = 0.0;
  double minimum_off_s = 0.0;             // short-cycle protection
  double maximum_evaporating_degC = 0.0;  // the expansion valve throttles above (maximum operating pressure)
};

}  // namespace stirbench::refrigeration
