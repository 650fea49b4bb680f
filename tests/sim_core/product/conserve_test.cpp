#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <random>
#include <set>
#include <string>

#include "sim_core/product/figures.h"
#include "sim_core/product/freezing.h"
#include "sim_core/product/pools.h"
#include "sim_core/product/properties.h"
#include "sim_core/product/viscosity.h"
#include "tests/sim_core/product/samples.h"

using namespace samples;

namespace {

double pools_of(const Product& p, int which) {
  const double values[] = {p.undissolved_sugar_kg, p.sunk_sugar_kg, p.dry_powder_kg,
                           p.sunk_powder_kg,       p.dry_gum_kg,    p.gum_lumps_kg};
  return values[which];
}

void check_sane(const Product& p) {
  for (std::size_t i = 0; i < component_count; ++i) {
    REQUIRE(std::isfinite(p.mass_kg.value[i]));
    REQUIRE(p.mass_kg.value[i] >= 0.0);
  }
  for (int which = 0; which < 6; ++which) {
    REQUIRE(std::isfinite(pools_of(p, which)));
    REQUIRE(pools_of(p, which) >= 0.0);
  }
  REQUIRE(solids_not_dissolved_kg(p) <= p.total_kg() * (1.0 + 1.0e-9));
  for (const double share : {p.native_whey_norm, p.egg_set_norm, p.egg_curd_norm, p.age_norm, p.air_norm,
                             p.hot_gum_fraction, hydration_norm(p)}) {
    REQUIRE(share >= 0.0);
    REQUIRE(share <= 1.0);
  }
  REQUIRE(std::isfinite(p.lethality_s));
  REQUIRE(p.lethality_s >= 0.0);
  REQUIRE(p.growth_log10 >= 0.0);
  REQUIRE(p.growth_log10 <= 8.0);
}

void check_properties(const Product& p) {
  for (double t = -5.0; t <= 130.0; t += 7.5) {
    CAPTURE(t);
    const PowerLaw law = power_law(p, t);
    REQUIRE(std::isfinite(law.consistency_Pa_sn));
    REQUIRE(law.consistency_Pa_sn > 1.0e-4);
    REQUIRE(law.index > 0.2);
    REQUIRE(law.index <= 1.0);
    for (const double rate : {0.0, 1.0, 1000.0}) {
      REQUIRE(std::isfinite(apparent_viscosity_Pa_s(law, rate)));
      REQUIRE(apparent_viscosity_Pa_s(law, rate) > 0.0);
    }
    REQUIRE(heat_capacity_J_per_kgK(p.mass_kg, t) > 800.0);
    REQUIRE(heat_capacity_J_per_kgK(p.mass_kg, t) < 4700.0);
    REQUIRE(density_kg_per_m3(p.mass_kg, t) > 850.0);
    REQUIRE(density_kg_per_m3(p.mass_kg, t) < 2500.0);
    REQUIRE(conductivity_W_per_mK(p.mass_kg, t) > 0.1);
    REQUIRE(std::isfinite(enthalpy_J(p.mass_kg, t)));
    REQUIRE(std::isfinite(temperature_degC(p.mass_kg, 1.0e6, t)));
    const double tf = freezing_point_degC(dissolved_kg(p));
    REQUIRE(std::isfinite(tf));
    REQUIRE(tf <= 0.0);
    const double ice = ice_fraction_norm(dissolved_kg(p), t);
    REQUIRE(ice >= 0.0);
    REQUIRE(ice <= 1.0);
    REQUIRE(saturation_pressure_Pa(t) > 0.0);
    REQUIRE(evaporation_heat_J_per_kg(t) > 2.0e6);
    Product later = p;
    for (const Treatment& treatment : {stirred(t), still(t)}) {
      for (const double dt : {0.1, 1.0, 10.0, 1000.0}) {
        advance(later, treatment, dt);
        check_sane(later);
      }
    }
  }
}

}  // namespace

TEST_CASE("mass is conserved through random pours, draws and time") {
  std::mt19937 random(20240611);
  const auto uniform = [&random](double low, double high) {
    return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
  };
  const Ingredient larder[] = {whole_milk(), cream(), sugar(), skim_powder(), gum(0.0), gum(80.0), yolk()};
  for (int round = 0; round < 200; ++round) {
    Product p;
    PerComponent poured_kg;
    PerComponent drawn_kg;
    for (int i = 0; i < 40; ++i) {
      const double t = uniform(-2.0, 98.0);
      const bool moving = random() % 2 == 0;
      switch (random() % 3) {
        case 0: {
          const Ingredient& ingredient = larder[random() % 7];
          const double kg = uniform(0.0, 10.0);
          add_ingredient(p, ingredient, kg, t, moving);
          for (std::size_t c = 0; c < component_count; ++c)
            poured_kg.value[c] += kg * ingredient.fraction.value[c];
          break;
        }
        case 1: {
          const double sunk_before_kg = p.sunk_sugar_kg + p.sunk_powder_kg;
          const Product drawn = draw_share(p, uniform(0.0, 1.0));
          check_sane(drawn);
          CHECK(p.sunk_sugar_kg + p.sunk_powder_kg == sunk_before_kg);
          for (std::size_t c = 0; c < component_count; ++c) drawn_kg.value[c] += drawn.mass_kg.value[c];
          break;
        }
        default: run(p, moving ? stirred(t) : still(t), uniform(0.1, 300.0), 10.0);
      }
      check_sane(p);
      for (std::size_t c = 0; c < component_count; ++c) {
        REQUIRE(p.mass_kg.value[c] + drawn_kg.value[c] ==
                doctest::Approx(poured_kg.value[c]).epsilon(1.0e-12).scale(1.0));
      }
    }
  }
}

