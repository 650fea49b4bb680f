#pragma once

namespace stirbench::product {

// What the watches see of a batch at one moment. Temperatures count as linear in time between samples.
struct VatSample {
  double t_s = 0.0;
  double well_degC = 20.0;  // both zones; one without product repeats the other
  double vat_degC = 20.0;
  double head_space_degC = 20.0;  // air above the product
  double mass_kg = 0.0;           // product in vat and well
  double brought_kg = 0.0;        // total poured or rinsed in since the beginning
  bool stirred = false;           // the agitator turns

  double coldest_degC() const { return well_degC < vat_degC ? well_degC : vat_degC; }
  double warmest_degC() const { return well_degC < vat_degC ? vat_degC : well_degC; }
};

// Less than this is not a batch, only what clings to the walls.
inline constexpr double least_batch_kg = 0.5;
// More than this brought in between two samples is an addition; less is rounding.
inline constexpr double addition_kg = 1.0e-6;

inline bool added_between(const VatSample& before, const VatSample& now) {
  return now.brought_kg - before.brought_kg > addition_kg;
}

}  // namespace stirbench::product
