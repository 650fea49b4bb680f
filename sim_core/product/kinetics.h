#pragma once

#include "sim_core/product/product.h"

// What time, heat and stirring do to the product: dissolving, wetting, hydration, lumps, whey-protein
// denaturation, lethality, egg setting and curdling, ageing, growth.
namespace stirbench::product {

// Conditions seen by the product during dt.
struct Treatment {
  double coldest_degC = 20.0;   // coldest zone: judges lethality
  double hottest_degC = 20.0;   // hottest bulk zone: judges curdling
  double mean_degC = 20.0;      // mass-weighted
  double shear_per_s = 0.0;     // mean shear rate by the agitator; 0 when it stands
  double stir_W_per_kg = 0.0;   // specific stirring power
};

// Pours `kg` of an ingredient into the product. `stirred`: whether there is flow to carry it in; a gum or powder dumped
// into product at rest lumps or sinks to a larger share. Mass is conserved exactly.
void add_ingredient(Product& product, const Ingredient& ingredient, double kg, double mean_degC, bool stirred);

// Advances all kinetics by dt_s > 0. Masses of components do not change; only the histories do.
void advance(Product& product, const Treatment& treatment, double dt_s);

// Removes a representative share (0..1) of everything (drawing off), solids on the floor excluded.
void remove_share(Product& product, double share_norm);

double solids_not_dissolved_kg(const Product& product);
// Share of the stabiliser that is hydrated, 1 when there is none.
double hydration_norm(const Product& product);
double log10_reduction(const Product& product);  // lethality / D(79.4 degC) = 0.5 s (Bradshaw et al. 1987)

}  // namespace stirbench::product
