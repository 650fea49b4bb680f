#pragma once

#include "sim_core/machine/field.h"
#include "sim_core/machine/fields_assembly.h"
#include "sim_core/machine/fields_circuit.h"
#include "sim_core/machine/fields_control.h"
#include "sim_core/machine/fields_fault_work.h"
#include "sim_core/machine/fields_plant.h"
#include "sim_core/machine/fields_safe_work.h"
#include "sim_core/machine/fields_service.h"
#include "sim_core/machine/pace_fields.h"
#include "sim_core/machine/state.h"

// The fields of State, each with its name, in the order in which they are hashed.
namespace stirbench::machine {

template <>
struct Fields<Harm> {
  using S = Harm;
  static constexpr auto list =
      std::tuple{field<&S::happened>("happened"), field<&S::tick>("tick"), field<&S::severity>("severity")};
};

template <>
struct Fields<Random> {
  using S = Random;
  static constexpr auto list = std::tuple{field<&S::word>("word")};
};

template <>
struct Fields<State> {
  using S = State;
  static constexpr auto list = std::tuple{field<&S::tick>("tick"),
                                          field<&S::plant>("plant"),
                                          field<&S::control>("control"),
                                          field<&S::random>("random"),
                                          field<&S::key_ticks_left>("key_ticks_left"),
                                          field<&S::harms>("harms"),
                                          field<&S::sample_degC>("sample_degC"),
                                          field<&S::sample_tick>("sample_tick"),
                                          field<&S::lockout>("lockout"),
                                          field<&S::wearing>("wearing"),
                                          field<&S::bucket>("bucket"),
                                          field<&S::work>("work"),
                                          field<&S::floor_sign_up>("floor_sign_up"),
                                          field<&S::injured>("injured"),
                                          field<&S::injury>("injury"),
                                          field<&S::commands>("commands"),
                                          field<&S::contactors>("contactors")};
};

}  // namespace stirbench::machine
