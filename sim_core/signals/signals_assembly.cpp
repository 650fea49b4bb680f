#include "sim_core/plant/upkeep/assembly_effects.h"
#include "sim_core/signals/signals.h"
#include "sim_core/signals/signals_internal.h"

// Readings of what can be taken apart, and of what it does when it is not as it should be.
namespace stirbench::signals {

namespace {

plant::Shortcomings looked(M m, S s) { return plant::look_over(m.plant.assembly, s.plant.assembly); }

template <plant::PartId part>
Signal soil(std::string_view name, std::string_view meaning) {
  return number(name, meaning,
                [](M, S s) { return s.plant.assembly.items[static_cast<std::size_t>(part)].soil_norm; });
}

constexpr std::size_t spare(plant::Spare one) { return plant::part_count + static_cast<std::size_t>(one); }

template <std::size_t item>
Signal lubricated(std::string_view name, std::string_view meaning) {
  return flag(name, meaning, [](M, S s) { return as_number(s.plant.assembly.items[item].greased); });
}

template <plant::PartId part>
Signal off(std::string_view name, std::string_view meaning) {
  return {name,    SignalKind::flag,
          meaning, [](M, S s) { return plant::in_place(s.plant.assembly, part) ? 0.0 : 1.0; },
          nullptr, false};
}

}  // namespace

void add_assembly_signals(std::vector<Signal>& list) {
  using P = plant::PartId;
  const std::vector<Signal> more = {
      off<P::valve_handle>("valve_handle_off", "the draw handle is off"),
      off<P::valve_nut>("valve_nut_off", "the valve's nut is off"),
      off<P::valve_spring>("valve_spring_off", "the valve's spring is out"),
      off<P::valve_plunger>("valve_plunger_off", "the plunger is out"),
      off<P::oring_rear>("oring_rear_off", "the rear O-ring is off"),
      off<P::oring_front>("oring_front_off", "the front O-ring is off"),
      off<P::guard_cover>("guard_cover_off", "the agitator's guard cover is off"),
      off<P::agitator>("agitator_off", "the agitator is out"),
      off<P::agitator_bushing>("agitator_bushing_off", "the agitator's bushing is out"),
      off<P::sleeve_cap>("sleeve_cap_off", "the sleeve cap is off"),
      off<P::shaft_end_bushing>("shaft_end_bushing_off", "the shaft-end bushing is out"),
      off<P::shaft_sleeve>("shaft_sleeve_off", "the shaft sleeve is out"),
      number("parts_missing", "parts that are not in their place",
             [](M m, S s) { return static_cast<double>(looked(m, s).missing); }),
      number("parts_misplaced", "parts in a wrong place or of a wrong kind",
             [](M m, S s) { return static_cast<double>(looked(m, s).misplaced); }),
      number("parts_worn", "parts worn or cracked that are in the machine",
             [](M m, S s) { return static_cast<double>(looked(m, s).worn); }),
      number("orings_dry", "O-rings without lubricant",
             [](M m, S s) { return static_cast<double>(looked(m, s).dry); }),
      text("in_hand", "key of the part that is held; empty when hands are free",
           [](M, S s) {
             const int item = s.plant.assembly.hand;
             return item < 0 ? std::string_view() : plant::item_key(static_cast<std::size_t>(item));
           }),
      soil<P::valve_plunger>("plunger_soil_norm",
                             "film of product on the machine's own plunger, 1 a whole one"),
      soil<P::oring_rear>("oring_rear_soil_norm", "film of product on its own rear O-ring, 1 a whole one"),
      soil<P::oring_front>("oring_front_soil_norm", "film of product on its own front O-ring, 1 a whole one"),
      lubricated<static_cast<std::size_t>(P::oring_rear)>("oring_rear_greased",
                                                          "its own rear O-ring has lubricant"),
      lubricated<static_cast<std::size_t>(P::oring_front)>("oring_front_greased",
                                                           "its own front O-ring has lubricant"),
      lubricated<spare(plant::Spare::oring_front)>("new_oring_front_greased",
                                                   "the new front O-ring has lubricant"),
      lubricated<spare(plant::Spare::oring_rear)>("new_oring_rear_greased",
                                                  "the new rear O-ring has lubricant"),
      number("shaft_product_kg", "product that ran into the shaft sleeve",
             [](M, S s) { return s.plant.assembly.shaft_product_kg; }),
      number("noise_dB", "what a person a metre away hears, dB(A)",
             [](M m, S s) { return plant::noise_dB(m.plant, s.plant); }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

}  // namespace stirbench::signals
