#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// Flexible vanes of the circulation pump. Dry they rub in their housing and are lost within 30 s to 2 min
// (from memory: friction of about 150 W into about 100 J/K, within a factor of two): C T' = M w - (T -
// wall) / R. Their tips glaze from glazes_degC on and are torn at torn_degC (choice: where nitrile rubber
// ages within the hour and within minutes, from memory), and the flow falls by 20 to 50 % for good. Glazed
// rubber is brittle: rubbing on, its tips break off at damage / tears_s (choice). In product they wear out
// over their life.
namespace stirbench::plant {

inline constexpr double glazes_degC = 100.0;
inline constexpr double torn_degC = 180.0;
inline constexpr double tears_s = 300.0;        // rubbing at torn_degC until nothing is left of whole tips
inline constexpr double torn_flow_norm = 0.5;   // of the flow, with vanes torn or worn out
inline constexpr double vanes_due_norm = 0.4;   // wear at which the flow has fallen by a fifth
inline constexpr double vanes_torn_norm = 0.9;  // from here on they are called torn

// Wear that a temperature leaves behind at once, 0..1.
double vane_damage_norm(double temperature_degC);
// Share of its flow that the pump still moves.
double vane_flow_norm(const VaneState& vanes);
// Displacement that is left, of vanes and coupling together: what the pump's flow goes by.
double pump_norm(const PlantState& state);

// Share by which the flow swings as the vanes pass: a missing one leaves a gap (choice, up to a third).
double vane_pulse_norm(const VaneState& vanes);

// Torque of dry vanes [N m], 0 in product (there it is the pump's own). Torn ones rub half as hard.
double vane_torque_Nm(const PumpSpec& spec, const VaneState& vanes, double wet_norm);
// In product the heat goes there at 20 W/K (choice).
void advance_vanes(const PumpSpec& spec, VaneState& vanes, double wet_norm, double bath_degC, double dry_degC,
                   double shaft_rad_per_s, double dt_s);
void replace_vanes(PlantState& state);

}  // namespace stirbench::plant
