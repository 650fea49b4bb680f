#pragma once

#include "sim_core/machine/field.h"
#include "sim_core/machine/state.h"

// Fields of lock-out, protection and bucket.
namespace stirbench::machine {

template <>
struct Fields<Scenario> {
  using S = Scenario;
  static constexpr auto list = std::tuple{field<&S::second_person_s>("second_person_s"),
                                          field<&S::colleague_work_s>("colleague_work_s"),
                                          field<&S::isolator_pole_stuck>("isolator_pole_stuck"),
                                          field<&S::meter_broken>("meter_broken"),
                                          field<&S::power_cut_at_s>("power_cut_at_s"),
                                          field<&S::power_cut_for_s>("power_cut_for_s"),
                                          field<&S::trade>("trade"),
                                          field<&S::plan_min>("plan_min")};
};

template <>
struct Fields<Padlock> {
  using S = Padlock;
  static constexpr auto list =
      std::tuple{field<&S::on>("on"), field<&S::tag>("tag"), field<&S::key_in>("key_in"),
                 field<&S::borrowed>("borrowed"), field<&S::on_neighbour>("on_neighbour")};
};

template <>
struct Fields<StepDone> {
  using S = StepDone;
  static constexpr auto list =
      std::tuple{field<&S::done>("done"), field<&S::in_order>("in_order"), field<&S::tick>("tick")};
};

template <>
struct Fields<PpeWorn> {
  using S = PpeWorn;
  static constexpr auto list = std::tuple{field<&S::worn>("worn")};
};

template <>
struct Fields<Bucket> {
  using S = Bucket;
  static constexpr auto list =
      std::tuple{field<&S::water_kg>("water_kg"),         field<&S::chemical_kg>("chemical_kg"),
                 field<&S::active_kg>("active_kg"),       field<&S::irritant_kg>("irritant_kg"),
                 field<&S::corrosive_kg>("corrosive_kg"), field<&S::acid_mol>("acid_mol"),
                 field<&S::chlorine_mol>("chlorine_mol")};
};

template <>
struct Fields<Lockout> {
  using S = Lockout;
  static constexpr auto list = std::tuple{field<&S::situation>("situation"),
                                          field<&S::yours>("yours"),
                                          field<&S::colleagues>("colleagues"),
                                          field<&S::neighbour_isolated>("neighbour_isolated"),
                                          field<&S::neighbour_last>("neighbour_last"),
                                          field<&S::panel_off>("panel_off"),
                                          field<&S::valve_out>("valve_out"),
                                          field<&S::spring_eased>("spring_eased"),
                                          field<&S::capacitor_V>("capacitor_V"),
                                          field<&S::meter_V>("meter_V"),
                                          field<&S::working_at>("working_at"),
                                          field<&S::began>("began"),
                                          field<&S::began_tick>("began_tick"),
                                          field<&S::second_came>("second_came"),
                                          field<&S::colleague_working>("colleague_working"),
                                          field<&S::colleague_done>("colleague_done"),
                                          field<&S::colleague_until_tick>("colleague_until_tick"),
                                          field<&S::supply_before_norm>("supply_before_norm"),
                                          field<&S::steps>("steps")};
};

}  // namespace stirbench::machine
