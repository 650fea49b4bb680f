#pragma once

#include "sim_core/machine/fault_work.h"
#include "sim_core/machine/field.h"

// Fields of instruments, causes and repairs.
namespace stirbench::machine {

template <>
struct Fields<InstrumentReading> {
  using S = InstrumentReading;
  static constexpr auto list =
      std::tuple{field<&S::taken>("taken"),           field<&S::value>("value"),
                 field<&S::second>("second"),         field<&S::resolution>("resolution"),
                 field<&S::over_range>("over_range"), field<&S::sounds>("sounds"),
                 field<&S::mishap>("mishap"),         field<&S::tick>("tick")};
};

template <>
struct Fields<HandOver> {
  using S = HandOver;
  static constexpr auto list = std::tuple{field<&S::stage>("stage"),
                                          field<&S::suspected>("suspected"),
                                          field<&S::mends>("mends"),
                                          field<&S::next_tick>("next_tick"),
                                          field<&S::as_suspected>("as_suspected"),
                                          field<&S::found_switched_on>("found_switched_on")};
};

template <>
struct Fields<FaultWork> {
  using S = FaultWork;
  static constexpr auto list = std::tuple{field<&S::tool>("tool"),
                                          field<&S::function>("function"),
                                          field<&S::red>("red"),
                                          field<&S::black>("black"),
                                          field<&S::round>("round"),
                                          field<&S::point>("point"),
                                          field<&S::gauges_on>("gauges_on"),
                                          field<&S::instrument_error>("instrument_error"),
                                          field<&S::fuse_blown>("fuse_blown"),
                                          field<&S::wires_off>("wires_off"),
                                          field<&S::dead_pairs>("dead_pairs"),
                                          field<&S::reading>("reading"),
                                          field<&S::hand_min>("hand_min"),
                                          field<&S::parts_min>("parts_min"),
                                          field<&S::needless_parts_min>("needless_parts_min"),
                                          field<&S::checks>("checks"),
                                          field<&S::repairs>("repairs"),
                                          field<&S::needless_repairs>("needless_repairs"),
                                          field<&S::handed_off>("handed_off"),
                                          field<&S::names_taken_back>("names_taken_back"),
                                          field<&S::hand_over>("hand_over"),
                                          field<&S::lapses>("lapses"),
                                          field<&S::named>("named"),
                                          field<&S::mended>("mended"),
                                          field<&S::to_prove>("to_prove"),
                                          field<&S::ran_ticks>("ran_ticks"),
                                          field<&S::proved>("proved")};
};

}  // namespace stirbench::machine
