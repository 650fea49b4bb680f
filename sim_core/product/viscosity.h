#pragma once

#include "sim_core/product/product.h"

// Flow behaviour of the product: power law tau = K * rate^n.
namespace stirbench::product {

struct PowerLaw {
  double consistency_Pa_sn = 1.0e-3;  // K
  double index = 1.0;                 // n, 1 = Newtonian
};

// Rheology of the product in its present state: what is dissolved and hydrated thickens the liquid;
// undissolved sugar, powder and dry gum count as suspended grains, solids on the well floor not at all.
// Fitted for 0..90 degC, 0..40 % fat, up to 75 % sugars and up to 1 % stabiliser in the water; outside
// -5..130 degC evaluated at the nearest limit. Ice and air do not count. Equations and sources in
// viscosity.cpp, engineering choices in sim_core/MODELS.md.
PowerLaw power_law(const Product& product, double t_degC);

// Viscosity of a sucrose solution [Pa s]: Genotelle's equation (0..75 % by mass, 0..80 degC, within about 4 %
// of tables), blended into IAPWS water below 20 %. Outside 0..78 % and -5..130 degC evaluated at the nearest
// limit.
double sugar_solution_viscosity_Pa_s(double sugars_pct, double t_degC);

// Apparent viscosity [Pa s] at a shear rate [1/s] (floored at 0.1 1/s).
double apparent_viscosity_Pa_s(const PowerLaw& law, double shear_per_s);

}  // namespace stirbench::product