TEST_CASE("drawing all leaves what lies on the floor") {
  Product p = poured(whole_milk(), 20.0);
  add_ingredient(p, sugar(), 4.0, 4.0, false);
  const double sunk_kg = p.sunk_sugar_kg;
  remove_share(p, 1.0);
  CHECK(p.total_kg() == doctest::Approx(sunk_kg));
  CHECK(p.undissolved_sugar_kg == 0.0);
  CHECK(p.mass_kg[Component::water] == 0.0);
}

TEST_CASE("a share takes its share of everything") {
  Product p = poured(whole_milk(), 20.0);
  add_ingredient(p, yolk(), 1.0, 20.0, true);
  add_ingredient(p, gum(0.0), 0.05, 20.0, true);
  const Product before = p;
  remove_share(p, 0.25);
  CHECK(p.total_kg() == doctest::Approx(0.75 * before.total_kg()));
  CHECK(p.dry_gum_kg == doctest::Approx(0.75 * before.dry_gum_kg));
  CHECK(p.yolk_solids_kg == doctest::Approx(0.75 * before.yolk_solids_kg));
  CHECK(p.mass_kg[Component::egg_protein] == doctest::Approx(0.75 * before.mass_kg[Component::egg_protein]));
}

TEST_CASE("splitting attributes every pool and adds up") {
  Product p = poured(whole_milk(), 20.0);
  add_ingredient(p, sugar(), 3.0, 4.0, false);
  add_ingredient(p, skim_powder(), 1.0, 4.0, false);
  add_ingredient(p, gum(0.0), 0.1, 4.0, false);
  const Pools parts = split(p);
  CHECK(parts.sunk_kg.sum() == doctest::Approx(p.sunk_sugar_kg + p.sunk_powder_kg));
  CHECK(parts.suspended_kg.sum() ==
        doctest::Approx(p.undissolved_sugar_kg + p.dry_powder_kg + p.dry_gum_kg + p.gum_lumps_kg));
  for (std::size_t c = 0; c < component_count; ++c) {
    CHECK(parts.dissolved_kg.value[c] + parts.suspended_kg.value[c] + parts.sunk_kg.value[c] ==
          doctest::Approx(p.mass_kg.value[c]));
  }
  CHECK(parts.dissolved_kg[Component::sucrose] == doctest::Approx(0.0));
}

TEST_CASE("nothing runs away, whatever is in the vat") {
  Product empty;
  check_properties(empty);
  for (std::size_t c = 0; c < component_count; ++c) {
    CAPTURE(c);
    Product pure;
    pure.mass_kg.value[c] = 1.0;
    check_properties(pure);
    pure.mass_kg[Component::water] += 1.0e-6;
    check_properties(pure);
  }
  for (const Ingredient& ingredient : {sugar(), skim_powder(), gum(0.0), gum(80.0), yolk()}) {
    Product dry = poured(ingredient, 3.0);
    check_sane(dry);
    check_properties(dry);
  }
  Product full = poured(whole_milk(), 30.0);
  add_ingredient(full, sugar(), 8.0, 10.0, false);
  add_ingredient(full, skim_powder(), 2.0, 10.0, false);
  add_ingredient(full, gum(0.0), 1.0, 10.0, false);
  add_ingredient(full, yolk(), 3.0, 10.0, true);
  check_properties(full);
}

TEST_CASE("pouring nothing, or less than nothing, changes nothing") {
  Product p = poured(whole_milk(), 3.0);
  const Product before = p;
  add_ingredient(p, sugar(), 0.0, 20.0, true);
  add_ingredient(p, sugar(), -1.0, 20.0, true);
  add_ingredient(p, sugar(), std::numeric_limits<double>::quiet_NaN(), 20.0, true);
  CHECK(p.mass_kg.value == before.mass_kg.value);
  CHECK(solids_not_dissolved_kg(p) == 0.0);
}

TEST_CASE("figures of a plain mix") {
  Product p = poured(whole_milk(), 28.0);
  p.mass_kg[Component::sucrose] += 6.0;
  p.mass_kg[Component::syrup_solids] += 2.0;
  add_ingredient(p, yolk(), 1.0, 5.0, true);
  const Figures f = figures(p);
  CHECK(f.mass_kg == doctest::Approx(37.0));
  CHECK(f.fat_pct == doctest::Approx(100.0 * (28.0 * 0.036 + 0.27) / 37.0));
  CHECK(f.milk_solids_not_fat_pct == doctest::Approx(100.0 * 28.0 * 0.088 / 37.0));
  CHECK(f.sugars_pct == doctest::Approx(100.0 * 8.0 / 37.0));
  CHECK(f.total_solids_pct == doctest::Approx(100.0 * (28.0 * 0.124 + 8.0 + 0.47) / 37.0));
  CHECK(f.yolk_solids_pct == doctest::Approx(100.0 * 0.47 / 37.0));
  CHECK(f.freezing_point_degC == freezing_point_degC(p.mass_kg));
  CHECK(f.volume_hot_L > 1.015 * f.volume_cold_L);
  CHECK(f.volume_hot_L < 1.04 * f.volume_cold_L);
  CHECK(figures(Product{}).volume_hot_L == 0.0);
}

TEST_CASE("every component has its own key") {
  std::set<std::string> keys;
  for (std::size_t c = 0; c < component_count; ++c) {
    const std::string key(component_key(static_cast<Component>(c)));
    CHECK_FALSE(key.empty());
    CHECK(keys.insert(key).second);
  }
  CHECK(component_key(Component::milk_fat) == "milk_fat");
  CHECK(component_key(Component::emulsifier) == "emulsifier");
  CHECK(component_key(Component::count).empty());
}
