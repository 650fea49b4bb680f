#pragma once

#include "sim_core/plant/spec.h"

// The invented mixer HM-45 (45 L working, 18 L least) with the numbers of content/machines/hm-45.json, for
// tests that must not read files. Everything here is an invented machine of plausible size, not a copy of a
// real one.
namespace stirbench::tests {

inline plant::MachineSpec hm45_spec() {
  plant::MachineSpec m;
  m.id = "hm-45";
  m.title = "HM-45";
  m.supply_V = 400.0;
  m.vat = {.working_L = 45.0,
           .brim_L = 52.0,
           .minimum_L = 18.0,
           .diameter_m = 0.38,
           .wall_area_m2 = 0.42,
           .wall_mass_kg = 8.0,
           .wall_cp_J_per_kgK = 500.0,
           .loss_W_per_K = 1.4,
           .lid_area_m2 = 0.125,
           .lid_mass_kg = 1.5,
           .lid_cp_J_per_kgK = 500.0,
           .lid_vapour_leak_norm = 0.08};
  m.well = {.volume_L = 6.0,
            .diameter_m = 0.24,
            .heated_area_m2 = 0.20,
            .wall_mass_kg = 4.0,
            .wall_cp_J_per_kgK = 500.0,
            .loss_W_per_K = 0.5,
            .evaporator_share_norm = 0.06,
            .passage_m = 0.045};
  m.elements = {.count = 3,
                .rated_W_each = 2000.0,
                .rated_V = 400.0,
                .mass_kg = 2.4,
                .cp_J_per_kgK = 500.0,
                .contact_W_per_K = 120.0,
                .cutout_degC = 150.0};
  m.chiller = {.refrigerant = "R-290",
               .swept_m3_per_h = 4.4,
               .clearance_norm = 0.04,
               .isentropic_norm = 0.62,
               .evaporator_W_per_K = 450.0,
               .evaporator_mass_kg = 6.0,
               .evaporator_cp_J_per_kgK = 420.0,
               .wall_W_per_K = 600.0,
               .condenser_W_per_K = 200.0,
               .isentropic_falloff_norm = 0.15,
               .evaporator_m3 = 0.0012,
               .condenser_m3 = 0.0012,
               .charge_kg = 0.27,
               .condenser_air_m3_per_s = 0.35,
               .valve_area_m2 = 5.2e-07,
               .valve_static_superheat_K = 2.5,
               .valve_gradient_K = 3.0,
               .suction_limit_degC = 20.0,
               .equalise_s = 40.0,
               .compressor_idle_A = 1.4,
               .high_pressure_cutout_bar = 24.0,
               .low_pressure_cutout_bar = 1.6,
               .fan_W = 70.0,
               .minimum_off_s = 120.0,
               .maximum_evaporating_degC = -5.0};
  m.drive = {.rated_W = 550.0,
             .rated_rpm = 1400.0,
             .synchronous_rpm = 1500.0,
             .breakdown_ratio = 2.4,
             .rated_A = 1.5,
             .idle_A = 0.95,
             .efficiency_norm = 0.74,
             .gear_ratio = 16.0,
             .gear_efficiency_norm = 0.9,
             .inertia_kgm2 = 3.0,
             .brake_torque_Nm = 12.0,
             .overload_A = 1.6,
             .overload_tau_s = 300.0};
  m.agitator = {.diameter_m = 0.32,
                .laminar_power_Kp = 350.0,
                .turbulent_power_Np = 1.7,
                .shear_ks = 25.0,
                .nusselt_wall_a = 0.5,
                .nusselt_well_a = 0.36,
                .foot_m = 0.22,
                .covered_L = 14.0};
  m.pump = {.displacement_L_per_rev = 0.44,
            .slip_L_per_min_per_bar = 14.0,
            .circulation_loss_bar_at_rated = 0.25,
            .prime_L = 8.0,
            .shut_off_bar = 1.5,
            .vane_friction_Nm = 16.0,
            .vane_J_per_K = 100.0,
            .vane_K_per_W = 1.5,
            .vane_life_h = 2000.0};
  m.agitator_bushing = {.material = "nylon",
                        .diameter_m = 0.022,
                        .length_m = 0.022,
                        .load_N = 450.0,
                        .wear_dry_mm3_per_Nm = 4.0e-6,
                        .wear_wet_mm3_per_Nm = 5.0e-7,
                        .friction_dry = 0.35,
                        .friction_wet = 0.12,
                        .limit_mm = 0.5,
                        .softening_degC = 80.0,
                        .clearance_mm = 0.04,
                        .wall_mm = 3.0,
                        .K_per_W = 8.0,
                        .J_per_K = 60.0};
  m.shaft_end_bushing = {.material = "bronze",
                         .diameter_m = 0.020,
                         .length_m = 0.020,
                         .load_N = 350.0,
                         .wear_dry_mm3_per_Nm = 1.0e-4,
                         .wear_wet_mm3_per_Nm = 5.0e-7,
                         .friction_dry = 0.30,
                         .friction_wet = 0.10,
                         .limit_mm = 0.3,
                         .softening_degC = 150.0,
                         .clearance_mm = 0.02,
                         .wall_mm = 2.5,
                         .K_per_W = 8.0,
                         .J_per_K = 60.0};
  m.draw = {.valve_bore_m = 0.020,
            .valve_laminar_K1 = 1000.0,
            .outlet_height_m = 0.12,
            .hose_bore_m = 0.019,
            .hose_length_m = 1.5};
  m.freezer = {.free_L = 11.0,
               .minimum_charge_L = 3.0,
               .maximum_charge_L = 6.0,
               .wall_area_m2 = 0.22,
               .blades = 3,
               .dasher_rpm = 170.0,
               .friction_Nm = 8.0,
               .drag_Nm_per_Pa_s = 1.7,
               .shear_per_s = 30.0,
               .rated_Nm = 70.0,
               .overload_tau_s = 25.0,
               .refrigerant_W_per_K = 280.0,
               .capacity_W = 1650.0,
               .rated_evaporating_degC = -20.0,
               .maximum_evaporating_degC = -12.0,
               .lowest_evaporating_degC = -35.0,
               .room_W_per_K = 1.5,
               .inlet_height_m = 0.3,
               .draw_L_per_min = 6.0,
               .ready_degC = -6.0,
               .ready_Nm = 58.0,
               .best_overrun_norm = 0.5};
  m.rinse = {.flow_kg_per_s = 0.12, .water_degC = 40.0};
  m.probe = {.tau_s = 4.0, .vat_share_norm = 0.7, .covered_L = 9.0};
  return m;
}

}  // namespace stirbench::tests
