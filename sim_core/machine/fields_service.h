#pragma once

#include "sim_core/machine/field.h"
#include "sim_core/plant/upkeep/service_state.h"

// Fields of hose and soil.
namespace stirbench::machine {

template <>
struct Fields<plant::HoseLine> {
  using S = plant::HoseLine;
  static constexpr auto list = std::tuple{field<&S::clamped>("clamped"),
                                          field<&S::gasket>("gasket"),
                                          field<&S::route>("route"),
                                          field<&S::jumped>("jumped"),
                                          field<&S::held>("held"),
                                          field<&S::held_J>("held_J"),
                                          field<&S::leak_L_per_min>("leak_L_per_min")};
};

template <>
struct Fields<plant::Soil> {
  using S = plant::Soil;
  static constexpr auto list = std::tuple{field<&S::film>("film"),
                                          field<&S::set_norm>("set_norm"),
                                          field<&S::germs_log10>("germs_log10"),
                                          field<&S::contact_s>("contact_s"),
                                          field<&S::swab_vat>("swab_vat"),
                                          field<&S::swab_valve>("swab_valve")};
};

}  // namespace stirbench::machine
