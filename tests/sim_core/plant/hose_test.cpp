#include "sim_core/plant/hose.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "sim_core/plant/freezer/freezer.h"
#include "sim_core/plant/pump_and_draw.h"
#include "sim_core/plant/upkeep/assembly_effects.h"
#include "tests/sim_core/plant/machine.h"
#include "tests/support/assembly_rules.h"

// The transfer hose: what it holds, how it lies, clamp and gasket. Volumes to 1e-9; losses against a
// published pipe.
using namespace stirbench;
using namespace stirbench::plant;
using namespace stirbench::tests;

namespace {

Rig filling(HoseLine line, double degC = 5.0, double opening = 0.3) {
  Rig rig(hm45_spec());
  rig.spec.assembly = assembly_rules();
  rig.pour(white_base(), 40.0, degC);
  rig.run(stir_only, 30.0);
  rig.state.line = line;
  rig.state.fittings.hose = HoseEnd::freezer;
  rig.state.fittings.draw_opening_norm = opening;
  return rig;
}

double litres_in(HoseLine line, double seconds = 20.0) {
  Rig rig = filling(line);
  rig.run(stir_only, seconds);
  return mix_L(rig.state.freezer);
}

double leaked_kg(bool clamped, bool gasket) {
  Rig rig = filling({.clamped = clamped, .gasket = gasket}, 5.0, 0.06);
  rig.run(stir_only, 60.0);
  return rig.state.floor_kg;
}

}  // namespace

TEST_CASE("what left the vat is in the hose, in the freezer or on the floor, to 1e-9") {
  for (const HoseLine& line : {HoseLine{}, HoseLine{.clamped = true, .gasket = false},
                               HoseLine{.clamped = false}, HoseLine{.route = HoseRoute::kinked}}) {
    Rig rig = filling(line);
    rig.run(stir_only, 15.0);
    const PlantState& s = rig.state;
    const double everywhere = s.product.total_kg() + s.line.held.total_kg() + s.freezer.product.total_kg() +
                              s.floor_kg + s.pail.total_kg() + s.masses.evaporated_kg + s.lid_water_kg +
                              s.soil.film.total_kg();
    CHECK(std::abs(everywhere - 40.0) < 1.0e-9);
    CHECK(std::abs(mass_residual_kg(s)) < 1.0e-9);
    CHECK(std::abs(residual_J(rig.spec, s)) < 1.0e-3 * moved_J(s.ledger));
    // The hose is as full as it is long: a cylinder's volume.
    if (s.fittings.hose == HoseEnd::freezer)
      CHECK(hose_L(rig.spec) ==
            doctest::Approx(1000.0 * 0.25 * std::numbers::pi * 0.019 * 0.019 * 1.5).epsilon(1e-12));
  }
}

TEST_CASE(
    "a straight hose loses what the published pipe does; a kink and a lift cost flow, a shut inlet all of "
    "it") {
  Rig rig = filling({});
  // Water at 20 degC, 12 mm by 1 m, 6 L/min: physics reference section 9 computes 1.00 kPa of friction and
  // 0.59 kPa for K = 1.5.
  rig.spec.draw.hose_bore_m = 0.012;
  rig.spec.draw.hose_length_m = 1.0;
  rig.state.coefficients.density_kg_per_m3 = 998.2;
  CHECK(hose_loss_Pa(rig.spec, rig.state, {1.002e-3, 1.0}, 1.0e-4) == doctest::Approx(1590.0).epsilon(0.02));
  // Mix of 80 mPa s: 15.7 kPa of friction there.
  rig.state.coefficients.density_kg_per_m3 = 1095.0;
  CHECK(hose_loss_Pa(rig.spec, rig.state, {0.080, 1.0}, 1.0e-4) ==
        doctest::Approx(15700.0 + 0.75 * 1095.0 * 0.884 * 0.884).epsilon(0.02));
  rig.state.line.route = HoseRoute::kinked;
  CHECK(hose_loss_Pa(rig.spec, rig.state, {0.080, 1.0}, 1.0e-4) > 30.0e3);
  const double good = litres_in({});
  CHECK(good > 3.0);
  CHECK(litres_in({.route = HoseRoute::kinked}) < 0.9 * good);
  CHECK(litres_in({.route = HoseRoute::high}) < 0.95 * good);
  Rig shut = filling({});
  shut.state.freezer.inlet_open = false;
  shut.run(stir_only, 20.0);
  CHECK(shut.state.freezer.product.total_kg() + shut.state.line.held.total_kg() == 0.0);
  CHECK(shut.state.freezer.line_bar > 0.1);
}

TEST_CASE(
    "clamp and gasket: dry with both, then clamp alone, gasket alone, none; the slot's law gives the drip") {
  CHECK(leaked_kg(true, true) == 0.0);
  const double no_clamp = leaked_kg(false, true);
  const double no_gasket = leaked_kg(true, false);
  const double neither = leaked_kg(false, false);
  CHECK(no_clamp > 0.0);
  CHECK(no_gasket > no_clamp);
  CHECK(neither > no_gasket);
  HoseLine bare{.clamped = false, .gasket = false};
  // pi d c^3 dp / (12 mu L) by hand: 19 mm, 0.3 mm, 3 mm long, 5 kPa, 50 mPa s.
  CHECK(ring_gap_flow_m3_per_s(0.019, joint_gap_m(bare), joint_length_m, 5.0e3, 0.05) ==
        doctest::Approx(3.14159265358979 * 0.019 * 2.7e-11 * 5.0e3 / (12.0 * 0.05 * 0.003)).epsilon(1e-9));
}

TEST_CASE("without its clamp a hose under pressure flies off and the stream goes to the floor") {
  Rig rig = filling({.clamped = false}, 5.0, 0.6);
  rig.state.freezer.inlet_open = false;
  rig.run(stir_only, 10.0);
  CHECK(rig.state.line.jumped);
  CHECK(rig.state.fittings.hose == HoseEnd::none);
  const double floor_kg = rig.state.floor_kg;
  rig.run(stir_only, 5.0);
  CHECK(rig.state.floor_kg > floor_kg + 0.5);
  CHECK(rig.state.pail.total_kg() == 0.0);
  // A clamp holds it.
  Rig held = filling({}, 5.0, 0.6);
  held.state.freezer.inlet_open = false;
  held.run(stir_only, 10.0);
  CHECK_FALSE(held.state.line.jumped);
}

TEST_CASE("drained, all of it is in the freezer; not drained, on the floor") {
  Rig rig = filling({});
  rig.run(stir_only, 10.0);
  rig.state.fittings.draw_opening_norm = 0.0;
  rig.run(nothing, 5.0);
  const double held_kg = rig.state.line.held.total_kg();
  CHECK(held_kg ==
        doctest::Approx(1.0e-3 * hose_L(rig.spec) * rig.state.coefficients.density_kg_per_m3).epsilon(1e-3));
  const double before_kg = rig.state.freezer.product.total_kg();
  Rig spilt = rig;
  drain_hose(rig.spec, rig.state);
  CHECK(rig.state.freezer.product.total_kg() == doctest::Approx(before_kg + held_kg).epsilon(1e-12));
  CHECK(rig.state.line.held_J == 0.0);
  CHECK(freezer_mass_residual_kg(rig.state.freezer) == doctest::Approx(0.0).epsilon(1e-9));
  const double floor_kg = spilt.state.floor_kg;
  CHECK(empty_hose(spilt.state) == held_kg);
  CHECK(spilt.state.floor_kg == floor_kg + held_kg);
}
