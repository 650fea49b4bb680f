#pragma once

#include <array>

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// The heated and chilled machine as one system of ordinary differential equations, for general-purpose
// solvers. The fluxes are written out by hand; only the coefficients come from the plant, here at every
// evaluation, in the plant's own step once a second. Left out, so not for runs in which they matter: ice, the
// kinetics of the product, draw, rinse, drain of foam.
namespace stirbench::tests {

enum Variable : std::size_t {
  element,
  well_wall,
  well,
  vat,
  vat_wall,
  evaporator,
  lid,
  water_kg,
  deposit_kg_per_m2,
  shaft_rad_per_s,
  evaporating,
  condensing,
  dry_norm,
  lid_water_kg,
  variable_count
};
using Variables = std::array<double, variable_count>;

struct MachineOde {
  plant::MachineSpec spec;
  plant::PlantState base;  // what stays: other components, fittings, environment, compressor on or off
  plant::Actuators relays;

  // dy/dt [unit/s].
  Variables rate(const Variables& y) const;
};

Variables variables_of(const plant::PlantState& state);

// By CVODE (SUNDIALS: backward differentiation, Newton with a dense matrix of its own differences). Absolute
// tolerances go with the relative one: 100 K, 10 kg and the like. Throws std::runtime_error when the solver
// gives up.
struct Solution {
  Variables y{};
  long evaluations = 0;  // of the right-hand side
};
// `read_each_s` > 0: its results are read that often, as a controller's scans would (interpolated, so without
// a restart).
Solution solve_by_cvode(const MachineOde& ode, const Variables& start, double span_s, double tolerance,
                        double read_each_s = 0.0);

}  // namespace stirbench::tests
