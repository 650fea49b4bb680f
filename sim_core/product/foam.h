#pragma once

#include "sim_core/product/product.h"

// Air that stirring and pouring bring into the product, and how much of it stays. Pure functions.
namespace stirbench::product {

// Share of the protein, of all kinds, in the product.
double protein_norm(const Product& product);

// What protein holds of the steam that bubbles through: 1 from 1 % on, in proportion below, boiling water a
// fiftieth (choices).
double protein_hold_norm(double protein_norm);

// What the product as it stands at t holds of the air that comes in: in proportion to its protein up to 1 %,
// so water none, whose bubbles are gone within seconds (choice); milk foam is best at 40 to 50 degC, half as
// good at 5 and seven tenths at 80 degC (the maximum: Huppertz 2010; the rest choices); fat that is partly
// crystalline breaks it, most about 20 degC, not at all above 37 degC (Huppertz 2010, Borcherding et al.
// 2008): a fifth is left of a whole milk's (choice).
double foam_hold_norm(const Product& product, double t_degC);

// How far the surface dips in the middle of an unbaffled vat [m] (Nagata 1975, from memory): a core that
// turns with the shaft up to r = (d / 2) 1.25 Re / (1000 + 1.6 Re), a free vortex round it; w^2 r^2 / (2 g)
// (2 - r^2 / R^2).
double vortex_dip_m(double shaft_rad_per_s, double impeller_m, double vessel_m, double reynolds);

// Share of air that a turning agitator whips up to in a product that holds all of it: none while the vortex
// reaches less than half way down to the blades, 10 % where it reaches half as deep again (a vat half full
// 5 to 15 %, a full one 0 to 3 %: dairy practice, from memory; the limits between are choices).
// `cover_m`: liquid at rest above the blades, at or below 0 they break the surface.
double drawn_air_norm(double dip_m, double cover_m);

// It gets there with this time constant (choice).
inline constexpr double whipping_s = 120.0;

// Air that a poured liquid takes along, share of its volume, where it is held: a can emptied over the rim, a
// fall of some 0.3 m (choice).
inline constexpr double poured_air_norm = 0.02;

}  // namespace stirbench::product
