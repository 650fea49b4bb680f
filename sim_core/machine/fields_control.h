#pragma once

#include "sim_core/control/controller.h"
#include "sim_core/machine/field.h"
#include "sim_core/plant/state.h"

// Fields of controller, alarms and safety parts.
namespace stirbench::machine {

template <>
struct Fields<plant::SafetyParts> {
  using S = plant::SafetyParts;
  static constexpr auto list = std::tuple{field<&S::emergency_stop_in>("emergency_stop_in"),
                                          field<&S::lid_switch_closed>("lid_switch_closed"),
                                          field<&S::cover_switch_closed>("cover_switch_closed"),
                                          field<&S::guard_wire_broken>("guard_wire_broken"),
                                          field<&S::guard_wire_loose_s>("guard_wire_loose_s"),
                                          field<&S::guard_wire_shaken_s>("guard_wire_shaken_s"),
                                          field<&S::drive_welded>("drive_welded"),
                                          field<&S::heat_welded>("heat_welded"),
                                          field<&S::chill_welded>("chill_welded"),
                                          field<&S::emergency_contactor_welded>("emergency_contactor_welded"),
                                          field<&S::emergency_contact_closed>("emergency_contact_closed"),
                                          field<&S::cutout_bridged>("cutout_bridged"),
                                          field<&S::overload_stuck>("overload_stuck"),
                                          field<&S::pressure_stuck>("pressure_stuck"),
                                          field<&S::keys>("keys")};
};

template <>
struct Fields<plant::Actuators> {
  using S = plant::Actuators;
  static constexpr auto list = std::tuple{field<&S::heat_norm>("heat_norm"),
                                          field<&S::drive_on>("drive_on"),
                                          field<&S::chiller_on>("chiller_on"),
                                          field<&S::drive_forward_norm>("drive_forward_norm"),
                                          field<&S::drive_backward_norm>("drive_backward_norm"),
                                          field<&S::drive_A>("drive_A")};
};

template <>
struct Fields<control::Outputs> {
  using S = control::Outputs;
  static constexpr auto list =
      std::tuple{field<&S::heat_norm>("heat_norm"), field<&S::drive>("drive"), field<&S::chill>("chill")};
};

template <>
struct Fields<control::Alarm> {
  using S = control::Alarm;
  static constexpr auto list = std::tuple{field<&S::active>("active"),
                                          field<&S::latched>("latched"),
                                          field<&S::raised_tick>("raised_tick"),
                                          field<&S::cleared_tick>("cleared_tick"),
                                          field<&S::unacknowledged>("unacknowledged"),
                                          field<&S::acknowledged_tick>("acknowledged_tick"),
                                          field<&S::shelved_until_tick>("shelved_until_tick"),
                                          field<&S::order>("order")};
};

template <>
struct Fields<control::ControlState> {
  using S = control::ControlState;
  static constexpr auto list = std::tuple{
      field<&S::mode>("mode"), field<&S::target_degC>("target_degC"),
      field<&S::heat_target_degC>("heat_target_degC"), field<&S::chill_target_degC>("chill_target_degC"),
      // The index depends on which other recipes there are; an old journal shall verify when a new one has
      // been added.
      unseen<&S::recipe>(), field<&S::recipe_id_hash>("recipe_id_hash"), field<&S::phase>("phase"),
      field<&S::confirmed>("confirmed"), field<&S::recipe_done>("recipe_done"),
      field<&S::phase_ticks>("phase_ticks"), field<&S::hold_ticks>("hold_ticks"),
      field<&S::cycle_ticks>("cycle_ticks"), field<&S::heat_demand>("heat_demand"),
      field<&S::heat_ticks>("heat_ticks"), field<&S::heat_integral_norm>("heat_integral_norm"),
      field<&S::chill_demand>("chill_demand"), field<&S::key_down>("key_down"),
      field<&S::key_armed>("key_armed"), field<&S::alarms>("alarms"), field<&S::had_supply>("had_supply"),
      field<&S::probe_seen>("probe_seen"), field<&S::probe_before_degC>("probe_before_degC"),
      field<&S::probe_rate_K_per_s>("probe_rate_K_per_s")};
};

}  // namespace stirbench::machine
