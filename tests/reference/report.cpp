#include "tests/reference/report.h"

#include <doctest/doctest.h>

#include <cmath>

namespace stirbench::tests {
namespace {

std::vector<ReferenceRow>& recorded() {
  static std::vector<ReferenceRow> rows;
  return rows;
}

std::string formatted(const char* format, double value) {
  char text[48];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

// Without the sign of a zero that rounding made.
std::string difference_of(const ReferenceRow& row) {
  const double off = row.ours - row.reference;
  const double shown = !row.tolerance.is_relative || off == 0.0 ? off : 100.0 * off / row.reference;
  std::string text = formatted(row.tolerance.is_relative ? "%+.3f" : "%+.4f", shown);
  if (text.find_first_not_of("+-0.") == std::string::npos) text.erase(0, 1);
  return row.tolerance.is_relative ? text + " %" : text;
}

std::string tolerance_of(const Tolerance& tolerance) {
  return tolerance.is_relative ? formatted("%.4g %%", 100.0 * tolerance.size)
                               : formatted("%.4g", tolerance.size);
}

}  // namespace

void reference_check(const std::string& part, const std::string& what, double ours, double reference,
                     Tolerance tolerance, const std::string& source, std::source_location where) {
  const double allowed = tolerance.is_relative ? tolerance.size * std::abs(reference) : tolerance.size;
  INFO(std::string(where.file_name()), ":", where.line(), ": ", what, ": ", ours, " against ", reference,
       ", allowed ", allowed);
  CHECK(std::abs(ours - reference) <= allowed);
  recorded().push_back({part, what, ours, reference, tolerance, source});
}

const std::vector<ReferenceRow>& reference_rows() { return recorded(); }

std::string reference_report(const std::vector<ReferenceRow>& rows) {
  std::string text =
      "# Our models against values from outside\n\n"
      "Written by `test_reference`, which fails when this file and its own values disagree. To write it "
      "anew: run all of\n"
      "`test_reference` with the environment variable `STIRBENCH_WRITE_REPORT=1`. Names are those of the "
      "functions\n"
      "checked, with their units; differences in per cent where the tolerance is.\n\n" +
      std::to_string(rows.size()) + " values.\n";
  std::string part, source;
  for (const ReferenceRow& row : rows) {
    if (row.part != part) text += "\n## " + row.part + "\n";
    if (row.part != part || row.source != source) {
      text +=
          "\n" + row.source +
          "\n\n| value | ours | reference | difference | tolerance |\n| --- | ---: | ---: | ---: | ---: |\n";
    }
    part = row.part;
    source = row.source;
    text += "| " + row.what + " | " + formatted("%.5g", row.ours) + " | " + formatted("%.5g", row.reference) +
            " | " + difference_of(row) + " | " + tolerance_of(row.tolerance) + " |\n";
  }
  return text;
}

}  // namespace stirbench::tests
