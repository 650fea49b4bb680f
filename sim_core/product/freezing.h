#pragma once

#include "sim_core/product/product.h"

namespace stirbench::product {

// Initial freezing point [degC] by sucrose equivalents and milk salts (Leighton's method as in Goff & Hartel,
// Ice Cream, 7th ed. 2013, ch. 6, Table 6.1 interpolated). No water: returns 0.
double freezing_point_degC(const PerComponent& dissolved_kg);

// Mass share of all the mix that is ice at t (0 above the freezing point), Leighton curve (water freezes out, rest concentrates).
double ice_fraction_norm(const PerComponent& dissolved_kg, double t_degC);

}  // namespace stirbench::product
