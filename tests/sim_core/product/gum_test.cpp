#include <doctest/doctest.h>

#include "sim_core/product/viscosity.h"
#include "tests/sim_core/product/samples.h"

// Stabilisers by kind: what each does to thickness and thinning, and which of them waits for heat.
using namespace samples;

namespace {

// 20 kg of whole milk with so much gum, all of it hydrated.
Product with_gum(GumKind kind, double kg) {
  Product p = poured(whole_milk(), 20.0);
  p.mass_kg[Component::stabiliser] = kg;
  if (kind != GumKind::blend) p.gum_kg[kind] = kg;
  return p;
}

double at_50_per_s(const Product& p) { return apparent_viscosity_Pa_s(power_law(p, 20.0), 50.0); }

Ingredient gum_of(GumKind kind, double hydration_degC) {
  Ingredient i = gum(hydration_degC);
  i.gum = kind;
  return i;
}

}  // namespace

TEST_CASE("dose for dose iota and xanthan thicken most, locust bean least; xanthan and iota thin most") {
  const double dose_kg = 0.04;  // 0.2 %
  const double plain = at_50_per_s(poured(whole_milk(), 20.0));
  const double guar = at_50_per_s(with_gum(GumKind::guar, dose_kg));
  const double bean = at_50_per_s(with_gum(GumKind::locust_bean, dose_kg));
  CHECK(plain < bean);
  CHECK(bean < guar);
  CHECK(guar < at_50_per_s(with_gum(GumKind::xanthan, 2.0 * dose_kg)));
  CHECK(guar < at_50_per_s(with_gum(GumKind::iota_carrageenan, dose_kg)));
  const auto index = [&](GumKind kind) { return power_law(with_gum(kind, dose_kg), 20.0).index; };
  CHECK(index(GumKind::locust_bean) > index(GumKind::guar));
  CHECK(index(GumKind::guar) > index(GumKind::xanthan));
  CHECK(index(GumKind::guar) > index(GumKind::iota_carrageenan));
}

TEST_CASE("what has no kind counts as a blend, and a half of each kind lies between the two") {
  Product unnamed = with_gum(GumKind::blend, 0.04);
  CHECK(hydrated_gum_kg(unnamed)[GumKind::blend] == doctest::Approx(0.04).epsilon(1e-12));
  Product both = with_gum(GumKind::guar, 0.02);
  both.mass_kg[Component::stabiliser] += 0.02;
  both.gum_kg[GumKind::locust_bean] = 0.02;
  CHECK(at_50_per_s(both) > at_50_per_s(with_gum(GumKind::locust_bean, 0.04)));
  CHECK(at_50_per_s(both) < at_50_per_s(with_gum(GumKind::guar, 0.04)));
}

TEST_CASE("kinds keep their masses through pouring, drawing and merging") {
  Product p = poured(whole_milk(), 20.0);
  add_ingredient(p, gum_of(GumKind::guar, 0.0), 0.05, 20.0, true);
  add_ingredient(p, gum_of(GumKind::locust_bean, 80.0), 0.04, 20.0, true);
  Product half = draw_share(p, 0.5);
  CHECK(half.gum_kg[GumKind::guar] == doctest::Approx(0.5 * 0.045).epsilon(1e-12));
  merge(p, half);
  CHECK(p.gum_kg[GumKind::guar] == doctest::Approx(0.045).epsilon(1e-12));
  CHECK(p.gum_kg[GumKind::locust_bean] == doctest::Approx(0.036).epsilon(1e-12));
  CHECK(p.mass_kg[Component::stabiliser] == doctest::Approx(0.081).epsilon(1e-12));
}

TEST_CASE("in the cold guar hydrates and locust bean waits; hydrated and waiting add up") {
  Product p = poured(whole_milk(), 20.0);
  add_ingredient(p, gum_of(GumKind::guar, 0.0), 0.05, 20.0, true);
  add_ingredient(p, gum_of(GumKind::locust_bean, 80.0), 0.05, 20.0, true);
  run(p, stirred(20.0), 4.0 * 3600.0);
  const PerGum cold = hydrated_gum_kg(p);
  CHECK(cold[GumKind::guar] > 0.95 * 0.045);
  CHECK(cold[GumKind::locust_bean] < 0.01 * 0.045);
  double sum_kg = 0.0;
  for (const double kg : cold.value) sum_kg += kg;
  CHECK(sum_kg + p.dry_gum_kg + p.gum_lumps_kg ==
        doctest::Approx(p.mass_kg[Component::stabiliser]).epsilon(1e-12));
  run(p, stirred(85.0), 1800.0);
  CHECK(hydrated_gum_kg(p)[GumKind::locust_bean] > 0.95 * 0.045);
}
