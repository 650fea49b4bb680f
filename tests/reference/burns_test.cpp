#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "sim_core/product/burns.h"
#include "tests/reference/report.h"

using namespace stirbench::product;

namespace {

using stirbench::tests::absolute;
using stirbench::tests::at;
using stirbench::tests::look_up;
using stirbench::tests::measured;
using stirbench::tests::own_arithmetic;
using stirbench::tests::reference_check;
using stirbench::tests::relative;
using stirbench::tests::Source;
using stirbench::tests::worked_example;

constexpr const char* part = "Burns";
constexpr double never_s = std::numeric_limits<double>::infinity();

struct ScaldRow {
  double degC, partial_s, full_s;
};
constexpr ScaldRow scalds[] = {{45, 7200, 10800}, {47, 1200, 2700}, {48, 900, 1200}, {49, 480, 600},
                               {51, 120, 252},    {55, 17, 30},     {60, 3, 5}};

// Lowest temperature that burns within this contact [degC].
double threshold_degC(Surface surface, double contact_s) {
  double low = 40.0, high = 100.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (touch_time_s(surface, middle) > contact_s ? low : high) = middle;
  }
  return high;
}

}  // namespace

// The table itself is held by the program; what is checked is what it says at each row and beside it.
TEST_CASE("wet skin: time to a partial and a full burn") {
  const char* const source = "Moritz & Henriques 1947 series (secondary table)";
  for (const ScaldRow& row : scalds) {
    CAPTURE(row.degC);
    look_up(part, at("partial-thickness burn, s", row.degC), burn_time_s(row.degC, BurnSeverity::partial),
            row.partial_s, source);
    look_up(part, at("full-thickness burn, s", row.degC), burn_time_s(row.degC, BurnSeverity::full),
            row.full_s, source);
    CHECK(burn_severity(row.degC, row.partial_s * 1.0001) == BurnSeverity::partial);
    CHECK(burn_severity(row.degC, row.partial_s * 0.9999) == BurnSeverity::none);
    CHECK(burn_severity(row.degC, row.full_s * 1.0001) == BurnSeverity::full);
    CHECK(burn_severity(row.degC, row.full_s * 0.9999) == BurnSeverity::partial);
    CHECK(burn_severity(row.degC + 0.01, row.partial_s * 0.9999) == BurnSeverity::partial);
    CHECK(burn_severity(row.degC - 0.01, row.partial_s * 1.0001) == BurnSeverity::none);
  }
  const char* const rule = "serious-burn rule of thumb (two secondary pages agree)";
  look_up(part, at("serious burn, s", 66.0), burn_time_s(66.0, BurnSeverity::full), 1.5, rule);
  look_up(part, at("serious burn, s", 68.0), burn_time_s(68.0, BurnSeverity::full), 1.0, rule);
}

// The second table is another author's reading of "serious burn", not used below 66 degC.
TEST_CASE("wet skin: the rule of thumb between the table's rows") {
  const Source source =
      measured("serious-burn rule of thumb (two secondary pages agree), full-thickness time",
               "degC rounded from degF, half a kelvin, in which the table's times change by 27 %, and one "
               "significant digit: 30 %")
          .held_out();
  for (const auto& [t, seconds] : {std::pair{52.0, 105.0}, {54.5, 30.0}, {57.0, 10.0}})
    reference_check(part, at("serious burn, s", t), burn_time_s(t, BurnSeverity::full), seconds,
                    2 * relative(0.3), source);
  CHECK(burn_time_s(49.0, BurnSeverity::full) > 300.0);
  CHECK(burn_time_s(63.0, BurnSeverity::full) < 3.0);
  CHECK(burn_time_s(60.0, BurnSeverity::full) <= 5.0);
}

// A second way: the damage integral of Henriques & Moritz with E/R = 75,000 K reaches 1 about when the table
// says partial thickness, as long as the skin's own conduction does not lead (45 .. 51 degC). The reference
// notes give 2.1 h, 29 min, 14 min, 6.9 min and 98 s for it.
TEST_CASE("the damage integral of Henriques and Moritz follows the table where it should") {
  const Source worked = own_arithmetic("Henriques & Moritz 1947, E/R 75,000 K, worked in the reference notes",
                                       "two digits are given: 2.5 %");
  const Source table = worked_example(
      "Henriques & Moritz 1947, damage integral, against the time table of Moritz & "
      "Henriques 1947 (both secondary)",
      "a third of a kelvin of the skin's own temperature is 25 % of the time");
  const double integral_s[] = {2.1 * 3600, 29 * 60, 14 * 60, 6.9 * 60, 98};
  for (std::size_t i = 0; i < std::size(integral_s); ++i) {
    const double ours_s = 1.0 / basal_damage(scalds[i].degC, 1.0);
    reference_check(part, at("damage integral reaches 1, s", scalds[i].degC), ours_s, integral_s[i],
                    relative(0.025), worked);
    reference_check(part, at("damage integral reaches a partial burn, s", scalds[i].degC), ours_s,
                    scalds[i].partial_s, 2 * relative(0.25), table);
  }
  CHECK(basal_damage(43.9, 1e6) == 0.0);
  // Time and damage are proportional.
  CHECK(basal_damage(50.0, 20.0) == doctest::Approx(2.0 * basal_damage(50.0, 10.0)));
}

