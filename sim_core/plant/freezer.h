#pragma once

#include <string_view>

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"
#include "sim_core/plant/zones.h"
#include "sim_core/product/product.h"

// The batch freezer that the transfer hose fills: a lying cylinder, a dasher that scrapes and beats, its own
// direct-expansion unit.
//
//   dH/dt = -Q_refrigerant + P_dasher + UA_room (ambient - t)
//
// with H of the part-frozen product (product/freezing.h), so that the freezing point falls as ice forms. The wall's
// metal has no heat capacity of its own (its 4 kJ/K are 2 % of the charge's). Advanced once a second; mass moves with
// the tick. Its selector says what a start means: dasher and refrigeration, the dasher alone, or both only while a
// ready charge has warmed (FreezerSetting). An open outlet gate leaves the dasher turning and stops the refrigeration, so that the last
// litre does not freeze hard while the first is drawn. The lid in front has a guard: it stands while the lid is open. The drain at the
// lowest point leads to the gully; left open, the charge goes there.
namespace stirbench::plant {

// Overrun [1] = air over the volume of the mix it stands in.
double mix_L(const FreezerState& state);
double overrun_norm(const FreezerState& state);
// Weight of a litre, as a person weighs it in a cup [kg/L]; 0 when empty.
double kg_per_L(const FreezerState& state);
// Share of the water that is ice.
double frozen_water_norm(const FreezerState& state);
// The best that this mix, charge and mode of working allow; see freezer.cpp.
double attainable_overrun_norm(const FreezerSpec& spec, const FreezerState& state);
// What the tongue makes of the ice: its crystals, coarser for the flakes that froze on the wall [um].
double texture_um(const FreezerState& state);

// off: at rest. filling: mix comes in, or the charge waits with the inlet open. freezing, ready: dasher and
// refrigeration on; ready once the stop rule's temperature or torque was reached. emptying: gate open.
enum class FreezerMode : std::uint8_t { off, filling, freezing, ready, emptying };
FreezerMode freezer_mode(const FreezerState& state);
const char* freezer_mode_name(FreezerMode mode);

std::string_view freezer_setting_word(FreezerSetting setting);  // "freeze", "dasher", "keep"

void start_freezer(FreezerState& state);
void stop_freezer(FreezerState& state);
// Works once the motor has cooled to half.
bool may_reset_freezer(const FreezerState& state);
void reset_freezer(FreezerState& state);
void empty_tub(FreezerState& state);

// Mix from the hose; what the cylinder cannot hold runs out of the inlet on to the floor (`floor_kg` grows).
void charge(const FreezerSpec& spec, PlantState& state, const Taken& mix);

// Water poured through the open lid, to rinse; what is left of it is in the next charge.
void pour_water(const FreezerSpec& spec, PlantState& state, double kg, double degC);

// One tick of the freezer: gate, overflow, and once a second heat, ice, air, torque.
void step_freezer(const MachineSpec& spec, PlantState& state, double dt_s);

// What the accounts cannot explain; 0 but for rounding.
double freezer_residual_J(const FreezerState& state);
double freezer_mass_residual_kg(const FreezerState& state);

}  // namespace stirbench::plant
