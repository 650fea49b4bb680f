#pragma once

#include "sim_core/plant/zones.h"
#include "sim_core/product/viscosity.h"

// Circulation pump, prime, draw valve, hose.
namespace stirbench::plant {

// Darcy friction factor for all regimes (Churchill 1977): f = 8 [(8/Re)^12 + (A + B)^-1.5]^(1/12),
// A = {2.457 ln 1/[(7/Re)^0.9 + 0.27 e/D]}^16, B = (37530/Re)^16. Re > 0.
double churchill_friction(double reynolds, double relative_roughness);

// Pressure loss [Pa] of a smooth pipe for a power-law liquid: (f L/D + K) rho v^2 / 2 with Metzner-Reed's
// Reynolds number rho v^(2-n) D^n / (8^(n-1) K ((3n+1)/4n)^n).
double pipe_loss_Pa(const product::PowerLaw& law, double density_kg_per_m3, double bore_m, double length_m,
                    double fittings_K, double flow_m3_per_s);
// Plunger valve as an orifice of the opened share of its bore: rho Q^2 / (2 Cd^2 A^2), Cd 0.61, plus
// Sampson's viscous 3 mu Q / a^3 with a = radius of the same area. `opening_norm` > 0.
double valve_loss_Pa(double viscosity_Pa_s, double density_kg_per_m3, double bore_m, double opening_norm,
                     double flow_m3_per_s);

// Laminar part of the loss [Pa] in a valve's body, of Hooper's two constants the K1: K1 / Re rho v^2 / 2 on
// the bore, with Metzner-Reed's Reynolds number. K1 of fully open valves: ball 500, plug and diaphragm 1000,
// globe 1500 (Hooper 1981).
double body_loss_Pa(const product::PowerLaw& law, double laminar_K1, double bore_m, double flow_m3_per_s);
// Hooper's two-K resistance of a fitting: K1 / Re + K_inf (1 + 1 / bore in inches).
double hooper_K(double laminar_K1, double turbulent_K, double reynolds, double bore_m);

// Loop of the circulation pump: dp = loss_rated [(Q/Qr)^2 + 0.02 (mu / 1 mPa s) Q/Qr] / 1.02; Qr =
// displacement x rated speed. The 0.02 follows from Hooper's constants for half a metre of 16 mm bore with
// two elbows and a plug's port (sum of K1 about 4600); bore and length are engineering choices. Slip back
// through the pump: k dp (1 mPa s / mu), at most k sqrt(dp x 1 bar) (orifice law); above shut_off_bar the
// vanes fold and any further flow slips. The form is that of slit flow, the figures are engineering choices.
// Such a pump moves what it displaces: with the draw open, thick product is held back in the loop as much as
// in the valve, so with the agitator on, cold product is not drawn more slowly than warm product.
struct PumpPoint {
  double circulation_L_per_min = 0.0;
  double pressure_bar = 0.0;
};
// `outflow_L_per_min` leaves the pump's outlet through the draw line.
PumpPoint pump_point(const MachineSpec& spec, double viscosity_Pa_s, double agitator_rpm,
                     double outflow_L_per_min, double slip_factor = 1.0, double loss_factor = 1.0);

// Loss of the transfer hose [Pa], fittings K 1.5; a kink is an orifice of a fifth of its bore (choice), with
// valve_loss_Pa's law.
double hose_loss_Pa(const MachineSpec& spec, const PlantState& state, const product::PowerLaw& law,
                    double flow_m3_per_s);
inline constexpr double kinked_norm = 0.2;

// Height of the surface above the draw valve [m].
double draw_head_m(const MachineSpec& spec, double fill_L);

// Flow of the draw line [m3/s] with its valve and hose as they are, driven by head and pump; 0 without drive.
double draw_flow_m3_per_s(const MachineSpec& spec, const PlantState& state, const product::PowerLaw& law,
                          double agitator_rpm);

// Prime of the pump: lost within seconds while it turns below prime_L, regained within seconds above.
void advance_prime(const MachineSpec& spec, PlantState& state, double fill, double dt_s);
// What leaves the draw line during dt goes into the pail, or through the hose to the freezer.
void draw(const MachineSpec& spec, PlantState& state, double dt_s);
// Rinse water in.
void rinse(const MachineSpec& spec, PlantState& state, double dt_s);

}  // namespace stirbench::plant
