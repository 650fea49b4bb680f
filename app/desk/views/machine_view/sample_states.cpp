#include "app/desk/views/machine_view/sample_states.h"

namespace stirbench::desk::views {

namespace {

control::Recipe sample_recipe() {
  control::Recipe recipe;
  recipe.id = "white-base";
  recipe.title = "White base";
  using control::PhaseKind;
  recipe.phases = {
      {.id = "warm", .kind = PhaseKind::heat, .title = "warm", .target_degC = 40.0},
      {.id = "add",
       .kind = PhaseKind::add,
       .title = "add",
       .target_degC = 40.0,
       .instruction = "Add sugar, cream and flavour. Then Confirm."},
      {.id = "heat", .kind = PhaseKind::heat, .title = "heat", .target_degC = 85.0},
      {.id = "hold", .kind = PhaseKind::hold, .title = "hold", .target_degC = 85.0, .duration_s = 30.0},
      {.id = "chill", .kind = PhaseKind::chill, .title = "chill", .target_degC = 4.0},
      {.id = "keep", .kind = PhaseKind::keep, .title = "keep", .target_degC = 3.0}};
  return recipe;
}

// Product in the vat with zones at given temperatures; walls near them.
void fill(machine::State& state, double volume_L, double vat_degC, double well_degC) {
  plant::PlantState& p = state.plant;
  p.product.mass_kg[product::Component::water] = volume_L * 0.88;
  p.product.mass_kg[product::Component::sucrose] = volume_L * 0.16;
  p.coefficients.volume_L = volume_L;
  p.coefficients.density_kg_per_m3 = 1040.0;
  p.vat_degC = p.vat_wall_degC = p.probe_degC = vat_degC;
  p.well_degC = p.well_wall_degC = well_degC;
  p.lid_degC = vat_degC - 8.0;
}

void turn(machine::State& state, double rpm, double circulation) {
  state.plant.flows.agitator_rpm = rpm;
  state.plant.flows.circulation_L_per_min = circulation;
  state.plant.flows.drive_W = 400.0;
}

void run(machine::State& state, std::int32_t phase) {
  state.control.mode = control::Mode::running;
  state.control.target_degC = 85.0;
  state.control.recipe = 0;
  state.control.phase = phase;
}

machine::State warm() {
  machine::State s;
  fill(s, 20.5, 24.0, 31.0);
  turn(s, 90.0, 38.0);
  run(s, 0);
  s.plant.element_degC = 170.0;
  s.plant.flows.heaters_W = 6000.0;
  s.plant.product.undissolved_sugar_kg = 2.2;
  s.plant.product.dry_powder_kg = 0.6;
  s.plant.product.gum_lumps_kg = 0.04;
  return s;
}

machine::State hot() {
  machine::State s;
  fill(s, 41.3, 85.2, 86.1);
  turn(s, 90.0, 40.0);
  run(s, 3);
  s.control.hold_ticks = 121;
  s.plant.element_degC = 240.0;
  s.plant.flows.heaters_W = 6000.0;
  s.plant.flows.steam_kg_per_h = 0.35;
  return s;
}

machine::State alarm() {
  machine::State s;
  fill(s, 41.3, 78.4, 81.0);
  run(s, 2);
  s.control.mode = control::Mode::paused;
  s.plant.element_degC = 150.0;
  s.plant.fittings.lid_open = true;
  s.plant.flows.steam_kg_per_h = 3.2;
  control::Alarm& lid = s.control.alarms[static_cast<std::size_t>(control::AlarmId::lid_guard)];
  lid.active = lid.latched = true;
  return s;
}

machine::State chill() {
  machine::State s;
  fill(s, 40.6, 12.4, 10.8);
  turn(s, 60.0, 26.0);
  run(s, 4);
  s.plant.compressor_on = true;
  s.plant.evaporator_degC = -8.0;
  s.plant.vat_wall_degC = -1.0;
  s.plant.wall_ice_kg = 0.18;
  s.plant.flows.chiller_W = 1900.0;
  s.plant.element_degC = 11.0;
  return s;
}

machine::State draw() {
  machine::State s;
  fill(s, 31.0, 4.1, 4.0);
  turn(s, 90.0, 34.0);
  run(s, 5);
  s.plant.fittings.draw_opening_norm = 0.6;
  s.plant.flows.draw_L_per_min = 7.5;
  s.plant.pail.mass_kg[product::Component::water] = 4.2;
  s.plant.pail_degC = 5.0;
  s.plant.product.age_norm = 0.5;
  return s;
}

machine::State dry() {
  machine::State s;
  fill(s, 2.4, 46.0, 58.0);
  turn(s, 92.0, 0.0);
  s.control.mode = control::Mode::stirring;
  s.plant.prime_norm = 0.2;
  s.plant.agitator_bushing = {.play_mm = 0.9, .temperature_degC = 118.0};
  s.plant.shaft_end_bushing = {.play_mm = 0.5, .temperature_degC = 92.0};
  s.plant.fittings.shaft_cover_open = false;
  s.plant.deposit_kg_per_m2 = 0.25;
  return s;
}

machine::State spill() {
  machine::State s;
  fill(s, 49.6, 96.5, 99.0);
  s.control.mode = control::Mode::standby;
  s.plant.fittings.shaft_cover_open = true;
  s.plant.element_degC = 210.0;
  s.plant.flows.steam_kg_per_h = 2.0;
  s.plant.flows.spill_L_per_min = 3.0;
  s.plant.floor_kg = 2.4;
  s.plant.product.sunk_sugar_kg = 2.5;
  s.plant.product.scorched_kg = 0.02;
  s.plant.fittings.hose = plant::HoseEnd::freezer;
  control::Alarm& cover = s.control.alarms[static_cast<std::size_t>(control::AlarmId::shaft_cover_guard)];
  cover.active = true;
  return s;
}

}  // namespace

machine::Machine sample_machine() {
  machine::Machine machine;
  plant::MachineSpec& spec = machine.plant;
  spec.id = "sample";
  spec.title = "Sample";
  spec.vat = {.working_L = 45.0, .brim_L = 50.0, .minimum_L = 18.0, .diameter_m = 0.42};
  spec.well = {.volume_L = 5.0, .diameter_m = 0.20};
  spec.elements = {.count = 3, .rated_W_each = 2000.0};
  spec.agitator = {.diameter_m = 0.28, .covered_L = 18.0};
  spec.agitator_bushing = {.material = "nylon", .limit_mm = 1.0, .softening_degC = 100.0};
  spec.shaft_end_bushing = {.material = "bronze", .limit_mm = 1.0, .softening_degC = 180.0};
  spec.draw = {.valve_bore_m = 0.025, .outlet_height_m = 0.10};
  machine.recipes = {sample_recipe()};
  return machine;
}

std::vector<SampleState> sample_states(const machine::Machine&) {
  return {{"empty", "Empty", machine::State{}},
          {"warm", "Warm, filling", warm()},
          {"hot", "Hot, running", hot()},
          {"alarm", "Lid open, alarm", alarm()},
          {"chill", "Chilling, frost", chill()},
          {"draw", "Drawing into the pail", draw()},
          {"dry", "Nearly dry, hot bushing", dry()},
          {"spill", "Boiled over", spill()}};
}

}  // namespace stirbench::desk::views
