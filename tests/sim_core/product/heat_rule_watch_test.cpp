#include <doctest/doctest.h>

#include <cmath>
#include <functional>

#include "sim_core/product/heat_rule_watch.h"

using namespace stirbench::product;

namespace {

HeatRule row(double t_degC, double hold_s) {
  HeatRule out;
  out.id = "row";
  out.temperature_degC = t_degC;
  out.hold_s = hold_s;
  return out;
}

VatSample uniform(double t_s, double t_degC, double kg = 40.0) {
  VatSample s;
  s.t_s = t_s;
  s.well_degC = s.vat_degC = t_degC;
  s.head_space_degC = t_degC;
  s.mass_kg = s.brought_kg = kg;
  s.stirred = true;
  return s;
}

// Feeds samples each 0.1 s from `from_s` to `to_s`, ends included.
void feed(HeatRuleWatch& watch, double from_s, double to_s, const std::function<VatSample(double)>& at) {
  const auto steps = std::lround((to_s - from_s) / 0.1);
  for (long i = 0; i <= steps; ++i) watch.see(at(from_s + 0.1 * static_cast<double>(i)));
}

}  // namespace

TEST_CASE("a hold is met at the very moment, found inside the sample") {
  const std::vector<HeatRule> rows = {row(80.0, 25.0), row(79.0, 0.03), row(81.0, 0.0)};
  HeatRuleWatch watch(rows);
  // 1 K/s from 70: 80.0 at 10.0 s ... in samples shifted by 0.04 s, then flat at 82.
  feed(watch, 0.04, 60.04, [](double t) { return uniform(t, std::min(82.0, 70.0 + t)); });
  CHECK(watch.verdict(0).met);
  CHECK(watch.verdict(0).at_s == doctest::Approx(35.0).epsilon(1e-9));
  CHECK(watch.verdict(0).held_s == doctest::Approx(60.04 - 10.0).epsilon(1e-9));
  CHECK(watch.verdict(0).why == HeatRuleShortfall::none);
  // Shorter than a sample.
  CHECK(watch.verdict(1).at_s == doctest::Approx(9.03).epsilon(1e-9));
  // No hold: reaching it is enough.
  CHECK(watch.verdict(2).at_s == doctest::Approx(11.0).epsilon(1e-9));
  CHECK(watch.met_count() == 3);
}

TEST_CASE("exactly the temperature and exactly the time are enough, a tick less is not") {
  const std::vector<HeatRule> rows = {row(85.0, 30.0)};
  HeatRuleWatch enough(rows);
  feed(enough, 0.0, 30.0, [](double t) { return uniform(t, 85.0); });
  CHECK(enough.verdict(0).met);
  HeatRuleWatch less(rows);
  feed(less, 0.0, 29.9, [](double t) { return uniform(t, 85.0); });
  CHECK_FALSE(less.verdict(0).met);
  CHECK(less.verdict(0).why == HeatRuleShortfall::too_short);
  CHECK(less.verdict(0).short_s == doctest::Approx(0.1).epsilon(1e-6));
  HeatRuleWatch cooler(rows);
  feed(cooler, 0.0, 60.0, [](double t) { return uniform(t, 84.999); });
  CHECK(cooler.verdict(0).why == HeatRuleShortfall::too_cool);
  CHECK(cooler.verdict(0).short_K == doctest::Approx(0.001).epsilon(1e-6));
}

TEST_CASE("a break starts the clock again; the best hold is remembered") {
  const std::vector<HeatRule> rows = {row(80.0, 25.0)};
  HeatRuleWatch watch(rows);
  // 20 s above, a dip of less than a sample, 20 s above: never 25 s in a row.
  feed(watch, 0.0, 20.0, [](double t) { return uniform(t, 80.5); });
  watch.see(uniform(20.1, 79.99));
  feed(watch, 20.2, 40.0, [](double t) { return uniform(t, 80.5); });
  CHECK_FALSE(watch.verdict(0).met);
  CHECK(watch.verdict(0).held_s > 19.9);
  CHECK(watch.verdict(0).held_s < 20.1);
  feed(watch, 40.1, 46.0, [](double t) { return uniform(t, 80.5); });
  CHECK(watch.verdict(0).met);
  // The clock began where the line rose through 80: 0.01/0.51 of a sample after 20.1.
  CHECK(watch.verdict(0).at_s == doctest::Approx(20.1 + 0.1 * 0.01 / 0.51 + 25.0).epsilon(1e-9));
}

TEST_CASE("the coldest zone counts, whichever it is") {
  const std::vector<HeatRule> rows = {row(80.0, 10.0)};
  for (const bool well_cold : {true, false}) {
    HeatRuleWatch watch(rows);
    feed(watch, 0.0, 60.0, [well_cold](double t) {
      VatSample s = uniform(t, 85.0);
      (well_cold ? s.well_degC : s.vat_degC) = 79.5;
      return s;
    });
    CHECK_FALSE(watch.verdict(0).met);
    CHECK(watch.verdict(0).short_K == doctest::Approx(0.5));
    CHECK(watch.hottest_degC() == doctest::Approx(79.5));
  }
}

