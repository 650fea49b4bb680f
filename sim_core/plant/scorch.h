#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// Scorching at the heated wall.
namespace stirbench::plant {

// Growth of the deposit [kg/(m2 s)]: r120 exp((t_wall - 120) / 12 K) / (1 + shear / 2 1/s) x [1 -
// exp(-(t_wall - t_product) / 5 K)]. r120 = 7e-4 x (protein + sugars + starch, share of mass) / 0.2, at most
// 1.4e-3; water leaves no deposit. Product sticks where heat enters it: a wall that is no hotter than the
// product gains no deposit, however warm both are. The slope lies between fouling by whey protein (wall above
// about 75 degC) and caramelising. Engineering choice throughout, set so that full heat with the agitator
// stopped scorches within minutes, and with the agitator turning does not.
double scorch_kg_per_m2s(double r120_kg_per_m2s, double wall_degC, double product_degC, double shear_per_s);
double scorch_reference_kg_per_m2s(const product::PerComponent& mass_kg);

// Thermal resistance of the deposit [m2 K/W]: thickness at 1100 kg/m3 over 0.35 W/(m K).
double deposit_m2K_per_W(double deposit_kg_per_m2);

// Grows the deposit; flow wears it off into the product with a time constant of half an hour. Burnt matter
// remains part of the product's mass (tens of grams); the deposit only says where it is.
void scorch(const MachineSpec& spec, PlantState& state, double shear_per_s, double dt_s);

}  // namespace stirbench::plant
