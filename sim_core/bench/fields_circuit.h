#pragma once

#include "sim_core/bench/pace_fields.h"

// The part of fields.h that visits the machine's state of health and its circuit (plant/condition.h).
namespace stirbench::bench {

template <typename V, typename T>
void visit_part(V& v, const char* name, const T& part);

template <typename V>
void visit(V& v, const plant::Condition& c) {
  const auto& [contact, insulation, lid_leak, grip, drag, friction, pump, slip, loop, air, bore, draw_leak, overload, cutout, probe_air,
               probe_tau, panel, condenser_air, thickness, pour, warm, soil, rinse] = c;
  v("element_contact_norm", contact);
  v("insulation_factor", insulation);
  v("lid_leak_factor", lid_leak);
  v("agitator_grip_norm", grip);
  v("gear_drag_Nm", drag);
  v("bushing_friction_factor", friction);
  v("pump_norm", pump);
  v("slip_factor", slip);
  v("loop_loss_factor", loop);
  v("air_leak_norm", air);
  v("draw_bore_norm", bore);
  v("draw_leak_norm", draw_leak);
  v("overload_setting_norm", overload);
  v("cutout_offset_K", cutout);
  v("probe_air_norm", probe_air);
  v("probe_tau_factor", probe_tau);
  v("panel_offset_K", panel);
  v("condenser_air_K", condenser_air);
  v("thickness_factor", thickness);
  v("pour_factor", pour);
  v("pour_warm_K", warm);
  v("soil_log10", soil);
  v("rinse_norm", rinse);
}

template <typename V>
void visit(V& v, const plant::wiring::Switchgear& g) {
  const auto& [pulled_in, tripped, defects, count] = g;
  v("pulled_in", pulled_in);
  v("tripped", tripped);
  for (std::uint32_t i = 0; i < count; ++i) {
    const auto& [kind, target, pole, value] = defects[i];
    v("defect_kind", kind, i);
    v("defect_target", target, i);
    v("defect_pole", pole, i);
    v("defect_value", value, i);
  }
  v("defect_count", count);
}

template <typename V>
void visit(V& v, const plant::wiring::Supplied& s) {
  const auto& [heaters, heat, drive_forward, drive_backward, drive_A, compressor_forward, compressor_backward, fan, controller, inputs,
               probe, evaporator, settled] = s;
  v("heaters_W", heaters);
  v("heat_norm", heat);
  v("drive_forward_norm", drive_forward);
  v("drive_backward_norm", drive_backward);
  v("drive_A", drive_A);
  v("compressor_forward_norm", compressor_forward);
  v("compressor_backward_norm", compressor_backward);
  v("fan_norm", fan);
  v("controller_on", controller);
  visit_array(v, "inputs", inputs);
  v("probe_Ohm", probe);
  v("evaporator_Ohm", evaporator);
  v("settled", settled);
}

template <typename V>
void visit(V& v, const plant::CircuitState& c) {
  const auto& [gear, supplied, probe_offset, fan, exact_probe, balanced, bits, supply, probe, shaft, compressor] = c;
  v.enter("gear.");
  visit(v, gear);
  v.leave();
  v.enter("supplied.");
  visit(v, supplied);
  v.leave();
  v("probe_offset_K", probe_offset);
  v("fan_on", fan);
  v("exact_probe", exact_probe);
  v("balanced", balanced);
  v("seen_bits", bits);
  v("seen_supply_norm", supply);
  v("seen_probe_degC", probe);
  v("seen_rad_per_s", shaft);
  v("seen_compressor_W", compressor);
}

template <typename V>
void visit(V& v, const plant::ActiveFault& f) {
  const auto& [mark, severity, there] = f;
  v("mark", mark);
  v("severity", severity);
  v("there", there);
}

template <typename V>
void visit_health(V& v, const plant::Condition& condition, const plant::CircuitState& circuit, const std::array<plant::ActiveFault, 4>& faults) {
  visit_part(v, "condition.", condition);
  visit_part(v, "circuit.", circuit);
  for (const plant::ActiveFault& fault : faults) visit_part(v, "faults.", fault);
}

}  // namespace stirbench::bench
