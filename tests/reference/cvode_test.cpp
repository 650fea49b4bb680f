#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "sim_core/plant/plant.h"
#include "tests/reference/machine_ode.h"
#include "tests/reference/report.h"
#include "tests/support/hm45_spec.h"

// Our step (ticks of 0.1 s, coefficients a second old) against CVODE at 1e-9 on the same fluxes with
// coefficients of the very moment: what the ticks cost in accuracy.
using namespace stirbench;
using namespace stirbench::plant;
using namespace stirbench::tests;

namespace {

constexpr const char* source = "SUNDIALS CVODE (backward differentiation, Newton), relative tolerance 1e-9";

// A fat-free mix whose properties depend on its temperature alone: nothing in it ages, dissolves or sets.
PlantState with_mix(const MachineSpec& m, double kg, double t_degC) {
  PlantState s = initial_state(m, {});
  product::Ingredient mix;
  mix.fraction[product::Component::water] = 0.80;
  mix.fraction[product::Component::milk_protein] = 0.03;
  mix.fraction[product::Component::lactose] = 0.05;
  mix.fraction[product::Component::sucrose] = 0.12;
  pour(m, s, mix, kg, t_degC);
  return s;
}

void run(const MachineSpec& m, PlantState& s, const Actuators& relays, double span_s) {
  for (long n = std::lround(10.0 * span_s); n > 0; --n) step(m, s, relays, 0.1);
}

// `metal_K`: what the element and the well's wall may be off by.
void compare(const std::string& run_name, const MachineSpec& m, PlantState s, const Actuators& relays,
             double span_s, double metal_K = 0.05) {
  const char* const part = "Second integrator";
  const Variables start = variables_of(s);
  const Solution exact = solve_by_cvode({m, s, relays}, start, span_s, 1.0e-9);
  run(m, s, relays, span_s);
  const Variables ours = variables_of(s);
  const char* const names[] = {"element", "well wall", "well", "vat", "vat wall", "evaporator", "lid"};
  for (std::size_t i = element; i <= lid; ++i) {
    reference_check(part, run_name + ": " + names[i] + ", degC", ours[i], exact.y[i],
                    absolute(i <= well_wall ? metal_K : 0.05), source);
  }
  const double dry_kg = s.product.total_kg() - ours[water_kg];
  reference_check(part, run_name + ": product, kg", ours[water_kg] + dry_kg, exact.y[water_kg] + dry_kg,
                  relative(1.0e-4), source);
  // Sharper than the mass that stayed.
  reference_check(part, run_name + ": evaporated, kg", start[water_kg] - ours[water_kg],
                  start[water_kg] - exact.y[water_kg], relative(0.01), source);
}

}  // namespace

TEST_CASE("heating under the closed lid: our step against CVODE") {
  const MachineSpec m = tests::hm45_spec();
  PlantState s = with_mix(m, 40.0, 8.0);
  run(m, s, {0.0, true, false}, 60.0);
  compare("heating 60 s", m, s, {1.0, true, false}, 60.0);
  compare("heating 10 min", m, s, {1.0, true, false}, 600.0);
  compare("heating 35 min", m, s, {1.0, true, false}, 2100.0);
}

TEST_CASE("full heat with the agitator stopped: our step against CVODE") {
  const MachineSpec m = tests::hm45_spec();
  PlantState s = with_mix(m, 40.0, 40.0);
  run(m, s, {0.0, true, false}, 60.0);
  run(m, s, {0.0, false, false}, 60.0);
  // In the first minute the metal rises by 1 K/s while natural convection from the wall is taken from its
  // temperature at the last refresh: 0.073 K at the element and 0.054 K at the wall were found, so these two
  // get 0.1 K.
  compare("stopped 60 s", m, s, {1.0, false, false}, 60.0, 0.1);
  compare("stopped 150 s", m, s, {1.0, false, false}, 150.0);
}

TEST_CASE("chilling: our step against CVODE") {
  const MachineSpec m = tests::hm45_spec();
  PlantState s = with_mix(m, 40.0, 85.0);
  run(m, s, {0.0, true, false}, 60.0);
  run(m, s, {0.0, true, true}, 60.0);
  REQUIRE(s.compressor_on);
  compare("chilling 60 s", m, s, {0.0, true, true}, 60.0);
  compare("chilling 10 min", m, s, {0.0, true, true}, 600.0);
  compare("chilling 60 min", m, s, {0.0, true, true}, 3600.0);
}
