#pragma once

#include "sim_core/product/composition.h"

// The product in the vat as one plain, copyable value: masses by component plus the "histories"
// (how much is still undissolved, how cooked, how scorched ...) that heating and stirring change.
// Kinetics that advance these fields live in kinetics.h; pure property functions in properties.h,
// viscosity.h and freezing.h.
namespace stirbench::product {

struct Product {
  PerComponent mass_kg;  // everything poured in, dissolved or not

  // Solids that are not yet part of the solution. All are included in mass_kg.
  double undissolved_sugar_kg = 0.0;  // crystals in suspension
  double sunk_sugar_kg = 0.0;         // crystals lying on the well floor
  double dry_powder_kg = 0.0;         // powder not yet wetted and dispersed
  double sunk_powder_kg = 0.0;        // powder lying on the well floor
  double dry_gum_kg = 0.0;            // stabiliser dispersed but not yet hydrated
  double gum_lumps_kg = 0.0;          // stabiliser clumped: hydrates from its skin only
  double hot_gum_fraction = 0.0;  // share of the gum not yet hydrated (dry and lumps) that needs hot_gum_degC
  double hot_gum_degC = 0.0;
  PerGum
      gum_kg;  // of the stabiliser in mass_kg what is of a named kind, hydrated or not; the rest is a blend

  double yolk_solids_kg = 0.0;

  // What heat, time and stirring have done.
  double native_whey_norm = 1.0;  // beta-lactoglobulin still native, 1 -> 0
  double lethality_s = 0.0;       // F at 79.4 degC, z 7 K, on the coldest zone [s]
  double growth_log10 = 0.0;      // growth of spoilage/pathogen since the last heat treatment
  double egg_set_norm = 0.0;      // 0 liquid, 1 fully thickened
  double egg_curd_norm = 0.0;     // 0 smooth, 1 fully curdled
  double age_norm = 0.0;          // fat crystallised and protein hydrated since chilling
  double scorched_kg = 0.0;       // burnt matter that came off the wall into the product
  double air_norm = 0.0;          // volume share of entrained air (foam)
  // Milk fat: how far it has set, 0 all liquid .. 1 as far as it ever sets; and the fat that is colder than
  // it sets at without having done so, whose heat of setting it still holds [kg].
  double set_fat_norm = 0.0;
  double unset_fat_kg = 0.0;

  // Active substance of cleaning chemicals that is in it; part of mass_kg's water.
  double alkaline_kg = 0.0;
  double acid_kg = 0.0;
  double chlorine_kg = 0.0;  // available chlorine

  double total_kg() const { return mass_kg.sum(); }
};

}  // namespace stirbench::product
