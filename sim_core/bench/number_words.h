#pragma once

#include <charconv>
#include <string>

namespace stirbench::bench {

// A number with a fixed count of decimals and its unit, whatever the locale: "71 °C".
inline std::string with_unit(double value, int decimals, const char* unit) {
  char buffer[64];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, decimals);
  return (end.ec == std::errc() ? std::string(buffer, end.ptr) : std::string("?")) + " " + unit;
}

}  // namespace stirbench::bench