TEST_CASE("zones that cross the temperature in turn within one sample leave no gap unseen") {
  const std::vector<HeatRule> rows = {row(80.0, 5.0)};
  HeatRuleWatch watch(rows);
  feed(watch, 0.0, 3.0, [](double t) { return uniform(t, 81.0); });
  // The well falls below at the middle of this sample while the vat has just come back: both are good only
  // for a part.
  VatSample s = uniform(3.1, 81.0);
  s.well_degC = 79.0;
  watch.see(s);
  feed(watch, 3.2, 6.0, [](double t) { return uniform(t, 81.0); });
  CHECK_FALSE(watch.verdict(0).met);
  CHECK(watch.verdict(0).held_s == doctest::Approx(3.05).epsilon(1e-6));
}

TEST_CASE("a late addition restarts all clocks and revokes what was met") {
  const std::vector<HeatRule> rows = {row(80.0, 10.0), row(70.0, 1800.0)};
  HeatRuleWatch watch(rows);
  feed(watch, 0.0, 20.0, [](double t) { return uniform(t, 82.0); });
  REQUIRE(watch.verdict(0).met);
  watch.see(uniform(20.1, 79.0, 40.1));
  CHECK_FALSE(watch.verdict(0).met);
  CHECK(watch.met_count() == 0);
  CHECK(watch.verdict(0).why == HeatRuleShortfall::added_after);
  CHECK(watch.verdict(0).undone_s == doctest::Approx(20.1));
  CHECK(watch.verdict(0).held_s == 0.0);
  // The row that was still being held lost its time too, and is told apart: it was never met.
  CHECK(watch.verdict(1).why == HeatRuleShortfall::too_short);
  CHECK(watch.verdict(1).held_s == 0.0);
  // Heated again as it should be, it counts again.
  feed(watch, 20.2, 40.0, [](double t) { return uniform(t, 82.0, 40.1); });
  CHECK(watch.verdict(0).met);
  CHECK(watch.verdict(0).at_s > 30.0);
}

TEST_CASE("rows may ask for the air space, the spread and the agitator") {
  HeatRule air = row(80.0, 10.0);
  air.air_space_K = 2.8;
  HeatRule spread = row(80.0, 10.0);
  spread.spread_K = 0.5;
  HeatRule stirred = row(80.0, 10.0);
  stirred.stirred = true;
  const std::vector<HeatRule> rows = {air, spread, stirred, row(80.0, 10.0)};
  const auto run = [&rows](const std::function<void(VatSample&)>& change) {
    HeatRuleWatch watch(rows);
    feed(watch, 0.0, 20.0, [&change](double t) {
      VatSample s = uniform(t, 81.0);
      s.head_space_degC = 83.0;
      change(s);
      return s;
    });
    return watch;
  };
  const HeatRuleWatch good = run([](VatSample&) {});
  CHECK(good.met_count() == 4);
  const HeatRuleWatch cold_air = run([](VatSample& s) { s.head_space_degC = 82.7; });
  CHECK(cold_air.verdict(0).why == HeatRuleShortfall::air_space);
  CHECK(cold_air.met_count() == 3);
  const HeatRuleWatch apart = run([](VatSample& s) { s.vat_degC = 80.4; });
  CHECK(apart.verdict(1).why == HeatRuleShortfall::spread);
  CHECK(apart.met_count() == 3);
  // Judged by the measured difference, and it is told.
  CHECK(apart.verdict(1).widest_K == doctest::Approx(0.6));
  CHECK(apart.verdict(1).mean_span_K == 0.0);
  const HeatRuleWatch near = run([](VatSample& s) { s.vat_degC = 80.7; });
  CHECK(near.verdict(1).met);
  CHECK(near.verdict(1).widest_K == doctest::Approx(0.3));
  CHECK(near.verdict(1).mean_span_K == doctest::Approx(0.3));
  const HeatRuleWatch still = run([](VatSample& s) { s.stirred = false; });
  CHECK(still.verdict(2).why == HeatRuleShortfall::not_stirred);
  CHECK(still.met_count() == 3);
}

TEST_CASE("an emptied vat keeps its verdicts; a new batch begins with none") {
  const std::vector<HeatRule> rows = {row(80.0, 10.0)};
  HeatRuleWatch watch(rows);
  feed(watch, 0.0, 20.0, [](double t) { return uniform(t, 82.0); });
  VatSample empty = uniform(21.0, 82.0);
  empty.mass_kg = 0.1;
  watch.see(empty);
  CHECK(watch.verdict(0).met);
  watch.see(uniform(22.0, 5.0, 60.0));
  CHECK_FALSE(watch.verdict(0).met);
  CHECK(watch.verdict(0).undone_s == -1.0);
  CHECK(watch.verdict(0).why == HeatRuleShortfall::too_cool);
}

TEST_CASE("a copy continues like its original") {
  const std::vector<HeatRule> rows = {row(80.0, 10.0)};
  HeatRuleWatch watch(rows);
  feed(watch, 0.0, 6.0, [](double t) { return uniform(t, 82.0); });
  HeatRuleWatch copy = watch;
  feed(watch, 6.1, 12.0, [](double t) { return uniform(t, 82.0); });
  feed(copy, 6.1, 12.0, [](double t) { return uniform(t, 82.0); });
  CHECK(copy.verdict(0).at_s == watch.verdict(0).at_s);
  CHECK(copy.verdict(0).met);
}
