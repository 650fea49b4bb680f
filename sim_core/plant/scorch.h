#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// What milk and sweet mixes leave on the heated wall: in every hot batch a white film, of which the salts
// stay as milk stone when alkali has taken the protein, and burnt matter when the wall is too hot.
namespace stirbench::plant {

// Growth of burnt matter [kg/(m2 s)]: r120 exp((t_wall - 120) / 7 K) / (1 + shear / 2 1/s) x [1 -
// exp(-(t_wall - t_product) / 5 K)]. r120 = 7e-4 x (protein + sugars + starch, share of mass) / 0.2, at most
// 1.4e-3; water leaves no deposit. Product sticks where heat enters it: a wall that is no hotter than the
// product gains no deposit, however warm both are. Browning and a burnt taste begin at a wall of 100 to 110
// degC (from memory); the rate is an engineering choice, set so that full heat with the agitator stopped
// scorches within minutes.
double scorch_kg_per_m2s(double r120_kg_per_m2s, double wall_degC, double product_degC, double shear_per_s);
double scorch_reference_kg_per_m2s(const product::PerComponent& mass_kg);

// Growth of the white film [kg/(m2 s)] from milk of 3.3 % protein: a resistance of 2e-4 m2 K/W in an hour at
// a wall of 95 degC, activation energy 89 kJ/mol (Fryer & Slater 1985; both from memory, the rate within a
// factor of 5), below 70 degC none. A resting product leaves up to four times as much as a moving one (half
// the flow left four times as much in a heated pipe, J Dairy Sci 1968 51:520). `protein_norm`: milk protein,
// share of mass.
double film_kg_per_m2s(double protein_norm, double wall_degC, double product_degC, double shear_per_s);

// Salts, mostly calcium phosphate, in what grows so: type A deposit of walls of 75 to 110 degC is 30 to 40 %
// mineral (Burton 1968, Lyster 1965; from memory). Fresh deposit comes off by 50 to 90 %, a sublayer rich in
// minerals stays (J Dairy Res 1989 56:201): here all of the salts, 65 % come off.
inline constexpr double mineral_share_norm = 0.35;

// Share of the stone that acid reaches through the protein over it: all where that is gone, a twentieth
// where it is thicker than 10 um (choice). Acid before alkali does little.
double stone_reached_norm(double protein_film_kg_per_m2);

// A white-grey bloom is seen on the wall: stone of more than 4 g/m2 (choice), and more of it than protein.
inline constexpr double bloom_kg_per_m2 = 0.004;
bool shows_bloom(const PlantState& state);

// Thermal resistance [m2 K/W]: of burnt matter, thickness at 1100 kg/m3 over 0.35 W/(m K); of the film, stone
// included, at 1030 kg/m3 over 0.5 W/(m K) (from memory); of all on the wall.
double deposit_m2K_per_W(double deposit_kg_per_m2);
double film_m2K_per_W(double film_kg_per_m2);
double layers_m2K_per_W(const PlantState& state);

// Grows both. Flow wears burnt matter off into the product with a time constant of half an hour; it remains
// part of the product's mass (tens of grams), the deposit only says where it is. The film's protein stays
// until alkali takes it, its salts until acid does.
void scorch(const MachineSpec& spec, PlantState& state, double shear_per_s, double dt_s);

}  // namespace stirbench::plant
