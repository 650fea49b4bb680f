#pragma once

#include <cstdio>
#include <source_location>
#include <string>
#include <vector>

// Every value of ours that has a counterpart outside the project is checked and recorded by the same call, so
// that REPORT.md can say nothing that was not checked, and a check cannot be left out of it.
namespace stirbench::tests {

// |ours - reference| <= size, or <= size x |reference|.
struct Tolerance {
  double size = 0.0;
  bool is_relative = true;
};
inline Tolerance relative(double size) { return {size, true}; }
inline Tolerance absolute(double size) { return {size, false}; }

struct ReferenceRow {
  std::string part, what;
  double ours = 0.0;
  double reference = 0.0;
  Tolerance tolerance;
  std::string source;
};

// Fails the running test case (with the caller's line) when `ours` is too far off or not a number.
void reference_check(const std::string& part, const std::string& what, double ours, double reference,
                     Tolerance tolerance, const std::string& source,
                     std::source_location where = std::source_location::current());

// "what at 20, 40": the arguments for which a table row was computed.
inline std::string brief_number(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.6g", value);
  return text;
}
inline std::string brief_number(const char* value) { return value; }
template <typename... Values>
std::string at(const std::string& what, const Values&... values) {
  std::string text = what;
  const char* joint = " at ";
  ((text += joint + brief_number(values), joint = ", "), ...);
  return text;
}

// What this run of the program has recorded until now, in order.
const std::vector<ReferenceRow>& reference_rows();

// The rows as Markdown, values rounded so that the last bits of a library function do not show.
std::string reference_report(const std::vector<ReferenceRow>& rows);

}  // namespace stirbench::tests
