#pragma once

#include <array>
#include <memory>

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// The heated and chilled machine as one system of ordinary differential equations, for general-purpose
// solvers. The fluxes are written out by hand; only the coefficients come from the plant, here at every
// evaluation, in the plant's own step as often as pace.h says. Left out, so not for runs in which they
// matter: ice, the kinetics of the product but for ageing (which thickens it) and the setting of its fat,
// draw, rinse, what boiling adds to the foam.
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
  protein_film_kg_per_m2,
  mineral_film_kg_per_m2,
  shaft_rad_per_s,
  evaporating,
  condensing,
  dry_norm,
  lid_water_kg,
  probe_pocket,
  probe,
  age_norm,
  unset_norm,
  air_norm,
  variable_count
};
using Variables = std::array<double, variable_count>;

struct MachineOde {
  plant::MachineSpec spec;
  plant::PlantState base;  // what stays: other components, fittings, environment, compressor on or off
  plant::Actuators relays;

  // dy/dt [unit/s].
  Variables rate(const Variables& y) const;
  // The plant's state that `y` means, zones' enthalpies included.
  plant::PlantState state_of(const Variables& y) const;
};

Variables variables_of(const plant::PlantState& state);

// CVODE (SUNDIALS: backward differentiation, Newton with a dense matrix of its own differences) on one
// machine. Absolute tolerances go with the relative one: 100 K, 10 kg and the like. Throws std::runtime_error
// when the solver gives up.
class Cvode {
 public:
  explicit Cvode(double tolerance);
  ~Cvode();
  Cvode(const Cvode&) = delete;
  Cvode& operator=(const Cvode&) = delete;

  // Begins, or begins anew after something was switched.
  void start(const MachineOde& ode, double t_s, const Variables& y);
  // The solution at t, never before an earlier t: steps of the solver's own choice until past it, then its
  // interpolation.
  const Variables& at(double t_s);
  long evaluations() const;  // of the right-hand side

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

struct Solution {
  Variables y{};
  long evaluations = 0;
};
Solution solve_by_cvode(const MachineOde& ode, const Variables& start, double span_s, double tolerance);

}  // namespace stirbench::tests
