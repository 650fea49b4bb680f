#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim_core/plant/freezer/freezer.h"
#include "sim_core/plant/freezer/freezer_internal.h"
#include "sim_core/plant/freezer/freezer_laws.h"
#include "sim_core/product/freezing.h"
#include "sim_core/product/kinetics.h"
#include "sim_core/product/properties.h"
#include "sim_core/product/viscosity.h"

// What comes into the freezer's cylinder and leaves it: charge, water, gate, overflow, drain.
namespace stirbench::plant {
namespace {

struct Portion {
  product::Product product;
  double kg = 0.0;
  double enthalpy_J = 0.0;
  double air_L = 0.0;
};

// A representative share of everything in the cylinder.
Portion remove(FreezerState& f, double kg) {
  Portion out;
  const double total_kg = f.product.total_kg();
  if (!(kg > 0.0) || !(total_kg > 0.0)) return out;
  const double share = total_kg - kg < 0.01 ? 1.0 : kg / total_kg;
  out.kg = share * total_kg;
  out.enthalpy_J = share * f.contents_J;
  out.air_L = share * f.air_L;
  if (share >= 1.0) {
    out.product = f.product;
    f.product = {};
    f.contents_J = f.air_L = f.ice_kg = f.flake_kg = f.crystal_um = 0.0;
  } else {
    out.product = product::draw_share(f.product, share);
    out.kg = out.product.total_kg();
    f.contents_J -= out.enthalpy_J;
    f.air_L -= out.air_L;
    f.ice_kg *= 1.0 - share;
    f.flake_kg *= 1.0 - share;
  }
  f.ledger.left_J -= out.enthalpy_J;
  return out;
}

// Above the inlet it runs over; a dasher that turns in a cylinder nine tenths full throws it out of an open
// inlet.
double over_L(const FreezerSpec& spec, const FreezerState& f, double dt_s) {
  const double over = contents_L(f) - spec.free_L;
  if (over > 0.0) return over;
  const double crowded = contents_L(f) / spec.free_L - 0.9;
  return f.running && !f.resting && f.inlet_open && crowded > 0.0 ? 0.5 * crowded * dt_s : 0.0;
}

// The liquid between the crystals: water less ice, everything else kept.
product::Product unfrozen(const FreezerState& f) {
  product::Product liquid = f.product;
  double& water_kg = liquid.mass_kg[product::Component::water];
  water_kg = std::max(0.02 * water_kg, water_kg - f.ice_kg);
  return liquid;
}

}  // namespace

double freezer_viscosity_Pa_s(const FreezerSpec& spec, const FreezerState& f) {
  const double liquid_Pa_s =
      product::apparent_viscosity_Pa_s(product::power_law(unfrozen(f), f.degC), spec.shear_per_s);
  const double ice_L = 1000.0 * f.ice_kg / ice_kg_per_m3;
  const double all_L = mix_L(f);
  return all_L > 0.0 ? liquid_Pa_s * krieger_dougherty(ice_L / all_L) : 0.0;
}

// The product comes out as fast as the dasher pushes it; at rest only what flows by itself.
void draw_into_tub(const FreezerSpec& spec, FreezerState& f, double dt_s) {
  f.outflow_L_per_min = 0.0;
  if (!(f.gate_norm > 0.0) || !(f.product.total_kg() > 0.0)) return;
  const double full = std::clamp(contents_L(f) / spec.minimum_charge_L, 0.15, 1.0);
  // At rest by its weight: a fifth of the pushed flow for a mix of 0.1 Pa s, less as it thickens (choice).
  const double push =
      f.running && !f.resting ? 1.0 : 0.2 * std::min(1.0, 0.1 / std::max(1.0e-3, f.viscosity_Pa_s));
  const double per_min_L = spec.draw_L_per_min * f.gate_norm * full * push;
  const double kg = per_min_L / 60.0 * dt_s * f.product.total_kg() / std::max(1.0e-9, contents_L(f));
  const Portion out = remove(f, kg);
  if (!(out.kg > 0.0)) return;
  f.ledger.drawn_kg += out.kg;
  f.outflow_L_per_min = per_min_L;
  product::merge(f.tub, out.product);
  f.tub_J += out.enthalpy_J;
  f.tub_air_L += out.air_L;
  f.tub_degC = product::frozen_temperature_degC(f.tub.mass_kg, product::dissolved_kg(f.tub), f.tub_J, f.degC);
}

void overflow_inlet(const FreezerSpec& spec, PlantState& state, double dt_s) {
  FreezerState& f = state.freezer;
  const double litres = over_L(spec, f, dt_s);
  if (!(litres > 0.0)) return;
  const Portion lost = remove(f, litres * f.product.total_kg() / contents_L(f));
  f.ledger.spilled_kg += lost.kg;
  state.floor_kg += lost.kg;
  f.overflow_L_per_min = litres * 60.0 / dt_s;
}

// Driven by the product's own head in the cylinder; what is frozen stays.
void empty_through_drain(const FreezerSpec& spec, FreezerState& f, double dt_s) {
  if (!f.drain_open || !(f.product.total_kg() > 0.0)) return;
  const double density = product::density_kg_per_m3(f.product.mass_kg, f.degC);
  const double diameter_m = std::sqrt(spec.wall_area_m2 / (2.0 * std::numbers::pi));
  const double head_m = diameter_m * std::clamp(contents_L(f) / spec.free_L, 0.0, 1.0);
  const double per_min_L = drain_L_per_min(head_m, freezer_viscosity_Pa_s(spec, f), density);
  const Portion out =
      remove(f, per_min_L / 60.0 * dt_s * f.product.total_kg() / std::max(1.0e-9, contents_L(f)));
  f.ledger.drained_kg += out.kg;
  f.drain_L_per_min = per_min_L;
}

void charge_freezer(const FreezerSpec& spec, PlantState& state, const TakenLiquid& mix) {
  FreezerState& f = state.freezer;
  const bool empty = !(f.product.total_kg() > 0.0);
  product::merge(f.product, mix.product);
  // Foam of the vat breaks in the hose and the funnel (choice).
  f.product.air_norm = 0.0;
  f.contents_J += mix.enthalpy_J;
  f.ledger.arrived_kg += mix.kg;
  f.ledger.arrived_J += mix.enthalpy_J;
  const double guess_degC = empty ? state.well_degC : f.degC;
  const product::PerComponent dissolved_kg = product::dissolved_kg(f.product);
  f.degC = product::frozen_temperature_degC(f.product.mass_kg, dissolved_kg, f.contents_J, guess_degC);
  f.ice_kg = product::ice_fraction_norm(dissolved_kg, f.degC) * dissolved_kg.sum();
  f.flake_kg = std::min(f.flake_kg, f.ice_kg);
  if (empty) {
    f.viscosity_Pa_s = freezer_viscosity_Pa_s(spec, f);
    f.freezing_s = 0.0;
    f.ready_s = -1.0;
  }
}

void pour_water(const FreezerSpec& spec, PlantState& state, double kg, double degC) {
  // Tap water of 300 mg/kg dissolved minerals (common practice), so that it freezes over a range, as real
  // water does.
  constexpr double minerals_norm = 3.0e-4;
  TakenLiquid water;
  water.product.mass_kg[product::Component::water] = (1.0 - minerals_norm) * kg;
  water.product.mass_kg[product::Component::salt] = minerals_norm * kg;
  water.kg = kg;
  water.enthalpy_J = product::frozen_enthalpy_J(water.product.mass_kg, water.product.mass_kg, degC);
  charge_freezer(spec, state, water);
}

}  // namespace stirbench::plant
