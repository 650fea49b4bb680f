#pragma once

#include "sim_core/machine/field.h"
#include "sim_core/plant/health.h"

// Fields of the machine's state of health, its circuit and its faults.
namespace stirbench::machine {

template <>
struct Fields<plant::Health> {
  using S = plant::Health;
  static constexpr auto list = std::tuple{field<&S::element_contact_norm>("element_contact_norm"),
                                          field<&S::insulation_factor>("insulation_factor"),
                                          field<&S::lid_leak_factor>("lid_leak_factor"),
                                          field<&S::agitator_grip_norm>("agitator_grip_norm"),
                                          field<&S::gear_drag_Nm>("gear_drag_Nm"),
                                          field<&S::bushing_friction_factor>("bushing_friction_factor"),
                                          field<&S::pump_norm>("pump_norm"),
                                          field<&S::slip_factor>("slip_factor"),
                                          field<&S::loop_loss_factor>("loop_loss_factor"),
                                          field<&S::air_leak_norm>("air_leak_norm"),
                                          field<&S::draw_bore_norm>("draw_bore_norm"),
                                          field<&S::draw_leak_norm>("draw_leak_norm"),
                                          field<&S::overload_setting_norm>("overload_setting_norm"),
                                          field<&S::cutout_offset_K>("cutout_offset_K"),
                                          field<&S::probe_air_norm>("probe_air_norm"),
                                          field<&S::probe_tau_factor>("probe_tau_factor"),
                                          field<&S::panel_offset_K>("panel_offset_K"),
                                          field<&S::condenser_air_K>("condenser_air_K"),
                                          field<&S::thickness_factor>("thickness_factor"),
                                          field<&S::pour_factor>("pour_factor"),
                                          field<&S::pour_warm_K>("pour_warm_K"),
                                          field<&S::soil_log10>("soil_log10"),
                                          field<&S::rinse_norm>("rinse_norm"),
                                          field<&S::seal_gap_norm>("seal_gap_norm")};
};

template <>
struct Fields<electrics::Defect> {
  using S = electrics::Defect;
  static constexpr auto list = std::tuple{field<&S::kind>("kind"), field<&S::target>("target"),
                                          field<&S::pole>("pole"), field<&S::value>("value")};
};

// Of the defects only those that are there: beyond the count the array is empty.
template <>
struct Fields<electrics::Switchgear> {
  using S = electrics::Switchgear;
  static constexpr auto list = std::tuple{field<&S::pulled_in>("pulled_in"), field<&S::tripped>("tripped"),
                                          counted_field<&S::defects, &S::defect_count>("defects"),
                                          field<&S::defect_count>("defect_count")};
};

template <>
struct Fields<electrics::CircuitOutputs> {
  using S = electrics::CircuitOutputs;
  static constexpr auto list = std::tuple{field<&S::heaters_W>("heaters_W"),
                                          field<&S::heat_norm>("heat_norm"),
                                          field<&S::drive_forward_norm>("drive_forward_norm"),
                                          field<&S::drive_backward_norm>("drive_backward_norm"),
                                          field<&S::drive_A>("drive_A"),
                                          field<&S::compressor_forward_norm>("compressor_forward_norm"),
                                          field<&S::compressor_backward_norm>("compressor_backward_norm"),
                                          field<&S::fan_norm>("fan_norm"),
                                          field<&S::controller_on>("controller_on"),
                                          field<&S::inputs>("inputs"),
                                          field<&S::probe_Ohm>("probe_Ohm"),
                                          field<&S::evaporator_Ohm>("evaporator_Ohm"),
                                          field<&S::settled>("settled")};
};

template <>
struct Fields<plant::CircuitState> {
  using S = plant::CircuitState;
  static constexpr auto list = std::tuple{field<&S::gear>("gear"),
                                          field<&S::supplied>("supplied"),
                                          field<&S::probe_offset_K>("probe_offset_K"),
                                          field<&S::fan_on>("fan_on"),
                                          field<&S::exact_probe>("exact_probe"),
                                          field<&S::balanced>("balanced"),
                                          field<&S::seen_bits>("seen_bits"),
                                          field<&S::seen_supply_norm>("seen_supply_norm"),
                                          field<&S::seen_probe_degC>("seen_probe_degC"),
                                          field<&S::seen_rad_per_s>("seen_rad_per_s"),
                                          field<&S::seen_compressor_W>("seen_compressor_W")};
};

template <>
struct Fields<plant::ActiveFault> {
  using S = plant::ActiveFault;
  static constexpr auto list =
      std::tuple{field<&S::mark>("mark"), field<&S::severity>("severity"), field<&S::there>("there")};
};

}  // namespace stirbench::machine
