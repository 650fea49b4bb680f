#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/product/freezing.h"
#include "sim_core/product/viscosity.h"
#include "tests/sim_core/product/samples.h"

using namespace samples;

TEST_CASE("sugar stirred into warm milk is gone within minutes and leaves nothing on the floor") {
  Product p = poured(whole_milk(), 30.0);
  add_ingredient(p, sugar(), 5.0, 40.0, true);
  CHECK(solids_not_dissolved_kg(p) == doctest::Approx(5.0));
  run(p, stirred(40.0), 300.0);
  CHECK(solids_not_dissolved_kg(p) == 0.0);
  CHECK(p.mass_kg[Component::sucrose] == 5.0);
}

TEST_CASE("cold sugar without stirring leaves a deposit, which stirring and warmth clear") {
  Product p = poured(whole_milk(), 30.0);
  add_ingredient(p, sugar(), 5.0, 4.0, false);
  CHECK(p.sunk_sugar_kg > 4.0);
  run(p, still(4.0), 600.0);
  CHECK(p.sunk_sugar_kg > 4.0);
  CHECK(p.undissolved_sugar_kg < 0.05);

  Product warmed = p;
  run(warmed, stirred(45.0), 900.0);
  CHECK(solids_not_dissolved_kg(warmed) == 0.0);
}

TEST_CASE("sugar that sinks is washed up as soon as something stirs") {
  Product p = poured(whole_milk(), 30.0);
  add_ingredient(p, sugar(), 5.0, 4.0, false);
  const double before_kg = p.sunk_sugar_kg;
  run(p, stirred(4.0), 60.0);
  CHECK(p.sunk_sugar_kg < 0.7 * before_kg);
  const double lifted_kg = p.sunk_sugar_kg;
  run(p, still(4.0), 60.0);
  CHECK(p.sunk_sugar_kg > lifted_kg);
}

TEST_CASE("dissolving is faster when hot, when stirred, and slower in a strong syrup") {
  const auto left_kg = [](double sugar_before_kg, const Treatment& treatment) {
    Product p = poured(whole_milk(), 30.0);
    p.mass_kg[Component::sucrose] += sugar_before_kg;
    add_ingredient(p, sugar(), 1.0, treatment.mean_degC, true);
    run(p, treatment, 15.0);
    return solids_not_dissolved_kg(p);
  };
  CHECK(left_kg(0.0, stirred(50.0)) < 0.6 * left_kg(0.0, stirred(5.0)));
  CHECK(left_kg(0.0, stirred(20.0)) < 0.8 * left_kg(0.0, still(20.0)));
  CHECK(left_kg(0.0, stirred(20.0)) < 0.8 * left_kg(20.0, stirred(20.0)));
}

TEST_CASE("no more sugar dissolves than the water can hold") {
  Product p;
  p.mass_kg[Component::water] = 1.0;
  add_ingredient(p, sugar(), 4.0, 60.0, true);
  run(p, stirred(20.0), 7200.0, 10.0);
  // 199.4 g per 100 g water at 20 degC from the solubility cubic (physics reference: older table 203.9).
  const double dissolved = 4.0 - solids_not_dissolved_kg(p);
  CHECK(dissolved > 1.95);
  CHECK(dissolved < 2.0);
  CHECK(dissolved_kg(p)[Component::sucrose] == doctest::Approx(dissolved));
}

TEST_CASE("undissolved sugar neither lowers the freezing point nor thickens the serum") {
  Product p = poured(whole_milk(), 30.0);
  const double before_degC = freezing_point_degC(dissolved_kg(p));
  add_ingredient(p, sugar(), 5.0, 4.0, false);
  CHECK(freezing_point_degC(dissolved_kg(p)) == doctest::Approx(before_degC).epsilon(1.0e-9));
  const double grains = power_law(p, 4.0).consistency_Pa_sn;
  run(p, stirred(40.0), 1200.0);
  CHECK(freezing_point_degC(dissolved_kg(p)) < before_degC - 0.8);
  CHECK(power_law(p, 4.0).consistency_Pa_sn > 1.3 * grains);
}

