#pragma once

// Resistance thermometers.
namespace stirbench::electrics {

// IEC 60751 platinum resistor of `Ohm_at_0`: R0 (1 + A t + B t2 + C (t - 100) t3 below 0 degC), A 3.9083e-3,
// B -5.775e-7, C -4.183e-12.
double pt_Ohm(double Ohm_at_0, double degC);
// Its inverse: closed form at and above 0 degC, Newton's steps below. Range -200 .. 850 degC; values outside
// are held at the ends.
double pt_degC(double Ohm_at_0, double Ohm);

// Thermistor: R25 exp[beta (1/T - 1/298.15 K)].
double ntc_Ohm(double Ohm_at_25, double beta_K, double degC);
double ntc_degC(double Ohm_at_25, double beta_K, double Ohm);

}  // namespace stirbench::electrics
