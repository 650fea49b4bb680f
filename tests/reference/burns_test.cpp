#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "sim_core/product/burns.h"
#include "tests/reference/report.h"

using namespace stirbench::product;

namespace {

using stirbench::tests::at;
using stirbench::tests::reference_check;
using stirbench::tests::relative;

constexpr const char* part = "Burns";
constexpr double never_s = std::numeric_limits<double>::infinity();

}  // namespace

TEST_CASE("wet skin: time to a partial and a full burn") {
  const char* const source = "Moritz & Henriques 1947 series (secondary table)";
  struct Row {
    double degC, partial_s, full_s;
  };
  const Row rows[] = {{45, 7200, 10800}, {47, 1200, 2700}, {48, 900, 1200}, {49, 480, 600},
                      {51, 120, 252},    {55, 17, 30},     {60, 3, 5}};
  for (const Row& row : rows) {
    reference_check(part, at("partial-thickness burn, s", row.degC),
                    burn_time_s(row.degC, BurnSeverity::partial), row.partial_s, relative(1e-9), source);
    reference_check(part, at("full-thickness burn, s", row.degC), burn_time_s(row.degC, BurnSeverity::full),
                    row.full_s, relative(1e-9), source);
  }
}

// The second table is another author's reading of "serious burn": it lies between the two depths of the
// first, or near them.
TEST_CASE("wet skin: the rule of thumb between the table's rows") {
  const char* const source = "serious-burn rule of thumb (two secondary pages agree)";
  reference_check(part, at("full-thickness burn, s", 54.5), burn_time_s(54.5, BurnSeverity::full), 30.0,
                  relative(0.35), source);
  reference_check(part, at("partial-thickness burn, s", 57.0), burn_time_s(57.0, BurnSeverity::partial), 10.0,
                  relative(0.5), source);
  reference_check(part, at("serious burn, s", 66.0), burn_time_s(66.0, BurnSeverity::full), 1.5,
                  relative(1e-9), source);
  reference_check(part, at("serious burn, s", 68.0), burn_time_s(68.0, BurnSeverity::full), 1.0,
                  relative(1e-9), source);
  CHECK(burn_time_s(63.0, BurnSeverity::full) < 3.0);
  CHECK(burn_time_s(60.0, BurnSeverity::full) <= 5.0);
  const double at_52_s = burn_time_s(52.0, BurnSeverity::full);
  CHECK(at_52_s > 90.0);
  CHECK(at_52_s < 180.0);
}

// A second way: the damage integral of Henriques & Moritz with E/R = 75,000 K reaches 1 about when the table
// says partial thickness, as long as the skin's own conduction does not lead (45 .. 51 degC). The reference
// notes give 2.1 h, 29 min, 14 min, 6.9 min and 98 s for it.
TEST_CASE("the damage integral of Henriques and Moritz follows the table where it should") {
  const char* const source = "Henriques & Moritz 1947, E/R 75,000 K, worked in the reference notes";
  struct Row {
    double degC, integral_s;
  };
  for (const Row& row :
       {Row{45, 2.1 * 3600}, Row{47, 29 * 60}, Row{48, 14 * 60}, Row{49, 6.9 * 60}, Row{51, 98}}) {
    const double ours_s = 1.0 / basal_damage(row.degC, 1.0);
    reference_check(part, at("damage integral reaches 1, s", row.degC), ours_s, row.integral_s,
                    relative(0.03), source);
    reference_check(part, at("partial burn by table over integral, s", row.degC),
                    burn_time_s(row.degC, BurnSeverity::partial), ours_s, relative(0.35), source);
  }
  CHECK(basal_damage(43.9, 1e6) == 0.0);
  // Time and damage are proportional.
  CHECK(basal_damage(50.0, 20.0) == doctest::Approx(2.0 * basal_damage(50.0, 10.0)));
}

TEST_CASE("touched surfaces: thresholds") {
  const char* const ecma = "ECMA-287 touch table (secondary)";
  const char* const iso = "ISO 13732-1 (from memory)";
  reference_check(part, at("bare metal, s", 65.0), touch_time_s(Surface::bare_metal, 65.0), 1.0,
                  relative(1e-9), ecma);
  reference_check(part, at("bare metal, s", 55.0), touch_time_s(Surface::bare_metal, 55.0), 10.0,
                  relative(1e-9), ecma);
  reference_check(part, at("other than metal, s", 85.0), touch_time_s(Surface::other, 85.0), 1.0,
                  relative(1e-9), ecma);
  reference_check(part, at("other than metal, s", 65.0), touch_time_s(Surface::other, 65.0), 10.0,
                  relative(1e-9), ecma);
  reference_check(part, at("bare metal, s", 51.0), touch_time_s(Surface::bare_metal, 51.0), 60.0,
                  relative(1e-9), iso);
  reference_check(part, at("bare metal, s", 48.0), touch_time_s(Surface::bare_metal, 48.0), 600.0,
                  relative(1e-9), iso);
  reference_check(part, at("bare metal, s", 43.0), touch_time_s(Surface::bare_metal, 43.0), 28800.0,
                  relative(1e-9), iso);
  // ASTM C1055: 60 degC metal burns in about 5 s (secondary); the interpolated threshold may only be on the
  // safe side of it.
  const double at_60_s = touch_time_s(Surface::bare_metal, 60.0);
  CHECK(at_60_s < 5.0);
  CHECK(at_60_s > 2.0);
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
