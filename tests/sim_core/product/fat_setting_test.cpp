#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/product/properties.h"
#include "tests/sim_core/product/samples.h"

// Milk fat sets late and melts at once.
using namespace samples;

namespace {

Product cream_at(double t_degC) {
  Product p;
  add_ingredient(p, cream(), 10.0, t_degC, true, t_degC);
  return p;
}

double fat_kg(const Product& p) { return p.mass_kg[Component::milk_fat]; }

}  // namespace

TEST_CASE("an ingredient comes with its fat at rest: nothing is unset, and waiting changes nothing") {
  Product p = cream_at(5.0);
  CHECK(p.set_fat_norm == doctest::Approx(milk_fat_set_norm(5.0)).epsilon(1e-12));
  run(p, still(5.0), 600.0);
  CHECK(p.unset_fat_kg == doctest::Approx(0.0).scale(1.0).epsilon(1e-12));
}

TEST_CASE("chilled at once, fat is liquid first and sets as exp(-t / tau), in an hour at 5 degC") {
  Product p = cream_at(60.0);
  run(p, still(5.0), 1.0, 1.0e-3);
  const double at_first_kg = p.unset_fat_kg;
  CHECK(at_first_kg == doctest::Approx(fat_kg(p) * milk_fat_set_norm(5.0)).epsilon(0.001));
  run(p, still(5.0), 3600.0);
  CHECK(p.unset_fat_kg == doctest::Approx(at_first_kg * std::exp(-1.0)).epsilon(0.001));
  // At least 4 h of ageing (Goff, ch. 6): by then all but 2 % has set.
  run(p, still(5.0), 3.0 * 3600.0);
  CHECK(p.unset_fat_kg < 0.02 * at_first_kg);
}

TEST_CASE("cooled to above 21 degC it stays liquid for hours; colder it sets, the sooner the colder") {
  Product warm = cream_at(60.0);
  run(warm, still(22.0), 4.0 * 3600.0, 10.0);
  CHECK(warm.set_fat_norm < 1.0e-3);
  CHECK(warm.unset_fat_kg > 0.1 * fat_kg(warm));
  CHECK(fat_setting_per_s(21.0) == 0.0);
  CHECK(fat_setting_per_s(13.0) == doctest::Approx(0.5 / 3600.0).epsilon(1e-12));
  CHECK(fat_setting_per_s(2.0) == fat_setting_per_s(5.0));
}

TEST_CASE("melting follows at once and leaves nothing behind") {
  Product p = cream_at(5.0);
  for (double t = 5.0; t < 45.0; t += 0.5) {
    run(p, still(t), 1.0);
    CHECK(p.set_fat_norm == doctest::Approx(milk_fat_set_norm(t)).epsilon(1e-12));
    CHECK(p.unset_fat_kg == 0.0);
  }
}

TEST_CASE("unset fat goes with what is drawn, and two products' share blends by their fat") {
  Product p = cream_at(60.0);
  run(p, still(5.0), 10.0);
  const double before_kg = p.unset_fat_kg;
  const Product out = draw_share(p, 0.25);
  CHECK(out.unset_fat_kg == doctest::Approx(0.25 * before_kg).epsilon(1e-12));
  CHECK(p.unset_fat_kg + out.unset_fat_kg == doctest::Approx(before_kg).epsilon(1e-12));
  Product mixed = cream_at(60.0);
  merge(mixed, cream_at(5.0));
  CHECK(mixed.set_fat_norm ==
        doctest::Approx(0.5 * (milk_fat_set_norm(60.0) + milk_fat_set_norm(5.0))).epsilon(1e-12));
}
