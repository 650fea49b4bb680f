#pragma once

#include "sim_core/machine/field.h"
#include "sim_core/plant/state.h"

// Fields of the vat, its surroundings, the chiller and the freezer, and of the plant as a whole.
namespace stirbench::machine {

// One number for each component, under the name of what they are.
template <>
struct Fields<product::PerComponent> {
  using S = product::PerComponent;
  static constexpr auto list = std::tuple{field<&S::value>("")};
};

template <>
struct Fields<product::PerGum> {
  using S = product::PerGum;
  static constexpr auto list = std::tuple{field<&S::value>("")};
};

template <>
struct Fields<product::Product> {
  using S = product::Product;
  static constexpr auto list = std::tuple{field<&S::mass_kg>("mass_kg"),
                                          field<&S::undissolved_sugar_kg>("undissolved_sugar_kg"),
                                          field<&S::sunk_sugar_kg>("sunk_sugar_kg"),
                                          field<&S::dry_powder_kg>("dry_powder_kg"),
                                          field<&S::sunk_powder_kg>("sunk_powder_kg"),
                                          field<&S::dry_gum_kg>("dry_gum_kg"),
                                          field<&S::gum_lumps_kg>("gum_lumps_kg"),
                                          field<&S::hot_gum_fraction>("hot_gum_fraction"),
                                          field<&S::hot_gum_degC>("hot_gum_degC"),
                                          field<&S::gum_kg>("gum_kg"),
                                          field<&S::yolk_solids_kg>("yolk_solids_kg"),
                                          field<&S::native_whey_norm>("native_whey_norm"),
                                          field<&S::lethality_s>("lethality_s"),
                                          field<&S::growth_log10>("growth_log10"),
                                          field<&S::egg_set_norm>("egg_set_norm"),
                                          field<&S::egg_curd_norm>("egg_curd_norm"),
                                          field<&S::age_norm>("age_norm"),
                                          field<&S::scorched_kg>("scorched_kg"),
                                          field<&S::air_norm>("air_norm"),
                                          field<&S::set_fat_norm>("set_fat_norm"),
                                          field<&S::unset_fat_kg>("unset_fat_kg"),
                                          field<&S::alkaline_kg>("alkaline_kg"),
                                          field<&S::acid_kg>("acid_kg"),
                                          field<&S::chlorine_kg>("chlorine_kg")};
};

template <>
struct Fields<plant::Fittings> {
  using S = plant::Fittings;
  static constexpr auto list = std::tuple{field<&S::lid_open>("lid_open"),
                                          field<&S::shaft_cover_open>("shaft_cover_open"),
                                          field<&S::isolator_on>("isolator_on"),
                                          field<&S::rinse_on>("rinse_on"),
                                          field<&S::draw_opening_norm>("draw_opening_norm"),
                                          field<&S::hose>("hose")};
};

template <>
struct Fields<plant::Environment> {
  using S = plant::Environment;
  static constexpr auto list =
      std::tuple{field<&S::ambient_degC>("ambient_degC"), field<&S::humidity_norm>("humidity_norm"),
                 field<&S::supply_norm>("supply_norm"), field<&S::frequency_Hz>("frequency_Hz")};
};

template <>
struct Fields<plant::Ledger> {
  using S = plant::Ledger;
  static constexpr auto list = std::tuple{field<&S::heaters_J>("heaters_J"),
                                          field<&S::drive_J>("drive_J"),
                                          field<&S::chiller_J>("chiller_J"),
                                          field<&S::surroundings_J>("surroundings_J"),
                                          field<&S::evaporation_J>("evaporation_J"),
                                          field<&S::material_J>("material_J"),
                                          field<&S::start_J>("start_J")};
};

template <>
struct Fields<plant::MassLedger> {
  using S = plant::MassLedger;
  static constexpr auto list =
      std::tuple{field<&S::start_kg>("start_kg"),     field<&S::poured_kg>("poured_kg"),
                 field<&S::rinsed_kg>("rinsed_kg"),   field<&S::drawn_kg>("drawn_kg"),
                 field<&S::spilled_kg>("spilled_kg"), field<&S::evaporated_kg>("evaporated_kg"),
                 field<&S::clung_kg>("clung_kg")};
};

template <>
struct Fields<refrigeration::ChillerHealth> {
  using S = refrigeration::ChillerHealth;
  static constexpr auto list = std::tuple{field<&S::charge_norm>("charge_norm"),
                                          field<&S::condenser_fouling_norm>("condenser_fouling_norm"),
                                          field<&S::fan_norm>("fan_norm"),
                                          field<&S::valve_stuck_norm>("valve_stuck_norm"),
                                          field<&S::compressor_leak_norm>("compressor_leak_norm"),
                                          field<&S::restriction_norm>("restriction_norm"),
                                          field<&S::evaporator_fouling_norm>("evaporator_fouling_norm")};
};

template <>
struct Fields<refrigeration::ChillerGauges> {
  using S = refrigeration::ChillerGauges;
  static constexpr auto list = std::tuple{field<&S::evaporating_degC>("evaporating_degC"),
                                          field<&S::condensing_degC>("condensing_degC"),
                                          field<&S::suction_bar>("suction_bar"),
                                          field<&S::discharge_bar>("discharge_bar"),
                                          field<&S::superheat_K>("superheat_K"),
                                          field<&S::suction_degC>("suction_degC"),
                                          field<&S::subcooling_K>("subcooling_K"),
                                          field<&S::discharge_degC>("discharge_degC"),
                                          field<&S::valve_norm>("valve_norm"),
                                          field<&S::flash_norm>("flash_norm"),
                                          field<&S::flow_kg_per_s>("flow_kg_per_s"),
                                          field<&S::evaporator_W_per_K>("evaporator_W_per_K"),
                                          field<&S::cooling_W>("cooling_W"),
                                          field<&S::compressor_W>("compressor_W"),
                                          field<&S::compressor_A>("compressor_A"),
                                          field<&S::air_on_degC>("air_on_degC"),
                                          field<&S::air_off_degC>("air_off_degC")};
};

template <>
struct Fields<refrigeration::ChillerState> {
  using S = refrigeration::ChillerState;
  static constexpr auto list =
      std::tuple{field<&S::health>("health"), field<&S::gauges>("gauges"), field<&S::dry_norm>("dry_norm")};
};

template <>
struct Fields<plant::BushingState> {
  using S = plant::BushingState;
  static constexpr auto list =
      std::tuple{field<&S::play_mm>("play_mm"), field<&S::temperature_degC>("temperature_degC")};
};

template <>
struct Fields<plant::VaneState> {
  using S = plant::VaneState;
  static constexpr auto list =
      std::tuple{field<&S::temperature_degC>("temperature_degC"), field<&S::wear_norm>("wear_norm")};
};

template <>
struct Fields<plant::SealState> {
  using S = plant::SealState;
  static constexpr auto list = std::tuple{field<&S::wear_norm>("wear_norm"), field<&S::tray_kg>("tray_kg")};
};

template <>
struct Fields<plant::FreezerLedger> {
  using S = plant::FreezerLedger;
  static constexpr auto list =
      std::tuple{field<&S::arrived_kg>("arrived_kg"), field<&S::drawn_kg>("drawn_kg"),
                 field<&S::spilled_kg>("spilled_kg"), field<&S::drained_kg>("drained_kg"),
                 field<&S::arrived_J>("arrived_J"),   field<&S::left_J>("left_J"),
                 field<&S::dasher_J>("dasher_J"),     field<&S::refrigerant_J>("refrigerant_J"),
                 field<&S::room_J>("room_J")};
};

template <>
struct Fields<plant::FreezerState> {
  using S = plant::FreezerState;
  static constexpr auto list = std::tuple{field<&S::product>("product"),
                                          field<&S::contents_J>("contents_J"),
                                          field<&S::degC>("degC"),
                                          field<&S::ice_kg>("ice_kg"),
                                          field<&S::air_L>("air_L"),
                                          field<&S::crystal_um>("crystal_um"),
                                          field<&S::flake_kg>("flake_kg"),
                                          field<&S::inlet_open>("inlet_open"),
                                          field<&S::lid_open>("lid_open"),
                                          field<&S::drain_open>("drain_open"),
                                          field<&S::setting>("setting"),
                                          field<&S::resting>("resting"),
                                          field<&S::running>("running"),
                                          field<&S::tripped>("tripped"),
                                          field<&S::gate_norm>("gate_norm"),
                                          field<&S::motor_heat_norm>("motor_heat_norm"),
                                          field<&S::freezing_s>("freezing_s"),
                                          field<&S::ready_s>("ready_s"),
                                          field<&S::wall_degC>("wall_degC"),
                                          field<&S::evaporating_degC>("evaporating_degC"),
                                          field<&S::refrigeration_W>("refrigeration_W"),
                                          field<&S::compressor_W>("compressor_W"),
                                          field<&S::torque_Nm>("torque_Nm"),
                                          field<&S::viscosity_Pa_s>("viscosity_Pa_s"),
                                          field<&S::inflow_L_per_min>("inflow_L_per_min"),
                                          field<&S::outflow_L_per_min>("outflow_L_per_min"),
                                          field<&S::overflow_L_per_min>("overflow_L_per_min"),
                                          field<&S::drain_L_per_min>("drain_L_per_min"),
                                          field<&S::line_bar>("line_bar"),
                                          field<&S::since_s>("since_s"),
                                          field<&S::tub>("tub"),
                                          field<&S::tub_J>("tub_J"),
                                          field<&S::tub_degC>("tub_degC"),
                                          field<&S::tub_air_L>("tub_air_L"),
                                          field<&S::ledger>("ledger")};
};

template <>
struct Fields<plant::PlantState> {
  using S = plant::PlantState;
  static constexpr auto list = std::tuple{field<&S::product>("product"),
                                          field<&S::fittings>("fittings"),
                                          field<&S::environment>("environment"),
                                          field<&S::well_degC>("well_degC"),
                                          field<&S::vat_degC>("vat_degC"),
                                          field<&S::element_degC>("element_degC"),
                                          field<&S::well_wall_degC>("well_wall_degC"),
                                          field<&S::vat_wall_degC>("vat_wall_degC"),
                                          field<&S::evaporator_degC>("evaporator_degC"),
                                          field<&S::lid_degC>("lid_degC"),
                                          field<&S::head_space_degC>("head_space_degC"),
                                          field<&S::head_space_humidity_norm>("head_space_humidity_norm"),
                                          field<&S::lid_water_kg>("lid_water_kg"),
                                          field<&S::dew_kg>("dew_kg"),
                                          field<&S::probe_pocket_degC>("probe_pocket_degC"),
                                          field<&S::probe_degC>("probe_degC"),
                                          field<&S::well_kg>("well_kg"),
                                          field<&S::well_J>("well_J"),
                                          field<&S::vat_J>("vat_J"),
                                          field<&S::deposit_kg_per_m2>("deposit_kg_per_m2"),
                                          field<&S::protein_film_kg_per_m2>("protein_film_kg_per_m2"),
                                          field<&S::mineral_film_kg_per_m2>("mineral_film_kg_per_m2"),
                                          field<&S::wall_ice_kg>("wall_ice_kg"),
                                          field<&S::shaft_rad_per_s>("shaft_rad_per_s"),
                                          field<&S::motor_heat_norm>("motor_heat_norm"),
                                          field<&S::overload_tripped>("overload_tripped"),
                                          field<&S::cutout_tripped>("cutout_tripped"),
                                          field<&S::agitator_bushing>("agitator_bushing"),
                                          field<&S::shaft_end_bushing>("shaft_end_bushing"),
                                          field<&S::vanes>("vanes"),
                                          field<&S::seal>("seal"),
                                          field<&S::winding_degC>("winding_degC"),
                                          field<&S::dry_run_s>("dry_run_s"),
                                          field<&S::prime_norm>("prime_norm"),
                                          field<&S::compressor_on>("compressor_on"),
                                          field<&S::pressure_tripped>("pressure_tripped"),
                                          field<&S::compressor_off_s>("compressor_off_s"),
                                          field<&S::chiller>("chiller"),
                                          field<&S::freezer>("freezer"),
                                          field<&S::line>("line"),
                                          field<&S::soil>("soil"),
                                          field<&S::assembly>("assembly"),
                                          field<&S::pail>("pail"),
                                          field<&S::pail_degC>("pail_degC"),
                                          field<&S::floor_kg>("floor_kg"),
                                          field<&S::floor_water_kg>("floor_water_kg"),
                                          field<&S::coefficients>("coefficients"),
                                          field<&S::flows>("flows"),
                                          field<&S::ledger>("ledger"),
                                          field<&S::masses>("masses"),
                                          field<&S::pace>("pace"),
                                          field<&S::since_refresh_s>("since_refresh_s"),
                                          field<&S::pour_spill_L>("pour_spill_L"),
                                          field<&S::safety>("safety"),
                                          field<&S::health>("health"),
                                          field<&S::circuit>("circuit"),
                                          field<&S::faults>("faults")};
};

}  // namespace stirbench::machine