TEST_CASE("touched surfaces: thresholds") {
  const char* const ecma = "ECMA-287 touch table (secondary)";
  const char* const iso = "ISO 13732-1 (from memory)";
  struct Row {
    Surface surface;
    const char* name;
    double degC, seconds;
    const char* source;
  };
  const Row rows[] = {{Surface::bare_metal, "bare metal, s", 65, 1, ecma},
                      {Surface::bare_metal, "bare metal, s", 55, 10, ecma},
                      {Surface::other, "other than metal, s", 85, 1, ecma},
                      {Surface::other, "other than metal, s", 65, 10, ecma},
                      {Surface::bare_metal, "bare metal, s", 51, 60, iso},
                      {Surface::bare_metal, "bare metal, s", 48, 600, iso},
                      {Surface::bare_metal, "bare metal, s", 43, 28800, iso},
                      {Surface::other, "other than metal, s", 48, 600, iso},
                      {Surface::other, "other than metal, s", 43, 28800, iso}};
  for (const Row& row : rows) {
    CAPTURE(row.name);
    CAPTURE(row.degC);
    look_up(part, at(row.name, row.degC), touch_time_s(row.surface, row.degC), row.seconds, row.source);
    CHECK(touch_burns(row.surface, row.degC, row.seconds * 1.0001));
    CHECK_FALSE(touch_burns(row.surface, row.degC, row.seconds * 0.9999));
    CHECK_FALSE(touch_burns(row.surface, row.degC - 0.01, row.seconds));
  }
}

// The program takes the lowest temperature of its two tables; these ranges and rules were not used.
TEST_CASE("touched surfaces: other published thresholds") {
  const Source range =
      measured(
          "ISO 13732-1 quoted in a risk-assessment page, and ASTM C1055 (both secondary): lowest "
          "burning temperature of a contact, degC",
          "half the range that is given")
          .held_out();
  const Source rule =
      measured("rule of thumb for metal and glass (secondary)", "steps of 5 K, whole seconds: 2.5 K")
          .held_out();
  const Source iso = measured("ISO 13732-1, table for a minute (from memory)",
                              "half the spread between materials of one class, estimated: 2 K")
                         .held_out();
  const auto metal = [](double s) { return threshold_degC(Surface::bare_metal, s); };
  const auto other = [](double s) { return threshold_degC(Surface::other, s); };
  reference_check(part, at("bare metal, threshold degC", 0.5), metal(0.5), 70.0, 2 * absolute(3.0), range);
  reference_check(part, at("bare metal, threshold degC", 1.0), metal(1.0), 67.5, absolute(2.5), range);
  reference_check(part, at("bare metal, threshold degC", 10.0), metal(10.0), 57.5, absolute(2.5), range);
  reference_check(part, at("bare metal, threshold degC", 5.0), metal(5.0), 60.0, absolute(2.5), range);
  reference_check(part, at("plastic, threshold degC", 1.0), other(1.0), 89.0, absolute(4.0), range);
  reference_check(part, at("plastic, threshold degC", 10.0), other(10.0), 72.5, 2 * absolute(2.5), range);
  reference_check(part, at("bare metal, rule of thumb degC", 30.0), metal(30.0), 55.0, 2 * absolute(2.5),
                  rule);
  reference_check(part, at("bare metal, rule of thumb degC", 1.5), metal(1.5), 66.0, 2 * absolute(2.5), rule);
  reference_check(part, at("glass, rule of thumb degC", 5.0), other(5.0), 70.0, 2 * absolute(2.5), rule);
  reference_check(part, at("glass, rule of thumb degC", 1.5), other(1.5), 76.0, 2 * absolute(2.5), rule);
  reference_check(part, at("glass, rule of thumb degC", 30.0), other(30.0), 65.0, 2 * absolute(2.5), rule);
  reference_check(part, at("ceramics and glass, threshold degC", 60.0), other(60.0), 56.0, 2 * absolute(2.0),
                  iso);
  reference_check(part, at("plastic and wood, threshold degC", 60.0), other(60.0), 60.0, 2 * absolute(2.0),
                  iso);
}

TEST_CASE("hotter or longer is never milder; nonsense hurts nobody") {
  for (const BurnSeverity depth : {BurnSeverity::partial, BurnSeverity::full}) {
    double before_s = never_s;
    for (double degC = 40.0; degC < 90.0; degC += 0.1) {
      const double time_s = burn_time_s(degC, depth);
      CHECK(time_s <= before_s);
      before_s = time_s;
    }
  }
  for (double degC = 40.0; degC < 90.0; degC += 0.5) {
    CHECK(burn_time_s(degC, BurnSeverity::full) >= burn_time_s(degC, BurnSeverity::partial));
    auto before = BurnSeverity::none;
    for (const double contact_s : {0.1, 1.0, 3.0, 10.0, 60.0, 600.0, 86400.0}) {
      const BurnSeverity now = burn_severity(degC, contact_s);
      CHECK(now >= before);
      before = now;
    }
  }
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(burn_severity(nan, 10.0) == BurnSeverity::none);
  CHECK(burn_severity(80.0, nan) == BurnSeverity::none);
  CHECK(burn_severity(80.0, 0.0) == BurnSeverity::none);
  CHECK(burn_severity(37.0, 1e9) == BurnSeverity::none);
  CHECK(burn_severity(85.0, 0.1) == BurnSeverity::full);
  CHECK_FALSE(touch_burns(Surface::bare_metal, nan, 10.0));
  CHECK_FALSE(touch_burns(Surface::bare_metal, 42.0, 1e9));
}
