#include "sim_core/bench/spills.h"

#include <algorithm>

#include "sim_core/bench/state.h"

namespace stirbench::bench {

namespace {

constexpr double room_m3 = 30.0;
constexpr double molar_L = 24.47;  // ideal gas at 25 degC and 1 atm

double over_mass(double kg, const Bucket& bucket) {
  const double all_kg = bucket_kg(bucket);
  return all_kg > 0.0 ? kg / all_kg : 0.0;
}

}  // namespace

double bucket_kg(const Bucket& bucket) { return bucket.water_kg + bucket.chemical_kg; }
double strength_norm(const Bucket& bucket) { return over_mass(bucket.active_kg, bucket); }
double irritant_index(const Bucket& bucket) { return over_mass(bucket.irritant_kg, bucket); }
double corrosive_index(const Bucket& bucket) { return over_mass(bucket.corrosive_kg, bucket); }

double chlorine_gas_ppm(const Bucket& bucket) {
  const double gas_mol = std::min(bucket.chlorine_mol, 0.5 * bucket.acid_mol);
  return gas_mol * molar_L / (room_m3 * 1000.0) * 1.0e6;
}

bool floor_wet(const State& state) { return state.plant.floor_kg > wet_floor_kg; }

}  // namespace stirbench::bench
