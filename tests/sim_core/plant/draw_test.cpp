#include <doctest/doctest.h>

#include "sim_core/product/properties.h"
#include "tests/sim_core/plant/machine.h"

// Drawing off, pouring, spilling, rinsing.
using namespace stirbench;
using namespace stirbench::tests;
using namespace stirbench::plant;

namespace {

double draw_L_per_min(double opening, bool driven, double t_degC, HoseEnd hose = HoseEnd::none) {
  Rig rig(hm45_spec());
  rig.pour(white_base(), 40.0, t_degC);
  rig.run(driven ? stir_only : nothing, 40.0);
  rig.state.fittings.draw_opening_norm = opening;
  rig.state.fittings.hose = hose;
  rig.run(driven ? stir_only : nothing, 1.0);
  return rig.state.flows.draw_L_per_min;
}

}  // namespace

TEST_CASE("the further the handle is pulled the faster it flows; pump and warmth help, a hose hinders") {
  double before = 0.0;
  for (const double opening : {0.1, 0.25, 0.5, 0.75, 1.0}) {
    const double flow = draw_L_per_min(opening, false, 4.0);
    CHECK(flow > before);
    before = flow;
  }
  CHECK(draw_L_per_min(0.0, true, 4.0) == 0.0);
  CHECK(draw_L_per_min(0.5, true, 4.0) > 1.3 * draw_L_per_min(0.5, false, 4.0));
  CHECK(draw_L_per_min(0.5, false, 80.0, HoseEnd::pail) > draw_L_per_min(0.5, false, 4.0, HoseEnd::pail));
  CHECK(draw_L_per_min(0.5, false, 4.0, HoseEnd::pail) < draw_L_per_min(0.5, false, 4.0));
}

TEST_CASE("what is drawn is in the pail, at the well's temperature; through the hose it is in the freezer") {
  Rig rig(hm45_spec());
  rig.pour(white_base(), 40.0, 6.0);
  rig.run(stir_only, 60.0);
  rig.state.fittings.draw_opening_norm = 0.5;
  rig.run(stir_only, 10.0);
  rig.state.fittings.draw_opening_norm = 0.0;
  rig.run(stir_only, 1.0);
  const double drawn_kg = rig.state.masses.drawn_kg;
  CHECK(drawn_kg > 1.0);
  // But for the drops that the jet throws over the rim.
  const double pail_kg = rig.state.pail.total_kg();
  CHECK(pail_kg + rig.state.floor_kg == doctest::Approx(drawn_kg).epsilon(1e-12));
  CHECK(pail_kg > 0.97 * drawn_kg);
  CHECK(rig.state.pail_degC == doctest::Approx(rig.state.well_degC).epsilon(0.02));
  // The same composition that it came from.
  const double fat = rig.state.pail.mass_kg[product::Component::milk_fat] / pail_kg;
  CHECK(fat == doctest::Approx(0.12).epsilon(1e-6));
  rig.state.fittings.hose = HoseEnd::freezer;
  rig.state.fittings.draw_opening_norm = 0.5;
  rig.run(stir_only, 5.0);
  CHECK(rig.state.masses.drawn_kg > drawn_kg + 0.3);
  CHECK(rig.state.pail.total_kg() == doctest::Approx(pail_kg).epsilon(1e-12));
  // The hose to the freezer is full of it.
  const double arrived_kg = rig.state.freezer.product.total_kg() + rig.state.line.held.total_kg();
  CHECK(arrived_kg == doctest::Approx(rig.state.masses.drawn_kg - drawn_kg).epsilon(1e-9));
  CHECK(rig.state.line.held.total_kg() > 0.4);
  CHECK(std::abs(mass_residual_kg(rig.state)) < 1.0e-10);
}

