#pragma once

#include <algorithm>

#include "sim_core/product/kinetics.h"

// Ingredients and products that the tests of this folder share. Compositions are round numbers near common
// tables; the tests compare behaviour, not figures.
namespace samples {

using namespace stirbench::product;

inline Ingredient liquid(double fat, double protein, double lactose, double ash) {
  Ingredient i;
  i.id = "liquid";
  i.fraction[Component::milk_fat] = fat;
  i.fraction[Component::milk_protein] = protein;
  i.fraction[Component::lactose] = lactose;
  i.fraction[Component::milk_ash] = ash;
  i.fraction[Component::water] = 1.0 - fat - protein - lactose - ash;
  return i;
}

inline Ingredient whole_milk() { return liquid(0.036, 0.033, 0.048, 0.007); }
inline Ingredient cream() { return liquid(0.36, 0.021, 0.030, 0.005); }

inline Ingredient sugar() {
  Ingredient i;
  i.id = "sugar";
  i.form = Form::crystals;
  i.fraction[Component::sucrose] = 1.0;
  return i;
}

inline Ingredient skim_powder() {
  Ingredient i;
  i.id = "skim_powder";
  i.form = Form::powder;
  i.fraction[Component::milk_protein] = 0.36;
  i.fraction[Component::lactose] = 0.52;
  i.fraction[Component::milk_ash] = 0.08;
  i.fraction[Component::milk_fat] = 0.01;
  i.fraction[Component::water] = 0.03;
  return i;
}

inline Ingredient gum(double hydration_degC) {
  Ingredient i;
  i.id = "gum";
  i.form = Form::gum;
  i.hydration_degC = hydration_degC;
  i.fraction[Component::stabiliser] = 0.9;
  i.fraction[Component::water] = 0.1;
  return i;
}

inline Ingredient yolk() {
  Ingredient i;
  i.id = "yolk";
  i.fraction[Component::egg_protein] = 0.16;
  i.fraction[Component::other_fat] = 0.27;
  i.fraction[Component::other_ash] = 0.02;
  i.fraction[Component::other_carbohydrate] = 0.02;
  i.fraction[Component::water] = 0.53;
  i.yolk_solids_norm = 0.47;
  return i;
}

inline Product poured(const Ingredient& ingredient, double kg, double t_degC = 5.0) {
  Product p;
  add_ingredient(p, ingredient, kg, t_degC, true);
  return p;
}

inline Treatment stirred(double t_degC) { return {t_degC, t_degC, t_degC, 40.0, 0.2}; }
inline Treatment still(double t_degC) { return {t_degC, t_degC, t_degC, 0.0, 0.0}; }

inline void run(Product& p, const Treatment& treatment, double seconds, double dt_s = 1.0) {
  while (seconds > 1.0e-9) {
    const double dt = std::min(dt_s, seconds);
    advance(p, treatment, dt);
    seconds -= dt;
  }
}

}  // namespace samples
