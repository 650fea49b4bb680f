#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/product/properties.h"
#include "tests/sim_core/plant/machine.h"

// Fat that sets late in the machine: its heat comes later, and all of it comes.
using namespace stirbench;
using namespace stirbench::tests;
using namespace stirbench::plant;

namespace {

constexpr plant::Actuators chill_and_stir{0.0, true, true};

// Half milk, half cream of 36 %, in all 20 % fat.
product::Ingredient rich() {
  using product::Component;
  product::Ingredient i;
  i.fraction[Component::milk_fat] = 0.20;
  i.fraction[Component::milk_protein] = 0.027;
  i.fraction[Component::lactose] = 0.039;
  i.fraction[Component::milk_ash] = 0.006;
  i.fraction[Component::water] = 0.728;
  return i;
}

// Seconds from 60 to 5 degC.
double chilled_s(Rig& rig) {
  return rig.run_until(chill_and_stir, 14400.0, [&] { return rig.mean_degC() <= 5.0; });
}

}  // namespace

TEST_CASE("chilled rich mix is cold sooner than if its fat set at once, and the account closes") {
  Rig late(hm45_spec());
  late.pour(rich(), 40.0, 60.0);
  const double late_s = chilled_s(late);
  CHECK(late.state.product.unset_fat_kg > 0.2 * 40.0 * 0.20);
  CHECK(late.residual_norm() < 1.0e-4);

  MachineSpec quick = hm45_spec();
  quick.factors.fat_setting = 1.0e4;
  Rig at_once(quick);
  at_once.pour(rich(), 40.0, 60.0);
  const double at_once_s = chilled_s(at_once);
  CHECK(late_s < at_once_s);
  CHECK(at_once.residual_norm() < 1.0e-4);
  // No sooner than without the fat's heat at all: 40 kJ/kg on 20 % fat of some 55 K at 3.5 kJ/(kg K), 4 %,
  // with the pace of the cold end of a chill up to three times that.
  CHECK(late_s > 0.85 * at_once_s);
}

TEST_CASE("left alone it warms by the heat of its setting") {
  MachineSpec spec = hm45_spec();
  spec.vat.loss_W_per_K = spec.well.loss_W_per_K = 0.0;
  Rig rig(spec, 5.0);
  rig.pour(rich(), 40.0, 60.0);
  chilled_s(rig);
  const double unset_kg = rig.state.product.unset_fat_kg;
  const double cold = rig.mean_degC();
  const double supplied = rig.state.ledger.surroundings_J + rig.state.ledger.drive_J;
  rig.run(nothing, 4.0 * 3600.0);
  const double from_room_J = rig.state.ledger.surroundings_J + rig.state.ledger.drive_J - supplied;
  const double sets_J = product::milk_fat_setting_J_per_kg * (unset_kg - rig.state.product.unset_fat_kg);
  CHECK(rig.state.product.unset_fat_kg < 0.1 * unset_kg);
  CHECK(rig.mean_degC() > cold + 0.5);
  // The product takes the heat up with its walls; from the room next to none comes at 5 degC.
  CHECK(std::abs(from_room_J) < 0.3 * sets_J);
  CHECK(rig.residual_norm() < 1.0e-4);
}

TEST_CASE("what is drawn has its heat of setting with it") {
  Rig rig(hm45_spec());
  rig.pour(rich(), 40.0, 60.0);
  chilled_s(rig);
  const double before = rig.state.product.unset_fat_kg;
  rig.state.fittings.draw_opening_norm = 1.0;
  rig.run(stir_only, 20.0);
  rig.state.fittings.draw_opening_norm = 0.0;
  CHECK(rig.state.pail.total_kg() > 1.0);
  CHECK(rig.state.pail.unset_fat_kg == 0.0);
  CHECK(rig.state.pail_degC > rig.state.well_degC + 0.3);
  CHECK(rig.state.product.unset_fat_kg < before);
  CHECK(rig.residual_norm() < 1.0e-4);
}
