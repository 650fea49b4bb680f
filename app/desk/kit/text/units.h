#pragma once

#include <cstdint>
#include <string>

// Display of quantities. SI inside (temperature in degC), the person's units outside. Conversions are exact
// definitions (NIST SP 811, 2008, appendix B); they are used only here, at the edge.
namespace stirbench::desk::kit {

enum class TemperatureUnit : std::uint8_t { degC, degF };
enum class VolumeUnit : std::uint8_t { litre, us_gallon };
enum class MassUnit : std::uint8_t { kilogram, pound };
enum class PressureUnit : std::uint8_t { bar, psi };
enum class PowerUnit : std::uint8_t { kilowatt, watt };

struct UnitChoice {
  TemperatureUnit temperature = TemperatureUnit::degC;
  VolumeUnit volume = VolumeUnit::litre;
  MassUnit mass = MassUnit::kilogram;
  PressureUnit pressure = PressureUnit::bar;
  PowerUnit power = PowerUnit::kilowatt;
  bool operator==(const UnitChoice&) const = default;
};

enum class Quantity : std::uint8_t {
  temperature,             // degC            -> °C or °F
  temperature_difference,  // K               -> °C or °F (no offset)
  volume,                  // m3              -> L or gal
  mass,                    // kg              -> kg or lb
  pressure,                // Pa (gauge)      -> bar or psi
  power,                   // W               -> kW or W
  energy,                  // J               -> kWh
  flow,                    // m3/s            -> L/min or gal/min
  viscosity,               // Pa s            -> mPa·s
  rotation,                // 1/min           -> rpm
  torque,                  // N m             -> N·m
  current,                 // A
  voltage,                 // V
  resistance,              // Ohm
  share,                   // 0..1            -> %
  duration,                // s               -> m:ss or h:mm:ss (number only, unit empty)
  length,                  // m               -> mm
  density                  // kg/m3           -> kg/m³
};

struct Shown {
  std::string number;        // "85.0"; "–" when the value is not finite
  std::string unit;          // "°C"; may be empty (durations)
  std::string text() const;  // number, narrow gap, unit
};

// The usual number of decimals for a quantity in these units: no more digits than are of use.
int usual_decimals(Quantity quantity, const UnitChoice& units);

// decimals < 0: the usual number. Independent of the locale; minus is U+2212; never "-0".
Shown show(Quantity quantity, double si_value, const UnitChoice& units, int decimals = -1);
std::string show_text(Quantity quantity, double si_value, const UnitChoice& units, int decimals = -1);
std::string unit_label(Quantity quantity, const UnitChoice& units);

// Conversion of the bare number, for fields that people type into.
double to_shown(Quantity quantity, double si_value, const UnitChoice& units);
double from_shown(Quantity quantity, double shown_value, const UnitChoice& units);

// "0:18", "12:05", "1:02:05"; negative values keep a minus sign. Rounds down to whole seconds.
std::string show_duration(double seconds);
// "about 8 min", for expectations.
std::string show_minutes(double seconds);

// A number with point and fixed decimals whatever the locale, no "-0".
std::string plain_number(double value, int decimals);
// Reads what a person typed: point or comma, spaces allowed, minus as '-' or U+2212. False when it is not one
// finite number.
bool read_number(const std::string& text, double& value);

// What stands between number and unit: U+2009 where the fonts have it (they are given one when the atlas is
// built).
inline constexpr const char* narrow_gap = "\u2009";

}  // namespace stirbench::desk::kit
