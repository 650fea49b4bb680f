#pragma once

#include "sim_core/product/product.h"

namespace stirbench::product {

// Initial freezing point [degC] by Leighton's method (Goff & Hartel, Ice Cream, 7th ed. 2013, ch. 6):
//   sucrose equivalents = sucrose + lactose + 1.9 monosaccharide + 0.80 syrup solids (42 DE), per 100 g water
//   in Table 6.1 (interpolated; beyond 180 g/100 g with the slope of the book's polynomial), plus salts 2.37
//   K x milk solids not fat / water. Other ash is taken as milk ash (0.296 K per g/100 g water): table salt
//   lowers twice as much, so a salted product is up to 0.3 K per percent of salt in its water too high.
//   Alcohol is not a component.
// `dissolved_kg`: kinetics.h, dissolved_kg(product), or masses when everything is dissolved. No water:
// returns 0.
double freezing_point_degC(const PerComponent& dissolved_kg);

// Mass share of all the mix that is ice at t (0 at and above the freezing point): the same curve, water
// freezing out and the rest concentrating; no bound water. Table 6.2's worked example is met within 0.2 % of
// the water.
double ice_fraction_norm(const PerComponent& dissolved_kg, double t_degC);

}  // namespace stirbench::product
