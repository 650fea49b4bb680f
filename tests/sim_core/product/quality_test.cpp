#include <doctest/doctest.h>

#include "sim_core/product/quality.h"
#include "tests/sim_core/product/samples.h"

using namespace stirbench::product;

namespace {

Product mix() {
  Product p;
  p.mass_kg[Component::water] = 25.0;
  p.mass_kg[Component::milk_protein] = 1.5;
  p.mass_kg[Component::sucrose] = 6.0;
  return p;
}

}  // namespace

TEST_CASE("a clean batch has clean words and an ordinary cleaning") {
  const QualityReport q = quality(mix(), 0.0, 0.1, true);
  CHECK(q.taste == TasteWord::clean);
  CHECK(q.specks == SpeckWord::none);
  CHECK(q.egg == EggWord::none);
  CHECK(q.aged);
  CHECK(q.cleaning_min == doctest::Approx(15.0));
}

TEST_CASE("burnt matter shows as specks, then as taste; the deposit as minutes") {
  Product p = mix();
  p.scorched_kg = 0.02e-3 * p.total_kg();
  CHECK(quality(p, 0.0, 0.1, false).specks == SpeckWord::few);
  CHECK(quality(p, 0.0, 0.1, false).taste == TasteWord::clean);
  p.scorched_kg = 0.15e-3 * p.total_kg();
  CHECK(quality(p, 0.0, 0.1, false).specks == SpeckWord::many);
  CHECK(quality(p, 0.0, 0.1, false).taste == TasteWord::slightly_burnt);
  p.scorched_kg = 0.5e-3 * p.total_kg();
  CHECK(quality(p, 0.0, 0.1, false).taste == TasteWord::burnt);
  CHECK(cleaning_minutes(0.004) == doctest::Approx(15.0));
  CHECK(cleaning_minutes(0.1) == doctest::Approx(15.0 + 0.095 * 300.0));
  CHECK(cleaning_minutes(3.0) == doctest::Approx(255.0));
  double before = 0.0;
  for (double d = 0.0; d < 3.0; d += 0.01) {
    CHECK(cleaning_minutes(d) >= before);
    before = cleaning_minutes(d);
  }
  CHECK(quality(p, 0.1, 0.12, false).deposit_g == doctest::Approx(12.0));
}

TEST_CASE("cooked flavour and egg in words") {
  Product p = mix();
  p.native_whey_norm = 0.2;
  CHECK(quality(p, 0.0, 0.1, false).taste == TasteWord::cooked);
  CHECK(quality(p, 0.0, 0.1, false).whey_denatured_norm == doctest::Approx(0.8));
  p.mass_kg[Component::egg_protein] = 0.5;
  CHECK(quality(p, 0.0, 0.1, false).egg == EggWord::liquid);
  p.egg_set_norm = 0.3;
  CHECK(quality(p, 0.0, 0.1, false).egg == EggWord::thickening);
  p.egg_set_norm = 0.9;
  CHECK(quality(p, 0.0, 0.1, false).egg == EggWord::set);
  p.egg_curd_norm = 0.1;
  CHECK(quality(p, 0.0, 0.1, false).egg == EggWord::curdling);
  p.egg_curd_norm = 0.3;
  CHECK(quality(p, 0.0, 0.1, false).egg == EggWord::curdled);
}

TEST_CASE("nothing in the vat has no words but leaves its wall to clean") {
  const QualityReport q = quality(Product{}, 0.1, 0.1, false);
  CHECK(q.whey_denatured_norm == 0.0);
  CHECK(q.taste == TasteWord::clean);
  CHECK(q.cleaning_min > 40.0);
}
