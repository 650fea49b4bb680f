#pragma once

#include <charconv>
#include <string>

namespace stirbench::machine {

// A number with a fixed count of decimals and its unit, whatever the locale: "71 °C".
inline std::string with_unit(double value, int decimals, const char* unit) {
  char buffer[64];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, decimals);
  return (end.ec == std::errc() ? std::string(buffer, end.ptr) : std::string("?")) + " " + unit;
}

// Without unit and without trailing zeros: "60", "0.001".
inline std::string plain_number(double value) {
  std::string text = std::to_string(value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

}  // namespace stirbench::machine
