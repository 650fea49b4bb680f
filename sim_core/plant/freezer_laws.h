#pragma once

#include "sim_core/plant/spec.h"

// The freezer's correlations as pure functions.
namespace stirbench::plant {

// Scraped surface by penetration: each blade wipes the film off, the next one has a fresh one to cool:
//   h = 2 sqrt(k rho cp N B / pi) [W/(m2 K)], N turns a second, B blades.
// Latinen 1958 and Harriott 1959, from memory. An upper bound: thick product is measured at about half (Skelland 1958, from
// memory), which the freezer uses.
double scraped_W_per_m2K(double conductivity_W_per_mK, double density_kg_per_m3, double heat_capacity_J_per_kgK,
                         double turns_per_s, int blades);

// Krieger & Dougherty 1959: (1 - phi / phi_max)^(-intrinsic phi_max); phi is held at 0.97 phi_max.
double krieger_dougherty(double phi, double phi_max = 0.64, double intrinsic = 2.5);

// Direct-expansion unit: capacity_W x (1 + 0.035 / K (Te - rated)), from -35 degC up to the maximum operating
// temperature; the slope is that of small compressors near -20 degC (from memory, 3..4 % a kelvin).
struct Refrigeration {
  double evaporating_degC = 0.0;
  double taken_W = 0.0;
};
// `wall_W_per_K`: from the product to the boiling refrigerant, all together.
Refrigeration refrigeration(const FreezerSpec& spec, double product_degC, double wall_W_per_K);

// Through an open drain of 15 mm bore and 100 mm length under a head, the orifice (C = 0.6, Torricelli) and the pipe's own
// friction (Hagen-Poiseuille) in series: 1 / Q = 1 / Q_orifice + 1 / Q_pipe [L/min].
double drain_L_per_min(double head_m, double viscosity_Pa_s, double density_kg_per_m3);

// Torque of a dasher whose blades are frozen to the wall [Nm]: once ice is more than the densest packing of loose crystals
// (0.64 of the volume) the rest of it bonds. tau x 2 % of the wall in contact x the radius of a cylinder twice as long as wide, tau growing to
// 0.3 MPa (ice on steel 0.1 .. 1 MPa, from memory).
double frozen_in_Nm(double ice_volume_norm, double wall_area_m2);

// Overrun by weight: a litre of mix over a litre of the frozen product, less 1 (Guelph's and every dairy book's
// definition). Both > 0.
double overrun_by_weight(double mix_kg_per_L, double frozen_kg_per_L);
// Volume [L] that `mix_kg` fills at an overrun, pieces not counted.
double frozen_volume_L(double mix_kg, double mix_kg_per_L, double overrun);

}  // namespace stirbench::plant
