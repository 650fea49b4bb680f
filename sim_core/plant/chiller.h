#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"
#include "sim_core/refrigeration/r290.h"
#include "sim_core/refrigeration/refrigerant_cycle.h"

// Vapour-compression chiller with R-290 (propane): the refrigerant's cycle (refrigerant_cycle.h), its
// switches and its rest.
namespace stirbench::plant {

// The circuit's present boundary conditions.
refrigeration::CycleBoundary cycle_setting(const MachineSpec& spec, const PlantState& state);

// Called at least every two seconds (pace.h): relays and pressure switches, and the circuit, running or at
// rest. At rest (equalise_s) refrigerant gathers in the coldest place and both sides approach its pressure,
// or that of the gas alone when the charge is too small for liquid. A pressure switch closes again by itself
// when the pressures are back in range and the minimum off time has passed.
void refresh_chiller(const MachineSpec& spec, PlantState& state, bool wanted, double elapsed_s);

// Line current of the compressor's three-phase motor [A]: active part P / (sqrt(3) V) and, at right angles,
// the magnetising part, which is proportional to the voltage.
double compressor_A(const MachineSpec& spec, double power_W, double supply_norm);

// Heat that the refrigerant takes from an evaporator at this temperature [W], `ahead_s` after the chiller's
// last refresh, extrapolated along its trend.
double chiller_heat_W(const PlantState& state, double evaporator_degC, double ahead_s);

}  // namespace stirbench::plant
