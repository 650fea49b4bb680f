#pragma once

#include <optional>
#include <string>
#include <string_view>

// Cells of a logger's file: what a column holds, times and numbers.
namespace stirbench::fitting {

enum class LogField { time, product, wall, element, condensing, ambient, power, heater, fill, event, none };
enum class LogUnit { none, second, minute, degC, degF, watt, kilowatt, litre };

// From a column's heading: its words say what it is, one of them or what stands in brackets its unit, as in
// "time_s", "Temperature (degC)", "Heater power [kW]".
struct Heading {
  LogField field = LogField::none;
  LogUnit unit = LogUnit::none;
  bool probe = false;  // says "probe": the better of two product temperatures
};
Heading heading_of(std::string_view text);

// Seconds: a number in the unit; h:mm:ss or h:mm, each with a fraction; or a date and time of day as in ISO
// 8601 (2026-11-30T08:15:30, a blank for the T, Z or an offset at the end). Nothing when it is none of them.
std::optional<double> time_of(std::string_view text, LogUnit unit);
// A point or, in a file whose cells are not parted by commas, a comma before the decimals.
std::optional<double> number_of(std::string_view text);
// In the program's own unit: degC, W, L.
double converted(double value, LogUnit unit);

std::string_view trimmed(std::string_view text);

}  // namespace stirbench::fitting
