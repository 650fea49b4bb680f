#pragma once

#include "sim_core/product/product.h"

namespace stirbench::product {

// Initial freezing point [degC] by Leighton's method (Goff & Hartel, Ice Cream, 7th ed. 2013, ch. 6):
//   sucrose equivalents = sucrose + lactose + 1.9 monosaccharide + 0.80 syrup solids (42 DE), per 100 g water
//   in Table 6.1 (interpolated; beyond 180 g/100 g with the slope of the book's polynomial), plus salts 2.37
//   K x milk solids not fat / water. Other ash is taken as milk ash (0.296 K per g/100 g water), table salt
//   with 0.593 K per g/100 g water (dissociated).
//   Alcohol is not a component.
// `dissolved_kg`: kinetics.h, dissolved_kg(product), or masses when everything is dissolved. No water:
// returns 0.
double freezing_point_degC(const PerComponent& dissolved_kg);

// Share of the total mass that is ice at t (0 at and above the freezing point): the same curve, with water
// freezing out and the rest becoming more concentrated; no bound water. Reproduces the worked example of
// Table 6.2 within 0.2 % of the water.
double ice_fraction_norm(const PerComponent& dissolved_kg, double t_degC);

// Partly frozen product. `mass_kg` is all of it (ice counts as water), `dissolved_kg` what is in solution.
//
// Enthalpy [J] relative to liquid at 0 degC: that of the liquid (properties.h, linear below 0 degC) less the
// heat released by freezing at t, ice x fusion_at_J_per_kg. The heat of fusion (333.6 kJ/kg at 0 degC) falls
// with the difference between the heat capacities of water (4.22) and of ice, 2.0623 + 0.0060769 t kJ/(kg K)
// (Choi & Okos 1986, ASHRAE 2006).
double frozen_enthalpy_J(const PerComponent& mass_kg, const PerComponent& dissolved_kg, double t_degC);
// Heat needed to melt 1 kg of ice at t <= 0 degC [J/kg].
double fusion_at_J_per_kg(double t_degC);
// Temperature [degC] at which the product holds `enthalpy_J`; not below -60 degC. No mass: returns the guess.
double frozen_temperature_degC(const PerComponent& mass_kg, const PerComponent& dissolved_kg,
                               double enthalpy_J, double guess_degC);
// Apparent heat capacity dH/dt [J/(kg K)], which includes the ice that forms, by a central difference of
// 0.02 K. Not valid at the freezing point itself, where it jumps.
double apparent_heat_capacity_J_per_kgK(const PerComponent& mass_kg, const PerComponent& dissolved_kg,
                                        double t_degC);

}  // namespace stirbench::product
