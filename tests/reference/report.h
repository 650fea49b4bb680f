#pragma once

#include <cstdio>
#include <source_location>
#include <string>
#include <vector>

// Every value of ours that has a counterpart outside the project is checked and recorded by the same call, so
// that REPORT.md can say nothing that was not checked, and a check cannot be left out of it.
//
//   const Source found = measured("Larson & Rolleri 1955", "spread of repeated milks, estimated: 4 points");
//   reference_check(part, at("native protein left, %", t), ours, published, 2 * absolute(4.0), found);
//
// The tolerance is k times the source's uncertainty: 2 * absolute(4.0) is k = 2 at an uncertainty of 4. k
// above 3 needs a reason beside it (beyond). Where physics and source differ by more, the row is listed in
// known_differences.cpp and never widened.
namespace stirbench::tests {

// What a row is worth.
enum class Worth : unsigned char {
  unclassified,    // fails: every row says what it is
  measured,        // somebody's measurement, or a handbook's value that rests on measurements
  worked_example,  // a published equation or method against its own published example, table or test vector
  own_arithmetic,  // our algebra, worked out a second way: guards the code, says nothing about the world
  look_up          // a number that the program merely holds: listed, not counted
};

// Whether a constant of the code was chosen on the values.
enum class Use : unsigned char { independent, fitted_on, held_out };

// k x uncertainty; relative to the reference where `is_relative`.
struct Tolerance {
  double uncertainty = 0.0;
  bool is_relative = true;
  double k = 1.0;
  std::string beyond;  // why k is above 3
  double size() const { return k * uncertainty; }
};
inline Tolerance relative(double uncertainty) { return {uncertainty, true, 1.0, ""}; }
inline Tolerance absolute(double uncertainty) { return {uncertainty, false, 1.0, ""}; }
inline Tolerance operator*(double k, Tolerance t) {
  t.k *= k;
  return t;
}
inline Tolerance beyond(Tolerance t, std::string reason) {
  t.beyond = std::move(reason);
  return t;
}
inline constexpr double most_k = 3.0;

// Where the references of a group of rows come from, and where their uncertainty.
struct Source {
  std::string text;
  Worth worth = Worth::unclassified;
  std::string reason;  // the uncertainty's: as the source states it, or how it was estimated
  Use use = Use::independent;
  bool whole_machine = false;  // the row is about the whole machine, and stands in the head's table too

  Source(const char* unclassified) : text(unclassified) {}  // compiles, and fails with the row's name
  Source(std::string source, Worth what, std::string why)
      : text(std::move(source)), worth(what), reason(std::move(why)) {}
  Source fitted_on() const { return with(Use::fitted_on); }
  Source held_out() const { return with(Use::held_out); }
  Source of_whole_machine() const {
    Source s = *this;
    s.whole_machine = true;
    return s;
  }

 private:
  Source with(Use as) const {
    Source s = *this;
    s.use = as;
    return s;
  }
};
inline Source measured(std::string source, std::string uncertainty) {
  return {std::move(source), Worth::measured, std::move(uncertainty)};
}
inline Source worked_example(std::string source, std::string uncertainty) {
  return {std::move(source), Worth::worked_example, std::move(uncertainty)};
}
inline Source own_arithmetic(std::string source, std::string uncertainty) {
  return {std::move(source), Worth::own_arithmetic, std::move(uncertainty)};
}

struct ReferenceRow {
  std::string part, what;
  double ours = 0.0;
  double reference = 0.0;
  Tolerance tolerance;
  Source source{""};
  bool differs = false;  // known_differences.cpp
};

// Fails the running test case (with the caller's line) when `ours` is too far off or not a number. A row that
// known_differences.cpp names has to be too far off, and by the ratio given there.
void reference_check(const std::string& part, const std::string& what, double ours, double reference,
                     const Tolerance& tolerance, const Source& source,
                     std::source_location where = std::source_location::current());

// What is wrong with a row as a check; empty: nothing. `known`: its entry in known_differences.cpp, if any.
struct KnownDifference;
std::string objection(const ReferenceRow& row, const KnownDifference* known);

// A number that the program holds against the test's own transcription of the source; the caller checks what
// the program does at and beside it.
void look_up(const std::string& part, const std::string& what, double ours, double reference,
             const std::string& source, std::source_location where = std::source_location::current());

// A direction (+1 up, 0, -1 down) against a published one.
void direction_check(const std::string& part, const std::string& what, int ours, int reference,
                     const Source& source, std::source_location where = std::source_location::current());

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

// What is wrong with the rows as evidence: no class, source, uncertainty or reason; k above 3 without a
// reason; the same thing twice; a known difference that no row has. One a line.
std::vector<std::string> flaws(const std::vector<ReferenceRow>& rows);

}  // namespace stirbench::tests
