#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"
#include "sim_core/product/composition.h"

// The physical machine's step. Order and reasons in plant.cpp.
namespace stirbench::plant {

// A clean, empty, dry machine at room temperature.
PlantState initial_state(const MachineSpec& spec, const Environment& environment);

// Product temperature as the controller shows it: the probe's, with the errors of sensor circuit and
// controller.
double probe_reading_degC(const PlantState& state);

// Advances the plant by dt_s (0 < dt_s <= 1): drive, pump and draw line, heat, chiller, product, wear.
// Energy and mass are conserved by construction; the ledgers are updated. The actuators are trusted: what
// interlocks, trips and supply leave of them is decided before (electrical_link.h).
void step(const MachineSpec& spec, PlantState& state, const Actuators& relays, double dt_s);

// Pours in `kg` of an ingredient at t_degC. The caller has checked that the lid is open. What exceeds the
// brim spills.
void pour(const MachineSpec& spec, PlantState& state, const product::Ingredient& ingredient, double kg,
          double t_degC);

// Resets by hand at the machine.
void reset_overload(PlantState& state);
void reset_cutout(const MachineSpec& spec, PlantState& state);

double fill_L(const PlantState& state);
double fill_L(const PlantState& state, double total_kg);  // when the mass is at hand
double product_degC(const PlantState& state);             // mass-weighted mean of well and vat

// Energy stored in product, walls, elements, evaporator, lid above 0 degC [J], from the state alone.
double stored_J(const MachineSpec& spec, const PlantState& state);
double residual_J(const MachineSpec& spec, const PlantState& state);
// Mass that the account does not explain [kg]; 0 except for rounding.
double mass_residual_kg(const PlantState& state);

}  // namespace stirbench::plant
