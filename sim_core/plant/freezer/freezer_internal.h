#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// Shared by the batch freezer's source files only.
namespace stirbench::plant {

constexpr double ice_kg_per_m3 = 917.0;  // ice Ih at 0 degC, IAPWS

// Mix, ice and air in the cylinder [L].
double contents_L(const FreezerState& state);
// Apparent viscosity at the dasher's shear rate, with the ice as a suspension in the unfrozen part.
double freezer_viscosity_Pa_s(const FreezerSpec& spec, const FreezerState& state);

// One tick of what runs through the gate into the tub, over the inlet onto the floor, and down the open
// drain.
void draw_into_tub(const FreezerSpec& spec, FreezerState& state, double dt_s);
void overflow_inlet(const FreezerSpec& spec, PlantState& state, double dt_s);
void empty_through_drain(const FreezerSpec& spec, FreezerState& state, double dt_s);

}  // namespace stirbench::plant
