#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/plant/scorch.h"
#include "sim_core/product/quality.h"
#include "tests/sim_core/plant/machine.h"

// Burning on: what it depends on, its resistance, and what it does to taste and cleaning. The rate itself is
// a choice (no published value fits such a machine), so directions and closed forms are checked, not figures.
using namespace stirbench;
using namespace stirbench::tests;
using namespace stirbench::plant;

TEST_CASE("the deposit grows e-fold each 7 K of wall, slower with shear, and only where heat goes in") {
  const double at_100 = scorch_kg_per_m2s(7.0e-4, 100.0, 20.0, 0.0);
  CHECK(scorch_kg_per_m2s(7.0e-4, 107.0, 20.0, 0.0) / at_100 == doctest::Approx(std::exp(1.0)).epsilon(1e-6));
  CHECK(at_100 / scorch_kg_per_m2s(7.0e-4, 100.0, 20.0, 38.0) == doctest::Approx(20.0).epsilon(1e-9));
  double before = -1.0;
  for (const double product_degC : {100.5, 100.0, 99.0, 95.0, 80.0}) {
    const double now = scorch_kg_per_m2s(7.0e-4, 100.0, product_degC, 0.0);
    CHECK(now >= before);
    before = now;
  }
  CHECK(scorch_kg_per_m2s(7.0e-4, 100.0, 100.0, 0.0) == 0.0);
}

TEST_CASE("what sticks is protein and sugar: water leaves nothing, a sweet mix more than milk") {
  product::PerComponent water;
  water[product::Component::water] = 40.0;
  CHECK(scorch_reference_kg_per_m2s(water) == 0.0);
  CHECK(scorch_reference_kg_per_m2s({}) == 0.0);
  product::PerComponent milk = water;
  milk[product::Component::milk_protein] = 1.4;
  milk[product::Component::lactose] = 2.0;
  CHECK(scorch_reference_kg_per_m2s(milk) > 0.0);
  CHECK(scorch_reference_kg_per_m2s(white_base().fraction) > 2.0 * scorch_reference_kg_per_m2s(milk));
}

TEST_CASE("resistance of a layer: thickness over conductivity") {
  CHECK(deposit_m2K_per_W(0.5) == doctest::Approx(0.5 / 1100.0 / 0.35).epsilon(1e-9));
}

TEST_CASE("white film: Arrhenius at the wall, none below 70 degC nor of water, four times as much at rest") {
  // Fryer & Slater 1985 (from memory): 89 kJ/mol, so 0.44 at 85 and 2.16 at 105 degC of what is at 95 degC.
  const double at_95 = film_kg_per_m2s(0.033, 95.0, 20.0, 40.0);
  CHECK(film_kg_per_m2s(0.033, 85.0, 20.0, 40.0) / at_95 == doctest::Approx(0.44).epsilon(0.02));
  CHECK(film_kg_per_m2s(0.033, 105.0, 20.0, 40.0) / at_95 == doctest::Approx(2.16).epsilon(0.02));
  CHECK(film_kg_per_m2s(0.033, 95.0, 20.0, 0.0) / at_95 == doctest::Approx(4.0).epsilon(1e-9));
  CHECK(film_m2K_per_W(3600.0 * at_95) == doctest::Approx(2.0e-4).epsilon(0.01));
  CHECK(film_kg_per_m2s(0.033, 69.0, 20.0, 0.0) == 0.0);
  CHECK(film_kg_per_m2s(0.0, 95.0, 20.0, 0.0) == 0.0);
  CHECK(film_kg_per_m2s(0.033, 95.0, 95.0, 0.0) == 0.0);
  // 51 g/m2 of wet film is 0.05 mm and 1e-4 m2 K/W.
  CHECK(film_m2K_per_W(0.0515) == doctest::Approx(1.0e-4).epsilon(0.01));
}

TEST_CASE("flow wears the layer off into the product as specks; cleaning takes longer for what stays") {
  Rig rig(hm45_spec());
  rig.pour(white_base(), 45.0, 20.0);
  rig.state.deposit_kg_per_m2 = 0.2;
  const double all_kg = 0.2 * rig.spec.well.heated_area_m2;
  const auto report = [&] {
    return product::quality(rig.state.product, rig.state.deposit_kg_per_m2, rig.spec.well.heated_area_m2,
                            false);
  };
  const product::QualityReport before = report();
  rig.run(stir_only, 1800.0);
  const product::QualityReport after = report();
  CHECK(rig.state.deposit_kg_per_m2 < 0.5 * 0.2);
  CHECK(rig.state.product.scorched_kg + rig.state.deposit_kg_per_m2 * rig.spec.well.heated_area_m2 ==
        doctest::Approx(all_kg).epsilon(1e-9));
  CHECK(before.specks == product::SpeckWord::none);
  CHECK(after.specks != product::SpeckWord::none);
  CHECK(after.taste != product::TasteWord::clean);
  CHECK(before.cleaning_min > after.cleaning_min);
  CHECK(after.cleaning_min > 15.0);
}
