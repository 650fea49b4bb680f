#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/product/viscosity.h"
#include "tests/sim_core/product/samples.h"

using namespace samples;

namespace {

Product custard() {
  Product p = poured(whole_milk(), 30.0);
  add_ingredient(p, yolk(), 2.0, 20.0, true);
  return p;
}

}  // namespace

// Published temperatures (process reference 1d): one egg with a cup of milk and sugar starts to thicken at
// 78-80 degC; curdled a further 3-6 K up; upper working limit without starch about 82-85 degC.
TEST_CASE("custard sets near 80 degC and curdles above 85") {
  Product warm = custard();
  run(warm, stirred(60.0), 600.0);
  CHECK(warm.egg_set_norm < 0.06);

  Product good = custard();
  const double raw = power_law(good, 82.0).consistency_Pa_sn;
  run(good, stirred(82.0), 120.0);
  CHECK(good.egg_set_norm > 0.9);
  CHECK(good.egg_curd_norm < 0.1);
  CHECK(power_law(good, 82.0).consistency_Pa_sn > 2.0 * raw);

  Product high_hold = custard();
  run(high_hold, stirred(85.0), 30.0);
  CHECK(high_hold.egg_curd_norm < 0.15);

  Product ruined = custard();
  run(ruined, stirred(89.0), 180.0);
  CHECK(ruined.egg_curd_norm > 0.9);
  CHECK(power_law(ruined, 82.0).consistency_Pa_sn < power_law(good, 82.0).consistency_Pa_sn);
}

TEST_CASE("a hot spot curdles custard that is right on average") {
  Product p = custard();
  Treatment treatment = stirred(80.0);
  treatment.hottest_degC = 92.0;
  run(p, treatment, 120.0);
  CHECK(p.egg_curd_norm > 0.9);
}

TEST_CASE("without egg nothing sets or curdles") {
  Product p = poured(whole_milk(), 30.0);
  run(p, stirred(92.0), 600.0);
  CHECK(p.egg_set_norm == 0.0);
  CHECK(p.egg_curd_norm == 0.0);
}

TEST_CASE("lethality is judged on the coldest zone") {
  Product p = poured(whole_milk(), 30.0);
  Treatment treatment = stirred(80.0);
  treatment.coldest_degC = 45.0;
  run(p, treatment, 600.0);
  CHECK(p.lethality_s == 0.0);
  CHECK(log10_reduction(p) == 0.0);
}

TEST_CASE("raw milk poured in after the hold undoes most of it") {
  Product p = poured(whole_milk(), 39.0);
  run(p, stirred(85.0), 30.0);
  CHECK(log10_reduction(p) > 100.0);
  add_ingredient(p, whole_milk(), 1.0, 60.0, true);
  // One part in forty is raw: log10(40) = 1.6 decades are left of the treatment.
  CHECK(log10_reduction(p) == doctest::Approx(std::log10(40.0)).epsilon(1.0e-6));
}

TEST_CASE("growth in the danger zone, cleared by the next heat treatment") {
  Product p = poured(whole_milk(), 30.0);
  run(p, still(30.0), 4.0 * 3600.0);
  CHECK(p.growth_log10 > 0.8);
  const double grown = p.growth_log10;
  run(p, still(0.5), 3600.0);
  CHECK(p.growth_log10 == grown);
  run(p, stirred(72.0), 1.0);
  CHECK(p.growth_log10 < grown);
  run(p, stirred(80.0), 25.0);
  CHECK(p.growth_log10 == 0.0);
  run(p, still(4.0), 24.0 * 3600.0, 10.0);
  // Growth of L. monocytogenes at 4 degC: doubling 30..46 h (Rosenow & Marth 1987): 0.16..0.24 log10 a day.
  CHECK(p.growth_log10 > 0.15);
  CHECK(p.growth_log10 < 0.25);
}

// Guelph Ice Cream e-Book, ch. 6: at least 4 h at or below 5 degC; thicker afterwards.
TEST_CASE("ageing takes hours in the cold and is lost on warming") {
  Product p = poured(whole_milk(), 20.0);
  add_ingredient(p, cream(), 10.0, 5.0, true);
  const double fresh = power_law(p, 4.0).consistency_Pa_sn;
  run(p, still(4.0), 3600.0);
  CHECK(p.age_norm < 0.6);
  run(p, still(4.0), 3.0 * 3600.0);
  CHECK(p.age_norm > 0.9);
  CHECK(power_law(p, 4.0).consistency_Pa_sn > 1.2 * fresh);
  run(p, stirred(40.0), 1800.0);
  CHECK(p.age_norm < 0.1);
}

TEST_CASE("foam drains") {
  Product p = poured(whole_milk(), 20.0);
  p.air_norm = 0.2;
  run(p, still(20.0), 3600.0);
  CHECK(p.air_norm < 0.01);
}

TEST_CASE("the length of the step does not matter while conditions last") {
  Product start = custard();
  add_ingredient(start, sugar(), 4.0, 20.0, true);
  add_ingredient(start, gum(0.0), 0.08, 20.0, true);
  add_ingredient(start, skim_powder(), 1.0, 20.0, false);
  for (const double t : {5.0, 40.0, 70.0, 85.0}) {
    CAPTURE(t);
    Product fine = start;
    Product coarse = start;
    run(fine, stirred(t), 120.0, 0.1);
    run(coarse, stirred(t), 120.0, 10.0);
    CHECK(fine.lethality_s == doctest::Approx(coarse.lethality_s).epsilon(1.0e-9));
    CHECK(fine.native_whey_norm == doctest::Approx(coarse.native_whey_norm).epsilon(1.0e-9));
    CHECK(fine.egg_set_norm == doctest::Approx(coarse.egg_set_norm).epsilon(1.0e-9));
    CHECK(fine.egg_curd_norm == doctest::Approx(coarse.egg_curd_norm).epsilon(1.0e-9));
    CHECK(fine.age_norm == doctest::Approx(coarse.age_norm).epsilon(1.0e-9));
    CHECK(fine.growth_log10 == doctest::Approx(coarse.growth_log10).epsilon(1.0e-9));
    // Coupled by settling and by the strength of the syrup: 3 % of what was poured.
    CHECK(std::abs(fine.undissolved_sugar_kg - coarse.undissolved_sugar_kg) < 0.03 * 4.0);
    CHECK(std::abs(fine.dry_gum_kg - coarse.dry_gum_kg) < 0.03 * 0.08);
    CHECK(std::abs(fine.dry_powder_kg - coarse.dry_powder_kg) < 0.03);
  }
}
