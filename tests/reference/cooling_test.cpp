#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "sim_core/product/cooling_watch.h"
#include "sim_core/product/growth.h"
#include "tests/reference/product_rules.h"
#include "tests/reference/report.h"

using namespace stirbench;
using namespace stirbench::product;

// Cooling safety: growth with lag against published curves, the rules' own figures.
namespace {

using tests::absolute;
using tests::at;
using tests::at_moment;
using tests::reference_check;
using tests::relative;

constexpr const char* part = "Cooling safety";

const Growth& organism(const char* id) { return tests::by_id(tests::shipped_rules().growth, id); }

}  // namespace

// USDA Pathogen Modeling Program, cooling of cooked rice, Baranyi with h0 4.1 (process table 4): the printed
// temperatures, counts and rates.
TEST_CASE("Bacillus cereus in slowly cooling rice") {
  const char* const source = "USDA Pathogen Modeling Program, B. cereus in cooked rice";
  const double t_degC[] = {54.59, 45.99, 38.94, 32.92, 27.86, 23.43, 19.89,
                           16.71, 14.14, 11.94, 10.13, 8.48,  7.21};
  const double count[] = {2.00, 2.00, 2.06, 2.33, 2.81, 3.22, 3.49, 3.65, 3.73, 3.77, 3.78, 3.78, 3.78};
  const double rate[] = {0, 0.60, 0.93, 0.78, 0.56, 0.36, 0.22, 0.11, 0.05, 0.02, 0, 0, 0};
  const std::vector<Growth> list = {organism("bacillus_cereus_growth")};
  for (int h = 0; h <= 12; ++h) {
    reference_check(part, at("B. cereus, log10/h", t_degC[h]), growth_log10_per_h(list[0], t_degC[h]),
                    rate[h], absolute(0.02), source);
  }
  GrowthWatch watch(list);
  watch.see(at_moment(0.0, t_degC[0]));
  for (int h = 0; h < 12; ++h) {
    // Between the printed hours the temperature falls exponentially, as the program's cooling does.
    for (int s = 1; s <= 360; ++s) {
      const double share = s / 360.0;
      watch.see(at_moment(3600.0 * (h + share), t_degC[h] * std::pow(t_degC[h + 1] / t_degC[h], share)));
    }
    reference_check(part, at("B. cereus, log10 N after h", h + 1), 2.0 + watch.grown_log10(0), count[h + 1],
                    absolute(0.1), source);
  }
}

// The plain square root holds for the same rates from 11 to 33 degC: b 0.0361, Tmin 7.54 degC (fit by hand),
// within 0.06 log10/h at 33 degC and 0.03 below, and half of the last printed digit.
TEST_CASE("the plain square root of the same rates") {
  Growth plain = organism("bacillus_cereus_growth");
  plain.root_per_h_K = 0.0361;
  plain.lowest_degC = 7.54;
  plain.highest_degC = 60.0;
  plain.bend_per_K = 0.0;
  for (const auto& [t, rate] : {std::pair{32.92, 0.78},
                                {27.86, 0.56},
                                {23.43, 0.36},
                                {19.89, 0.22},
                                {16.71, 0.11},
                                {14.14, 0.05},
                                {11.94, 0.02}}) {
    reference_check(part, at("plain square root, log10/h", t), growth_log10_per_h(plain, t), rate,
                    absolute(t > 30.0 ? 0.06 : 0.035),
                    "USDA Pathogen Modeling Program, B. cereus in cooked rice");
  }
}

