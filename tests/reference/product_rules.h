#pragma once

#include <doctest/doctest.h>

#include <vector>

#include "app/library/library.h"
#include "app/library/reading/paths.h"
#include "sim_core/product/heat_rule_watch.h"

// The shipped rules, for checks of what content says.
namespace stirbench::tests {

inline const product::Rules& shipped_rules() {
  static const library::LoadResult loaded = library::load(STIRBENCH_SOURCE_DIR "/content", "");
  return loaded.library.rules;
}

template <typename Entry>
const Entry& by_id(const std::vector<Entry>& entries, const char* id) {
  for (const Entry& one : entries) {
    if (one.id == id) return one;
  }
  FAIL("the rules have no entry " << id);
  return entries.front();
}

// 40 kg at one temperature throughout, at this moment.
inline product::VatSample at_moment(double t_s, double t_degC) {
  product::VatSample s;
  s.t_s = t_s;
  s.well_degC = s.vat_degC = s.head_space_degC = t_degC;
  s.mass_kg = s.brought_kg = 40.0;
  return s;
}

}  // namespace stirbench::tests
