#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// Temperatures that a hand meets outside the machine.
namespace stirbench::plant {

// Room air and radiation on the outside, together, in still air [W/(m2 K)] (choice, the usual
// value for it).
inline constexpr double outside_W_per_m2K = 9.0;

// Outside of an insulated wall [degC]. Between wall and room lie the insulation and the outside's film in
// series; their sum is 1 / loss_W_per_K: t = room + loss / (9 A) (wall - room).
double outside_degC(double wall_degC, double room_degC, double loss_W_per_K, double area_m2);
double vat_outside_degC(const MachineSpec& spec, const PlantState& state);
double well_outside_degC(const MachineSpec& spec, const PlantState& state);

// Bare parts that a hand can meet. Rim, draw valve, drain and pump body have no insulation: with product in
// the machine they have its temperature, without it that of the wall that they sit on.
enum class BarePart : std::uint8_t { lid, rim, draw_valve, drain, pump, count };
double bare_part_degC(const PlantState& state, BarePart part);

}  // namespace stirbench::plant
