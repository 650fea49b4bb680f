#pragma once

#include "sim_core/product/product.h"

// Thermal properties from composition.
//
// Water: own polynomial fits to IAPWS-IF97 at 0.101325 MPa, 0..110 degC (above 100 degC saturated liquid);
// largest errors: density 0.0007 %, heat capacity 0.012 %, conductivity 0.023 %, evaporation heat 0.0008 %,
// saturation pressure 0.002 %. Other components: Choi & Okos 1986 as printed in ASHRAE Refrigeration Handbook
// 2006, ch. 9, Tables 1 and 2
// (-40..150 degC); all sugars and starch as carbohydrate, emulsifier as fat, stabiliser as fibre.
// Mixing rules: density by volume additivity, heat capacity by mass, conductivity in parallel by volume share
// (a stirred emulsion; upper bound). Valid at 0..110 degC; outside, the properties are evaluated at the
// nearest valid temperature, so that none diverges, and enthalpy continues linearly. Ice, air and heats of
// solution (sucrose about +16 kJ/kg) are not included. Nothing can fail; negative masses are a programming
// error.
//
// Compared with published foods: heat capacity within 2 % (ASHRAE Table 3), density of sugar solutions within
// 0.5 % (NBS C440), density of milk and mix up to 0.8 % low, of rich cream up to 1.3 % low.
namespace stirbench::product {

// Specific heat capacity of one component [J/(kg K)].
double component_heat_capacity_J_per_kgK(Component component, double t_degC);

// Specific enthalpy of one component above 0 degC liquid/solid reference [J/kg]: the exact integral
// of component_heat_capacity_J_per_kgK, so that stored energy and heat flows agree.
double component_enthalpy_J_per_kg(Component component, double t_degC);

// Milk fat sets over a range: how far it has, 0 liquid .. 1 as far as it ever does, once it has had the time;
// and the heat of all of that [J/kg of fat]. The functions here take it to follow the temperature at once;
// what has not set yet is booked apart (Product::unset_fat_kg).
double milk_fat_set_norm(double t_degC);
inline constexpr double milk_fat_setting_J_per_kg = 40.0e3;

double component_density_kg_per_m3(Component component, double t_degC);
double component_conductivity_W_per_mK(Component component, double t_degC);

// Values of a mixture. `mass_kg`: masses or mass fractions; zero mass gives the value of water.
double heat_capacity_J_per_kgK(const PerComponent& mass_kg, double t_degC);
double enthalpy_J(const PerComponent& mass_kg, double t_degC);
double density_kg_per_m3(const PerComponent& mass_kg, double t_degC);
double conductivity_W_per_mK(const PerComponent& mass_kg, double t_degC);

// Temperature at which `mass_kg` holds `enthalpy` [J]; Newton from `guess_degC` to 1e-9 K.
// No mass: returns the guess.
double temperature_degC(const PerComponent& mass_kg, double enthalpy_J, double guess_degC);

// Latent heat of evaporation [J/kg] and saturation pressure [Pa] of water, fits to IAPWS-IF97, 0..110 degC.
double evaporation_heat_J_per_kg(double t_degC);
double saturation_pressure_Pa(double t_degC);
// Specific enthalpy of the vapour that leaves at t: component enthalpy of liquid water + evaporation heat
// [J/kg].
double vapour_enthalpy_J_per_kg(double t_degC);

}  // namespace stirbench::product
