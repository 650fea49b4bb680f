#pragma once

#include <string_view>

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"
#include "sim_core/plant/zones.h"
#include "sim_core/product/product.h"

// The batch freezer that the transfer hose fills: a horizontal cylinder, a dasher that scrapes and beats, and
// a direct-expansion unit of its own.
//
//   dH/dt = -Q_refrigerant + P_dasher + UA_room (ambient - t)
//
// with H of the partly frozen product (product/freezing.h), so that the freezing point falls as ice forms.
// The heat capacity of the wall's metal is neglected (4 kJ/K, 2 % of the charge's). Advanced once a second;
// mass moves with the tick. The selector decides what a start means: dasher and refrigeration, the dasher
// alone, or both only while a ready charge has warmed up (FreezerSetting). With the outlet gate open the
// dasher keeps turning and the refrigeration stops, so that the last litre does not freeze hard while the
// first is drawn. The guard of the lid in front stops the freezer while the lid is open. The drain at the
// lowest point leads to the gully; if it is left open, the charge runs out there.
namespace stirbench::plant {

// Overrun [1] = volume of air over volume of the mix that holds it.
double mix_L(const FreezerState& state);
double overrun_norm(const FreezerState& state);
// Weight of a litre, as a person weighs it in a cup [kg/L]; 0 when empty.
double kg_per_L(const FreezerState& state);
// Share of the water that is ice.
double frozen_water_norm(const FreezerState& state);
// The highest overrun that this mix, charge and way of working allow; see freezer.cpp.
double attainable_overrun_norm(const FreezerSpec& spec, const FreezerState& state);
// Crystal size as the tongue feels it: coarser with flakes that froze on the wall [um].
double texture_um(const FreezerState& state);

// off: stopped. filling: mix comes in, or the charge waits with the inlet open. freezing, ready: dasher and
// refrigeration on; ready once the temperature or torque that ends freezing was reached. emptying: gate open.
enum class FreezerMode : std::uint8_t { off, filling, freezing, ready, emptying };
FreezerMode freezer_mode(const FreezerState& state);
const char* freezer_mode_name(FreezerMode mode);

std::string_view freezer_setting_word(FreezerSetting setting);  // "freeze", "dasher", "keep"

void start_freezer(FreezerState& state);
void stop_freezer(FreezerState& state);
// Possible once the motor has cooled to half.
bool may_reset_freezer(const FreezerState& state);
void reset_freezer(FreezerState& state);
void empty_tub(FreezerState& state);

// Mix from the hose; what the cylinder cannot hold overflows at the inlet onto the floor (`floor_kg` grows).
void charge_freezer(const FreezerSpec& spec, PlantState& state, const TakenLiquid& mix);

// Rinse water poured through the open lid; what remains of it ends up in the next charge.
void pour_water(const FreezerSpec& spec, PlantState& state, double kg, double degC);

// One tick of the freezer: gate, overflow, and once a second heat, ice, air, torque.
void step_freezer(const MachineSpec& spec, PlantState& state, double dt_s);

// What the accounts cannot explain; 0 but for rounding.
double freezer_residual_J(const FreezerState& state);
double freezer_mass_residual_kg(const FreezerState& state);

}  // namespace stirbench::plant