TEST_CASE("drawn to the last drop the machine is empty, and its accounts still close") {
  Rig rig(hm45_spec());
  rig.pour(white_base(), 25.0, 40.0);
  rig.state.fittings.draw_opening_norm = 1.0;
  rig.run_until(nothing, 3600.0, [&] { return rig.state.product.total_kg() == 0.0; });
  CHECK(rig.state.product.total_kg() == 0.0);
  CHECK(rig.state.masses.drawn_kg == doctest::Approx(25.0).epsilon(0.01));
  rig.run(nothing, 600.0);
  CHECK(rig.residual_norm() < 1.0e-4);
  CHECK(std::abs(mass_residual_kg(rig.state)) < 1.0e-9);
  CHECK(rig.state.flows.draw_L_per_min == 0.0);
}

TEST_CASE("an unprimed line spits: less flow than a primed one") {
  Rig rig(hm45_spec());
  rig.pour(white_base(), 20.0, 10.0);
  rig.run(nothing, 60.0);
  rig.state.fittings.draw_opening_norm = 0.5;
  PlantState& s = rig.state;
  PlantState airy = s;
  airy.prime_norm = 0.0;
  step(rig.spec, s, nothing, 0.1);
  step(rig.spec, airy, nothing, 0.1);
  CHECK(airy.flows.draw_L_per_min == doctest::Approx(0.5 * s.flows.draw_L_per_min).epsilon(0.02));
}

TEST_CASE("more than the brim spills on the floor, with its heat") {
  Rig rig(hm45_spec());
  rig.pour(plain_water(), 60.0, 30.0);
  CHECK(fill_L(rig.state) == doctest::Approx(52.0).epsilon(1e-6));
  CHECK(rig.state.masses.spilled_kg == doctest::Approx(60.0 - 0.052 * 995.65).epsilon(1e-4));
  CHECK(rig.state.floor_kg == rig.state.masses.spilled_kg);
  rig.run(nothing, 0.1);
  CHECK(rig.state.flows.spill_L_per_min > 0.0);
  rig.run(nothing, 0.1);
  CHECK(rig.state.flows.spill_L_per_min == 0.0);
  CHECK(std::abs(residual_J(rig.spec, rig.state)) < 10.0);
}

TEST_CASE("rinsing adds water until the brim") {
  Rig rig(hm45_spec());
  rig.state.fittings.lid_open = true;
  rig.state.fittings.rinse_on = true;
  rig.run(nothing, 60.0);
  CHECK(rig.state.masses.rinsed_kg == doctest::Approx(60.0 * rig.spec.rinse.flow_kg_per_s).epsilon(1e-9));
  CHECK(rig.state.product.mass_kg[product::Component::water] ==
        doctest::Approx(rig.state.masses.rinsed_kg - rig.state.masses.evaporated_kg).epsilon(1e-9));
  CHECK(rig.state.well_degC > 25.0);
  rig.run(nothing, 600.0);
  CHECK(rig.state.masses.spilled_kg > 0.0);
  CHECK(fill_L(rig.state) < rig.spec.vat.brim_L + 0.05);
  CHECK(rig.residual_norm() < 1.0e-4);
  CHECK(std::abs(mass_residual_kg(rig.state)) < 1.0e-9);
}

TEST_CASE("sugar on the floor is not drawn off with the liquid") {
  Rig rig(hm45_spec());
  product::Ingredient sugar;
  sugar.fraction[product::Component::sucrose] = 1.0;
  sugar.form = product::Form::crystals;
  rig.pour(plain_water(), 30.0, 8.0);
  rig.pour(sugar, 6.0, 20.0);
  rig.run(nothing, 120.0);
  CHECK(rig.state.product.sunk_sugar_kg > 1.0);
  rig.state.fittings.draw_opening_norm = 1.0;
  rig.run(nothing, 1800.0);
  CHECK(rig.state.product.sunk_sugar_kg > 0.5);
  CHECK(rig.state.product.total_kg() < 8.0);
  CHECK(rig.residual_norm() < 1.0e-4);
  CHECK(std::abs(mass_residual_kg(rig.state)) < 1.0e-9);
}
