#pragma once

#include "sim_core/machine/field.h"
#include "sim_core/plant/state.h"

// Fields of what the plant derives and keeps between ticks (plant/pace.h).
namespace stirbench::machine {

template <>
struct Fields<plant::Coefficients> {
  using S = plant::Coefficients;
  static constexpr auto list = std::tuple{field<&S::volume_L>("volume_L"),
                                          field<&S::density_kg_per_m3>("density_kg_per_m3"),
                                          field<&S::well_cp_J_per_kgK>("well_cp_J_per_kgK"),
                                          field<&S::vat_cp_J_per_kgK>("vat_cp_J_per_kgK"),
                                          field<&S::consistency_Pa_sn>("consistency_Pa_sn"),
                                          field<&S::flow_index>("flow_index"),
                                          field<&S::viscosity_Pa_s>("viscosity_Pa_s"),
                                          field<&S::well_wall_W_per_K>("well_wall_W_per_K"),
                                          field<&S::vat_wall_W_per_K>("vat_wall_W_per_K"),
                                          field<&S::exchange_kg_per_s>("exchange_kg_per_s"),
                                          field<&S::circulation_L_per_min>("circulation_L_per_min"),
                                          field<&S::agitator_torque_Nm>("agitator_torque_Nm"),
                                          field<&S::evaporation_kg_per_s>("evaporation_kg_per_s"),
                                          field<&S::surface_W_per_K>("surface_W_per_K"),
                                          field<&S::freezing_point_degC>("freezing_point_degC"),
                                          field<&S::boiling_point_degC>("boiling_point_degC"),
                                          field<&S::still_wall_W_per_K>("still_wall_W_per_K"),
                                          field<&S::viscous_torque_Nm>("viscous_torque_Nm"),
                                          field<&S::pump_torque_Nm>("pump_torque_Nm"),
                                          field<&S::lid_room_W_per_K>("lid_room_W_per_K"),
                                          field<&S::water_excess_J_per_kg>("water_excess_J_per_kg"),
                                          field<&S::vapour_J_per_kg>("vapour_J_per_kg"),
                                          field<&S::draw_kg_per_s>("draw_kg_per_s"),
                                          field<&S::evaporating_degC>("evaporating_degC"),
                                          field<&S::condensing_degC>("condensing_degC"),
                                          field<&S::chiller_capacity_W>("chiller_capacity_W"),
                                          field<&S::compressor_W>("compressor_W"),
                                          field<&S::coldest_degC>("coldest_degC"),
                                          field<&S::mean_degC>("mean_degC"),
                                          field<&S::hottest_degC>("hottest_degC"),
                                          field<&S::scorch_kg_per_m2s>("scorch_kg_per_m2s"),
                                          field<&S::foam_per_kg>("foam_per_kg"),
                                          field<&S::foam_hold_norm>("foam_hold_norm"),
                                          field<&S::drawn_air_norm>("drawn_air_norm"),
                                          field<&S::surface_m2>("surface_m2"),
                                          field<&S::lid_drip_kg_per_s>("lid_drip_kg_per_s"),
                                          field<&S::dew_kg_per_s>("dew_kg_per_s"),
                                          field<&S::dew_W>("dew_W"),
                                          field<&S::probe_stem_norm>("probe_stem_norm"),
                                          field<&S::seen_fittings>("seen_fittings")};
};

template <>
struct Fields<plant::Flows> {
  using S = plant::Flows;
  static constexpr auto list = std::tuple{field<&S::heaters_W>("heaters_W"),
                                          field<&S::chiller_W>("chiller_W"),
                                          field<&S::compressor_W>("compressor_W"),
                                          field<&S::drive_W>("drive_W"),
                                          field<&S::motor_A>("motor_A"),
                                          field<&S::agitator_rpm>("agitator_rpm"),
                                          field<&S::torque_Nm>("torque_Nm"),
                                          field<&S::circulation_L_per_min>("circulation_L_per_min"),
                                          field<&S::draw_L_per_min>("draw_L_per_min"),
                                          field<&S::spill_L_per_min>("spill_L_per_min"),
                                          field<&S::splash_L_per_min>("splash_L_per_min"),
                                          field<&S::steam_kg_per_h>("steam_kg_per_h"),
                                          field<&S::suction_bar>("suction_bar"),
                                          field<&S::discharge_bar>("discharge_bar")};
};

template <>
struct Fields<plant::Trend> {
  using S = plant::Trend;
  static constexpr auto list = std::tuple{field<&S::well_wall_W_per_K>("well_wall_W_per_K"),
                                          field<&S::vat_wall_W_per_K>("vat_wall_W_per_K"),
                                          field<&S::exchange_kg_per_s>("exchange_kg_per_s"),
                                          field<&S::surface_W_per_K>("surface_W_per_K"),
                                          field<&S::lid_room_W_per_K>("lid_room_W_per_K"),
                                          field<&S::evaporation_kg_per_s>("evaporation_kg_per_s"),
                                          field<&S::evaporating_degC>("evaporating_degC"),
                                          field<&S::evaporator_W_per_K>("evaporator_W_per_K"),
                                          field<&S::lid_drip_kg_per_s>("lid_drip_kg_per_s"),
                                          field<&S::dew_W>("dew_W")};
};

template <>
struct Fields<plant::Pace> {
  using S = plant::Pace;
  static constexpr auto list = std::tuple{field<&S::trend>("trend"),
                                          field<&S::disturbed>("disturbed"),
                                          field<&S::coefficients_age_s>("coefficients_age_s"),
                                          field<&S::coefficients_due_s>("coefficients_due_s"),
                                          field<&S::chiller_age_s>("chiller_age_s"),
                                          field<&S::chiller_due_s>("chiller_due_s"),
                                          field<&S::chiller_load_degC>("chiller_load_degC"),
                                          field<&S::seen_heat_norm>("seen_heat_norm"),
                                          field<&S::seen_power>("seen_power"),
                                          field<&S::seen_room>("seen_room"),
                                          field<&S::seen_degC>("seen_degC"),
                                          field<&S::seen_rad_per_s>("seen_rad_per_s"),
                                          field<&S::seen_rubbing_Nm>("seen_rubbing_Nm"),
                                          field<&S::before_degC>("before_degC"),
                                          field<&S::before_s>("before_s"),
                                          field<&S::shaft_steady>("shaft_steady"),
                                          field<&S::stir_vat_W>("stir_vat_W"),
                                          field<&S::stir_well_W>("stir_well_W"),
                                          field<&S::wear_due_s>("wear_due_s")};
};

}  // namespace stirbench::machine
