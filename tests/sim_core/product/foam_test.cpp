#include "sim_core/product/foam.h"

#include <doctest/doctest.h>

#include "tests/sim_core/product/samples.h"

// What holds the air that stirring and pouring bring in: directions of the sources named in foam.h, and the
// vortex's own geometry.
using namespace samples;

namespace {

Ingredient skim_milk() { return liquid(0.001, 0.034, 0.049, 0.007); }

double held(const Ingredient& what, double t_degC) { return foam_hold_norm(poured(what, 20.0), t_degC); }

}  // namespace

TEST_CASE("skim milk foams best at 40 to 50 degC, whole milk least about 20 degC and again above 37") {
  for (const double t : {5.0, 20.0, 30.0, 70.0, 85.0}) {
    CAPTURE(t);
    CHECK(held(skim_milk(), t) < held(skim_milk(), 45.0));
  }
  for (const double t : {4.0, 10.0, 30.0, 40.0, 60.0}) {
    CAPTURE(t);
    CHECK(held(whole_milk(), 20.0) < 0.6 * held(whole_milk(), t));
  }
  CHECK(held(whole_milk(), 20.0) < 0.4 * held(skim_milk(), 20.0));
  CHECK(held(whole_milk(), 40.0) == doctest::Approx(held(skim_milk(), 40.0)).epsilon(1e-9));
}

TEST_CASE("water holds nothing but a little of its steam") {
  Product water;
  water.mass_kg[Component::water] = 20.0;
  CHECK(foam_hold_norm(water, 45.0) == 0.0);
  CHECK(foam_hold_norm(Product{}, 45.0) == 0.0);
  CHECK(protein_hold_norm(0.0) == 0.02);
  CHECK(protein_hold_norm(0.005) == doctest::Approx(0.5).epsilon(1e-12));
  CHECK(protein_hold_norm(0.04) == 1.0);
}

TEST_CASE("the vortex deepens with speed, and thick product turns as one piece with less of a core") {
  const double thin_m = vortex_dip_m(9.42, 0.32, 0.38, 2.0e5);
  CHECK(vortex_dip_m(0.0, 0.32, 0.38, 2.0e5) == 0.0);
  CHECK(vortex_dip_m(4.71, 0.32, 0.38, 2.0e5) == doctest::Approx(0.25 * thin_m).epsilon(1e-9));
  CHECK(vortex_dip_m(9.42, 0.32, 0.38, 1.0e3) < 0.5 * thin_m);
}

TEST_CASE("air is drawn where the vortex comes near the blades, and no more than they can fold in") {
  CHECK(drawn_air_norm(0.10, 0.25) == 0.0);
  CHECK(drawn_air_norm(0.0, -0.05) == 0.0);
  double before = 0.0;
  for (const double cover_m : {0.18, 0.14, 0.10, 0.08, 0.06}) {
    CAPTURE(cover_m);
    const double now = drawn_air_norm(0.10, cover_m);
    CHECK(now > before);
    before = now;
  }
  CHECK(before == drawn_air_norm(0.10, -0.02));
  // A vat half full: 5 to 15 % (dairy practice, from memory).
  CHECK(before >= 0.05);
  CHECK(before <= 0.15);
}
