#include <doctest/doctest.h>

#include "tests/sim_core/plant/machine.h"

// Air that the agitator draws in and that pouring takes along: where, how much, and what it does.
using namespace stirbench;
using namespace stirbench::tests;
using namespace stirbench::plant;

namespace {

product::Ingredient skim_milk() {
  using product::Component;
  product::Ingredient i;
  i.fraction[Component::milk_protein] = 0.034;
  i.fraction[Component::lactose] = 0.049;
  i.fraction[Component::milk_ash] = 0.007;
  i.fraction[Component::milk_fat] = 0.001;
  i.fraction[Component::water] = 0.909;
  return i;
}

Rig stirred(const product::Ingredient& what, double kg, double t_degC, double seconds) {
  Rig rig(hm45_spec());
  rig.pour(what, kg, t_degC);
  rig.run(stir_only, seconds);
  return rig;
}

double air(const Rig& rig) { return rig.state.product.air_norm; }

}  // namespace

TEST_CASE("a half-full vat draws 5 to 15 % of air at 45 degC, a full one at most 3 %") {
  const Rig half = stirred(skim_milk(), 22.5, 45.0, 900.0);
  CHECK(air(half) > 0.05);
  CHECK(air(half) < 0.15);
  const Rig full = stirred(skim_milk(), 45.0, 45.0, 900.0);
  CHECK(air(full) < 0.03);
  const Rig water = stirred(plain_water(), 22.5, 45.0, 900.0);
  CHECK(air(water) < 0.005);
}

TEST_CASE("air lifts the level as 1 / (1 - air), and leaves mass and energy as they were") {
  Rig rig(hm45_spec());
  rig.pour(skim_milk(), 22.5, 45.0);
  rig.state.product.air_norm = 0.0;
  const double flat_L = fill_L(rig.state);
  rig.run(stir_only, 900.0);
  const double lifted = fill_L(rig.state) * (1.0 - air(rig));
  CHECK(lifted == doctest::Approx(flat_L).epsilon(0.005));
  CHECK(fill_L(rig.state) > 1.05 * flat_L);
  CHECK(rig.residual_norm() < 1.0e-4);
  CHECK(std::abs(mass_residual_kg(rig.state)) < 1.0e-9);
}

TEST_CASE("pouring takes a little air along, more in warm skim milk than in cold whole; it fades at rest") {
  Rig rig(hm45_spec());
  rig.pour(skim_milk(), 40.0, 45.0);
  const double first = air(rig);
  CHECK(first > 0.01);
  CHECK(first < 0.03);
  rig.run(nothing, 900.0);
  CHECK(air(rig) < 0.5 * first);
  Rig cream(hm45_spec());
  cream.pour(white_base(), 40.0, 20.0);
  CHECK(air(cream) < 0.3 * first);
  Rig water(hm45_spec());
  water.pour(plain_water(), 40.0, 20.0);
  CHECK(air(water) < 0.001);
}

TEST_CASE("foam makes the agitator's work lighter") {
  Rig rig = stirred(skim_milk(), 20.0, 45.0, 60.0);
  const double before = rig.state.coefficients.agitator_torque_Nm;
  rig.run(stir_only, 900.0);
  CHECK(rig.state.coefficients.agitator_torque_Nm < 0.97 * before);
}
