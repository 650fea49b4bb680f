#include "sim_core/machine/spills.h"

#include <algorithm>

#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

namespace stirbench::machine {

namespace {

constexpr double room_m3 = 30.0;
constexpr double molar_L = 24.47;  // ideal gas at 25 degC and 1 atm

double over_mass(double kg, const Bucket& bucket) {
  const double all_kg = bucket_kg(bucket);
  return all_kg > 0.0 ? kg / all_kg : 0.0;
}

double gas_ppm(double chlorine_mol, double acid_mol) {
  return std::min(chlorine_mol, 0.5 * acid_mol) * molar_L / (room_m3 * 1000.0) * 1.0e6;
}

const Chemical* first_of(const Machine& machine, ChemicalKind kind) {
  const auto found = std::find_if(machine.chemicals.begin(), machine.chemicals.end(),
                                  [kind](const Chemical& one) { return one.kind == kind; });
  return found == machine.chemicals.end() ? nullptr : &*found;
}

}  // namespace

double product::Product::*active_of(ChemicalKind kind) {
  switch (kind) {
    case ChemicalKind::alkaline: return &product::Product::alkaline_kg;
    case ChemicalKind::acid: return &product::Product::acid_kg;
    case ChemicalKind::chlorine: break;
  }
  return &product::Product::chlorine_kg;
}

double bucket_kg(const Bucket& bucket) { return bucket.water_kg + bucket.chemical_kg; }
double strength_norm(const Bucket& bucket) { return over_mass(bucket.active_kg, bucket); }
double irritant_index(const Bucket& bucket) { return over_mass(bucket.irritant_kg, bucket); }
double corrosive_index(const Bucket& bucket) { return over_mass(bucket.corrosive_kg, bucket); }

double chlorine_gas_ppm(const Bucket& bucket) { return gas_ppm(bucket.chlorine_mol, bucket.acid_mol); }

double vat_irritant_index(const Machine& machine, const product::Product& product) {
  const double kg = product.total_kg();
  double sum_kg = 0.0;
  if (!(kg > 0.0)) return 0.0;
  for (const ChemicalKind kind : {ChemicalKind::alkaline, ChemicalKind::acid, ChemicalKind::chlorine})
    if (const Chemical* chemical = first_of(machine, kind))
      sum_kg += product.*active_of(kind) / chemical->irritant_norm;
  return sum_kg / kg;
}

double vat_gas_ppm(const Machine& machine, const product::Product& product) {
  if (!(product.acid_kg > 0.0) || !(product.chlorine_kg > 0.0)) return 0.0;
  const Chemical* acid = first_of(machine, ChemicalKind::acid);
  const Chemical* chlorine = first_of(machine, ChemicalKind::chlorine);
  if (acid == nullptr || chlorine == nullptr) return 0.0;
  return gas_ppm(product.chlorine_kg * chlorine->reactive_mol_per_kg,
                 product.acid_kg * acid->reactive_mol_per_kg);
}

double on_floor_kg(const State& state) { return state.plant.floor_kg + state.plant.floor_water_kg; }

bool floor_wet(const State& state) { return on_floor_kg(state) > wet_floor_kg; }

}  // namespace stirbench::machine
