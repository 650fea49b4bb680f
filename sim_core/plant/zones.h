#pragma once

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"
#include "sim_core/product/properties.h"

// The product as two stirred zones of one composition: the well, filled first, and the vat above it. Each
// zone's enthalpy is booked (well_J, vat_J, above 0 degC, as if all were liquid); its temperature follows.
// Everything that moves mass goes through here, so that enthalpy is taken from one side and given to the
// other once.
//
// Below merge_kg in the vat both zones count as one: so little product would need steps far below a tick, and
// any pour stirs it anyway. Engineering choice.
namespace stirbench::plant {

inline constexpr double merge_kg = 0.2;
inline constexpr double least_kg = 1.0e-3;  // less than this is a film at the temperature of the air
// Crystals absorb this heat as they dissolve (sucrose, physics reference section 10, from memory; salt
// absorbs four times that, which is neglected). Undissolved solids hold that much less than the enthalpy
// counts for them.
inline constexpr double solution_J_per_kg = 16.0e3;
inline constexpr double fusion_J_per_kg = 333.6e3;  // ice Ih at 0 degC, IAPWS (physics reference section 2)

struct Zones {
  double total_kg = 0.0;
  double well_kg = 0.0;
  double vat_kg = 0.0;
  bool present = false;  // enough product to have a temperature of its own
  bool merged = true;
};

inline double loose_sugar_kg(const product::Product& product) {
  return product.undissolved_sugar_kg + product.sunk_sugar_kg;
}

// What the product holds beyond the enthalpy of its composition at its temperature [J]: fat that has not set
// yet holds its heat of setting, crystals lack what they will absorb.
inline double held_J(const product::Product& product) {
  return product::milk_fat_setting_J_per_kg * product.unset_fat_kg -
         solution_J_per_kg * loose_sugar_kg(product);
}

Zones zones(const PlantState& state);
// Mass-weighted temperature of both.
double mean_degC(const PlantState& state, const Zones& z);

// Enthalpy [J] of `kg` of the present composition at t.
double enthalpy_at_J(const PlantState& state, double kg, double t_degC);

// Heat into the zones [J]; the temperatures follow with the refreshed heat capacities.
void add_heat(PlantState& state, const Zones& z, double well_heat_J, double vat_heat_J);

// Temperatures from the booked enthalpies, exactly; pooled when merged.
void update_zone_temperatures(PlantState& state);
// Keeps the well full: liquid moves down from the vat, or up when the well holds more than its volume.
void keep_well_full(const MachineSpec& spec, PlantState& state);

// Books the enthalpy [J above 0 degC] of what was just added to state.product (pour, rinse); `before`: the
// zones without it. The well keeps its temperature and the vat takes the rest; when that would leave the
// range of the temperatures mixed, everything is mixed at once.
void mix_in(const MachineSpec& spec, PlantState& state, const Zones& before, double added_J,
            double added_degC);

// Takes up to `kg` of liquid out of the well or from the top of the vat; solids on the floor and ice stay.
// Its fat counts as set from there on: the heat of that is in its enthalpy.
struct TakenLiquid {
  product::Product product;
  double kg = 0.0;
  double enthalpy_J = 0.0;
};
TakenLiquid take_liquid(const MachineSpec& spec, PlantState& state, double kg, bool from_well);

// `kg` of water (at most what there is) leaves as vapour of the given enthalpy. The latent part cools the
// zone that it evaporates from; the rest was held by the liquid of the vat that replaces it.
void remove_vapour(PlantState& state, const Zones& z, double kg, double vapour_J_per_kg,
                   double latent_J_per_kg, bool from_well);

// Liquid water at the vat's temperature comes from the lid (kg > 0) or goes to it: booked as material.
void move_water(PlantState& state, const Zones& z, double kg);

// What is above the brim runs onto the floor; returns litres.
double spill_overflow(const MachineSpec& spec, PlantState& state);

}  // namespace stirbench::plant
