#include "app/desk/kit/text/units.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>

#include "app/desk/kit/text/text.h"

namespace stirbench::desk::kit {

namespace {

// NIST SP 811 (2008), appendix B.8: factors in bold there are exact.
constexpr double m3_per_litre = 1e-3;                  // exact
constexpr double m3_per_us_gallon = 3.785411784e-3;    // 231 cubic inches of 0.0254 m, exact
constexpr double kg_per_pound = 0.45359237;            // avoirdupois pound, exact
constexpr double standard_gravity_m_per_s2 = 9.80665;  // exact
constexpr double m_per_inch = 0.0254;                  // exact
constexpr double Pa_per_bar = 1e5;                     // exact
constexpr double Pa_per_psi =
    kg_per_pound * standard_gravity_m_per_s2 / (m_per_inch * m_per_inch);  // pound-force by square inch
constexpr double J_per_kilowatt_hour = 3.6e6;                              // exact
constexpr double s_per_minute = 60.0;

// shown = si * factor + offset
struct Line {
  double per_unit;  // SI units in one shown unit
  double offset;    // of the shown number
};

Line line_of(Quantity quantity, const UnitChoice& units) {
  const bool fahrenheit = units.temperature == TemperatureUnit::degF;
  const bool gallons = units.volume == VolumeUnit::us_gallon;
  switch (quantity) {
    case Quantity::temperature: return fahrenheit ? Line{1.0 / 1.8, 32.0} : Line{1.0, 0.0};
    case Quantity::temperature_difference: return {fahrenheit ? 1.0 / 1.8 : 1.0, 0.0};
    case Quantity::volume: return {gallons ? m3_per_us_gallon : m3_per_litre, 0.0};
    case Quantity::mass: return {units.mass == MassUnit::pound ? kg_per_pound : 1.0, 0.0};
    case Quantity::pressure: return {units.pressure == PressureUnit::psi ? Pa_per_psi : Pa_per_bar, 0.0};
    case Quantity::power: return {units.power == PowerUnit::kilowatt ? 1e3 : 1.0, 0.0};
    case Quantity::energy: return {J_per_kilowatt_hour, 0.0};
    case Quantity::flow: return {(gallons ? m3_per_us_gallon : m3_per_litre) / s_per_minute, 0.0};
    case Quantity::viscosity: return {1e-3, 0.0};
    case Quantity::share: return {1e-2, 0.0};
    case Quantity::length: return {1e-3, 0.0};
    case Quantity::rotation:
    case Quantity::torque:
    case Quantity::current:
    case Quantity::voltage:
    case Quantity::resistance:
    case Quantity::duration:
    case Quantity::density: break;
  }
  return {1.0, 0.0};
}

}  // namespace

double to_shown(Quantity quantity, double si_value, const UnitChoice& units) {
  const Line line = line_of(quantity, units);
  // 1.8 is exact in decimal, its inverse is not: multiply for Fahrenheit so that 100 degC is 212 and not a
  // hair beside it.
  if (quantity == Quantity::temperature || quantity == Quantity::temperature_difference) {
    return units.temperature == TemperatureUnit::degF ? si_value * 1.8 + line.offset : si_value;
  }
  return si_value / line.per_unit + line.offset;
}

double from_shown(Quantity quantity, double shown_value, const UnitChoice& units) {
  const Line line = line_of(quantity, units);
  if (quantity == Quantity::temperature || quantity == Quantity::temperature_difference) {
    return units.temperature == TemperatureUnit::degF ? (shown_value - line.offset) / 1.8 : shown_value;
  }
  return (shown_value - line.offset) * line.per_unit;
}

int usual_decimals(Quantity quantity, const UnitChoice& units) {
  switch (quantity) {
    case Quantity::temperature:
    case Quantity::temperature_difference:
    case Quantity::volume:
    case Quantity::flow:
    case Quantity::torque:
    case Quantity::current:
    case Quantity::resistance: return 1;
    case Quantity::mass: return 2;
    case Quantity::pressure: return units.pressure == PressureUnit::bar ? 2 : 1;
    case Quantity::power: return units.power == PowerUnit::kilowatt ? 1 : 0;
    case Quantity::energy: return 2;
    case Quantity::viscosity:
    case Quantity::rotation:
    case Quantity::voltage:
    case Quantity::share:
    case Quantity::duration:
    case Quantity::density: return 0;
    case Quantity::length: return 1;
  }
  return 1;
}

std::string unit_label(Quantity quantity, const UnitChoice& units) {
  const bool fahrenheit = units.temperature == TemperatureUnit::degF;
  const bool gallons = units.volume == VolumeUnit::us_gallon;
  switch (quantity) {
    case Quantity::temperature:
    case Quantity::temperature_difference: return fahrenheit ? "°F" : "°C";
    case Quantity::volume: return gallons ? "gal" : "L";
    case Quantity::mass: return units.mass == MassUnit::pound ? "lb" : "kg";
    case Quantity::pressure: return units.pressure == PressureUnit::psi ? "psi" : "bar";
    case Quantity::power: return units.power == PowerUnit::kilowatt ? "kW" : "W";
    case Quantity::energy: return "kWh";
    case Quantity::flow: return gallons ? "gal/min" : "L/min";
    case Quantity::viscosity: return "mPa·s";
    case Quantity::rotation: return "rpm";
    case Quantity::torque: return "N·m";
    case Quantity::current: return "A";
    case Quantity::voltage: return "V";
    case Quantity::resistance: return "Ω";
    case Quantity::share: return "%";
    case Quantity::duration: return "";
    case Quantity::length: return "mm";
    case Quantity::density: return "kg/m³";
  }
  return "";
}

std::string Shown::text() const { return unit.empty() ? number : number + narrow_gap + unit; }

Shown show(Quantity quantity, double si_value, const UnitChoice& units, int decimals) {
  if (quantity == Quantity::duration) return {std::isfinite(si_value) ? show_duration(si_value) : "–", ""};
  const int digits = decimals < 0 ? usual_decimals(quantity, units) : decimals;
  const double value = to_shown(quantity, si_value, units);
  if (!std::isfinite(value)) return {"–", unit_label(quantity, units)};
  std::string number = plain_number(value, digits);
  if (!number.empty() && number[0] == '-') number = "−" + number.substr(1);
  return {number, unit_label(quantity, units)};
}

std::string show_text(Quantity quantity, double si_value, const UnitChoice& units, int decimals) {
  return show(quantity, si_value, units, decimals).text();
}

std::string show_duration(double seconds) {
  if (!std::isfinite(seconds)) return "–";
  const bool negative = seconds < 0.0;
  // A hair of floating-point dust below a whole second must not show the second before.
  const auto whole = static_cast<long long>(std::floor(std::min(std::abs(seconds), 1e12) + 1e-6));
  const auto two = [](long long n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  const long long hours = whole / 3600;
  const long long minutes = whole / 60 % 60;
  const std::string minus = negative && whole > 0 ? "−" : "";
  if (hours > 0) return minus + std::to_string(hours) + ":" + two(minutes) + ":" + two(whole % 60);
  return minus + std::to_string(minutes) + ":" + two(whole % 60);
}

std::string show_minutes(double seconds) {
  if (!std::isfinite(seconds)) return "–";
  const long long minutes = std::max(1LL, std::llround(std::max(seconds, 0.0) / s_per_minute));
  return tr("about {n} min", {{"n", std::to_string(minutes)}});
}

std::string plain_number(double value, int decimals) {
  std::array<char, 512> buffer{};
  const auto done = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                  std::chars_format::fixed, std::max(decimals, 0));
  if (done.ec != std::errc{}) return "–";
  std::string text(buffer.data(), done.ptr);
  if (text[0] == '-' && text.find_first_of("123456789") == std::string::npos) text.erase(0, 1);
  return text;
}

bool read_number(const std::string& text, double& value) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (text.compare(i, 3, "−") == 0) {
      plain += '-';
      i += 2;
    } else if (text.compare(i, 3, narrow_gap) == 0) {
      i += 2;
    } else if (c == ',') {
      plain += '.';
    } else if (c != ' ') {
      plain += c;
    }
  }
  if (!plain.empty() && plain[0] == '+') plain.erase(0, 1);
  double read = 0.0;
  const auto done = std::from_chars(plain.data(), plain.data() + plain.size(), read);
  if (plain.empty() || done.ec != std::errc{} || done.ptr != plain.data() + plain.size() ||
      !std::isfinite(read))
    return false;
  value = read;
  return true;
}

}  // namespace stirbench::desk::kit
