#pragma once

#include "sim_core/plant/upkeep/bushing.h"

// What turns wears: both bushings (bushing.h) and the pump's vanes (vanes.h), by how the fill wets them.
namespace stirbench::plant {

// How well the fill wets each, 0..1: the agitator's foot is at the bottom of the vat, the shaft end and the
// pump in the well.
struct Wetting {
  double agitator_norm = 0.0;
  double shaft_end_norm = 0.0;
};
Wetting wetting(const MachineSpec& spec, const PlantState& state);

double bushings_torque_Nm(const MachineSpec& spec, const PlantState& state);
// Bushings and dry vanes: all that rubs on the shaft.
double rubbing_torque_Nm(const MachineSpec& spec, const PlantState& state);

// What is heard of dry rubbing, 0 quiet .. 1: the driest of bushings and vanes that turn. It squeals at once.
double squeal_norm(const MachineSpec& spec, const PlantState& state);

// A shaft whose rubbing has changed by a hundredth of what it turns against is no longer steady.
void advance_wear(const MachineSpec& spec, PlantState& state, double dt_s);

}  // namespace stirbench::plant
