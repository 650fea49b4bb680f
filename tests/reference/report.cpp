#include "tests/reference/report.h"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>
#include <map>
#include <set>

#include "tests/reference/known_differences.h"

namespace stirbench::tests {
namespace {

std::vector<ReferenceRow>& recorded() {
  static std::vector<ReferenceRow> rows;
  return rows;
}

double allowed_of(const ReferenceRow& row) {
  return row.tolerance.size() * (row.tolerance.is_relative ? std::abs(row.reference) : 1.0);
}

bool has_many_digits(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3g", value);
  return std::abs(std::strtod(text, nullptr) - value) > 1e-9 * std::abs(value);
}

std::string flaw_of(const ReferenceRow& row) {
  if (row.source.worth == Worth::unclassified) return "no class";
  if (row.source.text.empty()) return "no source";
  if (row.source.worth == Worth::look_up) return "";
  if (row.source.reason.empty()) return "no reason for its uncertainty";
  if (!(row.tolerance.uncertainty > 0.0)) return "no uncertainty";
  if (!(row.tolerance.k > 0.0)) return "no k";
  if (row.tolerance.k > most_k && row.tolerance.beyond.empty()) return "k above 3 without a reason";
  return "";
}

}  // namespace

std::string objection(const ReferenceRow& row, const KnownDifference* known) {
  const bool inside = std::abs(row.ours - row.reference) <= allowed_of(row);
  if (known == nullptr) return inside ? "" : "off by more than k times the uncertainty";
  if (inside) return "differs no longer: take it out of known_differences.cpp";
  const bool same = std::abs(row.ours / row.reference - known->ratio) <= ratio_step(*known);
  return same ? "" : "differs by another ratio than known_differences.cpp says";
}

void reference_check(const std::string& part, const std::string& what, double ours, double reference,
                     const Tolerance& tolerance, const Source& source, std::source_location where) {
  const KnownDifference* known = find_known_difference(part, what);
  const ReferenceRow row{part, what, ours, reference, tolerance, source, known != nullptr};
  const std::string against = objection(row, known);
  CHECK_MESSAGE(against.empty(), where.file_name(), ":", where.line(), ": ", part, ": ", what, ": ", ours,
                " against ", reference, ", allowed ", allowed_of(row), ", ratio ", ours / reference, ": ",
                against);
  recorded().push_back(row);
}

void look_up(const std::string& part, const std::string& what, double ours, double reference,
             const std::string& source, std::source_location where) {
  INFO(std::string(where.file_name()), ":", where.line(), ": ", what, ": ", ours, " against ", reference);
  CHECK(std::abs(ours - reference) <= 1e-6 * std::abs(reference));
  recorded().push_back({part, what, ours, reference, relative(0.0), Source(source, Worth::look_up, "")});
}

void direction_check(const std::string& part, const std::string& what, int ours, int reference,
                     const Source& source, std::source_location where) {
  reference_check(part, what + " (direction)", ours, reference, absolute(0.5), source, where);
}

const std::vector<ReferenceRow>& reference_rows() { return recorded(); }

std::vector<std::string> flaws(const std::vector<ReferenceRow>& rows) {
  std::vector<std::string> found;
  std::set<std::string> names;
  std::map<std::pair<double, double>, std::string> pairs;
  for (const ReferenceRow& row : rows) {
    const std::string name = row.part + ": " + row.what;
    if (const std::string flaw = flaw_of(row); !flaw.empty()) found.push_back(name + ": " + flaw);
    if (!names.insert(name).second) found.push_back(name + ": twice");
    // The same two numbers in two parts are one check, recorded twice; numbers of few digits may meet by
    // chance.
    if (row.source.worth == Worth::look_up || !has_many_digits(row.ours)) continue;
    const auto [place, is_new] = pairs.try_emplace({row.ours, row.reference}, row.part);
    if (!is_new && place->second != row.part) found.push_back(name + ": also in " + place->second);
  }
  for (const KnownDifference& known : known_differences()) {
    if (!names.contains(known.row))
      found.push_back(std::string(known.row) + ": known difference without a row");
    if (std::string(known.why).empty()) found.push_back(std::string(known.row) + ": no explanation");
  }
  return found;
}

}  // namespace stirbench::tests
