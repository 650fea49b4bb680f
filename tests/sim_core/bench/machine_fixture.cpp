#include "tests/sim_core/bench/machine_fixture.h"

namespace stirbench::bench_test {

namespace {

using product::Component;

product::Ingredient ingredient(const char* id, product::Form form, double supply_degC,
                               std::initializer_list<std::pair<Component, double>> parts) {
  product::Ingredient made;
  made.id = id;
  made.title = id;
  made.source = "invented for the tests";
  made.form = form;
  made.supply_degC = supply_degC;
  for (const auto& [component, share] : parts) made.fraction[component] = share;
  return made;
}

plant::MachineSpec plant_spec() {
  plant::MachineSpec m;
  m.id = "HM-45";
  m.title = "HM-45";
  m.supply_V = 400.0;
  m.vat = {.working_L = 45.0, .brim_L = 56.0, .minimum_L = 18.0, .diameter_m = 0.40, .wall_area_m2 = 0.42,
           .wall_mass_kg = 9.0, .wall_cp_J_per_kgK = 500.0, .loss_W_per_K = 2.0, .lid_area_m2 = 0.126, .lid_mass_kg = 1.8,
           .lid_cp_J_per_kgK = 500.0, .lid_vapour_leak_norm = 0.05};
  m.well = {.volume_L = 6.0, .diameter_m = 0.22, .heated_area_m2 = 0.11, .wall_mass_kg = 3.0, .wall_cp_J_per_kgK = 500.0,
            .loss_W_per_K = 0.6, .evaporator_share_norm = 0.2};
  m.elements = {.count = 3, .rated_W_each = 2000.0, .rated_V = 400.0, .mass_kg = 2.4, .cp_J_per_kgK = 700.0,
                .contact_W_per_K = 90.0, .cutout_degC = 140.0};
  m.chiller = {.refrigerant = "R-290", .swept_m3_per_h = 4.6, .clearance_norm = 0.04, .isentropic_norm = 0.6,
               .evaporator_W_per_K = 400.0, .evaporator_mass_kg = 5.0, .evaporator_cp_J_per_kgK = 400.0,
               .wall_W_per_K = 500.0, .condenser_W_per_K = 320.0, .superheat_K = 6.0, .subcooling_K = 4.0,
               .high_pressure_cutout_bar = 24.0, .low_pressure_cutout_bar = 1.2, .fan_W = 80.0, .minimum_off_s = 120.0};
  m.drive = {.rated_W = 550.0, .rated_rpm = 1400.0, .synchronous_rpm = 1500.0, .breakdown_ratio = 2.4, .rated_A = 1.5,
             .idle_A = 1.0, .efficiency_norm = 0.73, .gear_ratio = 10.0, .gear_efficiency_norm = 0.93,
             .inertia_kgm2 = 0.05, .brake_torque_Nm = 1.0, .overload_A = 1.6, .overload_tau_s = 60.0};
  m.agitator = {.diameter_m = 0.24, .laminar_power_Kp = 120.0, .turbulent_power_Np = 0.9, .shear_ks = 11.0,
                .nusselt_wall_a = 0.5, .nusselt_well_a = 0.7, .covered_L = 14.0};
  m.pump = {.displacement_L_per_rev = 0.12, .slip_L_per_min_per_bar = 20.0, .circulation_loss_bar_at_rated = 0.1,
            .prime_L = 5.0, .shut_off_bar = 1.2};
  const plant::BushingSpec bushing{.material = "nylon", .diameter_m = 0.02, .length_m = 0.03, .load_N = 40.0,
                                   .wear_dry_mm3_per_Nm = 1.0e-4, .wear_wet_mm3_per_Nm = 1.0e-7, .friction_dry = 0.35,
                                   .friction_wet = 0.08, .limit_mm = 0.5, .softening_degC = 90.0};
  m.agitator_bushing = bushing;
  m.shaft_end_bushing = bushing;
  m.draw = {.valve_bore_m = 0.025, .outlet_height_m = 0.15, .hose_bore_m = 0.019, .hose_length_m = 1.5};
  m.probe = {.tau_s = 8.0, .vat_share_norm = 0.5, .covered_L = 8.0};
  return m;
}

}  // namespace

bench::Machine small_kitchen_machine() {
  bench::Machine machine;
  machine.plant = plant_spec();
  machine.ingredients = {
      ingredient("cream", product::Form::liquid, 5.0,
                 {{Component::water, 0.58}, {Component::milk_fat, 0.36}, {Component::milk_protein, 0.021},
                  {Component::lactose, 0.033}, {Component::milk_ash, 0.006}}),
      ingredient("sugar", product::Form::crystals, 20.0, {{Component::sucrose, 1.0}}),
      ingredient("water", product::Form::liquid, 12.0, {{Component::water, 1.0}}),
      ingredient("whole_milk", product::Form::liquid, 5.0,
                 {{Component::water, 0.875}, {Component::milk_fat, 0.036}, {Component::milk_protein, 0.033},
                  {Component::lactose, 0.049}, {Component::milk_ash, 0.007}}),
  };
  control::Recipe recipe;
  recipe.id = "white_base";
  recipe.title = "White base";
  using K = control::PhaseKind;
  recipe.phases = {
      {.id = "warm", .kind = K::heat, .title = "warm", .target_degC = 40.0},
      {.id = "add", .kind = K::add, .title = "add", .target_degC = 40.0, .instruction = "Add sugar and cream."},
      {.id = "heat", .kind = K::heat, .title = "heat", .target_degC = 85.0},
      {.id = "hold", .kind = K::hold, .title = "hold", .target_degC = 85.0, .duration_s = 30.0},
      {.id = "chill", .kind = K::chill, .title = "chill", .target_degC = 4.0},
      {.id = "keep", .kind = K::keep, .title = "keep", .target_degC = 4.0},
  };
  control::Recipe warm_only;
  warm_only.id = "warm_only";
  warm_only.title = "Warm only";
  warm_only.phases = {{.id = "warm", .kind = K::heat, .title = "warm", .target_degC = 30.0}};
  machine.recipes = {warm_only, recipe};   // sorted by id
  machine.content_hash = "0123456789abcdef";
  return machine;
}

bench::Action hand(bench::ActionKind kind) {
  bench::Action action;
  action.kind = kind;
  return action;
}

bench::Action press(const char* key, double held_s) {
  bench::Action action = hand(bench::ActionKind::press);
  action.name = key;
  action.held_s = held_s;
  return action;
}

bench::Action pour(const char* ingredient, double kg, double degC) {
  bench::Action action = hand(bench::ActionKind::pour);
  action.name = ingredient;
  action.number = kg;
  action.degC = degC;
  action.has_degC = true;
  return action;
}

bench::Action choose(const char* recipe) {
  bench::Action action = hand(bench::ActionKind::choose_recipe);
  action.name = recipe;
  return action;
}

bench::Action valve(double opening_norm) {
  bench::Action action = hand(bench::ActionKind::turn_draw_valve);
  action.number = opening_norm;
  return action;
}

}  // namespace stirbench::bench_test
