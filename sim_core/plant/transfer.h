#pragma once

// Heat-transfer correlations as pure functions.
namespace stirbench::plant {

// Stirred wall, Nu = h T / k (T = vessel diameter): a Re^(2/3) Pr^(1/3) for Re >= 100, below that 2.154 a
// Re^(1/2) Pr^(1/3), which meets it at Re = 100 (Penney & Atiemo-Obeng, Handbook of Industrial Mixing 2004,
// ch. 14.4: anchor 0.32 and 0.69). The factor (mu/mu_wall)^0.14 is left out: within 10 % here.
double stirred_nusselt(double a, double reynolds, double prandtl);

// Churchill & Chu, vertical plate, any Ra <= 1e12: {0.825 + 0.387 Ra^(1/6) / [1 +
// (0.492/Pr)^(9/16)]^(8/27)}^2.
double vertical_plate_nusselt(double rayleigh, double prandtl);

// Horizontal plate, hot side up, turbulent: h = 0.15 k (g beta dT / (nu alpha))^(1/3) [W/(m2 K)], independent
// of size (Geankoplis sec. 4.7: 0.15 Ra^(1/3) for Ra 1e7..1e11; used below that too).
double horizontal_plate_W_per_m2K(double conductivity_W_per_mK, double beta_per_K, double delta_K,
                                  double kinematic_m2_per_s, double diffusivity_m2_per_s);

// Developed nucleate boiling of water at 1 atm [W/m2]: Rohsenow 1952, q = mu h_fg sqrt(g (rho_l - rho_v) /
// sigma) [cp dT / (C h_fg Pr)]^3 with water's properties at 100 degC (Incropera & DeWitt, from memory) =
// 136.9 dT^3 for C = 0.013, water on stainless steel (from memory); not above the critical flux of 1 MW/m2.
double rohsenow_W_per_m2(double superheat_K, double surface_C = 0.013);

// Superheat of the wall [K] at which bubbles first grow under a flux, and back, water at 1 atm: Bergles &
// Rohsenow 1964 (from memory), q = 1082 p^1.156 (1.8 dT)^(2.16 / p^0.0234), p in bar.
double boiling_onset_K(double W_per_m2);

// What boiling adds to a flux that convection carries from a wall so much hotter than the boiling point
// [W/m2]: Bergles & Rohsenow 1964 (from memory), q = sqrt(qc^2 + (qb - qi)^2), qb developed boiling at this
// superheat, qi at that of the onset; 0 up to there. Colder liquid behind the wall delays the onset by what
// it makes convection carry, and takes the bubbles' heat in.
double boiling_extra_W_per_m2(double superheat_K, double convection_W_per_m2);

// Exchange flow [m3/s] through a horizontal opening of diameter d under a lighter, above a heavier liquid or
// the reverse: 0.055 sqrt(g' d^5) (Epstein 1988, thin opening, from memory) in series with a viscous limit
// 0.008 g' d^4 / nu (engineering choice). g' = g (rho_upper - rho_lower)/rho; <= 0 (stable layers): 0.
double passage_flow_m3_per_s(double reduced_gravity_m_per_s2, double diameter_m, double kinematic_m2_per_s);

// Grey body to large surroundings, as a conductance: eps sigma (T1^2 + T2^2)(T1 + T2) [W/(m2 K)].
double radiation_W_per_m2K(double emissivity, double surface_degC, double room_degC);
// Air at a horizontal surface near room temperature: 1.70 |dT|^(1/3), which is 0.15 Ra^(1/3) for air
// of 20..80 degC within 4 %.
double room_air_W_per_m2K(double delta_K);

}  // namespace stirbench::plant
