#pragma once

#include "sim_core/plant/spec.h"

// The invented small mixer HM-20 (20 L working, 8 L least), the numbers of content/machines/hm-20.json.
namespace stirbench::tests {

inline plant::MachineSpec hm20_spec() {
  plant::MachineSpec m;
  m.id = "hm-20";
  m.title = "HM-20";
  m.supply_V = 400.0;
  m.vat = {.working_L = 20.0,
           .brim_L = 23.5,
           .minimum_L = 8.0,
           .diameter_m = 0.29,
           .wall_area_m2 = 0.24,
           .wall_mass_kg = 4.5,
           .wall_cp_J_per_kgK = 500.0,
           .loss_W_per_K = 0.9,
           .lid_area_m2 = 0.072,
           .lid_mass_kg = 0.9,
           .lid_cp_J_per_kgK = 500.0,
           .lid_vapour_leak_norm = 0.08};
  m.well = {.volume_L = 2.8,
            .diameter_m = 0.185,
            .heated_area_m2 = 0.115,
            .wall_mass_kg = 2.2,
            .wall_cp_J_per_kgK = 500.0,
            .loss_W_per_K = 0.35,
            .evaporator_share_norm = 0.06,
            .passage_m = 0.035};
  m.elements = {.count = 3,
                .rated_W_each = 1000.0,
                .rated_V = 400.0,
                .mass_kg = 1.3,
                .cp_J_per_kgK = 500.0,
                .contact_W_per_K = 65.0,
                .cutout_degC = 150.0};
  m.chiller = {.refrigerant = "R-290",
               .swept_m3_per_h = 2.1,
               .clearance_norm = 0.04,
               .isentropic_norm = 0.60,
               .evaporator_W_per_K = 230.0,
               .evaporator_mass_kg = 3.2,
               .evaporator_cp_J_per_kgK = 420.0,
               .wall_W_per_K = 320.0,
               .condenser_W_per_K = 95.0,
               .isentropic_falloff_norm = 0.15,
               .evaporator_m3 = 0.0006,
               .condenser_m3 = 0.0006,
               .charge_kg = 0.135,
               .condenser_air_m3_per_s = 0.17,
               .valve_area_m2 = 2.5e-07,
               .valve_static_superheat_K = 2.5,
               .valve_gradient_K = 3.0,
               .suction_limit_degC = 20.0,
               .equalise_s = 40.0,
               .compressor_idle_A = 0.8,
               .high_pressure_cutout_bar = 24.0,
               .low_pressure_cutout_bar = 1.6,
               .fan_W = 40.0,
               .minimum_off_s = 120.0,
               .maximum_evaporating_degC = -5.0};
  m.drive = {.rated_W = 250.0,
             .rated_rpm = 1380.0,
             .synchronous_rpm = 1500.0,
             .breakdown_ratio = 2.2,
             .rated_A = 0.80,
             .idle_A = 0.52,
             .efficiency_norm = 0.68,
             .gear_ratio = 13.8,
             .gear_efficiency_norm = 0.88,
             .inertia_kgm2 = 1.2,
             .brake_torque_Nm = 6.0,
             .overload_A = 0.85,
             .overload_tau_s = 300.0};
  m.agitator = {.diameter_m = 0.245,
                .laminar_power_Kp = 350.0,
                .turbulent_power_Np = 1.7,
                .shear_ks = 25.0,
                .nusselt_wall_a = 0.5,
                .nusselt_well_a = 0.36,
                .foot_m = 0.17,
                .covered_L = 6.0};
  m.pump = {.displacement_L_per_rev = 0.20,
            .slip_L_per_min_per_bar = 8.0,
            .circulation_loss_bar_at_rated = 0.25,
            .prime_L = 3.6,
            .shut_off_bar = 1.5};
  m.agitator_bushing = {.material = "nylon",
                        .diameter_m = 0.018,
                        .length_m = 0.018,
                        .load_N = 300.0,
                        .wear_dry_mm3_per_Nm = 2.0e-5,
                        .wear_wet_mm3_per_Nm = 5.0e-7,
                        .friction_dry = 0.35,
                        .friction_wet = 0.12,
                        .limit_mm = 0.4,
                        .softening_degC = 80.0};
  m.shaft_end_bushing = {.material = "bronze",
                         .diameter_m = 0.016,
                         .length_m = 0.016,
                         .load_N = 230.0,
                         .wear_dry_mm3_per_Nm = 5.0e-4,
                         .wear_wet_mm3_per_Nm = 5.0e-7,
                         .friction_dry = 0.30,
                         .friction_wet = 0.10,
                         .limit_mm = 0.25,
                         .softening_degC = 150.0};
  m.draw = {.valve_bore_m = 0.016,
            .valve_laminar_K1 = 1000.0,
            .outlet_height_m = 0.10,
            .hose_bore_m = 0.016,
            .hose_length_m = 1.2};
  m.freezer = {.free_L = 5.5,
               .minimum_charge_L = 1.5,
               .maximum_charge_L = 3.0,
               .wall_area_m2 = 0.13,
               .blades = 3,
               .dasher_rpm = 200.0,
               .friction_Nm = 4.5,
               .drag_Nm_per_Pa_s = 0.85,
               .shear_per_s = 30.0,
               .rated_Nm = 36.0,
               .overload_tau_s = 25.0,
               .refrigerant_W_per_K = 155.0,
               .capacity_W = 860.0,
               .rated_evaporating_degC = -20.0,
               .maximum_evaporating_degC = -12.0,
               .lowest_evaporating_degC = -35.0,
               .room_W_per_K = 1.0,
               .inlet_height_m = 0.25,
               .draw_L_per_min = 4.0,
               .ready_degC = -6.0,
               .ready_Nm = 30.0,
               .best_overrun_norm = 0.5};
  m.rinse = {.flow_kg_per_s = 0.10, .water_degC = 40.0};
  m.probe = {.tau_s = 4.0, .vat_share_norm = 0.7, .covered_L = 4.0};
  return m;
}

}  // namespace stirbench::tests
