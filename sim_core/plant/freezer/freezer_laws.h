#pragma once

#include "sim_core/plant/spec.h"

// The freezer's correlations as pure functions.
namespace stirbench::plant {

// Scraped surface by the penetration model: each blade removes the film, and a fresh one is cooled until the
// next blade:
//   h = 2 sqrt(k rho cp N B / pi) [W/(m2 K)], N turns a second, B blades.
// Latinen 1958 and Harriott 1959, from memory. An upper bound: thick product is measured at about half
// (Skelland 1958, from memory), which the freezer uses.
double scraped_W_per_m2K(double conductivity_W_per_mK, double density_kg_per_m3,
                         double heat_capacity_J_per_kgK, double turns_per_s, int blades);

// Krieger & Dougherty 1959: (1 - phi / phi_max)^(-intrinsic phi_max); phi is held at 0.97 phi_max.
double krieger_dougherty(double phi, double phi_max = 0.64, double intrinsic = 2.5);

// Direct-expansion unit: capacity_W x (1 + 0.035 / K (Te - rated)), from -35 degC up to the maximum operating
// temperature; the slope is that of small compressors near -20 degC (from memory, 3..4 % per kelvin).
struct Refrigeration {
  double evaporating_degC = 0.0;
  double taken_W = 0.0;
};
// `wall_W_per_K`: total conductance from the product to the boiling refrigerant.
Refrigeration refrigeration(const FreezerSpec& spec, double product_degC, double wall_W_per_K);

// Flow through an open drain of 15 mm bore and 100 mm length under a head: orifice (C = 0.6, Torricelli) and
// pipe friction (Hagen-Poiseuille) in series, 1 / Q = 1 / Q_orifice + 1 / Q_pipe [L/min].
double drain_L_per_min(double head_m, double viscosity_Pa_s, double density_kg_per_m3);

// Torque of a dasher whose blades are frozen to the wall [Nm]: ice beyond the densest packing of loose
// crystals (0.64 of the volume) bonds. tau x 2 % of the wall in contact x the radius of a cylinder twice as
// long as wide, tau growing to 0.3 MPa (ice on steel 0.1 .. 1 MPa, from memory).
double frozen_in_Nm(double ice_volume_norm, double wall_area_m2);

// Overrun by weight: mass of a litre of mix over that of a litre of frozen product, less 1 (the usual
// definition in dairy textbooks). Both > 0.
double overrun_by_weight(double mix_kg_per_L, double frozen_kg_per_L);
// Volume [L] that `mix_kg` fills at an overrun.
double frozen_volume_L(double mix_kg, double mix_kg_per_L, double overrun);

}  // namespace stirbench::plant
