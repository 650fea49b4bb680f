#pragma once

#include "sim_core/machine/field.h"
#include "sim_core/plant/upkeep/assembly.h"

// Fields of what can be taken apart.
namespace stirbench::machine {

template <>
struct Fields<plant::PartItem> {
  using S = plant::PartItem;
  static constexpr auto list = std::tuple{
      field<&S::kind>("kind"),   field<&S::health>("health"),     field<&S::greased>("greased"),
      field<&S::other>("other"), field<&S::wear>("wear"),         field<&S::run_in>("run_in"),
      field<&S::oval>("oval"),   field<&S::strained>("strained"), field<&S::soil_norm>("soil_norm")};
};

template <>
struct Fields<plant::AssemblyState> {
  using S = plant::AssemblyState;
  static constexpr auto list = std::tuple{field<&S::items>("items"),
                                          field<&S::at>("at"),
                                          field<&S::hand>("hand"),
                                          field<&S::shaft_product_kg>("shaft_product_kg"),
                                          field<&S::seen_opening_norm>("seen_opening_norm"),
                                          field<&S::agitator_degC>("agitator_degC"),
                                          field<&S::turned_s>("turned_s"),
                                          field<&S::feeler_mm>("feeler_mm")};
};

}  // namespace stirbench::machine