// Juneja et al. 2008, Food Microbiol 25:42, C. perfringens in chicken from 54.4 to 27 degC: their model
// says 1.1 in 1.5 h and 3.6 in 3 h (SE 0.08, 0.07); they observed 0.43 and 0.90, and 2.4. The lag is chosen
// on these two figures, so the pair checks the shape.
TEST_CASE("Clostridium perfringens in slowly cooling chicken") {
  const std::vector<Growth> list = {organism("clostridium_perfringens_growth")};
  const auto grown = [&list](double hours) {
    GrowthWatch watch(list);
    for (int i = 0; i <= 1000; ++i) {
      const double share = i / 1000.0;
      watch.see(at_moment(3600.0 * hours * share, 54.4 * std::pow(27.0 / 54.4, share)));
    }
    return watch.grown_log10(0);
  };
  const char* const source = "Juneja et al. 2008, Food Microbiol 25:42 (their prediction; lag chosen on it)";
  reference_check(part, "C. perfringens, 54.4 to 27 degC in 1.5 h", grown(1.5), 1.1, absolute(0.16), source);
  reference_check(part, "C. perfringens, 54.4 to 27 degC in 3 h", grown(3.0), 3.6, absolute(0.16), source);
  // Huang's one-step study, Food Control: rate and temperatures; Juneja et al. (cured beef): nothing in three
  // weeks at 12 degC is not this medium's cardinal law, which still gives a little there, so only the lower
  // limit is checked.
  const char* const huang = "Huang, one-step study, Food Control";
  reference_check(part, "C. perfringens, ln/h at 46.4 degC",
                  growth_log10_per_h(list[0], 46.4) * std::log(10.0), 6.06, relative(0.001), huang);
  CHECK(growth_log10_per_h(list[0], 8.8) == 0.0);
  CHECK(growth_log10_per_h(list[0], 51.5) == 0.0);
  CHECK(growth_log10_per_h(list[0], 46.0) < growth_log10_per_h(list[0], 46.4));
  CHECK(growth_log10_per_h(list[0], 47.0) < growth_log10_per_h(list[0], 46.4));
}

// FDA/FSIS 2003, App. 8: lines of its table; Rosenow & Marth 1987, J Food Prot 50:452: doubling times in
// milks and cream.
TEST_CASE("Listeria in milk") {
  const Growth& listeria = organism("listeria_growth");
  const auto per_day = [&listeria](double t) { return 24.0 * growth_log10_per_h(listeria, t); };
  reference_check(part, "Listeria at 5 degC, log10/day", per_day(5.0), 0.257, relative(0.001),
                  "FDA/FSIS 2003 (from memory)");
  struct Line {
    double t, log10, days, at_5;
  };
  const Line lines[] = {{4, 2.1, 28, 0.107}, {4, 2.0, 21, 0.136}, {8, 4.6, 14, 0.149}, {4, 3.9, 28, 0.198},
                        {10, 4, 7, 0.175},   {10, 6, 20, 0.092},  {10, 5, 11, 0.139},  {5, 5, 9, 0.556}};
  for (const Line& line : lines) {
    reference_check(part, at("table line, log10/day at 5 degC", line.t, line.at_5),
                    line.log10 / line.days * per_day(5.0) / per_day(line.t), line.at_5, relative(0.01),
                    "FDA/FSIS 2003, App. 8");
  }
  const auto doubling_h = [&listeria](double t) { return std::log10(2.0) / growth_log10_per_h(listeria, t); };
  struct Range {
    double t, low_h, high_h;
  };
  for (const Range& r : {Range{4.0, 29.73, 45.55}, {8.0, 8.67, 14.55}, {13.0, 4.45, 6.92}}) {
    CAPTURE(r.t);
    CHECK(doubling_h(r.t) > r.low_h);
    CHECK(doubling_h(r.t) < r.high_h);
    reference_check(part, at("doubling time, h", r.t), doubling_h(r.t), 0.5 * (r.low_h + r.high_h),
                    absolute(0.5 * (r.high_h - r.low_h)),
                    "Rosenow & Marth 1987, J Food Prot 50:452: middle and half width of the range");
  }
  // Warmer the law of FDA/FSIS is a fifth slower than milk was found to be (1 h 43 to 1 h 55 at 21 degC, 41
  // min at 35).
  const char* const warm = "Rosenow & Marth 1987; the law of FDA/FSIS 2003 is known to be 20 % slow there";
  reference_check(part, "doubling time, h, warm", doubling_h(21.0), 1.82, relative(0.21), warm);
  reference_check(part, "doubling time, h, at the body's warmth", doubling_h(35.0), 0.683, relative(0.21),
                  warm);
  // Rosso et al. 1996: from 4 to 8 degC the time to a level is 60-65 % shorter.
  reference_check(part, "time to a level at 8 degC over that at 4 degC", per_day(4.0) / per_day(8.0), 0.375,
                  absolute(0.06),
                  "Rosso et al. 1996: 60 to 65 % shorter (0.35 to 0.40; the square root gives 0.32)");
}

