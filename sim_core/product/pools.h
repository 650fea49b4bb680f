#pragma once

#include "sim_core/product/product.h"

// Which components the undissolved solids consist of. The product stores only the mass of each pool
// (crystals, powder, gum), so components are attributed: crystals to sucrose, then to the other sugars;
// powder in proportion to protein, lactose, starch, fibre and ash, then to sugars; gum to the stabiliser.
// With one sugar and one powder this is exact except for sugar that the powder contains; masses always add
// up.
namespace stirbench::product {

struct Pools {
  PerComponent dissolved_kg;  // the solution, with its fat and wetted proteins
  PerComponent suspended_kg;  // crystals, powder, gum (dry or lumped) carried by the flow
  PerComponent sunk_kg;       // lying on the well floor
};

// Splits product.mass_kg; the three parts sum to it (to rounding).
Pools split(const Product& product);

// Crystals, powder and gum that are not in solution, afloat or sunk.
double undissolved_kg(const Product& product);

// True when nothing is outside the solution, so that mass_kg itself is the solution.
bool all_dissolved(const Product& product);

}  // namespace stirbench::product