TEST_CASE(
    "milk powder wets in minutes when warm and stirred, slowly when cold, and sinks when nothing moves") {
  Product warm = poured(whole_milk(), 30.0);
  add_ingredient(warm, skim_powder(), 1.5, 45.0, true);
  Product cold = warm;
  Product resting = poured(whole_milk(), 30.0);
  add_ingredient(resting, skim_powder(), 1.5, 45.0, false);
  CHECK(resting.sunk_powder_kg > 0.3);
  run(warm, stirred(45.0), 240.0);
  run(cold, stirred(5.0), 240.0);
  run(resting, still(45.0), 240.0);
  const double share = solids_not_dissolved_kg(warm) / 1.455;
  CHECK(share > 0.30);  // one time constant of 3..5 min (physics reference): e^-1 = 0.37 left, a little more
                        // for gentle stirring
  CHECK(share < 0.45);
  CHECK(solids_not_dissolved_kg(cold) > 1.5 * solids_not_dissolved_kg(warm));
  CHECK(resting.sunk_powder_kg > 0.5);
}

TEST_CASE("gum dumped without stirring lumps; rained into moving milk it hardly does") {
  Product good = poured(whole_milk(), 40.0);
  Product bad = good;
  add_ingredient(good, gum(0.0), 0.1, 20.0, true);
  add_ingredient(bad, gum(0.0), 0.1, 20.0, false);
  CHECK(good.gum_lumps_kg < 0.005);
  CHECK(bad.gum_lumps_kg > 0.04);
  run(good, stirred(40.0), 1200.0);
  run(bad, stirred(40.0), 1200.0);
  CHECK(hydration_norm(good) > 0.97);
  CHECK(hydration_norm(bad) < 0.80);
  CHECK(power_law(good, 20.0).consistency_Pa_sn > power_law(bad, 20.0).consistency_Pa_sn);
  run(bad, stirred(40.0), 3.0 * 3600.0);
  CHECK(hydration_norm(bad) > 0.95);
}

TEST_CASE("too much gum at once lumps even when stirred") {
  Product little = poured(whole_milk(), 40.0);
  Product much = little;
  add_ingredient(little, gum(0.0), 0.1, 20.0, true);
  add_ingredient(much, gum(0.0), 0.5, 20.0, true);
  CHECK(much.gum_lumps_kg / 0.45 > 5.0 * little.gum_lumps_kg / 0.09);
}

TEST_CASE("cold-soluble gum: a time constant of 10 to 20 minutes cold") {
  Product p = poured(whole_milk(), 40.0);
  add_ingredient(p, gum(0.0), 0.1, 20.0, true);
  const double dry_kg = p.dry_gum_kg;
  run(p, stirred(20.0), 600.0);
  CHECK(p.dry_gum_kg > 0.30 * dry_kg);
  run(p, stirred(20.0), 600.0);
  CHECK(p.dry_gum_kg < 0.37 * dry_kg);
}

TEST_CASE("a hot gum does nothing below 60 degC and hydrates at 80") {
  Product p = poured(whole_milk(), 40.0);
  add_ingredient(p, gum(80.0), 0.1, 20.0, true);
  run(p, stirred(60.0), 1800.0);
  CHECK(hydration_norm(p) < 0.001);
  run(p, stirred(82.0), 300.0);
  CHECK(hydration_norm(p) > 0.55);
  run(p, stirred(82.0), 1200.0);
  CHECK(hydration_norm(p) > 0.95);
}

TEST_CASE("a cold gum added after a hot one has hydrated still hydrates cold") {
  Product p = poured(whole_milk(), 40.0);
  add_ingredient(p, gum(80.0), 0.1, 20.0, true);
  run(p, stirred(85.0), 3600.0);
  run(p, stirred(20.0), 60.0);
  const double before = hydration_norm(p);
  CHECK(before > 0.98);
  add_ingredient(p, gum(0.0), 0.1, 20.0, true);
  CHECK(hydration_norm(p) < 0.55);
  run(p, stirred(20.0), 3600.0);
  CHECK(hydration_norm(p) > 0.95);
}
