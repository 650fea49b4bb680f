#pragma once

#include "sim_core/product/product.h"

// Flow behaviour of the product: power law tau = K * rate^n.
namespace stirbench::product {

struct PowerLaw {
  double consistency_Pa_sn = 1.0e-3;  // K
  double index = 1.0;                 // n, 1 = Newtonian
};

// Rheology of the product as it is now: what is dissolved and hydrated thickens the liquid; undissolved
// sugar, powder and dry gum count as loose grains, solids on the floor not at all. Fitted for 0..90 degC,
// water to 40 % fat, to 75 % sugars in the water, to 1 % stabiliser in the water; evaluated at the nearest of
// -5..130 degC outside. Ice and air do not count. Equations and sources in viscosity.cpp; what is a choice
// rather than a source in sim_core/MODELS.md.
PowerLaw power_law(const Product& product, double t_degC);

// Viscosity of a sucrose solution [Pa s]: Genotelle's equation (0..75 % by mass, 0..80 degC, about 4 %
// against tables), blended into IAPWS water below 20 %. Evaluated at the nearest of 0..78 % and -5..130 degC
// outside.
double sugar_solution_viscosity_Pa_s(double sugars_pct, double t_degC);

// Apparent viscosity [Pa s] at a shear rate [1/s] (floored at 0.1 1/s).
double apparent_viscosity_Pa_s(const PowerLaw& law, double shear_per_s);

}  // namespace stirbench::product
