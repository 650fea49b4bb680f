#include "tests/sim_core/bench/machine_fixture.h"

#include "tests/support/assembly_rules.h"
#include "tests/support/hm45_spec.h"

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

}  // namespace

machine::Machine small_kitchen_machine() {
  machine::Machine machine;
  machine.plant = tests::hm45_spec();
  machine.plant.assembly = tests::assembly_rules();
  machine.ingredients = {
      ingredient("cream", product::Form::liquid, 5.0,
                 {{Component::water, 0.58},
                  {Component::milk_fat, 0.36},
                  {Component::milk_protein, 0.021},
                  {Component::lactose, 0.033},
                  {Component::milk_ash, 0.006}}),
      ingredient("sugar", product::Form::crystals, 20.0, {{Component::sucrose, 1.0}}),
      ingredient("water", product::Form::liquid, 12.0, {{Component::water, 1.0}}),
      ingredient("whole_milk", product::Form::liquid, 5.0,
                 {{Component::water, 0.875},
                  {Component::milk_fat, 0.036},
                  {Component::milk_protein, 0.033},
                  {Component::lactose, 0.049},
                  {Component::milk_ash, 0.007}}),
  };
  control::Recipe recipe;
  recipe.id = "white_base";
  recipe.title = "White base";
  using K = control::PhaseKind;
  recipe.phases = {
      {.id = "warm", .kind = K::heat, .title = "warm", .target_degC = 40.0},
      {.id = "add",
       .kind = K::add,
       .title = "add",
       .target_degC = 40.0,
       .instruction = "Add sugar and cream."},
      {.id = "heat", .kind = K::heat, .title = "heat", .target_degC = 85.0},
      {.id = "hold", .kind = K::hold, .title = "hold", .target_degC = 85.0, .duration_s = 30.0},
      {.id = "chill", .kind = K::chill, .title = "chill", .target_degC = 4.0},
      {.id = "keep", .kind = K::keep, .title = "keep", .target_degC = 4.0},
  };
  control::Recipe warm_only;
  warm_only.id = "warm_only";
  warm_only.title = "Warm only";
  warm_only.phases = {{.id = "warm", .kind = K::heat, .title = "warm", .target_degC = 30.0}};
  machine.recipes = {warm_only, recipe};  // sorted by id
  machine.content_hash = "0123456789abcdef";
  return machine;
}

hands::Action press(const char* key, double held_s) { return hands::press(key, held_s); }
hands::Action pour(const char* ingredient, double kg, double degC) {
  return hands::pour(ingredient, kg, degC);
}
hands::Action choose(const char* recipe) { return hands::choose_recipe(recipe); }
hands::Action valve(double opening_norm) { return hands::turn_draw_valve(opening_norm); }

}  // namespace stirbench::bench_test