// Lag and limit against closed forms (Baranyi & Roberts 1994).
TEST_CASE("lag and upper limit") {
  Growth g;
  g.root_per_h_K = 0.1;
  g.lowest_degC = 0.0;
  g.highest_degC = 50.0;
  g.h0 = 3.0;
  g.start_log10 = 2.0;
  g.most_log10 = 8.0;
  // Rate 1 log10/h at 10 degC: far behind the lag the line is shifted by h0/mu = 3/2.302585 h = 1.303 h.
  Population p = fresh_population(g);
  for (int i = 0; i < 400; ++i) advance_population(p, g, growth_log10_per_h(g, 10.0), 36.0);
  const double mu_t = std::log(10.0) * 4.0;
  const double q0 = 1.0 / std::expm1(3.0);
  const double expected = std::log((1.0 + q0 * std::exp(mu_t)) / (1.0 + q0)) / std::log(10.0);
  reference_check(part, "grown after 4 h with lag, log10", p.grown_log10, expected, absolute(0.003),
                  "Baranyi & Roberts 1994, closed form");
  for (int i = 0; i < 4000; ++i) advance_population(p, g, 1.0, 36.0);
  reference_check(part, "grown in the end, log10", p.grown_log10, 6.0, absolute(1e-6),
                  "Upper limit less start");
}

// The figures of the rules as the texts give them.
TEST_CASE("the cooling and storage rules' figures") {
  const Rules& rules = tests::shipped_rules();
  const auto cooling = [&rules](const char* id) {
    for (const auto& one : rules.cooling) {
      if (one.id == id) return one;
    }
    FAIL("no such rule: " << id);
    return CoolingRule{};
  };
  const char* const food_code = "FDA Food Code 3-501.14";
  const CoolingRule two = cooling("us_two_stage");
  REQUIRE(two.stages.size() == 2);
  CHECK(two.start == CoolingStart::falls_below);
  reference_check(part, "two-stage: from, degC", two.from_degC, 57.0, absolute(0.0), food_code);
  reference_check(part, "two-stage: first to, degC", two.stages[0].to_degC, 21.0, absolute(0.0), food_code);
  reference_check(part, "two-stage: first within, h", two.stages[0].within_s / 3600.0, 2.0, absolute(0.0),
                  food_code);
  reference_check(part, "two-stage: then to, degC", two.stages[1].to_degC, 5.0, absolute(0.0), food_code);
  reference_check(part, "two-stage: all within, h", two.stages[1].within_s / 3600.0, 6.0, absolute(0.0),
                  food_code);
  reference_check(part, "made cold: within, h", cooling("us_made_cold_4h").stages[0].within_s / 3600.0, 4.0,
                  absolute(0.0), food_code);
  const CoolingRule uk = cooling("uk_7_2c_1h30");
  CHECK(uk.start == CoolingStart::heat_ends);
  reference_check(part, "UK mix: to, degC", uk.stages[0].to_degC, 7.2, absolute(0.0),
                  "SI 1995/1372 (Scotland) Sch. 6 Pt V");
  reference_check(part, "UK mix: within, h", uk.stages[0].within_s / 3600.0, 1.5, absolute(0.0),
                  "SI 1995/1372 (Scotland) Sch. 6 Pt V");
  reference_check(part, "powder mix: to, degF", cooling("md_powder_mix_4h").stages[0].to_degC * 1.8 + 32.0,
                  45.0, absolute(1e-4), "COMAR 10.15.05.25");
  const auto limit = [&rules](const char* id) {
    for (const auto& one : rules.storage) {
      if (one.id == id) return one.at_most_degC;
    }
    return -300.0;
  };
  reference_check(part, "cold holding, degC", limit("us_retail_5c"), 5.0, absolute(0.0),
                  "FDA Food Code 3-501.16 (from memory)");
  reference_check(part, "plant storage, degF", limit("us_plant_45f") * 1.8 + 32.0, 45.0, absolute(1e-4),
                  "1 NYCRR 2.49 (Item 17p)");
  reference_check(part, "chilled food, degC", limit("uk_chilled_8c"), 8.0, absolute(0.0),
                  "SI (W.) 2006/31 Sch. 4 para. 2");
  REQUIRE(rules.ageing.size() >= 1);
  reference_check(part, "ageing, h", rules.ageing[0].at_least_s / 3600.0, 4.0, absolute(0.0),
                  "Goff, Ice Cream Technology e-Book, ch. 6");
}
