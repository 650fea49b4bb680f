#include "app/desk/kit/text/units.h"

#include <doctest/doctest.h>

#include <clocale>
#include <limits>
#include <string>

using namespace stirbench::desk::kit;

namespace {

const UnitChoice metric{};
const UnitChoice us{TemperatureUnit::degF, VolumeUnit::us_gallon, MassUnit::pound, PressureUnit::psi,
                    PowerUnit::watt};
const std::string gap = "\u2009";

}  // namespace

// NIST Special Publication 811 (2008), appendix B.8 and B.9 (conversion factors; those in bold there are
// exact).
TEST_CASE("units: exact definitions of NIST SP 811") {
  // t/°F = 1.8 t/°C + 32, exact.
  CHECK(to_shown(Quantity::temperature, 100.0, us) == 212.0);
  CHECK(to_shown(Quantity::temperature, 0.0, us) == 32.0);
  CHECK(to_shown(Quantity::temperature, -40.0, us) == doctest::Approx(-40.0).epsilon(1e-15));
  CHECK(to_shown(Quantity::temperature_difference, 10.0, us) == 18.0);
  // Gallon (US) = 3.785 412 E-03 m3 (231 cubic inches, exactly 3.785411784 L).
  CHECK(from_shown(Quantity::volume, 1.0, us) == doctest::Approx(3.785411784e-3).epsilon(1e-15));
  // Pound (avoirdupois) = 4.535 923 7 E-01 kg, exact.
  CHECK(from_shown(Quantity::mass, 1.0, us) == doctest::Approx(0.45359237).epsilon(1e-15));
  // Pound-force per square inch = 6.894 757 E+03 Pa.
  CHECK(from_shown(Quantity::pressure, 1.0, us) == doctest::Approx(6894.757).epsilon(1e-7));
  // Bar = 1.0 E+05 Pa, exact; kilowatt hour = 3.6 E+06 J, exact.
  CHECK(from_shown(Quantity::pressure, 1.0, metric) == 1e5);
  CHECK(from_shown(Quantity::energy, 1.0, metric) == 3.6e6);
  // Gallon (US) per minute = 6.309 020 E-05 m3/s.
  CHECK(from_shown(Quantity::flow, 1.0, us) == doctest::Approx(6.309020e-5).epsilon(1e-7));
}

TEST_CASE("units: there and back is the same number, for every quantity in both systems") {
  for (int i = 0; i <= static_cast<int>(Quantity::density); ++i) {
    const auto quantity = static_cast<Quantity>(i);
    for (const UnitChoice& units : {metric, us}) {
      for (const double value : {-12.5, 0.0, 0.37, 85.0, 6000.0}) {
        CAPTURE(i);
        CHECK(from_shown(quantity, to_shown(quantity, value, units), units) ==
              doctest::Approx(value).epsilon(1e-13));
      }
    }
  }
}

TEST_CASE("units: what is shown, with its unit, a narrow gap and no more digits than are of use") {
  CHECK(show_text(Quantity::temperature, 85.04, metric) == "85.0" + gap + "°C");
  // Storage at 37 °F is 2.8 °C (1.8 t + 32, exact).
  CHECK(show_text(Quantity::temperature, 2.7777777, us) == "37.0" + gap + "°F");
  CHECK(show_text(Quantity::volume, 0.0413, metric) == "41.3" + gap + "L");
  CHECK(show_text(Quantity::volume, 0.0413, us) == "10.9" + gap + "gal");
  CHECK(show_text(Quantity::mass, 20.0, metric) == "20.00" + gap + "kg");
  CHECK(show_text(Quantity::mass, 20.0, us) == "44.09" + gap + "lb");
  CHECK(show_text(Quantity::power, 6000.0, metric) == "6.0" + gap + "kW");
  CHECK(show_text(Quantity::power, 6000.0, us) == "6000" + gap + "W");
  CHECK(show_text(Quantity::pressure, 420000.0, metric) == "4.20" + gap + "bar");
  CHECK(show_text(Quantity::flow, 1e-4, metric) == "6.0" + gap + "L/min");
  CHECK(show_text(Quantity::share, 0.405, metric, 0) == "40" + gap + "%");
  CHECK(show_text(Quantity::viscosity, 0.0451, metric) == "45" + gap + "mPa·s");
  CHECK(show_text(Quantity::resistance, 52.9, metric) == "52.9" + gap + "Ω");
  CHECK(unit_label(Quantity::torque, metric) == "N·m");
}

TEST_CASE("units: signs, zero and what is no number") {
  CHECK(show(Quantity::temperature, -5.0, metric).number == "−5.0");
  CHECK(show(Quantity::temperature, -0.01, metric).number == "0.0");
  CHECK(show(Quantity::temperature, std::numeric_limits<double>::quiet_NaN(), metric).number == "–");
  CHECK(show(Quantity::mass, std::numeric_limits<double>::infinity(), metric).number == "–");
  CHECK(plain_number(-0.0001, 2) == "0.00");
  CHECK(plain_number(1234.5, 1) == "1234.5");
}

TEST_CASE("units: durations count whole seconds down") {
  CHECK(show_duration(0.0) == "0:00");
  CHECK(show_duration(18.0) == "0:18");
  CHECK(show_duration(18.99) == "0:18");
  // 29.999999999 is 30 that has gone through sums of tenths.
  CHECK(show_duration(29.999999999) == "0:30");
  CHECK(show_duration(725.0) == "12:05");
  CHECK(show_duration(3725.0) == "1:02:05");
  CHECK(show_duration(-61.0) == "−1:01");
  CHECK(show_duration(-0.4) == "0:00");
  CHECK(show_minutes(480.0) == "about 8 min");
  CHECK(show_minutes(2.0) == "about 1 min");
}

TEST_CASE("units: people type points, commas, blanks and both minus signs") {
  double value = 0.0;
  CHECK(read_number("72.5", value));
  CHECK(value == 72.5);
  CHECK(read_number(" 72,5 ", value));
  CHECK(value == 72.5);
  CHECK(read_number("−5", value));
  CHECK(value == -5.0);
  CHECK(read_number("+3", value));
  CHECK(value == 3.0);
  for (const char* bad : {"", "abc", "1.2.3", "12kg", "nan", "inf", "--1", "1e999"}) {
    INFO(bad);
    double untouched = 7.0;
    CHECK_FALSE(read_number(bad, untouched));
    CHECK(untouched == 7.0);
  }
}

TEST_CASE("units: a locale with a decimal comma changes nothing") {
  // Where the locale is not installed this falls back to "C" and the case still holds.
  std::setlocale(LC_ALL, "de_DE.UTF-8");
  CHECK(show(Quantity::temperature, 85.04, metric).number == "85.0");
  double value = 0.0;
  CHECK(read_number("72.5", value));
  CHECK(value == 72.5);
  std::setlocale(LC_ALL, "C");
}
