#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "sim_core/plant/drive.h"
#include "sim_core/plant/pump_and_draw.h"
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

// The pump's point is solved in closed form: put back into the two curves, every litre must be accounted for.
TEST_CASE(
    "pump: what it displaces is what goes round, slips and is drawn off, on both branches of the slip") {
  const MachineSpec m = hm45_spec();
  const double rated_rpm = rated_agitator_rad_per_s(m.drive) * 30.0 / 3.141592653589793;
  const double rated_L_per_min = m.pump.displacement_L_per_rev * rated_rpm;
  int by_orifice = 0;
  int by_slit = 0;
  int folded = 0;
  for (const double Pa_s : {3.0e-4, 1.0e-3, 5.0e-3, 0.03, 0.2, 2.0}) {
    for (const double rpm : {3.0, 30.0, 87.5}) {
      for (const double drawn : {0.0, 0.5, 1.0}) {
        for (const double slip_factor : {0.0, 1.0, 20.0}) {
          CAPTURE(Pa_s);
          CAPTURE(rpm);
          CAPTURE(drawn);
          CAPTURE(slip_factor);
          const double outflow = drawn * m.pump.displacement_L_per_rev * rpm;
          const double loss_factor = slip_factor > 1.0 ? 8.0 : 1.0;
          const PumpPoint p = pump_point(m, Pa_s, rpm, outflow, slip_factor, loss_factor);
          // The loop's curve, written the other way round: turbulent and laminar loss at this flow.
          const double share = p.circulation_L_per_min / rated_L_per_min;
          const double loss_bar = m.pump.circulation_loss_bar_at_rated * loss_factor *
                                  (share * share + 0.02 * Pa_s / 1.0e-3 * share) / 1.02;
          CHECK(loss_bar == doctest::Approx(p.pressure_bar).epsilon(1e-9));
          const double leak = m.pump.slip_L_per_min_per_bar * slip_factor;
          const double slit = leak * p.pressure_bar * std::min(1.0e3, 1.0e-3 / Pa_s);
          const double orifice = leak * std::sqrt(p.pressure_bar);
          const double left = m.pump.displacement_L_per_rev * rpm - outflow;
          if (p.pressure_bar >= m.pump.shut_off_bar) {
            ++folded;
            CHECK(p.pressure_bar == m.pump.shut_off_bar);
            CHECK(p.circulation_L_per_min + std::min(slit, orifice) <= left * (1.0 + 1e-9));
          } else {
            (slit < orifice ? by_slit : by_orifice) += 1;
            CHECK(p.circulation_L_per_min + std::min(slit, orifice) == doctest::Approx(left).epsilon(1e-9));
          }
        }
      }
    }
  }
  CHECK(by_orifice > 0);
  CHECK(by_slit > 0);
  CHECK(folded > 0);
}
